"""How large the tasks of a sheet are where nobody says so: as small as its facts allow."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from frame.practice.families import family_of_fact
from frame.practice.numbers import can_need
from frame.practice.sizes import Size
from frame.sheets.recipe import TAKING, Kind
from frame.technique.facts import PLACES


@dataclass(frozen=True, slots=True)
class Extent:
    """How many tasks, and how large each is, as in a `Recipe`."""

    count: int = 20
    rows: int = 2
    digits: int = 1
    by: int = 1


_USUAL: Mapping[Kind, Extent] = {
    Kind.READ: Extent(12, digits=2),
    Kind.SET: Extent(12, digits=2),
    Kind.COLUMNS: Extent(20, 5, 2),
    Kind.PRODUCTS: Extent(20, digits=2),
    Kind.QUOTIENTS: Extent(20, digits=2),
    Kind.ROOTS: Extent(10, digits=2),
    Kind.PARTNERS: Extent(13),
    Kind.STRIP: Extent(1, 2, 2),
    Kind.FRAME: Extent(1),
    Kind.LADDER: Extent(5, 3),
}
_ROWS, _NARROW_ROWS = 3, 2
"""Numbers of a column that is for some facts alone; and where all of them end below ten, so that
nine beads are soon used up."""
_OF_MIXED = 2
"""Digits of columns that are for facts of all sorts."""
_MOST_DIGITS, _MOST_BY = 4, 3
_FROM_NOTHING = ("add-direct-9", "sub-direct-9")
"""A nine comes and goes at once where there is nothing else, as beside another digit alone."""
_GROWING = (Kind.COLUMNS, Kind.STRIP, Kind.LADDER)


def extent_of(kind: Kind, facts: Sequence[str]) -> Extent:
    """What is usual for a kind of sheet, and where it is for facts the least that all of them, or
    most, may be needed in."""
    usual = _USUAL[kind]
    if not facts:
        return usual
    if kind in (Kind.READ, Kind.SET):
        return replace(usual, digits=max(map(_places, facts)))
    families = [family_of_fact(one) for one in facts]
    if kind in _GROWING and all(one.grows for one in families):
        rows = _ROWS if all(one.room_above for one in families) else _NARROW_ROWS
        least = max(one.least_digits for one in families)
        least = max(least, 1 + (not set(facts).isdisjoint(_FROM_NOTHING)))
        return replace(usual, rows=min(usual.rows, rows), digits=least)
    digits, by = max(
        product(range(_MOST_DIGITS, 0, -1), range(_MOST_BY, 0, -1)),
        key=lambda one: (sum(can_need(fact, _size(*one)) for fact in facts), -one[0] - one[1]),
    )
    if kind not in _GROWING:
        return replace(usual, digits=digits, by=by)
    return replace(usual, rows=_ROWS, digits=max(_OF_MIXED, digits), by=by)


def sized(
    kind: Kind, facts: Sequence[str], asked: Mapping[str, int | None], minus: bool = False
) -> Extent:
    """How large the tasks are of which some sizes are asked for: what is None is usual. Where a
    fact adds and with `minus` something is taken away, too, that takes more than two numbers, and
    of those that make a ten more than one digit."""
    given = {name: size for name, size in asked.items() if size is not None}
    usual = extent_of(kind, facts)
    if minus and not all(fact.startswith(TAKING) for fact in facts):
        least = 1 + any(family_of_fact(fact).room_above for fact in facts)
        usual = replace(usual, rows=max(usual.rows, _ROWS), digits=max(usual.digits, least))
    return replace(usual, **given)


def needed_in(facts: Sequence[str], extent: Extent) -> tuple[str, ...]:
    """Those of some facts that tasks so large may need."""
    size = Size(digits=extent.digits, by=extent.by, terms=extent.rows)
    return tuple(fact for fact in facts if family_of_fact(fact).grows or can_need(fact, size))


def _size(digits: int, by: int) -> Size:
    return Size(digits=digits, by=by, terms=_ROWS)


def _places(fact: str) -> int:
    """How many digits a number has that is read or set for a fact; a nought is set behind
    another digit."""
    place = fact.rpartition("-")[2]
    return PLACES.index(place) + 2 if place in PLACES else 1 + (fact == "set-digit-0")
