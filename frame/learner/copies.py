"""What lies beside the learners' file: a good copy of it, damaged ones that were set aside, and
while the file is open a mark, which stays where whoever opened it did not come to an end.

Windows and commands may have the file open side by side. Each holds the mark as a reader of SQLite
does, on every system and until its process ends in whatever way; the last one takes it away.

All of it is for the eyes of this user alone, and goes when a learner is removed.
"""

import contextlib
import os
import re
import shutil
import sqlite3
from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from threading import RLock

from frame.learner.trouble import UNREADABLE

_OWN_FOLDER, _OWN_FILE = 0o700, 0o600
_OTHERS = 0o077


def make_private(path: Path) -> None:
    """Make sure of the file and its folder, which no other user of the computer can read. On
    Windows a user's own folder is so already. Raises OSError where there can be none."""
    path.parent.mkdir(mode=_OWN_FOLDER, parents=True, exist_ok=True)
    if os.name == "posix":
        _close_to_others(path.parent, _OWN_FOLDER)
    make_private_file(path)


def make_private_file(path: Path) -> None:
    """The same for a file in a folder that may be open to others. Raises OSError."""
    with contextlib.suppress(FileExistsError):
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, _OWN_FILE))
    if os.name == "posix":
        _close_to_others(path, _OWN_FILE)


def copy_open(database: sqlite3.Connection, fresh: Path) -> None:
    """Copy an open file as it is at one moment into one that is empty. Raises sqlite3.Error."""
    with contextlib.closing(sqlite3.connect(fresh)) as copy, database:
        # Reading first: a backup would wait for ever where another process holds the file.
        database.execute("BEGIN")
        database.execute("SELECT count(*) FROM sqlite_master").fetchone()
        database.backup(copy)


def _close_to_others(path: Path, mode: int) -> None:
    if path.stat().st_mode & _OTHERS:
        # It may be somebody else’s, who shares it on purpose, or on a disk that is only read.
        with contextlib.suppress(OSError):
            path.chmod(mode)


def _length(path: Path) -> int:
    """How many bytes a file has; none where it is none."""
    try:
        return path.stat().st_size
    except OSError:
        return 0


def journal_of(path: Path) -> Path:
    """Where SQLite keeps what it writes over while a file is written."""
    return path.with_name(f"{path.name}-journal")


def remove_half_done(fresh: Path) -> None:
    """What was written for a while goes, and what SQLite left beside it where it had no room."""
    for path in (fresh, journal_of(fresh)):
        with contextlib.suppress(OSError):
            path.unlink(missing_ok=True)


def _is_running(process: int) -> bool:
    """Whether a process of this number is there; on Windows nobody is asked, for nothing that is in
    use can be removed there."""
    if os.name != "posix":
        return False
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        pass  # It is another user's.
    return True


class UnderWay(StrEnum):
    """What is written beside the path for a while, with the number of the process in its name."""

    FRESH = "fresh"
    SAVED = "saved"
    READ = "read"
    MERGING = "merging"
    SHARING = "sharing"


_ALONE = {what: RLock() for what in UnderWay}
"""Of two threads of this process, as both would have the same name, one waits for the other."""


