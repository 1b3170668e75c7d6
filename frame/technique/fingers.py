"""Which finger moves which beads, and in which order the two decks of a rod are worked.

The rules of the two-finger method: Kojima 1954, p. 29 (read through a secondary summary). The
opening pinch for taking 6 to 9 away is another school's way.
"""

from enum import StrEnum
from functools import lru_cache

from frame.technique.beads import BeadMove, Stroke
from frame.technique.conventions import Conventions, Remove


class Finger(StrEnum):
    """Thumb or index finger."""

    THUMB = "thumb"
    INDEX = "index"


def finger_of(move: BeadMove) -> Finger:
    """The finger that makes the move: the thumb pushes earth beads up, the index does the rest."""
    return Finger.THUMB if 1 <= move.change <= 4 else Finger.INDEX


@lru_cache(maxsize=4096)
def strokes_on(rod: int, before: int, after: int, conventions: Conventions) -> tuple[Stroke, ...]:
    """The strokes that turn the digit `before` on one rod into `after`.

    The two digits fix the beads; the directions of the two decks fix their order.
    """
    heaven, earth = after // 5 - before // 5, after % 5 - before % 5
    earth_move = BeadMove(rod, earth)
    heaven_move = BeadMove(rod, 5 * heaven)
    if not heaven or not earth:
        return ((earth_move if earth else heaven_move,),) if before != after else ()
    if earth > 0:
        return ((earth_move, heaven_move),)
    if heaven > 0:
        return ((heaven_move,), (earth_move,))
    if conventions.remove is Remove.PINCH:
        return ((earth_move, heaven_move),)
    return ((earth_move,), (heaven_move,))


def needs_five(before: int, after: int) -> bool:
    """Whether going from one digit to another moves the decks against each other in value."""
    return (after // 5 - before // 5) * (after % 5 - before % 5) < 0
