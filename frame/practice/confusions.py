"""Items that are easily taken for one another: to tell them apart is what must be practised.

Of cells they are those of the same digit worked another way, on a rod that shows the next digit or
the same lower beads: which way is to be chosen is the skill. Of products they share a factor, and
the other factors are neighbours, the commonest slip of written tables (Campbell 1987, from memory).
Those of procedures are our own judgement.
"""

from collections.abc import Iterator
from functools import cache

from frame.practice.items import CELLS, PRODUCTS, Cell, Factors

_PAIRS = (
    ("place-quotient", "place-quotient-far"),
    ("revise-down", "revise-up"),
    ("ripple-add", "ripple-sub"),
    ("multiply-1", "multiply-2"),
    ("divide-1", "divide-2"),
    ("read-tens", "read-hundreds"),
    ("set-tens", "set-hundreds"),
)
_BESIDE = (1, 5)
"""How far apart the digits of two cells are that look alike."""


@cache
def confusable() -> dict[str, frozenset[str]]:
    """For each item that has any, those that it is taken for."""
    found: dict[str, set[str]] = {}
    for one, other in (*_cells(), *_products(), *_PAIRS):
        found.setdefault(str(one), set()).add(str(other))
        found.setdefault(str(other), set()).add(str(one))
    return {item: frozenset(others) for item, others in found.items()}


def _cells() -> Iterator[tuple[Cell, Cell]]:
    for one in CELLS:
        for other in CELLS:
            is_beside = abs(one.digit - other.digit) in _BESIDE
            if is_beside and one.change == other.change and one.fact != other.fact:
                yield one, other


def _products() -> Iterator[tuple[Factors, Factors]]:
    for one in PRODUCTS:
        for lesser, greater in ((one.lesser + 1, one.greater), (one.lesser, one.greater + 1)):
            other = Factors(*sorted((lesser, greater)))
            if other in PRODUCTS:
                yield one, other
