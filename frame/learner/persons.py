"""Who is one child under several ids: a grown-up said so, and nobody guesses.

Two computers know nothing of one another until their files are merged, and a child may have begun
on both. What was said is kept as pairs, each with its time, and may be taken back.
"""

import sqlite3
from collections.abc import Collection, Iterable, Mapping
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


class Person(NamedTuple):
    """A child that a file tells of: the name and the picture that were given last, and how many
    exercises are kept."""

    name: str
    picture: str
    attempts: int


def persons_in(
    file: sqlite3.Connection, schema: str, some: Collection[frozenset[str]]
) -> tuple[Person, ...]:
    """These children, each as all ids that are together, as a schema of an open file has them, by
    their names. Raises sqlite3.Error."""
    if not some:
        return ()
    columns = "id, nickname, named, picture, pictured"
    rows = {row[0]: row for row in file.execute(f"SELECT {columns} FROM {schema}.learner")}
    counting = (
        f"SELECT count(*) FROM {schema}.attempt "
        f"WHERE sitting IN (SELECT id FROM {schema}.sitting WHERE learner = ?)"
    )
    found = []
    for child in some:
        own = [row for one, row in rows.items() if one in child]
        counts = [file.execute(counting, (row[0],)).fetchone()[0] for row in own]
        name, picture = (str(max(own, key=lambda row: str(row[at + 1]))[at]) for at in (1, 3))
        found.append(Person(name, picture, sum(counts)))
    return tuple(sorted(found))
