"""A tutor's own files in a folder: a row for each, what is wrong with them, a new one."""

import os
from bisect import bisect
from collections.abc import Callable
from concurrent.futures import Future
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import Generic, NamedTuple, TypeVar

import pygame

from frame.app import Change
from frame.course.agenda import SUFFIXES
from frame.course.loader import MOST_IN_TITLE
from frame.course.own import OwnFile, own_files, write_new
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.fitting import fitting, middle_cut, printable, short_name
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.problem import problem_line
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button

ROWS = 4
LOOK_SECONDS = 1.0
"""How long after one look at a file the next one is."""
ANSWER_SECONDS = 0.05
"""How long after one question whether a file has been looked at the next one is."""

_ROW = 13.4
_PATH_LINES = 2


class Kind(NamedTuple):
    """One kind of files: the name of their folder, which lies beside the learners' file, in the
    user's data folder; a template of one, and the id in it; the section of their words; how their
    names end."""

    folder: str
    template: Path
    template_id: str
    section: str
    suffixes: tuple[str, ...] = SUFFIXES


def own_folder(room: Room, kind: Kind) -> Path:
    """Where files of a kind lie."""
    return room.folder / kind.folder


class Due(StrEnum):
    """What the list waits for."""

    LOOK = "look"
    ANSWER = "answer"


File = TypeVar("File", bound=OwnFile)


