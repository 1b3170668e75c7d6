"""What a tutor can give: a lesson that comes next, sets that may be wanted, papers of a grade."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from frame.language.lines import Line
from frame.learner.assigned import Work, set_text
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import Learner
from frame.learner.store import LessonState
from frame.practice.choices import Choices
from frame.practice.families import Family
from frame.practice.kept_choices import set_to
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.practice import kept_choices
from frame.screens.parts.given_work import work_line
from frame.sheets.code import code_of
from frame.sheets.recipe import Kind, Recipe


class SetToGive(NamedTuple):
    """A set and what it is called."""

    title: Line
    text: str


def sets_to_give(room: Room) -> tuple[SetToGive, ...]:
    """The sets that whoever is here keeps by name, what they practised last, then one of each
    family by the ladder, called and flashed numbers; each once."""
    found = dict[str, SetToGive]()
    for name, text in (*_kept(room), *_others(room)):
        line = work_line(Work.SET, text, room.course, room.words)
        if line is not None:
            found.setdefault(text, SetToGive(Line(name, line.speak) if name else line, text))
    return tuple(found.values())


def _kept(room: Room) -> Iterator[tuple[str, str]]:
    """The name and the text of each set that is kept."""
    learner, none = room.learner, tuple[KeptSet, ...]()
    if learner is not None:
        for one in room.keeper.read(lambda store: store.kept_sets(learner), none):
            yield one.name, set_text(one.asked)


def _others(room: Room) -> Iterator[tuple[str, str]]:
    last = room.choices or kept_choices(room)
    families = (Choices().choose(family=family) for family in Family)
    by_number = (Choices(asked) for asked in (Asked.CALLED, Asked.FLASHED))
    for choices in (*([last] if last else ()), *families, *by_number):
        yield "", set_text(set_to(choices))


def next_lesson(room: Room, learners: Sequence[Learner]) -> str:
    """The first lesson in the course that the first of some learners does not know."""
    lessons, none = room.course.lessons, dict[str, LessonState]()
    known = room.keeper.read(lambda store: store.lessons(learners[0]), none) if learners else none
    left = (one.id for one in lessons if one.id not in known or not known[one.id].is_known)
    return next(left, lessons[-1].id)


def paper_code(grade: str, seed: int) -> str:
    """The code of a grade's paper with these numbers."""
    return code_of(Recipe(kind=Kind.PAPER, grade=grade, seed=seed))
