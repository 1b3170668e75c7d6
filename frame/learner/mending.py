"""Whose that is which was saved of a damaged file.

An id with a damaged letter is not another child's: two that were made have hardly a letter in
common, so that what is nearly a known one is that one.
"""

import sqlite3
from collections import Counter
from collections.abc import Iterator

from frame.learner.ids import uuid_of
from frame.learner.schema import tables_of

_NOBODY = "?"
"""The name of a learner of whom only what they did can be read."""
_CAME = {"sitting": "began", "kept_set": "kept", "assigned": "given"}
_UNKNOWN = "''"
"""What tells, in a row of theirs, when such a learner was here; in others nothing does."""
_LENGTH, _PART = 32, 8
"""Letters of an id, and of each part of it; few damaged ones leave a part as it was."""
_MOST_DAMAGED = 8


def mend_references(fresh: sqlite3.Connection) -> None:
    """What belongs to a sitting that can't be read goes, since nobody knows whose it was. What
    belongs to a learner who can't be read gets one without a name, if that can have been one: the
    id is one of ours, and something was done."""
    for owner in ("learner", "sitting"):
        fresh.execute(f"DELETE FROM {owner} WHERE id IS NULL")
    for damaged, meant in _meant(fresh).items():
        for table, column in _places():
            fresh.execute(
                f"UPDATE OR IGNORE {table} SET {column} = ? WHERE {column} = ?", (meant, damaged)
            )
            fresh.execute(f"DELETE FROM {table} WHERE {column} = ?", (damaged,))
    _take_away_nobodys(fresh)
    _name_the_lost(fresh)


def _places() -> Iterator[tuple[str, str]]:
    """The tables with ids of learners, and the columns that hold them."""
    yield "learner", "id"
    for table in tables_of("learner"):
        yield table, "learner"


def _meant(fresh: sqlite3.Connection) -> dict[str, str]:
    """For each damaged id that is nearly another one, that: what is an id and stands in the most
    rows is what it was."""
    rows = Counter[str]()
    for table, column in _places():
        rows.update(
            dict(fresh.execute(f"SELECT {column}, count(*) FROM {table} GROUP BY {column}"))
        )
    sound, meant = dict[tuple[int, str], str](), dict[str, str]()
    for one in sorted(rows, key=lambda one: (uuid_of(one) is None, -rows[one], one)):
        near = next(filter(None, map(sound.get, _parts(one))), None)
        if near is not None and _is_nearly(one, near):
            meant[one] = near
        elif uuid_of(one):
            sound |= dict.fromkeys(_parts(one), one)
    return meant


def _parts(id: str) -> list[tuple[int, str]]:
    """The parts of an id, each with its place."""
    return [(at, id[at : at + _PART]) for at in range(0, _LENGTH, _PART)]


def _is_nearly(one: str, other: str) -> bool:
    """Whether few letters differ."""
    differ = sum(a != b for a, b in zip(one, other, strict=False))
    return len(one) == len(other) and differ <= _MOST_DAMAGED


def _take_away_nobodys(fresh: sqlite3.Connection) -> None:
    """What has the id of nobody goes, and sittings in which nothing was done of who is not known:
    a row of another table may be read as one."""
    known = {id for (id,) in fresh.execute("SELECT id FROM learner")}
    for table in tables_of("learner"):
        ids = fresh.execute(f"SELECT DISTINCT learner FROM {table}").fetchall()
        nobodys = [(id,) for (id,) in ids if id not in known and not uuid_of(id)]
        fresh.executemany(f"DELETE FROM {table} WHERE learner = ?", nobodys)
    for table in tables_of("sitting"):
        fresh.execute(f"DELETE FROM {table} WHERE sitting NOT IN (SELECT id FROM sitting)")
    done = " UNION ".join(f"SELECT sitting FROM {table}" for table in tables_of("sitting"))
    fresh.execute(
        f"DELETE FROM sitting WHERE id NOT IN ({done}) AND learner NOT IN (SELECT id FROM learner)"
    )


def _name_the_lost(fresh: sqlite3.Connection) -> None:
    """Who did something and can't be read gets a row without a name."""
    for table in tables_of("learner"):
        fresh.execute(
            "INSERT OR IGNORE INTO learner (id, nickname, picture, settings, created) "
            f"SELECT learner, ?, 'newcomer', '', {_CAME.get(table, _UNKNOWN)} FROM {table} "
            "WHERE learner NOT IN (SELECT id FROM learner)",
            (_NOBODY,),
        )
