"""Things taken in turn, in an order that nobody foresees."""

from collections.abc import Iterator, Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")


def in_turn(things: Sequence[T], random: Random) -> Iterator[T]:
    """Things that all differ, again and again, each time in another order, so that none follows
    from the one before. None comes twice in a row, but where there is one alone."""
    last: T | None = None
    while True:
        turn = random.sample(things, len(things))
        if turn[0] == last:
            turn.append(turn.pop(0))
        yield from turn
        last = turn[-1]
