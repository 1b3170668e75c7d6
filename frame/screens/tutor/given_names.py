"""Who has some work to do that was given, and who has done it."""

from collections.abc import Iterator
from typing import NamedTuple

import pygame

from frame.language.lines import Line
from frame.learner.assigned import Work
from frame.learner.giving import Before
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.parts.page import lines
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.portraits import by_name
from frame.view.theme import type_size
from frame.view.widgets import Brushes, paint_tick

_ROWS, _COLUMNS, _NARROW_COLUMNS = 7, 3, 2


class _Named(NamedTuple):
    """A child; whether it has done the work; the code of a sheet that it has in its place."""

    learner: Learner
    is_done: bool = False
    code: str = ""


class GivenNames(PagedPage):
    """A place for each child: those who have it to do, then, with a tick, those who have done it,
    both by their names."""

    def __init__(self, room: Room, one: Before, title: Line) -> None:
        super().__init__(room)
        self.one, self.title = one, title
        codes = {
            learner: given.text
            for learner, given in one.open
            if one.work is Work.DUE and given.work is Work.SHEET
        }
        having = by_name(gift.learner for gift in one.open)
        self.named = (
            *(_Named(learner, code=codes.get(learner, "")) for learner in having),
            *(_Named(learner, is_done=True) for learner in by_name(one.done)),
        )

    @property
    def greeting(self) -> Line:
        """What it is."""
        return self.title

    @property
    def _columns(self) -> int:
        return _NARROW_COLUMNS if self.is_narrow else _COLUMNS

    @property
    def _on_page(self) -> int:
        return _ROWS * self._columns

    @property
    def pages(self) -> int:
        """How many pages the names take."""
        return max(1, -(-len(self.named) // self._on_page))

    @property
    def _shown(self) -> Iterator[tuple[_Named, pygame.Rect]]:
        """Those of the page, each with its place."""
        some = self.named[self.page * self._on_page :][: self._on_page]
        places = lines(self.band(20, 56), self._on_page, self._columns, 2 * self.unit)
        return zip(some, places, strict=False)

    def arrange(self) -> None:
        """What turns the page."""
        self.page = min(self.page, self.pages - 1)
        self.buttons += self.turners(self.corner_turns)

    def paint_rest(self, brushes: Brushes) -> None:
        """What it is, how many have it and have done it, and who."""
        words, one = self.room.words, self.one
        self.paint_title(brushes, self.title.show)
        told = words.text("giving.counts", open=len(one.open), done=len(one.done))
        brushes.text(told, self.band(12.5, 6), 1)
        for named, place in self._shown:
            self._paint_named(brushes, named, place.inflate(0, -round(1.4 * self.unit)))
        self.paint_page(brushes, self.corner_turns)

    def _paint_named(self, brushes: Brushes, named: _Named, place: pygame.Rect) -> None:
        """The portrait, the name, and a tick or the code of a sheet."""
        learner, gap = named.learner, round(self.unit)
        face = brushes.pictures.portrait(learner.picture, place.h, brushes.theme.flags)
        brushes.surface.blit(face, place)
        beside = pygame.Rect(place.left + place.h + gap, place.top, 0, place.h)
        beside.w = place.right - beside.left
        if named.is_done:
            tick = pygame.Rect(0, 0, round(0.6 * place.h), place.h)
            tick.right = place.right
            tick.top = place.top
            paint_tick(brushes, tick)
            beside.w = tick.left - gap - beside.left
        if named.code:
            beside.h //= 2
            brushes.text(named.code, beside.move(0, beside.h), 0, soft=True)
        brushes.name(learner.nickname, beside, type_size(1, self.size[1]))
