"""The backups of a folder: of which day each is, and whom, or how many children, it holds."""

import re
from collections.abc import Iterable, Sequence
from concurrent.futures import Future
from contextlib import suppress
from datetime import date, datetime, time
from functools import partial
from pathlib import Path
from typing import NamedTuple

from frame.aside import Aside
from frame.course.own import own_files
from frame.language.catalogue import Words
from frame.language.days import day_text
from frame.learner.other_file import Held, look_into

SUFFIX = ".sqlite"
_NAME = "bead-frame-"
"""How the name of a backup begins that a window saves, before the day."""
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class Backup(NamedTuple):
    """A file with learners, its day, the time of its last change where that was on the same day,
    and what it holds."""

    path: Path
    day: date
    at: time | None
    held: Held


class BackupList:
    """The learners' files of a folder, the newest first, also those that are ours by their name
    alone; any others are none of ours. A file is looked into beside the window's thread, once and
    whenever it has changed."""

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
        done = {
            path: look.result() or _by_name(path)
            for (path, _), look in self._looks.items()
            if look.done()
        }
        self.shown = newest_first(_backup(path, held) for path, held in done.items() if held)

    def leave(self) -> None:
        """What is not looked into yet need not be."""
        for look in self._looks.values():
            look.cancel()


def newest_first(backups: Iterable[Backup]) -> tuple[Backup, ...]:
    """By the day; of those of one day, which came by name and number, the last one first."""
    return tuple(sorted(backups, key=lambda one: one.day))[::-1]


def backup_name(day: date) -> str:
    """What a backup of a day is called."""
    return f"{_NAME}{day}{SUFFIX}"


def _by_name(path: Path) -> Held | None:
    """What is called as a backup of ours is one, though nothing of it can be read."""
    is_ours = path.name.startswith(_NAME) and _day_in(path.name) is not None
    return Held(None) if is_ours else None


def _backup(path: Path, held: Held) -> Backup:
    """A file of the day in its name, which copies keep; without one, that of its last change."""
    changed = _changed(path)
    day = _day_in(path.name) or changed.date()
    return Backup(path, day, changed.time() if changed.date() == day else None, held)


def _changed(path: Path) -> datetime:
    """When a file was last changed, in the time of this place; long ago where nobody can tell."""
    try:
        return datetime.fromtimestamp(path.stat().st_mtime)
    except (OSError, OverflowError, ValueError):
        return datetime.min


def _day_in(name: str) -> date | None:
    for text in _DAY.findall(name):
        with suppress(ValueError):
            return date.fromisoformat(text)
    return None


def _mark(path: Path) -> tuple[int, int] | None:
    """When a file was last changed, in nanoseconds, and its length; None where it is gone."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size


def backup_text(words: Words, one: Backup, shown: Sequence[Backup]) -> str:
    """The day of one of those shown, with the time where others are of that day too, and how many
    it holds, or who is alone in it."""
    day, (count, name) = day_text(words, one.day), one.held
    if one.at is not None and sum(other.day == one.day for other in shown) > 1:
        day = words.text("day.at", day=day, hour=str(one.at.hour), minute=f"{one.at.minute:02}")
    if one is shown[0]:
        day = words.text("two_computers.newest", day=day)
    if count is None:
        return words.text("two_computers.holds_unknown", day=day)
    if name is not None:
        return words.text("two_computers.holds_name", day=day, name=name)
    if count == 1:
        return words.text("two_computers.holds_one", day=day)
    return words.text("two_computers.holds", day=day, count=count)
