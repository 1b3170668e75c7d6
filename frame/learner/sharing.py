"""A folder that several computers share, as on a network drive: each writes one file of its own
there and reads those of the others.

SQLite never opens a file in the folder. What this computer has is copied beside its own file,
sealed by a digest of it at its end, and put in place there by one renaming; another's file is
copied here before anything reads it, and what its seal does not fit is left aside and tried again.
So it makes no difference how many write at once, nor when the drive goes away: what was done is in
the file here, and goes the next time.
"""

import os
import platform
import re
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from frame.learner.copies import UnderWay
from frame.learner.ids import id_of
from frame.learner.merging import merge
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble, told_of

_NAME = re.compile(r"bead-frame-[0-9a-f]{32}\.shared")
_PIECE = 1 << 20
"""Bytes that are copied at once."""
_LEFT_OVER = 3600.0
"""Seconds after which what a process left half written is nobody's any more."""

Stamp = tuple[int, int]
"""When a file was changed, in nanoseconds, and its size."""


class LeftAside(NamedTuple):
    """A file in the folder that can't be taken in now, and why."""

    name: str
    trouble: Trouble


class Shared(NamedTuple):
    """What came of it: how many other computers have a file there, which of their files were left
    aside, whether anything came that was not here, and the stamp of the file that was written
    there."""

    computers: int = 0
    left: tuple[LeftAside, ...] = ()
    is_new: bool = False
    written: Stamp | None = None


def own_name(store: Store) -> str:
    """What the file of this computer is called there. The computer and the place are part of it, so
    that no copy of the learners' file on another one has the same. Raises StoreError."""
    return f"bead-frame-{id_of(store.computer_id(), platform.node(), store.path)}.shared"


def share(store: Store, folder: Path, written: Stamp | None, now: datetime) -> Shared:
    """Take in what others have in the folder and is not here, then put a copy of all that is kept
    there, unless that was `written`. Raises StoreError where the folder can't be used, or the file
    here can't; what was taken in until then stays."""
    with told_of(folder):
        if not folder.is_dir():
            raise StoreError(folder, "no folder", Trouble.MISSING)
        own = folder / own_name(store)
        others = sorted(one for one in folder.iterdir() if _NAME.fullmatch(one.name))
    seen, left, is_new = store.shared_seen(), list[LeftAside](), False
    others = [one for one in others if one != own]
    for path in others:
        try:
            stamp = _stamp(path)
            if seen.get(path.name) != stamp:
                is_new |= _take_in(store, path, stamp, now)
                store.keep_shared_seen(path.name, stamp)
        except StoreError as error:
            if error.where != path:
                raise
            left.append(LeftAside(path.name, error.trouble))
    return Shared(len(others), tuple(left), is_new, _put(store, own, written))


def take_away(own: Path) -> None:
    """The file of this computer goes from the folder, where that is there."""
    with suppress(OSError):
        own.unlink(missing_ok=True)


def _stamp(path: Path) -> Stamp:
    with told_of(path):
        found = path.stat()
        return found.st_mtime_ns, found.st_size


@contextmanager
def _workplace(store: Store) -> Iterator[Path]:
    """A folder beside the file here. Raises StoreError."""
    if store.copies is None:
        raise StoreError(store.path, "nowhere to keep anything", Trouble.OTHER)
    with told_of(store.copies.path), store.copies.workplace(UnderWay.SHARING) as place:
        yield place


def _take_in(store: Store, path: Path, stamp: Stamp, now: datetime) -> bool:
    """Take in another computer's file where it is whole; whether anything is other than before.
    Raises StoreError, which tells of that file where it is wrong with it."""
    with _workplace(store) as place:
        copy = place / "theirs.sqlite"
        with told_of(path):
            is_whole = _unseal(path, copy)
        if _stamp(path) != stamp:
            raise StoreError(path, "being written", Trouble.HELD)
        if not is_whole:
            raise StoreError(path, "not whole", Trouble.DAMAGED)
        try:
            return merge(store, copy, now).is_new
        except StoreError as error:
            if error.where != copy:
                raise
            raise StoreError(path, error.found, error.trouble) from error


def _seal(fresh: Path, target: Path) -> None:
    """Copy a file to where none is, with the digest of it at the end, and have it on the disk."""
    digest = sha256()
    with fresh.open("rb") as source, target.open("xb") as out:
        while piece := source.read(_PIECE):
            digest.update(piece)
            out.write(piece)
        out.write(digest.digest())
        out.flush()
        os.fsync(out.fileno())


def _unseal(path: Path, copy: Path) -> bool:
    """Copy a sealed file without its seal; whether that fits it."""
    digest, left = sha256(), path.stat().st_size - sha256().digest_size
    with path.open("rb") as source, copy.open("xb") as out:
        while left > 0 and (piece := source.read(min(_PIECE, left))):
            digest.update(piece)
            out.write(piece)
            left -= len(piece)
        return source.read() == digest.digest()


def _put(store: Store, own: Path, written: Stamp | None) -> Stamp | None:
    """Put a copy there, unless all of it was; the stamp of what it is a copy of. Raises
    StoreError."""
    if store.path is None:
        return None
    if store.needs_check:
        store.check()
    if store.is_damaged:
        raise StoreError(store.path, "damaged", Trouble.DAMAGED)
    stamp = _stamp(store.path)
    with told_of(own.parent):
        if stamp == written and own.exists():
            return stamp
    with _workplace(store) as place:
        fresh = place / "ours.sqlite"
        store.copy_to(fresh)
        with closing(sqlite3.connect(fresh)) as file, file:
            file.execute("PRAGMA secure_delete = ON")
            for table in ("computer", "folded"):  # What is the computer's own, or made anew.
                file.execute(f"DELETE FROM {table}")
        _put_whole(fresh, own)
    return stamp


def _put_whole(fresh: Path, own: Path) -> None:
    """Give a whole file its place in one step. Raises StoreError, which tells of the folder."""
    part = own.with_name(f"{own.name}.part-{os.getpid()}")
    with told_of(own.parent):
        _sweep(own)
        try:
            part.unlink(missing_ok=True)
            _seal(fresh, part)
            part.replace(own)
        finally:
            with suppress(OSError):
                part.unlink(missing_ok=True)


def _sweep(own: Path) -> None:
    """What this computer once left half written there goes."""
    for left in own.parent.glob(f"{own.name}.part-*"):
        with suppress(OSError):
            if time.time() - left.stat().st_mtime > _LEFT_OVER:
                left.unlink()
