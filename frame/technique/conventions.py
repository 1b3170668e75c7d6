"""What schools do differently, and how strictly beads are judged."""

from dataclasses import dataclass
from enum import StrEnum


class Carry(StrEnum):
    """Whether the carry follows the partner of ten or comes before it. Schools differ."""

    LAST = "last"
    FIRST = "first"


class Remove(StrEnum):
    """Whether 6 to 9 leave a rod earth then heaven, or in one opening pinch. Schools differ."""

    RUN = "run"
    PINCH = "pinch"


class Operands(StrEnum):
    """Which operands stand on the frame: both; of a product the multiplicand alone, or none; of a
    quotient the dividend alone where not both. Schools differ."""

    BOTH = "both"
    ONE = "one"
    NONE = "none"


class Outer(StrEnum):
    """Which number of a product is taken digit by digit, each digit kept while all of the other
    number is multiplied by it. It is the one that stands beside the product. Schools differ."""

    MULTIPLICAND = "multiplicand"
    MULTIPLIER = "multiplier"


class First(StrEnum):
    """With which digit of the other number the products of a digit begin. Schools differ; from the
    lowest, a product overwrites the digit that is worked."""

    HIGHEST = "highest"
    LOWEST = "lowest"


class Strictness(StrEnum):
    """What is asked: the answer alone, the right beads in any order, or the school's order."""

    ANSWER = "answer"
    BEADS = "beads"
    ORDER = "order"


@dataclass(frozen=True, slots=True)
class Conventions:
    """What schools do differently; handed to every planner."""

    carry: Carry = Carry.LAST
    remove: Remove = Remove.RUN
    layout: Operands = Operands.BOTH
    outer: Outer = Outer.MULTIPLICAND
    first: First = First.HIGHEST


USUAL = Conventions()
"""Carry last, 6 to 9 taken away earth then heaven, both operands set, the multiplicand's digits
each multiplied by the multiplier from its highest."""
