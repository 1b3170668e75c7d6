"""What a sheet can be for: what whoever is here needs, or what its kind has."""

from frame.course.course import LessonEntry
from frame.practice.families import Family
from frame.practice.items import ITEMS
from frame.room import Room
from frame.screens.lesson.practice import known_facts
from frame.sheets.choices import SheetChoices, Topic
from frame.sheets.recipe import Kind
from frame.sheets.topics import facts_of, facts_of_items, fitting, kind_for
from frame.technique.facts import ALL_FACTS

Topics = dict[Topic | Family, tuple[str, ...]]


def topics_of(room: Room, kind: Kind) -> Topics:
    """What a sheet of a kind can be for, each with the facts that it then asks for. What is due is
    left out as long as it is not counted."""
    found: Topics = {Topic.ALL: ()}
    if room.learner is not None:
        found[Topic.DUE] = fitting(kind, _due(room))
        found[Topic.LESSON] = fitting(kind, _taught(room))
    known = frozenset(ALL_FACTS) if room.learner is None else known_facts(room)
    for family in Family:
        found[family] = fitting(kind, filter(known.__contains__, facts_of(family)))
    return {topic: facts for topic, facts in found.items() if facts or topic is Topic.ALL}


def _due(room: Room) -> tuple[str, ...]:
    if not room.known.is_counted:
        return ()
    mastery, at = room.mastery, room.now().timestamp()
    return facts_of_items(item for item in ITEMS if mastery.is_due(item, at))


def last_lesson(room: Room) -> LessonEntry | None:
    """The last lesson with anything new that whoever is here did or knows; None where there is
    none."""
    known = {id for id, state in room.lessons.items() if state.is_known}
    taught = [one for one in room.course.lessons if one.id in known and one.new]
    return taught[-1] if taught and room.learner else None


def _taught(room: Room) -> tuple[str, ...]:
    entry = last_lesson(room)
    return tuple(fact for fact in ALL_FACTS if entry and fact in entry.new)


def first_choices(room: Room) -> SheetChoices:
    """What is offered where nothing was chosen yet: a sheet for the last lesson of whoever is
    here."""
    facts = _taught(room)
    kind = kind_for(facts)
    is_for_lesson = bool(fitting(kind, facts))
    return SheetChoices(kind=kind, topic=Topic.LESSON if is_for_lesson else Topic.ALL)
