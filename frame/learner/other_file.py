"""Another file than the one of this computer: whether it is one of the tool's, what it holds, and a
copy of it. It is only read.
"""

import os
import shutil
import sqlite3
import sys
from contextlib import closing, suppress
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from frame.learner.copies import copy_open, journal_of
from frame.learner.datafile import is_sound
from frame.learner.nickname import nickname_of
from frame.learner.persons import count_children
from frame.learner.schema import TABLES
from frame.learner.trouble import UNREADABLE, StoreError, Trouble, trouble_of

_OURS = b"CREATE TABLE learner (", b"CREATE TABLE attempt ("
"""One of them stands in every file of ours, however damaged, of which anything can be read."""
_BEGINS = b"SQLite format 3\0"
"""From https://www.sqlite.org/fileformat2.html#the_database_header."""
_TEXT_AT, _IS_UTF_8 = 56, (1).to_bytes(4, "big")
"""Where the same says how text is written, and that it is as in every file of ours. Where it says
nothing known, SQLite reads a file all the same, but not beside another one."""
_PIECE = 1 << 20
"""Bytes that are read at once."""


def is_ours(path: Path, most: int = sys.maxsize) -> bool:
    """Whether anything can be read of it, in so many bytes, that a file of ours has; one of which
    SQLite can tell that it has none of our tables is not read for that."""
    if _has_others_tables(path):
        return False
    before, left = b"", most
    with path.open("rb") as file:
        while left > 0 and (piece := file.read(_PIECE)):
            if any(one in before + piece for one in _OURS):
                return True
            before, left = piece[-len(_OURS[0]) :], left - len(piece)
    return False


def _has_others_tables(path: Path) -> bool:
    """Whether SQLite can read which tables a file has, and finds others alone."""
    with (
        suppress(*UNREADABLE),
        closing(sqlite3.connect(_read_only(path), timeout=0, uri=True)) as file,
    ):
        names = {name for (name,) in file.execute("SELECT name FROM sqlite_master")}
        return bool(names) and names.isdisjoint(TABLES)
    return False


def nothing_in(path: Path) -> StoreError:
    """Why there is nothing to take in: it is a file of SQLite's that is damaged or was cut off, or
    none of ours."""
    trouble = Trouble.DAMAGED if _is_broken(path) else Trouble.FOREIGN
    return StoreError(path, "no learners that can be read", trouble)


def _is_broken(path: Path) -> bool:
    with path.open("rb") as file:
        if file.read(len(_BEGINS)) != _BEGINS:
            return False
    try:
        with closing(sqlite3.connect(_read_only(path), uri=True)) as database:
            return not is_sound(database, "quick_check")
    except UNREADABLE as error:
        return trouble_of(error) is Trouble.DAMAGED


def copy_closed(path: Path, copy: Path, patience: float) -> None:
    """Copy a file as it is at one moment, also under an open window; one that SQLite can't read
    byte by byte, with what belongs to it."""
    try:
        with closing(sqlite3.connect(_read_only(path), timeout=patience, uri=True)) as file:
            copy_open(file, copy)
    except UNREADABLE as error:
        if trouble_of(error) in (Trouble.HELD, Trouble.FULL):
            raise
        shutil.copyfile(path, copy)
        with suppress(FileNotFoundError):
            shutil.copyfile(journal_of(path), journal_of(copy))
    with copy.open("r+b") as file:
        file.seek(_TEXT_AT)
        file.write(_IS_UTF_8)


def _read_only(path: Path) -> str:
    """The name by which SQLite opens a file and leaves it as it is."""
    absolute = path.absolute().as_posix()
    rooted = absolute if absolute.startswith("/") else f"/{absolute}"
    return f"file://{quote(os.fsencode(rooted))}?mode=ro"


# What is told of it before it is taken in

_LOOK_PATIENCE = 1.0
"""Seconds that a file is waited for which another program holds."""
_MOST_LOOKED_AT = 1 << 28
"""Bytes of a file that SQLite can't read: a fifth of a second or less."""


class Held(NamedTuple):
    """How many children a file holds, None where that can't be read, and the name of one who is
    alone in it."""

    children: int | None
    name: str | None = None


def look_into(path: Path) -> Held | None:
    """What a file of ours holds, which is left as it is; None where it is none, or can't be read.
    Raises nothing."""
    try:
        with closing(sqlite3.connect(_read_only(path), timeout=_LOOK_PATIENCE, uri=True)) as file:
            count = count_children(file)
            return Held(count, _name_in(file) if count == 1 else None)
    except UNREADABLE:
        with suppress(OSError):
            return Held(None) if is_ours(path, _MOST_LOOKED_AT) else None
    return None


def _name_in(file: sqlite3.Connection) -> str | None:
    """The name of the only child in a file, under several ids the one that was given last."""
    (ids,) = file.execute("SELECT count(*) FROM learner").fetchone()
    order = "ORDER BY named DESC" if ids > 1 else ""  # Older versions lack the time, and ids.
    (name,) = file.execute(f"SELECT nickname FROM learner {order} LIMIT 1").fetchone()
    return nickname_of(name, "") or None if isinstance(name, str) else None
