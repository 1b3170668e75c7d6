"""The one SQLite file on this computer: opened with care, written a transaction at a time.

SQLite's usual rollback journal (DELETE) and full synchronisation (FULL) are left as they are: what
is written is on disk. A transaction is written for each exercise, when the beads have come to rest
or the lesson goes on, so that no glide stutters. A window never waits long for a file that another
process holds: it is told so, and tries again.

A file is checked whole before it is used where that takes no time, or where a window did not come
to its end; else beside the window (`check`). Of one that is not known to be sound no copy is made.
"""

import os
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from frame.learner.copies import Copies, copy_open, make_private
from frame.learner.salvage import Saved, salvage
from frame.learner.schema import SCHEMA, bring_up_to_date, has_all_columns, version_of
from frame.learner.trouble import DAMAGE, UNREADABLE, StoreError, Trouble, trouble_of

PATIENCE = 0.05
"""Seconds that a window waits for a file which another process holds: three pictures."""


CHECKED_AT_ONCE = 16_000_000
"""A file of so many bytes is checked in about a seventh of a second."""

_FAR_FUTURE = 1000
"""No version of the tool writes such a schema; the bytes that tell it are damaged."""


class DataFile:
    """The open file. `saved` tells what could be saved where it was found damaged or gone."""

    def __init__(
        self, path: Path | None, patience: float = PATIENCE, *, is_second: bool = False
    ) -> None:
        """Open or make the file at `path`, for this user's eyes alone; with None all is kept in
        memory, and gone with the process. One that `is_second` is opened beside another, which
        has checked it and keeps its copies.

        A damaged file is moved aside, never written over, and what can be read of it is saved;
        one that is gone, or empty, comes back from its good copy. Raises StoreError for a file of
        a newer version, one that is held, or a place that cannot be written.
        """
        self.path = path
        self.patience = patience
        self.copies = Copies(path) if path and not is_second else None
        self._is_second = is_second
        self.saved: Saved | None = None
        self.is_damaged = False
        """Whether it was found damaged while it is open. Opened anew, it is saved."""
        self._is_sound = False
        self._must_reopen = False
        self._was_left_open = self.copies is not None and self.copies.was_left_open
        with self._told():
            self._database = self._open()
        if self.copies is not None:
            self.copies.mark_open()
        self._is_open = True
        self._unchanged: int | None = self._database.total_changes

    def _open(self) -> sqlite3.Connection:
        try:
            if self.copies is not None:
                if self.copies.is_needed:
                    self.saved = salvage(self.copies)
                make_private(self.copies.path)
            return self._connect()
        except DAMAGE as error:
            if self.copies is None or trouble_of(error) is not Trouble.DAMAGED:
                raise
            self.saved = salvage(self.copies)
            return self._connect()

    def _connect(self) -> sqlite3.Connection:
        database = sqlite3.connect(self.path or ":memory:", timeout=self.patience)
        try:
            opened = self._identity()
            self._prepare(database)
        except BaseException:
            database.close()
            raise
        self._opened = opened
        return database

    def _prepare(self, database: sqlite3.Connection) -> None:
        # A damaged letter costs a letter, and not all that stands beside it.
        database.text_factory = lambda text: text.decode(errors="replace")
        database.execute("PRAGMA foreign_keys = ON")
        database.execute("PRAGMA secure_delete = ON")
        if self._is_checked_at_once:
            if not is_sound(database, "integrity_check"):
                raise sqlite3.DatabaseError("damaged")
            self._is_sound = True
        version = version_of(database)
        if not 0 <= version < _FAR_FUTURE:
            raise sqlite3.DatabaseError("damaged")
        if version > SCHEMA:
            raise StoreError(self.path, str(version), Trouble.NEWER)
        bring_up_to_date(database)
        if not self._is_second and not has_all_columns(database):
            raise sqlite3.DatabaseError("columns are missing")

    @property
    def _is_checked_at_once(self) -> bool:
        if self._is_second:
            return False
        if self.path is None or self._was_left_open:
            return True
        return self.path.stat().st_size <= CHECKED_AT_ONCE

    @property
    def needs_check(self) -> bool:
        """Whether nobody knows yet that it is sound."""
        return not (self._is_sound or self.is_damaged)

    def check(self) -> None:
        """Check the file whole, on a connection of its own, so that it may be done beside the
        window. It takes a second or two for each gigabyte; where it can't be read, it is not
        known to be sound."""
        if self.path is None:
            return
        try:
            with closing(sqlite3.connect(self.path, timeout=self.patience)) as database:
                self._is_sound = is_sound(database, "quick_check")
                self.is_damaged = not self._is_sound
        except UNREADABLE as error:
            self.is_damaged = trouble_of(error) is Trouble.DAMAGED

    def _rows(self, question: str, facts: Sequence[object] = ()) -> list[tuple[Any, ...]]:
        """All rows of an answer. Raises StoreError."""
        with self._told():
            self._stay_with_file()
            return self._database.execute(question, facts).fetchall()

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction. Raises StoreError when it can't be written; then nothing is."""
        with self._told():
            self._stay_with_file()
            with self._database as database:
                yield database

    @contextmanager
    def writing_beside(self, other: Path) -> Iterator[sqlite3.Connection]:
        """One transaction that also sees another file, under the name `other`. Raises StoreError;
        then nothing is written."""
        with self._told():
            self._stay_with_file()
            # As bytes, for a path need not be text.
            self._database.execute("ATTACH ? AS other", (os.fsencode(other),))
            try:
                with self._database as database:
                    yield database
            finally:
                self._database.execute("DETACH other")

    def copy_to(self, fresh: Path) -> None:
        """Copy all that is kept, as it is at one moment, into a file that is empty. Raises
        StoreError."""
        with self._told():
            self._stay_with_file()
            copy_open(self._database, fresh)

    def _stay_with_file(self) -> None:
        """Open the file anew where it could not be written, which SQLite would believe for ever,
        or where another window has put a mended one in its place; one that was removed is put back
        first, for what SQLite writes then is nowhere. Raises OSError or sqlite3.Error where it
        can't be."""
        if self.path is None:
            return
        if (there := self._identity()) is None:
            self._put_back()
        if self._must_reopen or there != self._opened:
            fresh = self._connect()
            self._database.close()
            self._database, self._must_reopen, self._unchanged = fresh, False, None

    def _put_back(self) -> None:
        """Put the file where it was, with all that it held: whoever has it open can read it even
        when it is removed. With its folder all was to be deleted, and nothing is put back."""
        if self.copies is None:
            raise FileNotFoundError(f"no file at {self.path}")
        with self.copies.fresh_copy(self._database) as fresh:
            fresh.replace(self.copies.path)

    def _identity(self) -> tuple[int, int] | None:
        """What tells the file at the path from any other; None where there is none. Raises OSError
        where nobody can tell."""
        try:
            found = self.path.stat() if self.path else None
        except FileNotFoundError:
            return None
        return (found.st_dev, found.st_ino) if found else None

    @contextmanager
    def _told(self) -> Iterator[None]:
        """What goes wrong with the file is a StoreError."""
        try:
            yield
        except (OSError, *UNREADABLE) as error:
            trouble = trouble_of(error)
            self._must_reopen = trouble is Trouble.CLOSED
            raise StoreError(self.path, str(error), trouble) from error

    def forget_beside(self) -> None:
        """What was removed goes from what lies beside the file, too. Raises StoreError."""
        if self.copies is not None:
            with self._told():
                self.copies.forget(self._database)

    def forget_removed(self) -> None:
        """The same, where anything beside the file holds what was removed. Raises StoreError."""
        if self.copies is not None and self.copies.holds_removed(self._database):
            self.forget_beside()

    def close(self) -> None:
        """Close the file, with a good copy beside it of what was written."""
        if not self._is_open:
            return
        self._is_open = False
        has_changed = self._database.total_changes != self._unchanged
        if self.copies is not None and has_changed and self._is_sound:
            self.copies.keep(self._database)
        self._database.close()
        if self.copies is not None:
            self.copies.mark_closed(in_peace=not self.is_damaged)


def is_sound(database: sqlite3.Connection, check: str) -> bool:
    """Whether a file passes SQLite's `integrity_check` or, sooner, `quick_check`. Raises
    sqlite3.Error."""
    answer: str = database.execute(f"PRAGMA {check}(1)").fetchone()[0]
    return answer == "ok"
