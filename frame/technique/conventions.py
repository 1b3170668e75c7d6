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


class Layout(StrEnum):
    """Which operands of a product stand on the frame: both, the multiplicand alone, none.
    Schools differ."""

    BOTH = "both"
    ONE = "one"
    NONE = "none"


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
    layout: Layout = Layout.BOTH


USUAL = Conventions()
"""Carry last, 6 to 9 taken away earth then heaven, both operands of a product set."""
