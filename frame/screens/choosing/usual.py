"""What is usual for a learner to practise, and the sets that they keep by name."""

from dataclasses import replace

from frame.learner.kept_sets import KeptSet
from frame.practice.choices import Choices, families_known, suggested
from frame.practice.kept_choices import set_from
from frame.room import Room
from frame.screens.choosing.chosen import Chosen
from frame.screens.lesson.practice import kept_choices, known_facts, learned_facts


def usual(room: Room) -> Choices:
    """What was practised last, of which nothing is asked that is not known or may not be; else
    what the lessons done and the ladder suggest."""
    known, choices = known_facts(room), room.choices
    begin = suggested(learned_facts(room), room.ladder)
    choices = choices or kept_choices(room) or begin
    families = families_known(known)
    if families and choices.beads.family not in families:
        choices = replace(choices, beads=begin.beads)
    return _allowed(room, choices)


def _allowed(room: Room, choices: Choices) -> Choices:
    return Chosen(choices, room.ladder, room.settings.quick_flash).allowed()


def kept_sets(room: Room) -> tuple[KeptSet, ...]:
    """The sets of whoever is here."""
    learner, none = room.learner, tuple[KeptSet, ...]()
    if room.kept_sets is None and learner is not None:
        room.kept_sets = room.keeper.read(lambda store: store.kept_sets(learner), none)
    return room.kept_sets or ()


def keep_set(room: Room, one: KeptSet) -> None:
    """Keep a set, or what it is called now."""
    learner, now = room.learner, room.now()
    if learner is None:
        return
    room.kept_sets = tuple({**{each.id: each for each in kept_sets(room)}, one.id: one}.values())
    room.keeper.write(lambda store: store.keep_set(learner, one, now), f"set {one.id}")


def remove_set(room: Room, one: KeptSet) -> None:
    """A set goes."""
    now = room.now()
    room.kept_sets = tuple(each for each in kept_sets(room) if each.id != one.id)
    room.keeper.write(lambda store: store.remove_set(one, now), f"set {one.id}")


def choices_of(room: Room, one: KeptSet) -> Choices | None:
    """What a set asks for, in its way of asking; None where it can't be read."""
    asked = set_from(one.asked)
    return None if asked is None else _allowed(room, asked)