class Copies:
    """The files beside the one at `path`."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.good = path.with_suffix(".good")
        self._mark = path.with_suffix(".open")
        self._held: sqlite3.Connection | None = None

    @property
    def is_needed(self) -> bool:
        """Whether there is nothing at the path any more, and a good copy of what was."""
        return not _length(self.path) and bool(_length(self.good))

    @property
    def was_left_open(self) -> bool:
        """Whether somebody had the file open and did not come to an end, or still has it open."""
        return self._mark.exists()

    def mark_open(self) -> None:
        """The file is open; where no mark can be made, there is none."""
        with contextlib.suppress(OSError, sqlite3.Error):
            make_private(self._mark)
            self._held = sqlite3.connect(self._mark, timeout=0)
            self._held.execute("BEGIN")
            self._held.execute("SELECT count(*) FROM sqlite_master").fetchone()

    def mark_closed(self, *, in_peace: bool) -> None:
        """The file was closed. In peace the mark goes, unless somebody else holds it."""
        if self._held is None:
            return
        held, self._held = self._held, None
        with contextlib.suppress(sqlite3.Error):
            held.rollback()
            held.execute("BEGIN EXCLUSIVE")
        is_alone = held.in_transaction
        held.close()
        if in_peace and is_alone:
            with contextlib.suppress(OSError):
                self._mark.unlink(missing_ok=True)

    @property
    def asides(self) -> Iterator[Path]:
        """What was set aside: damaged files, with what belongs to them, and copies of others."""
        return (path for path, _ in self._numbered("unreadable", "other"))

    def _half_done(self, *kinds: UnderWay) -> Iterator[Path]:
        """What a process that was killed left of what it wrote, or this one did."""
        for path, number in self._numbered(*kinds):
            if number == os.getpid() or not _is_running(number):
                yield path

    def _numbered(self, *kinds: str) -> Iterator[tuple[Path, int]]:
        """What lies beside the path under a name that is given here, and the number in it; whatever
        else is called much like it is somebody's own."""
        name = rf"{re.escape(self.path.stem)}\.(?:{'|'.join(kinds)})-([1-9][0-9]*)(?:-journal)?"
        for path in list(self.path.parent.iterdir()):
            if found := re.fullmatch(name, path.name):
                yield path, int(found[1])

    @contextlib.contextmanager
    def workplace(self, what: UnderWay = UnderWay.MERGING) -> Iterator[Path]:
        """A folder beside the path for as long as something is done in it; what a process that was
        killed left of such a one goes. Raises OSError."""
        with _ALONE[what]:
            for left in self._half_done(what):
                shutil.rmtree(left, ignore_errors=True)
            folder = self.beside(what)
            folder.mkdir(mode=_OWN_FOLDER)
            try:
                yield folder
            finally:
                shutil.rmtree(folder, ignore_errors=True)

    def beside(self, what: UnderWay) -> Path:
        """A name for a file that this process writes beside the one at the path."""
        return self.path.with_suffix(f".{what}-{os.getpid()}")

    @contextlib.contextmanager
    def fresh_copy(self, database: sqlite3.Connection) -> Iterator[Path]:
        """A copy of an open file beside the path, to be put where it belongs; else it goes. Raises
        OSError or sqlite3.Error."""
        fresh = self.beside(UnderWay.FRESH)
        with _ALONE[UnderWay.FRESH]:
            try:
                fresh.unlink(missing_ok=True)
                make_private_file(fresh)
                copy_open(database, fresh)
                yield fresh
            finally:
                remove_half_done(fresh)

    def put_in_place(self, fresh: Path) -> Path | None:
        """Put a fresh file in the place of the one that is damaged, which then lies under a name
        that nothing had; that name, or None where there was nothing. Raises OSError; then nothing
        is lost."""
        aside, was_there = self._free("unreadable"), bool(_length(self.path))
        if was_there:
            make_private(aside)
            shutil.copyfile(self.path, aside)
        # A journal that is left over would be played back into the fresh file.
        with contextlib.suppress(FileNotFoundError):
            journal_of(self.path).rename(journal_of(aside))
        fresh.replace(self.path)
        return aside if was_there else None

    def _free(self, what: str) -> Path:
        """A name beside the path that nothing has, nor a journal of it."""
        free, number = self.path.with_suffix(f".{what}-1"), 1
        while free.exists() or journal_of(free).exists():
            number += 1
            free = self.path.with_suffix(f".{what}-{number}")
        return free

    def holds_removed(self, database: sqlite3.Connection) -> bool:
        """Whether the good copy holds somebody who was removed from an open file, as where a
        process was killed that did so."""
        gone = database.execute("SELECT learner FROM gone WHERE at > back")
        return not self._known.isdisjoint(gone)

    def _has_others(self, database: sqlite3.Connection) -> bool:
        """Whether the good copy holds somebody who is neither in the file nor gone from it, so that
        it is the copy of another file."""
        here = database.execute("SELECT id FROM learner UNION SELECT learner FROM gone")
        return not self._known <= {*here}

    @property
    def _known(self) -> set[tuple[object]]:
        """The ids in the good copy, as rows."""
        if not _length(self.good):
            return set()
        try:
            with contextlib.closing(sqlite3.connect(self.good)) as copy:
                return {*copy.execute("SELECT id FROM learner")}
        except UNREADABLE:
            return set()

    def keep(self, database: sqlite3.Connection) -> None:
        """Keep a good copy of an open file, in place of the one before; where that can't be
        written, the one before stays."""
        with contextlib.suppress(OSError, *UNREADABLE), self.fresh_copy(database) as fresh:
            if self._has_others(database):
                self.good.replace(self._free("other"))
            fresh.replace(self.good)

    def forget(self, database: sqlite3.Connection) -> None:
        """What was removed from an open file goes from what lies beside it, too. Raises OSError."""
        for left in (*self.asides, *self._half_done(*UnderWay), self.good):
            if left.is_dir():
                shutil.rmtree(left)
            else:
                left.unlink(missing_ok=True)
        self.keep(database)
