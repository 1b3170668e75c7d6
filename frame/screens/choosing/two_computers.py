"""Two computers: a backup is saved, and another computer's file or a backup brought in."""

from collections.abc import Callable
from concurrent.futures import Future
from contextlib import closing
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import NamedTuple

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.learner.backups import BackedUp, back_up
from frame.learner.merging import Merged, merge
from frame.learner.new_file import free_name
from frame.learner.salvage import Saved
from frame.learner.store import Store, StoreError
from frame.room import Room
from frame.screens.parts.backup_list import Backup, BackupList, backup_name, backup_text
from frame.screens.parts.fitting import fitting, printable, short_name
from frame.screens.parts.merged import merged_line, other_trouble_line
from frame.screens.parts.own_files import path_lines
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.trouble import saved_text, trouble_text
from frame.view.inputs import Dropped, Input
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

ROWS = 3
ANSWER_SECONDS = 0.05
"""How long after one question whether something is done the next one is."""
DEAF_SECONDS = 1.5
"""How long after something was done the buttons that came up take no touch: it was meant for the
one that did it."""
LOOK_SECONDS = 1.0
"""How long after one look into the folder the next one is."""
_PATIENCE = 5.0
"""Seconds that a file is waited for beside the window's thread."""
_ROW, _NARROW_ROW = 8.2, 9.6
_BUTTON, _BELOW, _NAME = 4.3, 0.6, 2.6
"""How high they are in a narrow window, where a name stands below its button, and the gap."""
_PATH_LINES = 2

Work = Callable[[Store], "BackedUp | Merged"]


class _Done(NamedTuple):
    """What was done, or why it was not, and what was saved of the learners' file where it was found
    damaged."""

    result: BackedUp | Merged | StoreError
    saved: Saved | None


def backup_folder(room: Room) -> Path:
    """Where backups are saved and looked for."""
    return room.documents or room.folder / "backups"


class Due(StrEnum):
    """What the page waits for."""

    LOOK = "look"
    ANSWER = "answer"


