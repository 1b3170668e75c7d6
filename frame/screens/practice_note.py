"""What stands at the foot of the practice page: a caution, or where the learner is."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from frame.practice.choices import Choices
from frame.practice.climb import reached
from frame.practice.ladder import Try, tracks
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.flashing import size_note
from frame.view.flash_safety import needs_caution


def note_of(
    room: Room,
    choices: Choices,
    tries: Sequence[Try],
    known: AbstractSet[str],
    size: tuple[int, int],
) -> str:
    """The note for what is chosen, in a window of that size."""
    match choices.asked:
        case Asked.FLASHED:
            return _caution(room, choices, tries, size)
        case Asked.CALLED:
            return room.words.text("practise.call_note")
    return _standing(room, choices, tries) if known else room.words.text("practise.first")


def _caution(room: Room, choices: Choices, tries: Sequence[Try], size: tuple[int, int]) -> str:
    words = room.words
    more = "" if room.settings.quick_flash else words.text("flash.quicker")
    flashed = choices.settled(tries, room.settings.ladder_rules).flashed
    if flashed.setting and needs_caution(flashed.setting.interval):
        more = size_note(room, replace(flashed.setting, minus=flashed.minus), size)
    return f"{words.text('flash.caution')} {more}".strip()


def _standing(room: Room, choices: Choices, tries: Sequence[Try]) -> str:
    """The rung that comes next and, once something was tried, the one that may be told as
    reached."""
    words, rules = room.words, room.settings.ladder_rules
    rung, rods = choices.standing(tries, rules, room.settings.conventions)
    following = words.text("practise.standing", rung=words.text(f"rung.{rung.name}"), rods=rods)
    track = tracks(tries).get((choices.beads.family, rods), ())
    if (rung_reached := reached(track, rules)) is None:
        return following
    name = words.text(f"rung.{rung_reached.name}")
    return f"{following} {words.text('practise.reached', rung=name)}"
