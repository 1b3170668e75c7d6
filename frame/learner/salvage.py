"""What can be saved of a damaged file: every row that can still be read, and what the good copy has
besides.

SQLite reads a table up to the first page that is damaged. So a table is read from both ends, and
what lies between is halved and read again, until it is known row by row what can't be read.
"""

import sqlite3
from collections import deque
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path
from typing import Any, NamedTuple

from frame.learner.copies import Copies, make_private
from frame.learner.schema import (
    Column,
    Columns,
    bring_up_to_date,
    build,
    columns_of,
    version_by_columns,
)
from frame.learner.trouble import DAMAGE

_MOST_READINGS = 20_000
"""So many pieces of a table are tried: enough for every row of a hundred damaged pages."""
_ROWIDS = -(2**63), 2**63 - 1
_NOBODY = "?"
"""The name of a learner of whom only what they did can be read."""
_KINDS: dict[str, tuple[type, ...]] = {"TEXT": (str,), "INTEGER": (int,), "REAL": (int, float)}

Row = tuple[Any, ...]


class Saved(NamedTuple):
    """How many learners and exercises were saved, and where the damaged file lies now."""

    learners: int
    attempts: int
    aside: Path


class _Found(NamedTuple):
    """The columns of each table that a file has, and the rows of them that can be read."""

    columns: Columns
    rows: dict[str, list[Row]]


def salvage(copies: Copies) -> Saved:
    """Put in the place of the damaged file one of what can be read of it and of the good copy; the
    damaged one lies beside it then. Raises OSError or sqlite3.Error where that can't be written;
    then all is as it was."""
    fresh_path = copies.path.with_suffix(".saved")
    fresh_path.unlink(missing_ok=True)
    make_private(fresh_path)
    with closing(sqlite3.connect(fresh_path)) as fresh:
        for source in (copies.path, copies.good):
            found = _read(source)
            with fresh:
                fresh.execute("BEGIN")
                _put(found, fresh)
        bring_up_to_date(fresh)
        with fresh:
            _mend_references(fresh)
        learners, attempts = (
            fresh.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for table in ("learner", "attempt")
        )
    return Saved(learners, attempts, copies.put_in_place(fresh_path))


def _read(source: Path) -> _Found:
    """What can be read of a file; nothing where it is none."""
    columns: Columns = {}
    rows: dict[str, list[Row]] = {}
    with suppress(*DAMAGE), closing(_read_only(source)) as file:
        columns = columns_of(file)
        for table, some in columns.items():
            rows[table] = list(_rows(file, table, some)) if some else []
    return _Found(columns, rows)


def _read_only(source: Path) -> sqlite3.Connection:
    file = sqlite3.connect(f"{source.absolute().as_uri()}?immutable=1", uri=True)
    file.text_factory = lambda text: text.decode(errors="replace")
    return file


def _put(found: _Found, fresh: sqlite3.Connection) -> None:
    """Put what was found into a fresh file that lacks it, brought to the version of what was
    found at least."""
    build(fresh, version_by_columns(found.columns))
    for table, columns in columns_of(fresh).items():
        known = {column.name: column for column in columns}
        names = [column.name for column in found.columns.get(table, ())]
        kept = [name for name in names if name in known]
        if not kept:
            continue
        for values in found.rows.get(table, ()):
            row = {name: value for name, value in zip(names, values, strict=True) if name in known}
            if all(_fits(row[name], known[name]) for name in kept):
                fresh.execute(_putting(table, kept), tuple(row[name] for name in kept))


def _putting(table: str, names: list[str]) -> str:
    places = ", ".join("?" * len(names))
    return f"INSERT OR IGNORE INTO {table} ({', '.join(names)}) VALUES ({places})"


def _fits(value: object, column: Column) -> bool:
    """Whether a value is of the kind that its column holds."""
    if value is None:
        return not column.is_needed
    return isinstance(value, _KINDS[column.kind])


def _rows(file: sqlite3.Connection, table: str, columns: tuple[Column, ...]) -> Iterator[Row]:
    """Every row of a table that can be read."""
    question = (
        f"SELECT rowid, {', '.join(one.name for one in columns)} FROM {table} NOT INDEXED "
        "WHERE rowid BETWEEN ? AND ? ORDER BY rowid"
    )
    pieces = deque([_ROWIDS])
    for _ in range(_MOST_READINGS):
        if not pieces:
            return
        least, most = pieces.popleft()
        for way in ("ASC", "DESC"):
            reached = None
            try:
                for rowid, *row in file.execute(f"{question} {way}", (least, most)):
                    reached = rowid
                    yield tuple(row)
            except DAMAGE:
                if reached is not None and way == "ASC":
                    least = reached + 1
                elif reached is not None:
                    most = reached - 1
            else:
                least, most = 1, 0
                break
        if least < most:
            middle = (least + most) // 2
            pieces += [(least, middle), (middle + 1, most)]


def _mend_references(fresh: sqlite3.Connection) -> None:
    """What belongs to a learner who can't be read gets one without a name; what belongs to a
    sitting that can't be read goes, since nobody knows whose it was."""
    for table, at in (("sitting", "began"), ("lesson", "''")):
        fresh.execute(
            f"INSERT OR IGNORE INTO learner SELECT learner, ?, 'newcomer', '', {at} FROM {table} "
            "WHERE learner NOT IN (SELECT id FROM learner)",
            (_NOBODY,),
        )
    for table in ("attempt", "flash_run"):
        fresh.execute(f"DELETE FROM {table} WHERE sitting NOT IN (SELECT id FROM sitting)")
