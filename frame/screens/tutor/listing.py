"""Where a class comes from: a list that was copied, or one in a file."""

from pathlib import Path

import pygame

from frame.app import Change, Pop, Push
from frame.language.lines import Line
from frame.learner.class_file import listed_in, read_own_list
from frame.learner.class_list import ClassList
from frame.room import Room
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.problem import problem_line
from frame.screens.tutor.class_files import ClassFiles
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.taking import TakeList
from frame.view.clipboard import clipboard_text
from frame.view.inputs import Dropped, Input, Key
from frame.view.widgets import Brushes, Button, Style


class ListPage(Page):
    """Its result is how many children were taken in."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said: Line | None = None

    @property
    def greeting(self) -> Line:
        """What was wrong, or what a list is."""
        return self.said or self.room.words.line("class.about_list")

    def paste(self) -> Change | None:
        """Look over what was copied."""
        text = clipboard_text()
        if not text.strip():
            self._tell(self.room.words.line("class.nothing_copied"))
            return None
        listed = listed_in(text)
        if listed is None:
            self._tell(self.room.words.line("class.no_names"))
            return None
        return self._look_over(listed)

    def drop(self, path: Path) -> Change | None:
        """Look over a file."""
        own = read_own_list(path)
        if own.problems:
            said = self.room.words.line("class.no_names")
            self._tell(Line(problem_line(own.problems[0]), said.speak))
            return None
        return self._look_over(own.listed)

    def _look_over(self, listed: ClassList) -> Change:
        self.said = None
        return Push(TakeList(self.room, listed))

    def _tell(self, line: Line) -> None:
        self.said = line
        self.greet()
        self.rearrange()

    def _open_files(self) -> Change:
        return Push(ClassFiles(self.room))

    def resumed(self, result: object) -> Change | None:
        """A list was taken, or not."""
        self.rearrange()
        return Pop(result) if result is not None else None

    def handle(self, event: Input) -> Change | None:
        """A file may be let go over the window."""
        if isinstance(event, Dropped):
            return self.drop(Path(event.path))
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Ctrl and V paste."""
        if key.control and key.code == pygame.K_v:
            return self.paste()
        return super().press_key(key)

    def arrange(self) -> None:
        """The two ways."""
        text = self.room.words.text
        paste, files = abreast(self.band(59, 12), 2, 3 * self.unit)
        self.buttons += [
            Button(paste, self.paste, text("class.paste"), style=Style.MAIN),
            Button(files, self._open_files, text("class.from_file")),
        ]

    def paint_rest(self, brushes: Brushes) -> None:
        """What a list is, and what becomes of it."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.list"))
        rows = Rows(brushes, self.band(14, 36), 1)
        rows.write(words.text("class.about_list"), most=6)
        rows.space()
        for line in words.listed("class.told.example"):
            rows.write(line, soft=True)
        if self.said is not None:
            brushes.text(self.said.show, self.band(50.5, 6.5), 1, bold=True)
