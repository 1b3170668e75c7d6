"""Who needs a grown-up now: a class at a glance, for whoever teaches it.

A child's need is the sum of four parts, each from 0 to 1, and no measure of the child:

- FAULT: how likely it has a fault, one at least; it counts double: who practises may not see it;
- AWAY: how much it lacks of ENOUGH minutes in the week, where ON_PAPER answers on sheets and
  papers, which nobody timed, are as good as all of them;
- DUE: how much is due, against MUCH;
- UNSURE: how much was not right at once, of FEW exercises more than were done, so that a bad day of
  four exercises says little.

Right answers are one part of it by five in weight, and no child is set against another: the same
child has the same need in any class. The numbers are a judgement, no source.
"""

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum
from math import prod
from typing import NamedTuple

from frame.practice.families import Family
from frame.practice.grouping import LIKELY
from frame.practice.tally import Tally
from frame.technique.habits import Habit

ENOUGH = 15.0
"""Minutes of a week."""
ON_PAPER = 30
"""Answers on sheets and papers: half a minute each."""
MUCH = 30
"""Items: two tasks of five minutes."""
FEW = 10
_TELLS = 0.5
"""A part that comes to as much is a reason."""
_COMMONEST = 3


class Reason(StrEnum):
    """Why a child needs somebody, what weighs most first."""

    FAULT = "fault"
    AWAY = "away"
    DUE = "due"
    UNSURE = "unsure"


_WEIGHTS = {Reason.FAULT: 2.0, Reason.AWAY: 1.0, Reason.DUE: 1.0, Reason.UNSURE: 1.0}


class Week(NamedTuple):
    """What a child did in a week: minutes, how many exercises were right at once of how many, on
    how many days there were minutes, and how many of the exercises stood on sheets and papers."""

    minutes: float = 0.0
    exercises: Tally = Tally()
    days: int = 0
    on_paper: int = 0


class Pupil(NamedTuple):
    """A child by its id and its name: how many items of each family are due, the faults that it may
    have, each with its probability, and its week."""

    id: str
    name: str
    due: Mapping[Family, int] = {}
    faults: Mapping[Habit, float] = {}
    week: Week = Week()

    @property
    def likely(self) -> tuple[Habit, ...]:
        """The faults that are likely, the likeliest first."""
        found = [habit for habit in Habit if self.faults.get(habit, 0.0) >= LIKELY]
        return tuple(sorted(found, key=self.faults.__getitem__, reverse=True))


class Needing(NamedTuple):
    """A child with its reasons, the weightiest first; none where it gets on by itself."""

    pupil: Pupil
    reasons: tuple[Reason, ...]


class Common(NamedTuple):
    """A fault, and who is likely to have it, in order of names."""

    habit: Habit
    pupils: tuple[Pupil, ...]


class Needs(NamedTuple):
    """A class: its children, who needs somebody most first and those alike by name; its commonest
    faults, at most three; and for how many children something is due of each family, in the order
    of the course, those without any left out."""

    children: tuple[Needing, ...]
    faults: tuple[Common, ...]
    due: Mapping[Family, int]


def needs_of(pupils: Iterable[Pupil]) -> Needs:
    """What a class needs."""
    by_name = sorted(pupils, key=lambda one: (one.name.casefold(), one.name, one.id))
    by_need = sorted(by_name, key=lambda one: round(need_of(one), 6), reverse=True)
    due = {
        family: sum(one.due.get(family, 0) > 0 for one in by_name)
        for family in Family
        if any(one.due.get(family, 0) > 0 for one in by_name)
    }
    children = tuple(Needing(one, _reasons(one)) for one in by_need)
    return Needs(children, _commonest(by_name), due)


def need_of(pupil: Pupil) -> float:
    """How much a child needs somebody now."""
    return sum(_WEIGHTS[reason] * part for reason, part in _parts(pupil).items())


def _parts(pupil: Pupil) -> dict[Reason, float]:
    minutes, (right, of), _, on_paper = pupil.week
    return {
        Reason.FAULT: 1 - prod(1 - pupil.faults[habit] for habit in pupil.likely),
        Reason.AWAY: max(0.0, 1 - minutes / ENOUGH - on_paper / ON_PAPER),
        Reason.DUE: min(1.0, sum(pupil.due.values()) / MUCH),
        Reason.UNSURE: (of - right) / (of + FEW),
    }


def _reasons(pupil: Pupil) -> tuple[Reason, ...]:
    parts = _parts(pupil)
    told = [reason for reason in Reason if parts[reason] >= _TELLS or _is_unsure(reason, pupil)]
    return tuple(sorted(told, key=lambda one: _WEIGHTS[one] * parts[one], reverse=True))


def _is_unsure(reason: Reason, pupil: Pupil) -> bool:
    """Whether it is told that much was not right: of FEW exercises or more half of them were not,
    though that weighs little yet."""
    right, of = pupil.week.exercises
    return reason is Reason.UNSURE and of >= FEW and of - right >= _TELLS * of


def _commonest(pupils: Sequence[Pupil]) -> tuple[Common, ...]:
    """The faults that most have, those alike in the order of the catalogue."""
    found = [Common(habit, tuple(one for one in pupils if habit in one.likely)) for habit in Habit]
    shared = [one for one in found if one.pupils]
    return tuple(sorted(shared, key=lambda one: len(one.pupils), reverse=True)[:_COMMONEST])
