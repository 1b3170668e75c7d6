"""A frame counted aloud, bead by bead, for whoever read it wrongly more than once."""

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from frame.technique.beads import Frame


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
