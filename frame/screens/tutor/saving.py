"""A page from which files are saved, one after another beside the window's thread."""

from collections.abc import Callable, Sequence
from concurrent.futures import Future
from enum import StrEnum
from pathlib import Path

import pygame

from frame.language.lines import Line
from frame.learner.store import StoreError
from frame.room import Room
from frame.screens.parts.fitting import short_name
from frame.screens.parts.merged import other_trouble_line
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.saved import paint_saved
from frame.screens.tutor.reading import ANSWER_SECONDS
from frame.sheets.making import SheetError
from frame.view.widgets import Brushes

Work = Callable[[], Path]
"""Writes a file and answers its path. Raises StoreError or SheetError."""


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


def class_folder(room: Room) -> Path:
    """Where what is saved for a class lies: a folder for each day."""
    day = room.now().astimezone().date()
    return (room.documents or room.folder) / f"class-{day}"


class SavingPage(PagedPage):
    """How far it is, and then what was saved, is told in one place."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said: Line | None = None
        self.folder: Path | None = None
        """Where something was saved."""
        self._saving: tuple[Future[Path], ...] = ()

    @property
    def pages(self) -> int:
        """One, unless there is more to see."""
        return 1

    @property
    def is_saving(self) -> bool:
        """Whether something is being saved."""
        return bool(self._saving)

    def save(self, works: Sequence[Work], folder: Path) -> None:
        """Have some files saved in a folder."""
        if self.is_saving or not works:
            return
        self.said, self.folder = None, folder
        self._saving = tuple(map(self.room.aside.do, works))
        self._look()

    def _look(self) -> None:
        """What became of the files, as soon as all are there or one can't be."""
        done = [one for one in self._saving if one.done()]
        troubles = [one.exception() for one in done if one.exception()]
        if not troubles and len(done) < len(self._saving):
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)
            self._tell_how_far(len(done))
            return
        for one in self._saving:
            one.cancel()
        saved = [one.result() for one in done if not one.exception()]
        self._saving = ()
        if troubles:
            self._tell_why_not(troubles[0])
        else:
            self._tell_saved(saved)

    def _tell_why_not(self, error: BaseException | None) -> None:
        self.folder, words = None, self.room.words
        match error:
            case StoreError():
                self._tell(other_trouble_line(error.trouble, words))
            case SheetError():
                self._tell(words.line("sheets.undrawn"))
            case BaseException():
                raise error

    def _tell_how_far(self, done: int) -> None:
        said = self.room.words.line("class.saving", done=done, all=len(self._saving))
        if said != self.said:
            self.said = said
            self.rearrange()

    def _tell_saved(self, saved: Sequence[Path]) -> None:
        words = self.room.words
        if len(saved) == 1:
            line = words.line("sheets.saved")
            self._tell(Line(f"{short_name(saved[0])}. {line.show}", line.speak))
        else:
            self._tell(words.line("class.saved", count=len(saved)))

    def _tell(self, line: Line) -> None:
        self.said = line
        self.room.say(line)
        self.rearrange()

    def advance(self, now: float) -> None:
        """Files may be there by now."""
        super().advance(now)
        if self._saving and self.dues.take(Due.ANSWER, now):
            self._look()

    def leave(self) -> None:
        """What is not saved yet need not be."""
        for one in self._saving:
            one.cancel()

    def paint_told(self, brushes: Brushes, place: pygame.Rect, otherwise: str = "") -> None:
        """What was saved and where, or how far it is; else something else."""
        if self.said is None:
            brushes.text(otherwise, place, 0, soft=True)
        elif self.folder is None or self.is_saving:
            brushes.text(self.said.show, place, 0)
        else:
            paint_saved(brushes, place, self.said.show, self.folder)
