"""Who is one child under several ids: a grown-up said so, and nobody guesses.

Two computers know nothing of one another until their files are merged, and a child may have begun
on both. What was said is kept as pairs, each with its time, and may be taken back.
"""

import sqlite3
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


def together_in(file: sqlite3.Connection) -> Mapping[str, frozenset[str]]:
    """The same as an open file tells it, which may be of a version without pairs. Raises
    sqlite3.Error."""
    if ("joined",) not in file.execute("SELECT name FROM sqlite_master").fetchall():
        return {}
    pairs = file.execute("SELECT one, other, apart FROM joined ORDER BY one, other")
    return groups(Pair(one, other, bool(apart)) for one, other, apart in pairs)


def children(
    ids: Iterable[tuple[str]], together: Mapping[str, frozenset[str]]
) -> set[frozenset[str]]:
    """The children with these ids, which are rows, each as all ids that are together."""
    return {together.get(one, frozenset({one})) for (one,) in ids}


def count_children(file: sqlite3.Connection) -> int:
    """How many children an open file tells of, each under whatever ids. Raises sqlite3.Error."""
    return len(children(file.execute("SELECT id FROM learner"), together_in(file)))
