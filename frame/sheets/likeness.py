"""How near to one another two sheets are, in whole numbers."""

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.sheets.difficulty import difficulty, profile
from frame.technique.conventions import USUAL, Conventions

NEAR = 0.03
"""By so much of it the mean and the spread of two sheets that are equally hard may differ."""
_PARTS = 100
"""A stroke is divided into so many parts, for whole numbers."""


class Likeness(NamedTuple):
    """By which part of it mean and spread (standard deviation) of what tasks ask differ, how often
    a rule is needed more on one sheet than on the other, and how many tasks stand on both."""

    mean: float
    spread: float
    rules: int
    shared: int

    @property
    def is_equal(self) -> bool:
        """Whether the sheets are equally hard."""
        return not self.rules and max(self.mean, self.spread) <= NEAR


class Totals(NamedTuple):
    """How many tasks there are, how hard they are together, and the sum of the squares."""

    many: int
    hard: int
    squares: int

    def apart(self, other: "Totals") -> tuple[float, float]:
        """By which part of them the other's mean and spread differ from these."""
        return _part(self.hard, other.hard), _part(self._spread, other._spread)

    @property
    def _spread(self) -> float:
        return sqrt(self.many * self.squares - self.hard**2)


def _part(one: float, other: float) -> float:
    return abs(one - other) / max(one, 1)


def parts(task: Exercise, conventions: Conventions = USUAL) -> int:
    """How hard a task is, in hundredths of a stroke."""
    return round(_PARTS * difficulty(task, conventions))


def totals(hard: Sequence[int]) -> Totals:
    """What tasks come to that are so hard."""
    return Totals(len(hard), sum(hard), sum(one * one for one in hard))


def likeness(
    some: Sequence[Exercise], others: Sequence[Exercise], conventions: Conventions = USUAL
) -> Likeness:
    """How near the tasks of a sheet are to as many of another."""
    one, other = (totals([parts(task, conventions) for task in tasks]) for tasks in (some, others))
    counts = (_counts(tasks, conventions) for tasks in (some, others))
    rules = sum(abs(a - b) for a, b in zip(*counts, strict=True))
    shared = len({task.sum for task in some} & {task.sum for task in others})
    return Likeness(*one.apart(other), rules, shared)


def _counts(tasks: Sequence[Exercise], conventions: Conventions) -> tuple[int, ...]:
    """How often each rule is needed by all the tasks."""
    return tuple(map(sum, zip(*(profile(task, conventions).rules for task in tasks), strict=True)))
