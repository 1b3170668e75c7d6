"""Where work lies on a frame: the rods with a unit mark, and room on either side of one."""

from decimal import Decimal

from frame.technique.beads import MOST_RODS, Frame
from frame.technique.reading import RodsError, decimals, frame_of, whole_digits

MARKS_FROM_CENTRE = 13
USUAL_RODS = 13
"""A frame made for some work has at least so many rods, unless other are asked for."""


def unit_marks(rods: int, units: int, every: int = 3) -> tuple[int, ...]:
    """The indices of the rods with a unit mark on the beam, from the left.

    Marks lie every third rod (or every fourth) outward from the centre rod on 13 rods and
    more, from the rightmost rod on fewer. A unit rod (index `units`) other than the rightmost
    is always marked: where it is not, all marks shift until it is. With an even number of
    rods, the right one of the two in the middle counts as the centre.

    >>> unit_marks(13, 12)
    (0, 3, 6, 9, 12)
    """
    usual = rods // 2 if rods >= MARKS_FROM_CENTRE else rods - 1
    start = usual if units == rods - 1 else units
    return tuple(range(start % every, rods, every))


def usual_units(rods: int, every: int = 3) -> int:
    """The index of the rod that is the unit rod unless one is chosen: the rightmost marked."""
    return unit_marks(rods, rods - 1, every)[-1]


def room_around(left: int, right: int, rods: int | None, at_least: int) -> tuple[int, int]:
    """How many rods a frame has for work that needs `left` of them before a marked rod and
    `right` after it, and the index of that rod: the leftmost mark with room enough.

    Where `rods` are asked for and no mark has room, the work starts at the left end. A frame is
    made as large as it must be, with an odd number of rods from 13 on. Raises RodsError.

    >>> room_around(6, 4, None, 13)
    (13, 6)
    """
    needed = left + 1 + right
    if needed > (rods or MOST_RODS):
        raise RodsError(needed, rods or MOST_RODS)
    if rods is not None:
        return rods, _marked(left, right, rods) or left
    for size in range(max(needed, at_least), MOST_RODS + 1):
        is_built = size % 2 or size < MARKS_FROM_CENTRE
        if is_built and (mark := _marked(left, right, size)) is not None:
            return size, mark
    return MOST_RODS, left


def last_mark(left: int, right: int, rods: int) -> int:
    """The index of the rod that work needing `left` rods before it and `right` after it has for
    its ones: the last rod where nothing goes after it, else the last mark with room enough, or the
    last rod with room where no mark has."""
    last = rods - 1 - right
    marks = unit_marks(rods, rods - 1) if right else ()
    return max((mark for mark in marks if left <= mark <= last), default=last)


def frame_for(number: Decimal, rods: int) -> Frame:
    """A frame that reads a number: the ones on the last rod or, where decimals follow, on a mark.
    Raises NumberError when it does not fit."""
    left, right = max(whole_digits(number) - 1, 0), decimals(number)
    if left + 1 + right > rods:
        raise RodsError(left + 1 + right, rods)
    units = last_mark(left, right, rods)
    return frame_of(number, rods, units)


def _marked(left: int, right: int, rods: int) -> int | None:
    """The index of the leftmost mark with room enough on a frame, None where there is none."""
    marks = unit_marks(rods, rods - 1)
    return next((mark for mark in marks if left <= mark < rods - right), None)
