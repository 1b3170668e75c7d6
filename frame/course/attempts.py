"""Where a lesson stands, and how each of its exercises went: what is kept of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from frame.practice.outcomes import Outcome

if TYPE_CHECKING:
    from decimal import Decimal

    from frame.practice.exercises import Exercise
    from frame.practice.log import Log


class Origin(StrEnum):
    """Where what is worked came from. How its numbers come, and on which frame it is worked, the
    exercise tells."""

    LESSON = "lesson"
    """A lesson of the course, to be gone on with another day."""
    OWN_LESSON = "own lesson"
    """A tutor's."""
    SET = "set"
    """One that was chosen to be practised."""
    TODAY = "today"
    PLACEMENT = "placement"
    PAPER = "paper"
    FREE = "free"
    """A small play: none of it is kept."""

    @property
    def is_marked(self) -> bool:
        """Whether each exercise is told to be right, and how many there are."""
        return self is not Origin.PLACEMENT

    @property
    def is_counted(self) -> bool:
        """Whether it is seen how much of it is done."""
        return self not in (Origin.PLACEMENT, Origin.FREE)

    @property
    def is_lesson(self) -> bool:
        """Whether it is a lesson, with sentences of its own."""
        return self in (Origin.LESSON, Origin.OWN_LESSON)


OFF_LADDER = frozenset({Origin.PLACEMENT, Origin.PAPER})
"""Where anybody begins moves no ladder, nor does paper: nobody saw how it went."""


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
    that is not seen, which spoil nothing. `answers` are the numbers given, in order. One that was
    not `ended` was left, and is neither right nor wrong."""

    lesson: str
    exercise: Exercise
    unaided: bool
    right: bool
    helps: int
    slips: tuple[str, ...]
    looks: int = 0
    outcome: Outcome = Outcome.RIGHT
    answers: tuple[Decimal, ...] = ()
    log: Log | None = None
    ended: bool = True

    @property
    def seconds(self) -> float:
        """How long it took from the zero of its log to what was done last."""
        return self.log.entries[-1].ms / 1000 if self.log and self.log.entries else 0.0
