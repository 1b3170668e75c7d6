"""What some learners were given before: who has it to do, who has done it; it can be taken back."""

from collections.abc import Sequence
from functools import partial

import pygame

from frame.language.lines import Line
from frame.learner.giving import Before, given_before, take_back
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.parts.given_work import work_line
from frame.screens.parts.paged import PagedPage
from frame.screens.tutor.named import names_line
from frame.view.widgets import Brushes, Button, paint_tick

_ROWS = 5
_ROW = 11.5
_BUTTON = 26
"""Units across that what takes one back needs, at most a third of the row."""


class GivenBefore(PagedPage):
    """A row for each work, what was given last first."""

    def __init__(self, room: Room, learners: Sequence[Learner]) -> None:
        super().__init__(room)
        self.learners = learners
        self.said: Line | None = None
        self._read()

    def _read(self) -> None:
        none = tuple[Before, ...]()
        self.before = self.room.keeper.read(lambda store: given_before(store, self.learners), none)

    @property
    def greeting(self) -> Line:
        """What was taken back, or whose it is."""
        return self.said or self.room.words.line("giving.before")

    @property
    def pages(self) -> int:
        """How many pages the rows take."""
        return max(1, -(-len(self.before) // _ROWS))

    @property
    def _shown(self) -> tuple[Before, ...]:
        return self.before[self.page * _ROWS : (self.page + 1) * _ROWS]

    def take_back(self, one: Before) -> None:
        """Nobody need do it any more."""
        now = self.room.now()
        self.room.keeper.write(lambda store: take_back(store, one.open, now))
        who = names_line((gift.learner for gift in one.open), self.room.words)
        self.said = self.room.words.line("giving.taken_back", title=self._title(one), who=who)
        self._read()
        self.page = min(self.page, self.pages - 1)
        self.rearrange()
        self.greet()

    def _title(self, one: Before) -> Line:
        line = work_line(one.work, one.text, self.room.course, self.room.words)
        return line or Line(one.text, "")

    # How it is laid out

    def _row(self, at: int) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the text and of the button of a row."""
        row = self.band(20 + at * _ROW, _ROW - 1.5)
        button = row.copy()
        button.w = round(min(_BUTTON * self.unit, 0.34 * row.w))
        button.right = row.right
        row.w = button.left - row.left - round(2 * self.unit)
        return row, button

    def arrange(self) -> None:
        """What takes each back that is open, and what turns the page."""
        text = self.room.words.text("giving.take_back")
        for at, one in enumerate(self._shown):
            if one.open:
                name = f"{text}. {self._title(one).speak}"
                act = partial(self.take_back, one)
                self.buttons.append(Button(self._row(at)[1], act, text, name=name))
        foot = self.band(79, 9)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        on = back.move(foot.w - foot.h, 0)
        self.buttons += self.turners((back, on))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what was taken back, and the rows."""
        words = self.room.words
        self.paint_title(brushes, words.text("giving.before"))
        told = self.said.show if self.said else "" if self.before else words.text("giving.nothing")
        brushes.text(told, self.band(12.5, 6.5), 0 if self.is_narrow else 1)
        for at, one in enumerate(self._shown):
            self._paint_row(brushes, one, *self._row(at))

    def _paint_row(
        self, brushes: Brushes, one: Before, row: pygame.Rect, button: pygame.Rect
    ) -> None:
        """What it is, and whose."""
        words = self.room.words
        first, second = row.copy(), row.copy()
        first.h, second.h = row.h // 2, row.h - row.h // 2
        second.top = first.bottom
        brushes.text(self._title(one).show, first, 1, bold=True)
        told = []
        if one.open:
            who = names_line((gift.learner for gift in one.open), words)
            told.append(words.text("giving.to_do", who=who.show))
        if one.done:
            told.append(words.text("giving.did", who=names_line(one.done, words).show))
        brushes.text(" ".join(told), second, 0, soft=True)
        if not one.open:
            paint_tick(brushes, button.inflate(0, -round(2 * self.unit)))
