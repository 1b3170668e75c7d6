"""When an item should come again: schedulers behind one small interface.

Times are seconds since the epoch and are handed in: nothing here reads a clock. A learner does not
come at the same hour each day, so what falls due within half a day counts as due.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum
from typing import NamedTuple, Protocol

DAY = 86_400.0
HALF_DAY = DAY / 2
RETAINED = 0.9
"""How likely an item is to be remembered when it falls due."""


class Recall(IntEnum):
    """How an item was remembered at the first try of a day."""

    MISSED = 1
    SLOW = 2
    RIGHT = 3
    QUICK = 4


class Trace(NamedTuple):
    """What a scheduler keeps of an item: when it was last counted, when it is due, and numbers that
    the scheduler alone can read."""

    at: float
    due: float
    strength: tuple[float, ...]

    def is_due(self, now: float) -> bool:
        """Whether it is due, today at least."""
        return self.due <= now + HALF_DAY

    def to_plain(self) -> list[object]:
        """The values that JSON has."""
        return [self.at, self.due, list(self.strength)]

    @classmethod
    def from_plain(cls, plain: Sequence[object]) -> "Trace":
        """The inverse. Raises ValueError or TypeError for other values."""
        at, due, strength = plain
        return cls(float(at), float(due), tuple(map(float, strength)))  # type: ignore[arg-type,call-overload]


class Scheduler(Protocol):
    """Says when an item is due, and how likely it is to be remembered."""

    def counted(self, trace: Trace | None, recall: Recall, at: float) -> Trace:
        """The trace after an item was asked, None standing for one that never was."""

    def chance(self, trace: Trace, unused: float) -> float:
        """How likely an item is to be remembered that nobody used for so many seconds."""


@dataclass(frozen=True, slots=True)
class FiveBoxes:
    """Leitner's boxes, of gaps in days: what is right goes one box on, what is missed into the
    first. What came before half its gap was over was no test of it, and what was slow is not sure:
    both stay in their box, and their gap begins anew."""

    gaps: tuple[float, ...] = (1, 2, 4, 8, 16)

    def counted(self, trace: Trace | None, recall: Recall, at: float) -> Trace:
        """The trace with its box, counted from 1."""
        box = self._box(trace, recall, at)
        return Trace(at, at + DAY * self.gaps[box - 1], (float(box),))

    def _box(self, trace: Trace | None, recall: Recall, at: float) -> int:
        if trace is None or recall is Recall.MISSED:
            return 1
        box = int(trace.strength[0])
        is_early = at - trace.at < DAY * self.gaps[box - 1] / 2
        return box if is_early or recall is Recall.SLOW else min(box + 1, len(self.gaps))

    def chance(self, trace: Trace, unused: float) -> float:
        """By an exponential that has fallen to RETAINED when the gap is over: a guess."""
        return float(RETAINED ** (unused / DAY / self.gaps[int(trace.strength[0]) - 1]))
