"""What can be saved of a damaged file: every row that can still be read, and what the good copy has
besides.

SQLite reads a table up to the first page that is damaged, and nothing where the header is. So the
header is made anew, a table is read from both ends, and what lies between is halved and read again,
down to single rows, as long as that leads to any. Rows go on to the fresh file as they are read, in
their order, since those of a school in five years would fill the memory.
"""

import shutil
import sqlite3
from collections.abc import Generator, Iterator
from contextlib import closing, suppress
from itertools import filterfalse
from math import isqrt
from pathlib import Path
from typing import Any, NamedTuple

from frame.learner.copies import Copies, UnderWay, make_private
from frame.learner.mending import mend_references
from frame.learner.persons import count_children
from frame.learner.schema import (
    SCHEMA,
    Column,
    Columns,
    bring_up_to_date,
    build,
    columns_of,
    version_by_columns,
    version_of,
)
from frame.learner.trouble import DAMAGE

_LEAST_BYTES = 4096
"""The first page of SQLite's usual size, which tells of the tables alone."""
_ROWIDS = 1, 2**63 - 1
_HALVINGS = 8
"""So often is halved in a row what no row is found in: a table of which nothing can be read costs a
fifth of a second, and single good pages are found among hundreds of damaged ones."""
_KINDS: dict[str, tuple[type, ...]] = {
    "TEXT": (str,),
    "INTEGER": (int,),
    "REAL": (int, float),
    "BLOB": (bytes,),
}

_LOST = "\ufffd"
"""What Python reads for bytes that are none of a text."""
_HEADER = 100
_CHANGED_AT, _PAGES, _COUNTED_AT = slice(24, 28), slice(28, 32), slice(92, 96)
"""The database header, from https://www.sqlite.org/fileformat2.html#the_database_header: the pages
count where the number beside them is that of the last change."""

_INTERIOR = 5
"""The kind of a page of a table that leads to others."""

_SMALL, _FEW_PAGES = 1 << 26, 64
"""A file of so many bytes may have been as large as its header says; of one whose header can't be
believed so many pages may be lost at its end."""

Row = tuple[Any, ...]
Span = tuple[int, int]


class Saved(NamedTuple):
    """How many children and exercises were saved, and where the damaged file lies now; None where
    there was none any more, and all is from the good copy."""

    learners: int
    attempts: int
    aside: Path | None


def salvage(copies: Copies) -> Saved:
    """Put in the place of a file that is damaged or gone one of what can be read of it and of the
    good copy; the damaged one lies beside it then. Raises OSError or sqlite3.Error where that
    can't be written; then all is as it was."""
    fresh_path = copies.beside(UnderWay.SAVED)
    fresh_path.unlink(missing_ok=True)
    make_private(fresh_path)
    with closing(sqlite3.connect(fresh_path)) as fresh:
        for source, broken in _sources(copies):
            with fresh:
                fresh.execute("BEGIN")
                _take(source, copies.beside(UnderWay.READ), fresh, broken=broken)
        bring_up_to_date(fresh)
        with fresh:
            mend_references(fresh)
        learners = count_children(fresh)
        (attempts,) = fresh.execute("SELECT count(*) FROM attempt").fetchone()
    return Saved(learners, attempts, copies.put_in_place(fresh_path))


def _sources(copies: Copies) -> Iterator[tuple[Path, bool]]:
    """What is read, one after the other, and whether rows with broken text are taken: from the
    damaged file only those that the good copy lacks."""
    if copies.good.exists():
        yield copies.path, False
        yield copies.good, True
    yield copies.path, True


def _take(source: Path, readable: Path, fresh: sqlite3.Connection, *, broken: bool) -> None:
    """Put what can be read of a file into a fresh one, by way of a copy with a good header; rows
    with broken text, too, where these are better than none."""
    if not source.exists() or source.stat().st_size <= _LEAST_BYTES:
        return
    try:
        make_private(readable)
        _copy_with_good_header(source, readable)
        if not _has_schema(readable):
            _put_schema(readable)
        with closing(sqlite3.connect(readable)) as file:
            file.text_factory = lambda text: text.decode(errors="replace")
            _put(file, fresh, broken=broken)
    finally:
        readable.unlink(missing_ok=True)


def _copy_with_good_header(source: Path, readable: Path) -> None:
    """A copy with the header that every file of ours has, and as many pages as are there, or of a
    file that was cut off, as were: SQLite reads nothing of one that lacks the first page of a
    table."""
    with closing(sqlite3.connect(":memory:")) as empty:
        build(empty, 1)
        page = empty.execute("PRAGMA page_size").fetchone()[0]
        header = bytearray(empty.serialize()[:_HEADER])
    shutil.copyfile(source, readable)
    with readable.open("r+b") as file:
        were = int.from_bytes(file.read(_HEADER)[_PAGES], "big")
        there = file.seek(0, 2) // page
        can_be = were * page <= max(4 * there * page, _SMALL)
        pages = max(there, were if can_be else there + _FEW_PAGES)
        # Of a page that was cut the rows would be read with what is lost as zeros.
        file.truncate(there * page)
        file.truncate(pages * page)
        header[_PAGES] = pages.to_bytes(4, "big")
        header[_COUNTED_AT] = header[_CHANGED_AT]
        file.seek(0)
        file.write(header)


def _has_schema(readable: Path) -> bool:
    with closing(sqlite3.connect(readable)) as file, suppress(*DAMAGE):
        columns_of(file)
        return True
    return False


