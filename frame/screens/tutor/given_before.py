"""What some learners were given before: how many have it to do and have done it, and who; it can be
taken back."""

from collections.abc import Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.giving import Before, given_before, take_back
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.parts.given_work import work_line
from frame.screens.parts.paged import PagedPage
from frame.screens.tutor.given_names import GivenNames
from frame.screens.tutor.named import names_line
from frame.view.widgets import Brushes, Button, paint_tick

_ROWS = 5
_ROW = 11.5
_BUTTON = 26
"""Units across that what takes one back needs, at most a third of the row."""
_NAMED = 0.6
"""The share of the rest that the name of the work takes; in a narrow window of the height."""


class _Row(NamedTuple):
    """The places of what a work is called, of who has it, and of what takes it back."""

    title: pygame.Rect
    told: pygame.Rect
    back: pygame.Rect


class GivenBefore(PagedPage):
    """A row for each work, what was given last first; of several children each leads to who has it
    to do and who has done it."""

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

    def _who(self, one: Before) -> Change:
        return Push(GivenNames(self.room, one, self._title(one)))

    # How it is laid out

    def _row(self, at: int) -> _Row:
        row = self.band(20 + at * _ROW, _ROW - 1.5)
        back = row.copy()
        back.w = round(min(_BUTTON * self.unit, 0.34 * row.w))
        back.right = row.right
        row.w = back.left - row.left - round(2 * self.unit)
        title, told = row.copy(), row.copy()
        if self.is_narrow:
            title.h = round(_NAMED * row.h)
            told.h, told.top = row.h - title.h, title.bottom
        else:
            title.w, gap = round(_NAMED * row.w), round(2 * self.unit)
            told.w, told.left = row.w - title.w - gap, title.right + gap
        return _Row(title, told, back)

    def arrange(self) -> None:
        """Who has each, what takes each back that is open, and what turns the page."""
        text = self.room.words.text("giving.take_back")
        for at, one in enumerate(self._shown):
            row, title = self._row(at), self._title(one)
            if self._are_several:
                self.buttons.append(
                    Button(row.title, partial(self._who, one), title.show, name=title.speak)
                )
            if one.open:
                act = partial(self.take_back, one)
                self.buttons.append(Button(row.back, act, text, name=f"{text}. {title.speak}"))
        self.buttons += self.turners(self.corner_turns)

    @property
    def _are_several(self) -> bool:
        return len(self.learners) > 1

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what was taken back, the rows, and which page it is."""
        words = self.room.words
        self.paint_title(brushes, words.text("giving.before"))
        told = self.said.show if self.said else "" if self.before else words.text("giving.nothing")
        brushes.text(told, self.band(12.5, 6.5), 0 if self.is_narrow else 1)
        for at, one in enumerate(self._shown):
            self._paint_row(brushes, one, self._row(at))
        self.paint_page(brushes, self.corner_turns)

    def _paint_row(self, brushes: Brushes, one: Before, row: _Row) -> None:
        """How many have it to do and have done it; of one child alone what it is, and which."""
        words = self.room.words
        told = words.text("giving.counts", open=len(one.open), done=len(one.done))
        if not self._are_several:
            brushes.text(self._title(one).show, row.title, 1, bold=True)
            key = "giving.to_do" if one.open else "giving.did"
            told = words.text(key, who=names_line(self.learners, words).show)
        brushes.text(told, row.told, 0 if self.is_narrow else 1, soft=True)
        if not one.open:
            paint_tick(brushes, row.back.inflate(0, -round(2 * self.unit)))
