"""The one SQLite file on this computer: opened with care, written a transaction at a time.

SQLite's usual rollback journal (DELETE) and full synchronisation (FULL) are left as they are: what
is written is on disk. A transaction is written for each exercise, when the beads have come to rest
or the lesson goes on, so that no glide stutters.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from frame.learner.schema import SCHEMA, bring_up_to_date, version_of


class StoreError(Exception):
    """The file can't be used: where it is and what was found; `is_newer` when it was written by
    a newer version of the tool, else it can't be read or written."""

    def __init__(self, where: Path, found: str, is_newer: bool = False) -> None:
        super().__init__(f"{where}: {found}")
        self.where, self.found, self.is_newer = where, found, is_newer


class DataFile:
    """The open file."""

    def __init__(self, path: Path) -> None:
        """Open or make the file at `path`.

        A file that is no database is moved aside, never written over. Raises StoreError for a
        file of a newer version, or a place that cannot be written.
        """
        self.path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            self._database = self._open()
        except (OSError, sqlite3.Error) as error:
            raise StoreError(path, str(error)) from error

    def _open(self) -> sqlite3.Connection:
        try:
            return self._connect()
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError):
                raise
            self.path.rename(_free_name(self.path))
            return self._connect()

    def _connect(self) -> sqlite3.Connection:
        database = sqlite3.connect(self.path, timeout=5)
        try:
            self._prepare(database)
        except BaseException:
            database.close()
            raise
        return database

    def _prepare(self, database: sqlite3.Connection) -> None:
        # A damaged letter costs a letter, and not all that stands beside it.
        database.text_factory = lambda text: text.decode(errors="replace")
        database.execute("PRAGMA foreign_keys = ON")
        database.execute("PRAGMA secure_delete = ON")
        if database.execute("PRAGMA quick_check").fetchone()[0] != "ok":
            raise sqlite3.DatabaseError("damaged")
        if (version := version_of(database)) > SCHEMA:
            raise StoreError(self.path, str(version), is_newer=True)
        bring_up_to_date(database)

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction. Raises StoreError when it can't be written; then nothing is."""
        try:
            with self._database as database:
                yield database
        except sqlite3.Error as error:
            raise StoreError(self.path, str(error)) from error

    def close(self) -> None:
        """Close the file."""
        self._database.close()


def _free_name(path: Path) -> Path:
    """A name beside `path` that nothing has yet."""
    number = 1
    while (aside := path.with_suffix(f".unreadable-{number}")).exists():
        number += 1
    return aside
