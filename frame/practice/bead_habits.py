"""The habit behind many slips of the beads: what goes wrong again and again, and where alone.

What an answer cannot tell, beads do: a partner that is taken wrongly at 4 and 6 alone, carries lost
in long columns and not in sums of two numbers, a slip that comes on the tens always. Each slip is
set against the places where it could have been made. Whether a habit shows where something holds,
and hardly elsewhere, is weighed by Bayes' rule against its being no habit; the numbers are our own.
"""

from collections.abc import Iterable, Sequence
from math import exp, lgamma, log
from typing import NamedTuple

from frame.practice.suspects import NAMED
from frame.technique.calculation import Calculation, Sum
from frame.technique.conventions import Conventions
from frame.technique.faulty import Choosing, Site, answer_by
from frame.technique.habits import Habit

LEAST = 3
"""Fewer slips of a kind are no habit."""
LONG = 3
"""A column has so many numbers or more."""

_NO_HABIT, _EVERYWHERE = 0.5, 0.25
_SHOWS = (4.0, 1.5)
_STRAYS = (1.0, 20.0)
_SLIPS = (1.0, 8.0)
"""How often a habit shows where it holds, and elsewhere, and how often there are slips without one:
beta distributions."""


class Chance(NamedTuple):
    """A place where a habit could show in an exercise of so many numbers, and whether it did."""

    site: Site
    numbers: int
    is_slip: bool


class Where(NamedTuple):
    """Where a habit shows: at some digits alone, on a rod alone, in columns or in sums of two
    numbers alone; everywhere where it says nothing."""

    digits: frozenset[int] = frozenset()
    rod: int | None = None
    is_long: bool | None = None

    def has(self, one: Chance) -> bool:
        """Whether a place is one of those."""
        is_digit = not self.digits or one.site.digit in self.digits
        is_rod = self.rod is None or one.site.rod == self.rod
        return is_digit and is_rod and self.is_long in (None, one.numbers >= LONG)


EVERYWHERE = Where()


class BeadHabit(NamedTuple):
    """A habit, where it shows, how often it did of how many times that it could, and how likely it
    is to be one."""

    habit: Habit
    where: Where
    slips: int
    chances: int
    probability: float


def chances_of(
    calculation: Calculation, conventions: Conventions, slips: Iterable[tuple[str, int]]
) -> tuple[Chance, ...]:
    """The places of an exercise that was worked on beads where a habit could show; `slips` are the
    ids of those that were made, each with its rod."""
    choosing = Choosing(frozenset(Habit), usual=False)
    answer_by(calculation, conventions, choosing)
    numbers = len(calculation.terms) if isinstance(calculation, Sum) else 2
    made = _made(choosing.sites, slips)
    return tuple(Chance(site, numbers, at in made) for at, site in enumerate(choosing.sites))


def _made(sites: Sequence[Site], slips: Iterable[tuple[str, int]]) -> set[int]:
    """Which places slips were made at: the nearest of their kind, on their rod or beside it, since
    what was left out shows on the next bead."""
    made: set[int] = set()
    for slip, rod in slips:
        near = [
            (abs(site.rod - rod), at)
            for at, site in enumerate(sites)
            if site.habit == slip and abs(site.rod - rod) <= 1 and at not in made
        ]
        made |= {at for _, at in sorted(near)[:1]}
    return made


def bead_habits(chances: Iterable[Chance]) -> tuple[BeadHabit, ...]:
    """The habits that are likely enough to be told, the one with most slips first."""
    by_habit: dict[Habit, list[Chance]] = {}
    for one in chances:
        by_habit.setdefault(one.site.habit, []).append(one)
    found = [_told(habit, some) for habit, some in by_habit.items()]
    return tuple(sorted(filter(None, found), key=lambda one: one.slips, reverse=True))


def _told(habit: Habit, chances: Sequence[Chance]) -> BeadHabit | None:
    slips = [one for one in chances if one.is_slip]
    if len(slips) < LEAST:
        return None
    wheres = _wheres(slips)
    share = (1 - _NO_HABIT - _EVERYWHERE) / max(1, len(wheres))
    scores = {where: log(share) + _fits(where, chances) for where in wheres}
    scores[EVERYWHERE] = log(_EVERYWHERE) + _fits(EVERYWHERE, chances)
    without = log(_NO_HABIT) + _evidence(len(slips), len(chances), _SLIPS)
    top = max(*scores.values(), without)
    total = sum(exp(score - top) for score in (*scores.values(), without))
    is_habit = 1 - exp(without - top) / total
    if is_habit < NAMED:
        return None
    best = max(scores, key=lambda where: scores[where])
    where = best if exp(scores[best] - top) / total >= NAMED * is_habit else EVERYWHERE
    there = [one for one in chances if where.has(one)]
    return BeadHabit(habit, where, sum(one.is_slip for one in there), len(there), is_habit)


def _wheres(slips: Sequence[Chance]) -> tuple[Where, ...]:
    """Where alone these slips may be made."""
    digits = {one.site.digit for one in slips}
    some = {frozenset({digit}) for digit in digits} | {
        frozenset({digit, 10 - digit}) for digit in digits
    }
    return (
        *(Where(digits=one) for one in sorted(some, key=sorted)),
        *(Where(rod=rod) for rod in sorted({one.site.rod for one in slips})),
        *(Where(is_long=one) for one in (False, True)),
    )


def _fits(where: Where, chances: Sequence[Chance]) -> float:
    """The logarithm of how likely the slips are of a habit that shows there."""
    there = [one.is_slip for one in chances if where.has(one)]
    elsewhere = [one.is_slip for one in chances if not where.has(one)]
    shown = _evidence(sum(there), len(there), _SHOWS)
    return shown + _evidence(sum(elsewhere), len(elsewhere), _STRAYS)


def _evidence(slips: int, chances: int, prior: tuple[float, float]) -> float:
    """The logarithm of how likely so many slips are, of a rate that is spread as a beta
    distribution."""
    yes, no = prior
    return _beta(yes + slips, no + chances - slips) - _beta(yes, no)


def _beta(one: float, other: float) -> float:
    return lgamma(one) + lgamma(other) - lgamma(one + other)
