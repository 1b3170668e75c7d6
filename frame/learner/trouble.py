"""What can be wrong with the learners' file."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path

UNREADABLE = (sqlite3.Error, UnicodeError)
"""What is raised of a file that SQLite can't read; where its message quotes what is damaged, Python
can't read the message."""
DAMAGE = (*UNREADABLE, ValueError, OverflowError, TypeError)
"""What reading a file may raise whose bytes are not as they were written."""


class Trouble(StrEnum):
    """Why the file can't be used."""

    HELD = "held"
    """Another process holds it; soon it may not."""
    FULL = "full"
    """The disk has no room, or no more for this user."""
    CLOSED = "closed"
    """It may not be read or written here."""
    NEWER = "newer"
    """A newer version of the tool wrote it."""
    FOREIGN = "foreign"
    """It is no file of the tool."""
    MISSING = "missing"
    """There is no file at the place."""
    TAKEN = "taken"
    """There is something at the place already."""
    DAMAGED = "damaged"
    """Its bytes are not as they were written."""
    GONE = "gone"
    """What is written belongs to somebody who was removed meanwhile."""
    OTHER = "other"


OF_OTHERS = frozenset({Trouble.FOREIGN, Trouble.MISSING, Trouble.TAKEN})
"""What can be wrong with another file alone, which is to be read or written beside this one."""


class StoreError(Exception):
    """The file can't be used: where it is, None for one in memory, what was found, and the kind of
    trouble."""

    def __init__(self, where: Path | None, found: str, trouble: Trouble = Trouble.OTHER) -> None:
        super().__init__(f"{where}: {found}")
        self.where, self.found, self.trouble = where, found, trouble


_OF_CODE = {
    sqlite3.SQLITE_BUSY: Trouble.HELD,
    sqlite3.SQLITE_LOCKED: Trouble.HELD,
    sqlite3.SQLITE_FULL: Trouble.FULL,
    sqlite3.SQLITE_READONLY: Trouble.CLOSED,
    sqlite3.SQLITE_CANTOPEN: Trouble.CLOSED,
    sqlite3.SQLITE_PERM: Trouble.CLOSED,
    sqlite3.SQLITE_AUTH: Trouble.CLOSED,
    sqlite3.SQLITE_CONSTRAINT: Trouble.GONE,
    sqlite3.SQLITE_CORRUPT: Trouble.DAMAGED,
    sqlite3.SQLITE_NOTADB: Trouble.DAMAGED,
    sqlite3.SQLITE_IOERR: Trouble.OTHER,
    sqlite3.SQLITE_NOMEM: Trouble.OTHER,
    sqlite3.SQLITE_INTERRUPT: Trouble.OTHER,
}
_OF_ERRNO = {
    errno.ENOSPC: Trouble.FULL,
    errno.EFBIG: Trouble.FULL,
    errno.EDQUOT: Trouble.FULL,
    errno.EACCES: Trouble.CLOSED,
    errno.EPERM: Trouble.CLOSED,
    errno.EROFS: Trouble.CLOSED,
    errno.ENOTDIR: Trouble.CLOSED,
}


def trouble_of(error: Exception) -> Trouble:
    """What is wrong, by what SQLite, the system or a reader of rows says. What is not known to be
    anything else, and comes from the bytes themselves, is damage."""
    if isinstance(error, OSError):
        return _OF_ERRNO.get(error.errno or 0, Trouble.OTHER)
    code = getattr(error, "sqlite_errorcode", None)
    if code == sqlite3.SQLITE_IOERR_WRITE:  # So SQLite tells of a quota that is used up.
        return Trouble.FULL
    if code is None:
        return Trouble.OTHER if isinstance(error, sqlite3.ProgrammingError) else Trouble.DAMAGED
    return _OF_CODE.get(code & 0xFF, Trouble.DAMAGED)


@contextmanager
def told_of(path: Path) -> Iterator[None]:
    """Raises what goes wrong with a file at the path as a StoreError."""
    try:
        yield
    except (OSError, *UNREADABLE) as error:
        found = (isinstance(error, OSError) and error.strerror) or str(error)
        raise StoreError(path, found, trouble_of(error)) from error
