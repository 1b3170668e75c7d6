"""How well a wrong stroke begins a digit that somebody may have meant by it."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from frame.technique.beads import BeadMove, Stroke, covers
from frame.technique.hand import Hand
from frame.technique.intents import begins
from frame.technique.operation import Act, Operation
from frame.technique.plan import Step
from frame.technique.progress import Progress
from frame.technique.slips import Fault

FAR = 2
"""The distance of a digit that a hand may begin so, though no school does."""


class Guess(NamedTuple):
    """A slip that a wrong stroke may be, and how well its first digit fits: 0 where the stroke is
    the convention's own for that digit, 1 where it is a part of it, 2 where a hand may begin so."""

    distance: int
    fault: Fault


class Digits:
    """A wrong stroke on a frame, asked for the digits that it may begin."""

    def __init__(self, progress: Progress, stroke: Stroke, move: BeadMove) -> None:
        self.progress, self.stroke, self.move = progress, stroke, move

    def distance(self, digits: Iterable[tuple[int, int]]) -> int | None:
        """How well the stroke begins one of some signed digits on their rods; None where it begins
        none."""
        found = [self._distance(rod, change) for rod, change in digits if change]
        return min((one for one in found if one is not None), default=None)

    def _distance(self, rod: int, change: int) -> int | None:
        frame = self.progress.frame
        if not begins([(rod, change)], frame, self.move):
            return None
        hand = Hand(self.progress.plan.conventions, frame)
        hand.work(Operation(Act.ADD, ""), rod, change)
        first = hand.steps[0].strokes[0]
        # A mouse makes the two moves of a pinch one after the other.
        if set(first) == set(self.stroke) or (len(self.stroke) == 1 and self.move in first):
            return 0
        return 1 if any(covers(one, self.move) for one in first) else FAR

    def of_steps(self, steps: Iterable[Step], off: int = 0) -> int | None:
        """How well the stroke begins the digit of one of some steps, so many rods off."""
        return self.distance([(step.rod + off, step.change) for step in steps])

    def any_on(self, rod: int, sign: int) -> int | None:
        """How well the stroke begins any digit worked on a rod."""
        return self.distance([(rod, sign * digit) for digit in range(1, 10)])

    def any_set_on(self, rod: int) -> int | None:
        """How well the stroke begins any digit set on a rod, which holds it without a carry."""
        frame = self.progress.frame
        shown = frame.digit(rod) if frame.has(rod) else 9
        return self.distance([(rod, digit) for digit in range(1, 10 - shown)])

    def guess(self, distance: int | None, fault: Fault | None) -> Iterator[Guess]:
        """The guess, where it fits."""
        if distance is not None and fault is not None:
            yield Guess(distance, fault)