def _put_schema(readable: Path) -> None:
    """Lay the pages that tell of the tables over those of a file that can't be read without. They
    are the same in every file that was begun in this version; in an older one tables may begin on
    other pages, and what is found there does not fit."""
    with closing(sqlite3.connect(":memory:")) as empty:
        build(empty, SCHEMA)
        size, image = empty.execute("PRAGMA page_size").fetchone()[0], empty.serialize()
    with readable.open("r+b") as file:
        for page in _schema_pages(image):
            begin = _HEADER if page == 1 else 0
            at = size * (page - 1)
            file.seek(at + begin)
            file.write(image[at + begin : at + size])


def _schema_pages(image: bytes) -> list[int]:
    """The numbers of the pages that tell of the tables: the first one, and where it has no more
    room those that it leads to, from https://www.sqlite.org/fileformat2.html#b_tree_pages."""
    kind, cells = image[_HEADER], int.from_bytes(image[_HEADER + 3 : _HEADER + 5], "big")
    if kind != _INTERIOR:
        return [1]
    pointers = range(_HEADER + 12, _HEADER + 12 + 2 * cells, 2)
    places = [int.from_bytes(image[at : at + 2], "big") for at in pointers]
    children = [int.from_bytes(image[at : at + 4], "big") for at in (*places, _HEADER + 8)]
    return [1, *children]


def _put(file: sqlite3.Connection, fresh: sqlite3.Connection, *, broken: bool) -> None:
    """Put what a file holds into a fresh one that lacks it. Of the two the one of the earlier
    version is brought to that of the other, for what has new columns is more than its values."""
    found = _columns_found(file)
    if version_by_columns(found) < version_of(fresh):
        _make_newer(file, version_by_columns(found))
        found = _columns_found(file)
    build(fresh, version_by_columns(found))
    for table, columns in columns_of(fresh).items():
        known = {column.name: column for column in columns}
        kept = [known[one.name] for one in found.get(table, ()) if one.name in known]
        if kept:
            rows = _fitting_rows(file, table, kept)
            taken = rows if broken else filterfalse(_is_broken, rows)
            fresh.executemany(_putting(table, kept), taken)


def _columns_found(file: sqlite3.Connection) -> Columns:
    with suppress(*DAMAGE):
        return columns_of(file)
    return {}


def _make_newer(file: sqlite3.Connection, version: int) -> None:
    """Bring a file of this version, which the header that it was given does not tell, up to date;
    one that is too damaged for that stays as it is."""
    with suppress(*DAMAGE):
        file.execute(f"PRAGMA user_version = {version}")
        bring_up_to_date(file)


def _is_broken(row: Row) -> bool:
    """Whether a text of a row has bytes that are none of a text."""
    return any(isinstance(value, str) and _LOST in value for value in row)


def _putting(table: str, columns: list[Column]) -> str:
    places = ", ".join("?" * len(columns))
    return f"INSERT OR IGNORE INTO {table} ({_names(columns)}) VALUES ({places})"


def _names(columns: list[Column]) -> str:
    return ", ".join(column.name for column in columns)


def _fitting_rows(file: sqlite3.Connection, table: str, columns: list[Column]) -> Iterator[Row]:
    """The rows of a table that can be read, with values of the kinds that they should have."""
    question = (
        f"SELECT rowid, {_names(columns)} FROM {table} NOT INDEXED "
        "WHERE rowid BETWEEN ? AND ? ORDER BY rowid"
    )
    for row in _rows(file, question, _ROWIDS):
        if all(map(_fits, row, columns)):
            yield row


def _fits(value: object, column: Column) -> bool:
    """Whether a value is of the kind that its column holds."""
    if value is None:
        return not column.is_needed
    return isinstance(value, _KINDS[column.kind])


def _rows(
    file: sqlite3.Connection, question: str, span: Span, halvings: int = _HALVINGS
) -> Iterator[Row]:
    """Every row of a span that can be read, in order; where none is found, the span is halved so
    many times more."""
    most = span[1]
    if span[0] > most:
        return
    least = yield from _read_up(file, question, span)
    if least > most:
        return
    top = _lowest_from_above(file, question, (least, most))
    left = halvings if (least, top - 1) == span else _HALVINGS
    if left and least < top - 1:
        # Rows are numbered from 1 on: half of the numbers that there may be is far beyond all.
        middle = isqrt(least * (top - 1))
        yield from _rows(file, question, (least, middle), left - 1)
        yield from _rows(file, question, (middle + 1, top - 1), left - 1)
    if top <= most and (rest := (yield from _read_up(file, question, (top, most)))) <= most:
        # The way to a page from below is damaged, and not the page.
        from_above = file.execute(f"{question} DESC", (rest, most)).fetchall()
        yield from (tuple(row) for _, *row in reversed(from_above))


def _read_up(file: sqlite3.Connection, question: str, span: Span) -> Generator[Row, None, int]:
    """The rows of a span up to the first that can't be read, or comes out of order; the answer is
    the rowid from which on rows are left, beyond the span where none are."""
    least, most = span
    with suppress(*DAMAGE):
        for rowid, *row in file.execute(f"{question} ASC", span):
            if not least <= rowid <= most:
                return least
            least = rowid + 1
            yield tuple(row)
        return most + 1
    return least


def _lowest_from_above(file: sqlite3.Connection, question: str, span: Span) -> int:
    """The rowid from which on all can be read to the end of a span; beyond it where none can."""
    lowest = span[1] + 1
    with suppress(*DAMAGE):
        for rowid, *_ in file.execute(f"{question} DESC", span):
            if not span[0] <= rowid < lowest:
                break
            lowest = rowid
    return lowest
