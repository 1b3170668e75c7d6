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
    moves: list[BeadMove] = []
    for at, (old, new) in enumerate(zip(wrong.digits, wanted.digits, strict=True)):
        if old != new:
            rod = wrong.units - at
            moves += (BeadMove(rod, change) for change in _search(int(old), int(new)))
    return tuple(moves)


@lru_cache(maxsize=100)
def _search(digit: int, wanted: int) -> tuple[int, ...]:
    """Breadth first over the ten states of a rod."""
    start = Frame(str(digit), 0)
    ways: dict[Frame, tuple[int, ...]] = {start: ()}
    queue = deque([start])
    while queue:
        frame = queue.popleft()
        if frame.digit(0) == wanted:
            return ways[frame]
        for change in _CHANGES:
            move = BeadMove(0, change)
            if frame.can(move) and (after := frame.apply(move)) not in ways:
                ways[after] = (*ways[frame], change)
                queue.append(after)
    raise AssertionError("every digit can be reached from every other")
