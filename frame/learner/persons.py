"""Who is one child under several ids: a grown-up said so, and nobody guesses.

Two computers know nothing of one another until their files are merged, and a child may have begun
on both. What was said is kept as pairs, each with its time, and may be taken back.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple


class Pair(NamedTuple):
    """Two ids that are one child's, or are so no longer."""

    one: str
    other: str
    is_apart: bool = False


def groups(pairs: Iterable[Pair]) -> Mapping[str, frozenset[str]]:
    """For each id that is joined with others, all ids of the child, its own among them."""
    found: dict[str, frozenset[str]] = {}
    for pair in pairs:
        if pair.is_apart:
            continue
        together = found.get(pair.one, frozenset({pair.one})) | found.get(
            pair.other, frozenset({pair.other})
        )
        found |= dict.fromkeys(together, together)
    return found