class OwnFiles(PagedPage, Generic[File]):
    """A row for each file: one that is sound can be chosen, of another its problems are told. The
    list follows the folder. A file is read, and so checked, beside the window's thread. Subclasses
    say of which kind, how one is read, and what choosing it does."""

    kind: Kind

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said = ""
        self.files: tuple[Path, ...] = ()
        self.shown: tuple[File | None, ...] = ()
        self._looks: dict[Path, Future[File]] = {}
        self._read()

    @property
    def folder(self) -> Path:
        """The folder of the files."""
        return own_folder(self.room, self.kind)

    @property
    def greeting(self) -> Line | None:
        """The title."""
        return self.room.words.line(f"{self.kind.section}.title")

    def read(self, path: Path) -> File:
        """A file with its problems; called beside the window's thread."""
        raise NotImplementedError

    def choose(self, own: File) -> Change:
        """What a sound one is there for."""
        raise NotImplementedError

    @property
    def pages(self) -> int:
        """How many pages the files take."""
        return max(1, -(-len(self.files) // ROWS))

    def _read(self) -> None:
        """Have the files of the page read that are new or have changed."""
        self.dues.put(Due.LOOK, self.room.seconds() + LOOK_SECONDS)
        self.files = own_files(self.folder, self.kind.suffixes)
        self.page = min(self.page, self.pages - 1)
        on_page = self.files[self.page * ROWS : (self.page + 1) * ROWS]
        self._looks = {path: self._look(path) for path in on_page}
        self._show()

    def _look(self, path: Path) -> "Future[File]":
        """The look at a file that is under way, or still holds; else a new one."""
        look = self._looks.get(path)
        if look is None or (look.done() and look.result().has_changed):
            return self.room.aside.do(partial(self.read, path))
        return look

    def _show(self) -> None:
        """Show what is known by now: nothing of a file that is still being looked at."""
        looks = self._looks.values()
        self.shown = tuple(look.result() if look.done() else None for look in looks)
        is_asked = None in self.shown
        at = self.room.seconds() + ANSWER_SECONDS
        self.dues.put(Due.ANSWER, at if is_asked else None)

    def leave(self) -> None:
        """What is not looked at yet need not be."""
        for look in self._looks.values():
            look.cancel()

    def resumed(self, result: object) -> Change | None:
        """A file was in use: it may be another by now."""
        self._read()
        self.rearrange()
        return None

    def advance(self, now: float) -> Change | None:
        """Once a second the folder is looked at; answers are shown as they come."""
        super().advance(now)
        if self.dues.take(Due.ANSWER, now):
            before = self.shown
            self._show()
            if self.shown != before:
                self.rearrange()
        if not self.dues.take(Due.LOOK, now):
            return None
        self.dues.put(Due.LOOK, now + LOOK_SECONDS)
        is_other = own_files(self.folder, self.kind.suffixes) != self.files
        if is_other or any(one and one.has_changed for one in self.shown):
            self._read()
            self.rearrange()
        return None

    def arrange(self) -> None:
        """What can be chosen, a new file, other pages."""
        words = self.room.words
        for at, own in enumerate(self.shown):
            if own and not own.problems:
                act = partial(self.choose, own)
                title = middle_cut(printable(own.title), MOST_IN_TITLE)
                self.buttons.append(Button(self._parts(at)[0], act, title))
        new, (back, on) = self.band(78, 9), self._turns
        new.w = min(round(46 * self.unit), back.left - round(2 * self.unit) - new.left)
        self.buttons.append(
            Button(new, self.write, words.text(f"{self.kind.section}.new"), sign="plus")
        )
        self.buttons += self.turners((back, on))

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the ways to other pages, with the page's number between them."""
        foot, wide = self.band(78, 9), round((27 if self.is_narrow else 33) * self.unit)
        back = pygame.Rect(foot.right - wide, foot.top, foot.h, foot.h)
        return back, back.move(wide - foot.h, 0)

    def _row(self, at: int) -> pygame.Rect:
        return self.band(13 + at * _ROW, _ROW * 0.88)

    def _parts(self, at: int) -> tuple[pygame.Rect, pygame.Rect]:
        """The places for a file's title, and beside or below it for what is told of it."""
        row = self._row(at)
        if self.is_narrow:
            name = pygame.Rect(row.topleft, (row.w, round(row.h * 0.55)))
            return name, pygame.Rect(row.left, name.bottom, row.w, row.h - name.h)
        name = pygame.Rect(row.topleft, (round(46 * self.unit), row.h))
        left = name.right + round(3 * self.unit)
        return name, pygame.Rect(left, row.top, row.right - left, row.h)

    def turned(self) -> None:
        """The files of the page are read."""
        self._read()

    def write(self) -> None:
        """Write a file to begin with, under a name not taken, and turn to it."""
        words, kind = self.room.words, self.kind
        try:
            template = kind.template.read_text(encoding="utf-8")
            path = write_new(self.folder, template, kind.template_id, kind.template.suffix)
        except OSError as error:
            self.said = words.text("own.not_written", reason=error.strerror or "")
        else:
            self.said = words.text("own.written", name=short_name(path))
            files = own_files(self.folder, kind.suffixes)
            self.page = files.index(path) // ROWS if path in files else self.page
        self._read()
        self.rearrange()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows, the folder."""
        words = self.room.words
        self.paint_title(brushes, words.text(f"{self.kind.section}.title"))
        for at, own in enumerate(self.shown):
            if own:
                self._paint_row(brushes, at, own)
            else:
                self._paint_waiting(brushes, at)
        if not self.shown:
            none = words.text(f"{self.kind.section}.none")
            brushes.text(none, self.band(20, 20), 1, soft=True)
        self._paint_folder(brushes)
        self.paint_page(brushes, self._turns)

    def _paint_waiting(self, brushes: Brushes, at: int) -> None:
        name, beside = self._parts(at)
        path = self.files[self.page * ROWS + at]
        title = fitting(brushes, short_name(path), name, 1, bold=True)
        brushes.text(title, name, 1, soft=True, bold=True)
        text = self.room.words.text("own.looking")
        brushes.text(fitting(brushes, text, beside, 0), beside, 0, soft=True)

    def _paint_row(self, brushes: Brushes, at: int, own: File) -> None:
        name, beside = self._parts(at)
        if not own.problems:
            brushes.text(fitting(brushes, short_name(own.path), beside, 0), beside, 0, soft=True)
            return
        title = fitting(brushes, own.title or short_name(own.path), name, 1, bold=True)
        brushes.text(title, name, 1, soft=True, bold=True)
        first, count = problem_line(own.problems[0]), len(own.problems)
        key = "own.problem" if count == 1 else "own.problems"
        text = self.room.words.text(key, count=count, first=first)
        brushes.text(fitting(brushes, text, beside, 0), beside, 0)

    def _paint_folder(self, brushes: Brushes) -> None:
        """What was done last, and below it the whole path of the folder."""
        place = self.band(65.4, 5.2) if self.is_narrow else self.band(67, 3.6)
        said = self.said or self.room.words.text("own.folder")
        brushes.text(fitting(brushes, said, place, 0), place, 0)
        pixels = type_size(0, brushes.surface.get_height())
        text = printable(str(self.folder))

        def fits(line: str) -> bool:
            return brushes.lettering.width(line, pixels, bold=True) <= place.w

        for line in path_lines(text, fits, _PATH_LINES):
            place.top = place.bottom
            place.h = round(3.2 * self.unit)
            brushes.text(line, place, 0, bold=True)


def path_lines(path: str, fits: Callable[[str], bool], most: int) -> list[str]:
    """The path in at most so many lines, broken behind a separator where there is one; of one
    that is longer still both ends."""
    cut = sum(len(line) for line in _broken(path, fits)[:most])
    while len(lines := _broken(middle_cut(path, cut), fits)) > most and cut > 1:
        cut -= 1
    return lines


def _broken(path: str, fits: Callable[[str], bool]) -> list[str]:
    lines = []
    while path:
        lengths = range(1, len(path) + 1)
        length = bisect(lengths, False, key=lambda many: not fits(path[:many])) or 1
        if length < len(path):
            length = path.rfind(os.sep, length // 2, length) + 1 or length
        lines.append(path[:length])
        path = path[length:]
    return lines
