"""Figures of what has grown, each with the count that it rests on. Frozen values, made anew from
what is folded whenever somebody looks.

Nobody is compared with anybody: the only other number beside one's own is one's own best.
"""

from collections.abc import Callable, Collection
from enum import StrEnum
from statistics import median
from typing import NamedTuple

from frame.practice.families import Family, family_of
from frame.practice.growth import Growth, Numbers, Step, week_of
from frame.practice.items import CELLS, ITEMS, PROCEDURES, PRODUCTS
from frame.practice.mastery import Mastery, State
from frame.practice.rungs import Asked, Rung
from frame.practice.tally import Tally

FEWEST = 5
"""From fewer tries nothing is told of an item but how many they were, and from fewer decisions
nothing of how long they take."""
HELD = 10
"""So many columns of one size are worth a point in a week, if nine of ten were right."""
_NINE_OF_TEN = 0.9

FAMILY_OF = {
    **{str(cell): family_of([cell.fact]) for cell in CELLS},
    **dict.fromkeys(map(str, PRODUCTS), Family.MULTIPLY),
    **{fact: family_of([fact]) for fact in PROCEDURES},
}
"""The family of each item."""
SUMS = frozenset((*map(str, CELLS), *map(str, PRODUCTS)))
"""The items that are sums of two digits, or products."""


class FamilyKnown(NamedTuple):
    """How many items of a family are known and how many of them were taught, of `all`."""

    family: Family
    known: int
    taught: int
    all: int

    @property
    def share(self) -> float:
        """How much of it is known, from 0 to 1."""
        return self.known / self.all


def known_by_family(mastery: Mastery, taught: Collection[str]) -> tuple[FamilyKnown, ...]:
    """What is known of every family, where these items were taught."""
    found = []
    for family in Family:
        items = [item for item in ITEMS if FAMILY_OF[item] is family]
        known = sum(mastery.standing(item).state.is_known for item in items)
        found.append(FamilyKnown(family, known, sum(map(taught.__contains__, items)), len(items)))
    return tuple(found)


def newest(growth: Growth, mastery: Mastery) -> str | None:
    """Of all that is known the item that first came to be known last; of several in one exercise a
    sum before anything else, and of those the last in the order of all."""

    def order(item: str) -> tuple[float, bool]:
        return growth.first_known[item], item in SUMS

    known = (item for item in reversed(ITEMS) if mastery.standing(item).state.is_known)
    return max(known, key=order, default=None)


class Level(StrEnum):
    """How well an item is known, as a map shows it, the least first."""

    FEW = "few"
    """Too few tries to tell."""
    LEARNING = "learning"
    KNOWN = "known"
    AT_ONCE = "at-once"
    """Known without thinking long."""
    KEPT = "kept"
    """Still known after a while."""


_LEVELS = {
    State.NEW: Level.LEARNING,
    State.GUIDED: Level.LEARNING,
    State.ACCURATE: Level.KNOWN,
    State.FLUENT: Level.AT_ONCE,
    State.KEPT: Level.KEPT,
}


class ItemFigure(NamedTuple):
    """How often an item was tried without help and how often it was right; how well it is known;
    and the median seconds of the last `decided` decisions that are known, None where those are too
    few."""

    item: str
    tries: int
    right: int
    state: State
    decision: float | None
    decided: int

    @property
    def level(self) -> Level:
        """How well it is known, where it was tried often enough to tell."""
        return _LEVELS[self.state] if self.tries >= FEWEST else Level.FEW


def figure_of(mastery: Mastery, item: str) -> ItemFigure:
    """The figure of an item."""
    one = mastery.standing(item)
    decision = median(one.decisions) if len(one.decisions) >= FEWEST else None
    return ItemFigure(item, one.tries, one.right, one.state, decision, len(one.decisions))


class Point(NamedTuple):
    """A week of a curve: how high it is, the tries that it rests on, and what they were: where the
    ladder stood at its end, or how numbers came."""

    week: int
    height: float
    tally: Tally
    of: Step | Numbers


class Curve(NamedTuple):
    """Points in the order of their weeks; a week in which nothing was tried has none. `best` is the
    highest, the first of those that are as high."""

    points: tuple[Point, ...]

    @property
    def best(self) -> Point | None:
        """The highest point; None where there is none."""
        return max(self.points, key=lambda one: one.height, default=None)


_RUNGS = tuple(Rung)
_ABOVE_ALONE = len(_RUNGS) - 1 - _RUNGS.index(Rung.ALONE)


def height_of(rods: int, rung: Rung) -> int:
    """How high a place on the ladder is: with a rod more, `alone` is above `number only` before.

    >>> height_of(1, Rung.ALONE), height_of(1, Rung.NUMBER), height_of(2, Rung.ALONE)
    (5, 9, 10)
    """
    return (_ABOVE_ALONE + 1) * rods + _RUNGS.index(rung) - _RUNGS.index(Rung.ALONE)


def ladder_curve(growth: Growth, family: Family) -> Curve:
    """Where the ladder stood with a family at the end of each week in which it was tried."""
    steps = [step for step in growth.steps if step.family is family]
    tallies = {week: tally for (one, week), tally in growth.of_family.items() if one is family}
    points = []
    for week, tally in sorted(tallies.items()):
        step = [one for one in steps if week_of(one.at) <= week][-1]
        points.append(Point(week, height_of(*step.place), tally, step))
    return Curve(tuple(points))


Measure = Callable[[Numbers], float]
"""How far some numbers go in one respect."""


def digits(numbers: Numbers) -> float:
    """How long they are."""
    return numbers.digits


def rows(numbers: Numbers) -> float:
    """How many they are."""
    return numbers.rows


def quickness(numbers: Numbers) -> float:
    """How soon one comes after the other: fewer seconds are higher."""
    return -numbers.pace


def numbers_curve(growth: Growth, asked: Asked, measure: Measure) -> Curve:
    """For each week how far numbers went in one respect of which nine of ten were right, at least
    HELD columns of one size and pace; of several that go as far, the hardest otherwise."""
    held = [
        (week, numbers, tally)
        for (numbers, week), tally in growth.of_numbers.items()
        if numbers.asked is asked and _is_held(tally)
    ]

    def order(one: tuple[int, Numbers, Tally]) -> tuple[float, ...]:
        numbers = one[1]
        return measure(numbers), numbers.digits, numbers.rows, -numbers.pace

    best = {
        one[0]: Point(one[0], measure(one[1]), one[2], one[1]) for one in sorted(held, key=order)
    }
    return Curve(tuple(best[week] for week in sorted(best)))


def _is_held(tally: Tally) -> bool:
    return tally.of >= HELD and tally.right >= _NINE_OF_TEN * tally.of
