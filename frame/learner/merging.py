"""Another computer's file taken into the one here, or a backup.

Two files are joined so that neither the order nor how often it is done makes a difference: what was
done is united by its ids; of what can change the later change holds, and where the times are equal
the greater value; what happened once happened when it first did. A learner who was deleted is noted
as gone, with the time, and so goes from every file, unless brought back at a later one.

What belongs to a computer alone stays where it is. All of it is done by SQLite, in one transaction,
so that a large file takes no more memory than a small one.
"""

import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from frame.learner.datafile import DataFile
from frame.learner.folding import WHAT
from frame.learner.other_file import copy_closed, is_ours, nothing_in
from frame.learner.persons import Person, children, persons_in, together_in
from frame.learner.schema import Column, columns_of
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble, told_of


class Merged(NamedTuple):
    """What a file brought: so many children who were not here under any of their ids, and attempts;
    children who went, because they were deleted elsewhere; who was brought `back`, and who
    `left_out`, because they were deleted; whether anything is other than before; and whether the
    file could be read whole."""

    learners: int = 0
    attempts: int = 0
    removed: int = 0
    back: tuple[Person, ...] = ()
    left_out: tuple[Person, ...] = ()
    is_new: bool = False
    is_whole: bool = True


def merge(store: Store, path: Path, now: datetime, *, bring_back: bool = False) -> Merged:
    """Take in what the file at `path` holds, which is left as it is, whatever version it is of. Who
    is in it and was deleted meanwhile can be brought back. Raises StoreError, which tells of which
    file; then nothing is other than before."""
    with _copied(store, path) as copy:
        if copy is None:
            return Merged()
        with closing(_opened(store, copy, path)) as other:
            is_whole = other.saved is None
        with store.writing_beside(copy) as database:
            merged, is_anybody_gone = _join(database, now.isoformat() if bring_back else None)
    if is_anybody_gone:
        store.forget_beside()
    else:
        store.forget_removed()
    if merged.is_new and store.needs_check:
        store.check()  # Only then is a good copy made of it.
    return merged._replace(is_whole=is_whole)


# The other file


@contextmanager
def _copied(store: Store, path: Path) -> Iterator[Path | None]:
    """A copy for as long as it is needed, for this user's eyes alone; None where the file is the
    one here. Raises StoreError."""
    if store.copies is None:
        raise StoreError(path, "nowhere to keep anything", Trouble.OTHER)
    with told_of(path):
        if not os.path.isfile(path):
            is_there = os.path.lexists(path)
            raise StoreError(path, "no file", Trouble.FOREIGN if is_there else Trouble.MISSING)
        if os.path.samefile(path, store.copies.path):
            yield None
            return
        if not is_ours(path):
            raise nothing_in(path)
    with told_of(store.copies.path), store.copies.workplace() as folder:
        copy = folder / "other.sqlite"
        with _told_of_it(store, path):
            copy_closed(path, copy, store.patience)
        yield copy


@contextmanager
def _told_of_it(store: Store, path: Path) -> Iterator[None]:
    """Raises what goes wrong with the other file as a StoreError that tells of it; of the one here
    where there is no room, as the other is only read."""
    try:
        with told_of(path):
            yield
    except StoreError as error:
        where = store.path if error.trouble is Trouble.FULL else path
        raise StoreError(where, error.found, error.trouble) from error


def _opened(store: Store, copy: Path, path: Path) -> DataFile:
    """The copy, brought up to date, or what can be saved of it. Raises StoreError."""
    with _told_of_it(store, path):
        other = DataFile(copy)
        if other.needs_check:
            other.check()
        if other.is_damaged:
            other.close()
            other = DataFile(copy)
    if other.saved is not None and not other.saved.learners:
        other.close()
        raise nothing_in(path)
    return other


# How they are joined


class _Part(NamedTuple):
    """Columns that change together, and by what of a row it is known which change holds: the one
    that is greater, where nothing is less than all else."""

    columns: tuple[str, ...]
    rank: tuple[str, ...] = ()
    """Expressions with a place for the table; the columns themselves where there are none."""

    def ranked(self, table: str) -> str:
        """The rank of a row of a table."""
        rank = self.rank or tuple(f"{{0}}.{column}" for column in self.columns)
        filled = (one.format(table) for one in rank)
        # Beside a number a text would be the greater one, whatever it is.
        return ", ".join(f"{one} IS NOT NULL, coalesce({one}, '')" for one in filled)


class _Table(NamedTuple):
    """What tells the rows of a table apart, what of them can change, of what else the earliest
    holds, and which rows of another file have no place here."""

    key: tuple[str, ...]
    latest: tuple[_Part, ...] = ()
    earliest: tuple[str, ...] = ()
    where: str = "true"


_GONE = "(SELECT learner FROM main.gone WHERE at > back)"
_OF_SITTING = "sitting IN (SELECT id FROM main.sitting)"
_OF_LEARNER = "learner IN (SELECT id FROM main.learner)"

