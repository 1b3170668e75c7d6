"""The backups of a folder: of which day each is, and how many children it holds."""

import re
from collections.abc import Iterable
from concurrent.futures import Future
from datetime import date
from functools import partial
from pathlib import Path
from typing import NamedTuple

from frame.aside import Aside
from frame.course.own import own_files
from frame.language.catalogue import Words
from frame.learner.merging import Held, look_into
from frame.screens.parts.days import day_text

SUFFIX = ".sqlite"
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class Backup(NamedTuple):
    """A file with learners, its day, and how many there are; None where that can't be read."""

    path: Path
    day: date
    children: int | None


class BackupList:
    """The learners' files of a folder, the newest first; any others are none of ours. A file is
    looked into beside the window's thread, once and whenever it has changed."""

    def __init__(self, folder: Path, aside: Aside) -> None:
        self.folder, self.aside = folder, aside
        self.shown: tuple[Backup, ...] = ()
        self._looks: dict[tuple[Path, object], Future[Held | None]] = {}

    @property
    def is_looking(self) -> bool:
        """Whether a file is still to be looked into."""
        return not all(look.done() for look in self._looks.values())

    def look(self) -> None:
        """See which files there are, and what is known of them by now."""
        before = self._looks
        marks = [(path, _mark(path)) for path in own_files(self.folder, (SUFFIX,))]
        self._looks = {
            mark: before.get(mark) or self.aside.do(partial(look_into, mark[0])) for mark in marks
        }
        for mark in before.keys() - self._looks.keys():
            before[mark].cancel()
        done = {path: look.result() for (path, _), look in self._looks.items() if look.done()}
        self.shown = newest_first(
            Backup(path, day_of(path), held.children) for path, held in done.items() if held
        )

    def leave(self) -> None:
        """What is not looked into yet need not be."""
        for look in self._looks.values():
            look.cancel()


def newest_first(backups: Iterable[Backup]) -> tuple[Backup, ...]:
    """By the day; of those of one day, which came by name and number, the last one first."""
    return tuple(sorted(backups, key=lambda one: one.day))[::-1]


def day_of(path: Path) -> date:
    """The day in a file's name, which copies keep; without one, that of its last change."""
    for text in _DAY.findall(path.name):
        try:
            return date.fromisoformat(text)
        except ValueError:
            continue
    try:
        return date.fromtimestamp(path.stat().st_mtime)
    except (OSError, OverflowError, ValueError):
        return date.min


def _mark(path: Path) -> tuple[int, int] | None:
    """When a file was last changed, in nanoseconds, and its length; None where it is gone."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size


def backup_text(words: Words, one: Backup, *, is_newest: bool) -> str:
    """The day of a backup, and how many it holds."""
    day = day_text(words, one.day)
    if is_newest:
        day = words.text("two_computers.newest", day=day)
    if one.children is None:
        return words.text("two_computers.holds_unknown", day=day)
    if one.children == 1:
        return words.text("two_computers.holds_one", day=day)
    return words.text("two_computers.holds", day=day, count=one.children)
