"""Families of facts: what climbs the ladder together.

A family is one operation worked in one way, since choosing the way is the skill: a learner may
imagine sums through five long before those through ten. Reading and setting are families too, and
so are columns whose carry runs on over 9s or 0s, which ask more than the facts of their rods. An
exercise that mixes families belongs to the hardest of them, and so there is none for mixtures.
"""

from collections.abc import Iterable
from enum import StrEnum

from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.rungs import Rung
from frame.technique.facts import (
    ALL_FACTS,
    BELOW_ZERO,
    DIVIDING,
    MULTIPLYING,
    ROOTS,
    WITH_POINT,
)


class Family(StrEnum):
    """The families in the order in which the course teaches them, the hardest last."""

    READ = "read"
    SET = "set"
    ADD_DIRECT = "add-direct"
    SUB_DIRECT = "sub-direct"
    ADD_FIVE = "add-five"
    SUB_FIVE = "sub-five"
    ADD_TEN = "add-ten"
    SUB_TEN = "sub-ten"
    ADD_TEN_FIVE = "add-ten-five"
    SUB_TEN_FIVE = "sub-ten-five"
    COLUMNS = "columns"
    MULTIPLY = "multiply"
    DIVIDE = "divide"
    DECIMALS = "decimals"
    BELOW_ZERO = "below-zero"
    ROOT = "root"

    @property
    def least_rods(self) -> int:
        """The fewest rods that hold its sums: a ten needs a rod to land on, and one to run over."""
        if self in _RODS:
            return _RODS[self]
        if self is Family.COLUMNS:
            return 3
        return 2 if "-ten" in self.value else 1

    @property
    def room_above(self) -> int:
        """How many rods a sum of two numbers takes beyond their own digits."""
        return 1 if self.least_rods > 1 else 0

    @property
    def grows(self) -> bool:
        """Whether it is practised with a rod more when it is mastered; others have room for all
        their numbers from the first."""
        return self not in _RODS

    @property
    def most_rods(self) -> int:
        """With how many rods it is practised when all before is mastered."""
        return MOST_DIGITS + self.room_above if self.grows else self.least_rods

    @property
    def least_digits(self) -> int:
        """The fewest digits with which all its numbers may be as long: of a single digit nothing is
        taken through ten, and no carry runs on."""
        through_ten = (Family.SUB_TEN, Family.SUB_TEN_FIVE, Family.COLUMNS)
        return 2 if self in through_ten else 1

    @property
    def most_rows(self) -> int:
        """How many numbers a column of it may have: where all are added directly, nine beads of a
        rod are soon used up."""
        return 4 if self is Family.ADD_DIRECT else MOST_ROWS

    @property
    def is_of_columns(self) -> bool:
        """Whether its exercises are numbers, or columns of numbers, that are added and taken."""
        return self not in (Family.MULTIPLY, Family.DIVIDE, Family.ROOT)

    @property
    def is_of_sums(self) -> bool:
        """Whether its exercises are sums, which have an answer."""
        return self not in (Family.READ, Family.SET)

    @property
    def has_partners(self) -> bool:
        """Whether its sums are worked through the partner of a number."""
        return "-five" in self.value or "-ten" in self.value

    @property
    def top(self) -> Rung:
        """The last rung it has: what is to be read must be seen, and a number that is set has no
        answer beside its beads."""
        return {Family.READ: Rung.ALONE, Family.SET: Rung.COVERED}.get(self, Rung.NUMBER)


_RODS = {
    Family.MULTIPLY: 13,
    Family.DIVIDE: 13,
    Family.DECIMALS: 13,
    Family.BELOW_ZERO: 5,
    Family.ROOT: 13,
}
_PROCEDURES = {
    **dict.fromkeys(MULTIPLYING, Family.MULTIPLY),
    **dict.fromkeys(DIVIDING, Family.DIVIDE),
    **dict.fromkeys(WITH_POINT, Family.DECIMALS),
    **dict.fromkeys(BELOW_ZERO, Family.BELOW_ZERO),
    **dict.fromkeys(ROOTS, Family.ROOT),
}


def _family(fact: str) -> Family:
    if fact in _PROCEDURES:
        return _PROCEDURES[fact]
    verb, _, rest = fact.partition("-")
    if verb == "ripple":
        return Family.COLUMNS
    if verb in ("read", "set", "clear"):
        return Family.READ if verb == "read" else Family.SET
    return Family(f"{verb}-{rest.rpartition('-')[0]}")


_FAMILIES = {fact: _family(fact) for fact in ALL_FACTS}
_HARDNESS = {family: place for place, family in enumerate(Family)}


def family_of_fact(fact: str) -> Family:
    """The family of one fact. Raises ValueError for what is none."""
    try:
        return _FAMILIES[fact]
    except KeyError:
        raise ValueError(f"{fact} is no fact") from None


def family_of(facts: Iterable[str]) -> Family:
    """The hardest family among some facts; the easiest of all where nothing need be known.

    Raises ValueError for a fact that is none.

    >>> family_of(["set-digit-4", "add-five-3", "add-direct-1"]).value
    'add-five'
    """
    found = map(family_of_fact, facts)
    return max(found, key=_HARDNESS.__getitem__, default=Family.READ)
