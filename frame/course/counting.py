"""A frame counted aloud, bead by bead, for whoever read it wrongly more than once."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from frame.practice.exercises import Kind
from frame.practice.work import Work
from frame.technique.beads import Frame

COUNT_FROM = 3
"""From so many wrong readings on, the beads are counted aloud."""


class Counted(NamedTuple):
    """A bead at the beam: its rod, its place there (0 the heaven bead, 1 to 4 the earth beads from
    the beam on), and what the frame reads up to it, from the highest rod on."""

    rod: int
    bead: int
    number: Decimal


def counted(frame: Frame) -> Iterator[Counted]:
    """The beads at the beam, from the highest rod, the heaven bead of each rod first.

    >>> [str(one.number) for one in counted(Frame("17", 1))]
    ['10', '15', '16', '17']
    """
    number = Decimal(0)
    for rod in range(frame.highest, frame.lowest - 1, -1):
        one = Decimal(1).scaleb(rod)
        heaven, earth = divmod(frame.digit(rod), 5)
        if heaven:
            number += 5 * one
            yield Counted(rod, 0, number)
        for bead in range(1, earth + 1):
            number += one
            yield Counted(rod, bead, number)


def is_misread(work: Work) -> bool:
    """Whether a frame that is to be read was read wrongly so often that its beads are counted."""
    return work.exercise.kind is Kind.READ and len(work.slips) >= COUNT_FROM


@dataclass
class Counting:
    """A count under way: the beads `seen` so far, and those to come."""

    seen: tuple[Counted, ...] = ()
    _left: Iterator[Counted] | None = None

    @property
    def is_under_way(self) -> bool:
        """Whether the count has not come to its end."""
        return self._left is not None

    def begin(self, frame: Frame) -> None:
        """Count the beads of a frame, from its first."""
        self.seen, self._left = (), counted(frame)

    def count_on(self) -> Counted | None:
        """The next bead; None, once, when all are counted."""
        one = next(self._left, None) if self._left is not None else None
        if one is None:
            self._left = None
        else:
            self.seen = (*self.seen, one)
        return one

    def stop(self) -> None:
        """Nothing is counted any more."""
        self.seen, self._left = (), None
