"""What can be saved of a damaged file: every row that can still be read, and what the good copy has
besides.

SQLite reads a table up to the first page that is damaged, and nothing where the header is. So the
header is made anew, a table is read from both ends, and what lies between is halved and read again,
until it is known row by row what can't be read.
"""

import sqlite3
from collections import deque
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
_KINDS: dict[str, tuple[type, ...]] = {
    "TEXT": (str,),
    "INTEGER": (int,),
    "REAL": (int, float),
    "BLOB": (bytes,),
}

_HEADER = 100
_CHANGED_AT, _PAGES, _COUNTED_AT = slice(24, 28), slice(28, 32), slice(92, 96)
"""The database header, from https://www.sqlite.org/fileformat2.html#the_database_header: the pages
count where the number beside them is that of the last change."""

_SMALL, _FEW_PAGES = 1 << 26, 64
"""A file of so many bytes may have been as large as its header says; of one whose header can't be
believed so many pages may be lost at its end."""

Row = tuple[Any, ...]
Span = tuple[int, int]


class Saved(NamedTuple):
    """How many learners and exercises were saved, and where the damaged file lies now; None where
    there was none any more, and all is from the good copy."""

    learners: int
    attempts: int
    aside: Path | None


class _Found(NamedTuple):
    """The columns of each table that a file has, and the rows of them that can be read."""

    columns: Columns
    rows: dict[str, list[Row]]


def salvage(copies: Copies) -> Saved:
    """Put in the place of a file that is damaged or gone one of what can be read of it and of the
    good copy; the damaged one lies beside it then. Raises OSError or sqlite3.Error where that
    can't be written; then all is as it was."""
    fresh_path = copies.beside("saved")
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
    with suppress(*DAMAGE, FileNotFoundError), closing(sqlite3.connect(":memory:")) as file:
        file.deserialize(_with_good_header(source.read_bytes()))
        file.text_factory = lambda text: text.decode(errors="replace")
        columns = columns_of(file)
        for table, some in columns.items():
            rows[table] = _rows(file, table, some) if some else []
    return _Found(columns, rows)


def _with_good_header(content: bytes) -> bytes:
    """A database with the header that every file of ours has, and as many pages as are there, or
    of a file that was cut off, as were: SQLite reads nothing of one that lacks the first page of a
    table."""
    with closing(sqlite3.connect(":memory:")) as empty:
        build(empty, 1)
        page = empty.execute("PRAGMA page_size").fetchone()[0]
        header = bytearray(empty.serialize()[:_HEADER])
    were = int.from_bytes(content[_PAGES], "big") * page
    most = max(4 * len(content), _SMALL)
    # Of a page that was cut the rows would be read with what is lost as zeros.
    whole = content[: len(content) // page * page]
    whole = whole.ljust(were if were <= most else len(whole) + _FEW_PAGES * page, b"\0")
    header[_PAGES] = (len(whole) // page).to_bytes(4, "big")
    header[_COUNTED_AT] = header[_CHANGED_AT]
    return bytes(header) + whole[_HEADER:]


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


def _rows(file: sqlite3.Connection, table: str, columns: tuple[Column, ...]) -> list[Row]:
    """Every row of a table that can be read."""
    question = (
        f"SELECT rowid, {', '.join(one.name for one in columns)} FROM {table} NOT INDEXED "
        "WHERE rowid BETWEEN ? AND ? ORDER BY rowid"
    )
    rows: dict[int, Row] = {}
    spans = deque([_ROWIDS])
    for _ in range(_MOST_READINGS):
        if not spans:
            break
        left: Span | None = spans.popleft()
        for way in (1, -1):
            left = left and _read_on(file, question, left, way, rows)
        if left and left[0] < left[1]:
            middle = sum(left) // 2
            spans += [(left[0], middle), (middle + 1, left[1])]
    return [rows[rowid] for rowid in sorted(rows)]


def _read_on(
    file: sqlite3.Connection, question: str, span: Span, way: int, rows: dict[int, Row]
) -> Span | None:
    """Read the rows of a span up (1) or down (-1) to the first that can't be read, or comes out of
    order: what is left of the span then, None where that is nothing."""
    least, most = span
    try:
        for rowid, *row in file.execute(f"{question} {'ASC' if way > 0 else 'DESC'}", span):
            if not least <= rowid <= most:
                return least, most
            rows[rowid] = tuple(row)
            least, most = (rowid + 1, most) if way > 0 else (least, rowid - 1)
    except DAMAGE:
        return (least, most) if least <= most else None
    return None


def _mend_references(fresh: sqlite3.Connection) -> None:
    """What belongs to a learner who can't be read gets one without a name; what belongs to a
    sitting that can't be read goes, since nobody knows whose it was."""
    for table, at in (("sitting", "began"), ("lesson", "''")):
        fresh.execute(
            "INSERT OR IGNORE INTO learner (id, nickname, picture, settings, created) "
            f"SELECT learner, ?, 'newcomer', '', {at} FROM {table} "
            "WHERE learner NOT IN (SELECT id FROM learner)",
            (_NOBODY,),
        )
    for table in ("attempt", "flash_run"):
        fresh.execute(f"DELETE FROM {table} WHERE sitting NOT IN (SELECT id FROM sitting)")
