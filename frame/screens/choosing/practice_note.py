"""What stands at the foot of the practice page: a caution, or where the learner is and why."""

from collections.abc import Set as AbstractSet
from dataclasses import replace

from frame.practice.ladder import RUNGS
from frame.practice.rungs import Asked
from frame.practice.why import why_line
from frame.room import Room
from frame.screens.choosing.chosen import Chosen
from frame.screens.parts.flashing import size_note
from frame.view.flash_safety import needs_caution


def note_of(room: Room, chosen: Chosen, known: AbstractSet[str], size: tuple[int, int]) -> str:
    """The note for what is chosen, in a window of that size."""
    text, asked = room.words.text, chosen.choices.asked
    if asked is Asked.FLASHED:
        return _caution(room, chosen, size)
    if asked is Asked.SHOWN and not known:
        return text("practise.first")
    own = _own_note(room, chosen)
    if asked is Asked.CALLED:
        return f"{own} {text('practise.call_note')}".strip()
    return own or _standing(room, chosen)


def _own_note(room: Room, chosen: Chosen) -> str:
    """What is told of a frame of one's own, of which nothing is seen; nothing without one."""
    if chosen.has_own_ladder:
        return room.words.text("practise.own_note")
    is_own = chosen.choices.asked is Asked.SHOWN and chosen.choices.beads.is_own
    return room.words.text("practise.own_answer") if is_own else ""


def _caution(room: Room, chosen: Chosen, size: tuple[int, int]) -> str:
    words = room.words
    more = "" if room.settings.quick_flash else words.text("flash.quicker")
    flashed = chosen.settled.flashed
    if flashed.setting and needs_caution(flashed.setting.interval):
        more = size_note(room, replace(flashed.setting, minus=flashed.minus), size)
    return f"{words.text('flash.caution')} {more}".strip()


def _standing(room: Room, chosen: Chosen) -> str:
    """The rung that comes next, a higher one that was reached before, and why the ladder moved or
    did not, which may name the rung."""
    words, ladder = room.words, chosen.ladder
    conventions, choices = room.settings.conventions, chosen.choices
    rung, rods = choices.standing(ladder, conventions)
    why = choices.why(ladder, conventions)
    key = "practise.rods" if why is not None and why.names_rung else "practise.standing"
    notes = [words.text(key, rung=words.text(f"rung.{rung.name}"), rods=rods)]
    told = ladder.climb(choices.beads.family, rods).reached
    if told is not None and RUNGS.index(told) > RUNGS.index(rung):
        notes.append(words.text("practise.reached", rung=words.text(f"rung.{told.name}")))
    if why is not None and (line := why_line(why, words)) is not None:
        notes.append(line.show)
    return " ".join(notes)