class TwoComputers(PagedPage):
    """What is asked for is done beside the window's thread, one thing at a time; then it is said
    what was done. The list follows the folder, the newest first."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said: Line | None = None
        self.left_out: Path | None = None
        """A file with somebody who was deleted."""
        self.folder = backup_folder(room)
        self.backups = BackupList(self.folder, room.aside)
        self._begun_by: tuple[Button | None, int] = None, 0
        self._under_way: tuple[Future[_Done], Path] | None = None
        self._look()

    @property
    def greeting(self) -> Line:
        """What was done, or what is done here."""
        return self.said or self.room.words.line("two_computers.about")

    @property
    def is_busy(self) -> bool:
        """Whether something is under way."""
        return self._under_way is not None

    @property
    def pages(self) -> int:
        """How many pages the files take."""
        return max(1, -(-len(self.files) // ROWS))

    def _look(self) -> None:
        self.backups.look()
        self.files = tuple(one.path for one in self.backups.shown)
        wait = ANSWER_SECONDS if self.backups.is_looking else LOOK_SECONDS
        self.dues.put(Due.LOOK, self.room.seconds() + wait)
        self.page = min(self.page, self.pages - 1)

    # What is done

    def save(self) -> None:
        """Save a backup with the day in its name."""
        day = self.room.now().astimezone().date()
        path = free_name(self.folder / backup_name(day))

        def work(store: Store) -> BackedUp:
            path.parent.mkdir(parents=True, exist_ok=True)
            return back_up(store, path)

        self._begin(work, path)

    def bring_in(self, path: Path, *, bring_back: bool = False) -> None:
        """Take in a file, and perhaps bring back who is in it and was deleted."""
        now = self.room.now()

        def work(store: Store) -> Merged:
            return merge(store, path, now, bring_back=bring_back)

        self._begin(work, path)

    def _begin(self, work: Work, path: Path) -> None:
        own = self.room.store.path
        if own is None or self.is_busy:
            return

        def do() -> _Done:
            with closing(Store(own, _PATIENCE)) as store:
                try:
                    return _Done(work(store), store.saved)
                except StoreError as error:
                    return _Done(error, store.saved)

        self._under_way = self.room.aside.do(do), path
        self.left_out = None
        focus = self.focus
        self._begun_by = (None, 0) if focus is None else (self.buttons[focus], focus)
        self._tell(self.room.words.line("two_computers.working"))
        self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    def _end(self, done: "Future[_Done]", path: Path) -> None:
        """Say what was done with a file, or why it was not."""
        self._under_way = None
        self.deaf_until = self.room.seconds() + DEAF_SECONDS
        self._look()
        said = self._said_of(done, path)
        self._tell(Line(f"{short_name(path)}: {said.show}", said.speak))
        if self.focus is None:
            self.focus_button(self._nearest(*self._begun_by))

    def _said_of(self, done: "Future[_Done]", path: Path) -> Line:
        words = self.room.words
        try:
            result, saved = done.result()
        except StoreError as error:
            return self._why_not(error)
        except OSError:
            return words.line("other_file.closed")
        if saved is not None or isinstance(result, Merged):
            self.room.read_anew()
        if isinstance(result, Merged) and result.left_out:
            self.left_out = path
        line = self._line_of(result)
        return Line(f"{line.show} {saved_text(saved, words)}", line.speak) if saved else line

    def _line_of(self, result: BackedUp | Merged | StoreError) -> Line:
        match result:
            case StoreError():
                return self._why_not(result)
            case BackedUp():
                return self.room.words.line("two_computers.saved")
            case Merged():
                return merged_line(result, self.room.words)

    def _why_not(self, error: StoreError) -> Line:
        words = self.room.words
        if error.where != self.room.store.path:
            return other_trouble_line(error.trouble, words)
        text = trouble_text(error.trouble, words)
        return Line(text, text)

    def _tell(self, line: Line) -> None:
        self.said = line
        self.greet()
        self.rearrange()

    def back(self) -> Change | None:
        """There is no way back while something is under way: whoever is here must go on with what
        it brings, and no other page knows of it."""
        if not self.is_busy:
            return super().back()
        self.greet()
        return None

    def leave(self) -> None:
        """What is not looked into yet need not be."""
        self.backups.leave()

    def handle(self, event: Input) -> Change | None:
        """A file may be let go over the window."""
        if isinstance(event, Dropped):
            self.bring_in(Path(event.path))
            return None
        return super().handle(event)

    def advance(self, now: float) -> Change | None:
        """What is under way may be done; once a second the folder is looked into."""
        super().advance(now)
        if self._under_way and self.dues.take(Due.ANSWER, now):
            done, path = self._under_way
            if done.done():
                self._end(done, path)
            else:
                self.dues.put(Due.ANSWER, now + ANSWER_SECONDS)
        if self.dues.take(Due.LOOK, now):
            before = self.backups.shown
            self._look()
            if self.backups.shown != before:
                self.rearrange()
        return None

    # How it is laid out

    def arrange(self) -> None:
        """A backup, the files, and who may come back."""
        if self.is_busy or self.room.store.path is None:
            return
        text = self.room.words.text
        save, back = self._acts
        self.buttons.append(
            Button(save, self.save, text("two_computers.save"), style=Style.MAIN, step=1)
        )
        if self.left_out is not None:
            act = partial(self.bring_in, self.left_out, bring_back=True)
            self.buttons.append(Button(back, act, text("two_computers.back"), step=1))
        bring_in = text("two_computers.bring_in")
        for one, (place, _) in zip(self._shown, self._rows, strict=False):
            told = backup_text(self.room.words, one, self.backups.shown)
            act = partial(self.bring_in, one.path)
            self.buttons.append(Button(place, act, told, name=f"{bring_in} {told}", step=0))
        self.buttons += self.turners(self._turns)

    @property
    def _told(self) -> pygame.Rect:
        """Where it is told what was done."""
        return self.band(12.2, 14.2 if self.is_narrow else 11.8)

    @property
    def _acts(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of what saves, and of what brings back."""
        save = self.band(27.5, 7.4) if self.is_narrow else self.band(25, 9)
        back = save.copy()
        save.w = back.w = round(save.w * 0.48)
        back.right = self.band(0, 0).right
        return save, back

    @property
    def _shown(self) -> tuple[Backup, ...]:
        return self.backups.shown[self.page * ROWS : (self.page + 1) * ROWS]

    @property
    def _rows(self) -> list[tuple[pygame.Rect, pygame.Rect]]:
        """For each row the places of its button and of the file's name: beside it, or in a narrow
        window below."""
        rows = []
        for at in range(ROWS):
            if self.is_narrow:
                top = 53 + at * _NARROW_ROW
                button, name = self.band(top, _BUTTON), self.band(top + _BUTTON + _BELOW, _NAME)
            else:
                row = self.band(53 + at * _ROW, _ROW * 0.9)
                button = pygame.Rect(row.topleft, (round(0.48 * row.w), row.h))
                left = button.right + round(3 * self.unit)
                name = pygame.Rect(left, row.top, row.right - left, row.h)
            rows.append((button, name))
        return rows

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the ways to other pages, with the page's number between them."""
        foot = self.band(80.8, 8) if self.is_narrow else self.band(79, 8.5)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        return back, back.move(round(22 * self.unit), 0)

    def turned(self) -> None:
        """The folder may hold others by now."""
        self._look()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what was done, the folder."""
        words = self.room.words
        self.paint_title(brushes, words.text("two_computers.title"))
        brushes.text(self.greeting.show, self._told, 1)
        if self.room.store.path is None:
            brushes.text(words.text("two_computers.nowhere"), self.band(30, 10), 1)
            return
        self._paint_folder(brushes)
        if not self.is_busy:
            for one, (_, place) in zip(self._shown, self._rows, strict=False):
                name = fitting(brushes, printable(one.path.name), place, 0)
                brushes.text(name, place, 0, soft=True)
            is_empty = not self.files and not self.backups.is_looking
            told = words.text("two_computers.none" if is_empty else "two_computers.files")
            place = self.band(46, 6)
            brushes.text(fitting(brushes, told, place, 0), place, 0)
        if self.pages > 1 and not self.is_busy:
            back, on = self._turns
            between = pygame.Rect(back.right, back.top, on.left - back.right, back.h)
            text = words.text("two_computers.page", page=self.page + 1, all=self.pages)
            brushes.text(text, between, 0, soft=True, align="centre")

    def _paint_folder(self, brushes: Brushes) -> None:
        """The whole path of the folder."""
        place = self.band(35.5, 3.4)
        brushes.text(self.room.words.text("two_computers.folder"), place, 0)
        pixels = type_size(0, brushes.surface.get_height())

        def fits(line: str) -> bool:
            return brushes.lettering.width(line, pixels, bold=True) <= place.w

        for line in path_lines(printable(str(self.folder)), fits, _PATH_LINES):
            place.top = place.bottom
            brushes.text(line, place, 0, bold=True)