_TABLES: Mapping[str, _Table] = {
    "gone": _Table(("learner",), (_Part(("at",)), _Part(("back",)))),
    "joined": _Table(("one", "other"), (_Part(("at", "apart")),)),
    "learner": _Table(
        ("id",),
        (
            _Part(("named", "nickname")),
            _Part(("pictured", "picture")),
            _Part(("settled", "settings")),
        ),
        ("created",),
        f"id NOT IN {_GONE}",
    ),
    # Of what was used for input there can only be more.
    "sitting": _Table(
        ("id",),
        (_Part(("ended",)), _Part(("input",), ("length({0}.input)", "{0}.input"))),
        where=_OF_LEARNER,
    ),
    "attempt": _Table(("id",), where=_OF_SITTING),
    "flash_run": _Table(("id",), where=_OF_SITTING),
    "tapping": _Table(("id",), where=_OF_SITTING),
    "lesson": _Table(
        ("learner", "lesson"),
        (
            _Part(("changed", "seed", "step", "item", "round", "unaided")),
            _Part(("placed_at", "placed")),
        ),
        ("done", "mastered"),
        _OF_LEARNER,
    ),
    # One that was removed stays so, whatever was done with it elsewhere.
    "kept_set": _Table(
        ("id",), (_Part(("removed", "changed", "name", "asked")),), where=_OF_LEARNER
    ),
    "paper": _Table(("id",), where=_OF_SITTING),
    "assigned": _Table(("id",), (_Part(("removed", "changed")),), ("done",), _OF_LEARNER),
}
"""In an order in which each refers only to those before it; `computer` stays on its computer, and
what is `folded` is made anew."""

_TYPES = {
    "TEXT": "'text'",
    "INTEGER": "'integer'",
    "REAL": "'real', 'integer'",
    "BLOB": "'blob'",
}


def _join(database: sqlite3.Connection, back: str | None) -> tuple[Merged, bool]:
    """Join the file with `other`, in a transaction; `back` is the time at which who is in that
    comes back, None for never. What it brought, and whether anybody went under any id."""
    before, known = database.total_changes, _ids(database, "main.learner")
    _join_table(database, "gone")
    gone_there = f"other.learner WHERE id IN {_GONE}"
    came_back = _ids(database, gone_there) if back else []
    if back:
        _bring_back(database, back)
    gone = database.execute(f"DELETE FROM learner WHERE id IN {_GONE}").rowcount
    last = database.execute("SELECT coalesce(max(rowid), 0) FROM attempt").fetchone()[0]
    came = {name: _join_table(database, name) for name in _TABLES if name != "gone"}
    if came["attempt"]:
        database.execute(
            "DELETE FROM folded WHERE what = ? AND learner IN (SELECT learner FROM sitting "
            "WHERE id IN (SELECT sitting FROM attempt WHERE rowid > ?))",
            (WHAT, last),
        )
    together = together_in(database)
    were, are, back_again, left_out = (
        children(ids, together)
        for ids in (
            known,
            _ids(database, "main.learner"),
            came_back,
            _ids(database, gone_there),
        )
    )
    merged = Merged(
        len(are - were),
        came["attempt"],
        len(were - are),
        persons_in(database, "main", (are - were) & back_again),
        persons_in(database, "other", left_out - are),
        is_new=database.total_changes > before,
    )
    return merged, gone > 0


_Ids = list[tuple[str]]


def _ids(database: sqlite3.Connection, of: str) -> _Ids:
    return database.execute(f"SELECT id FROM {of}").fetchall()


def _bring_back(database: sqlite3.Connection, back: str) -> None:
    """Who is in the other file is gone no more."""
    database.execute(
        "UPDATE gone SET back = max(at, ?) "
        "WHERE at > back AND learner IN (SELECT id FROM other.learner)",
        (back,),
    )


def _join_table(database: sqlite3.Connection, name: str) -> int:
    """Join a table with that of the other file; how many rows are new."""
    table, columns = _TABLES[name], columns_of(database)[name]
    fits = " AND ".join(_fits(column, table.key) for column in columns)
    for part in table.latest:
        taken = f"({part.ranked('theirs')}) > ({part.ranked(name)})"
        _take(database, name, part.columns, f"{taken} AND {fits}")
    for column in table.earliest:
        theirs, ours = (f"coalesce(nullif({one}.{column}, ''), '~')" for one in ("theirs", name))
        _take(database, name, (column,), f"{theirs} < {ours} AND {fits}")
    names = ", ".join(column.name for column in columns)
    return database.execute(
        f"INSERT OR IGNORE INTO main.{name} ({names}) SELECT {names} FROM other.{name} AS theirs "
        f"WHERE {table.where} AND {fits}"
    ).rowcount


def _take(database: sqlite3.Connection, name: str, columns: tuple[str, ...], where: str) -> None:
    """Take these columns of the other file's rows for those of the same rows here."""
    taken = ", ".join(f"{column} = theirs.{column}" for column in columns)
    same = " AND ".join(f"theirs.{key} = {name}.{key}" for key in _TABLES[name].key)
    database.execute(
        f"UPDATE main.{name} SET {taken} FROM other.{name} AS theirs WHERE {same} AND {where}"
    )


def _fits(column: Column, key: tuple[str, ...]) -> str:
    """That a value is of the kind which its column holds, as whatever wrote it meant it."""
    may_lack = not column.is_needed and column.name not in key
    types = _TYPES[column.kind] + (", 'null'" if may_lack else "")
    return f"typeof(theirs.{column.name}) IN ({types})"
