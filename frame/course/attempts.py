"""Where a lesson stands, and how each of its exercises went: what is kept of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from frame.practice.outcomes import Outcome

if TYPE_CHECKING:
    from frame.practice.exercises import Exercise


@dataclass(frozen=True, slots=True)
class Position:
    """Where a lesson stands: the step; within a set the exercise, the round of the set, and how
    many exercises of the round were right unaided."""

    step: int = 0
    item: int = 0
    round: int = 0
    right: int = 0


@dataclass(frozen=True, slots=True)
class Attempt:
    """How one exercise went. `unaided` tells that no bead or answer was mended and no help
    given; `slips` are the ids of what went wrong, in order; `looks` are free looks at a frame
    that is not seen, which spoil nothing."""

    lesson: str
    exercise: Exercise
    unaided: bool
    right: bool
    helps: int
    slips: tuple[str, ...]
    looks: int = 0
    outcome: Outcome = Outcome.RIGHT
