"""The shortest bead moves from one frame to another, found by search."""

from collections import deque
from functools import lru_cache

from frame.technique.beads import BeadMove, Frame, Stroke

_CHANGES = (5, -5, 1, -1, 2, -2, 3, -3, 4, -4)


def shortest_mend(wrong: Frame, wanted: Frame) -> Stroke:
    """The fewest bead moves that turn `wrong` into `wanted`, from the highest rod down.

    A bead move touches one rod alone, so the shortest way on each rod makes the shortest way on
    the frame. The two frames have the same rods.
    """
    pairs = enumerate(zip(wrong.digits, wanted.digits, strict=True))
    unlike = [(wrong.units - at, old, new) for at, (old, new) in pairs if old != new]
    return tuple(
        [BeadMove(rod, change) for rod, old, new in unlike for change in _search(old, new)]
    )


@lru_cache(maxsize=100)
def _search(digit: str, wanted: str) -> tuple[int, ...]:
    """Breadth first over the ten states of a rod."""
    start = Frame(digit, 0)
    ways: dict[Frame, tuple[int, ...]] = {start: ()}
    queue = deque([start])
    while queue:
        frame = queue.popleft()
        if frame.digits == wanted:
            return ways[frame]
        for change in _CHANGES:
            move = BeadMove(0, change)
            if frame.can(move) and (after := frame.apply(move)) not in ways:
                ways[after] = (*ways[frame], change)
                queue.append(after)
    raise AssertionError("every digit can be reached from every other")
