"""Where everything is on the screen on which a paper is taken."""

from dataclasses import dataclass
from functools import cached_property

import pygame

from frame.screens.paper.strip import AT_ONCE, AT_ONCE_NARROW, places_in
from frame.screens.parts.page import Page, abreast

_BESIDE = 115
"""Units across that keys, or a frame, need beside the task."""
_HAND_IN, _CLOCK = 26, 24
"""Units across: what hands it in, and the clock."""
_TASK, _COLUMN = 13, 25
"""Units: how high a task is with its answer below it, and a column with a frame below it."""
_FRAME_SHARE, _PAD_SHARE, _UPRIGHT_SHARE = 0.22, 0.52, 0.36
"""Of the width, for a task beside the frame, beside keys, and in a window that is upright."""


@dataclass
class Places:
    """Of a page; with tabs where the paper has several sections, a frame where it is worked on
    beads, and a column, or else a task that stands in one line."""

    page: Page
    has_tabs: bool
    has_frame: bool
    is_column: bool

    @property
    def is_upright(self) -> bool:
        """Whether the window has no room for all that stands side by side in a wide one."""
        return self.page.across < _BESIDE

    @property
    def is_stacked(self) -> bool:
        """Whether the answer stands below the task: a column takes the whole height."""
        return self.is_upright and not self.is_column

    # The head

    @cached_property
    def _acts(self) -> pygame.Rect:
        """The line with what is done with the whole paper: at the right of the title, or below."""
        if self.is_upright:
            return self.page.band(12.5, 6.6)
        return self.page.band(3, 8)

    @cached_property
    def hand_in(self) -> pygame.Rect:
        """What hands it in."""
        place = self._acts.copy()
        place.w = min(round(_HAND_IN * self.page.unit), round(0.4 * place.w))
        place.right = self._acts.right
        return place

    @cached_property
    def pause(self) -> pygame.Rect:
        """What holds it."""
        side, gap = self._acts.h, round(1.5 * self.page.unit)
        return pygame.Rect(self.hand_in.left - gap - side, self._acts.top, side, side)

    @cached_property
    def other_way(self) -> pygame.Rect:
        """What leads to the frame, or to the keys."""
        gap = round(1.5 * self.page.unit)
        return self.pause.move(-self.pause.w - gap, 0)

    @cached_property
    def clock(self) -> pygame.Rect:
        """How long it was worked."""
        gap, wide = round(2 * self.page.unit), round(_CLOCK * self.page.unit)
        right = self.other_way.left - gap
        left = self._acts.left if self.is_upright else right - wide
        return pygame.Rect(left, self._acts.top, right - left, self._acts.h)

    @cached_property
    def title(self) -> pygame.Rect:
        """Which paper it is, right of the way back."""
        place = self.page.rect(12, 3, self.page.across - 24, 8)
        if not self.is_upright:
            place.w = self.clock.left - place.left
        return place

    @cached_property
    def tabs(self) -> pygame.Rect:
        """The names of the sections."""
        return self.page.band(20.5 if self.is_upright else 12.5, 6.5)

    # The task and its answer

    @cached_property
    def body(self) -> pygame.Rect:
        """All between the head and the strip."""
        top = self.tabs.top / self.page.unit + (8 if self.has_tabs else 1)
        return self.page.band(top, 72.5 - top)

    def _rows(self, *heights: float) -> list[pygame.Rect]:
        """The body in rows of so many units, the last one as high as there is room for."""
        gap, place, rows = round(1.2 * self.page.unit), self.body, []
        top = place.top
        for height in heights:
            rows.append(pygame.Rect(place.left, top, place.w, round(height * self.page.unit)))
            top = rows[-1].bottom + gap
        return [*rows, pygame.Rect(place.left, top, place.w, place.bottom - top)]

    @cached_property
    def task(self) -> pygame.Rect:
        """What is asked."""
        if self.is_stacked:
            return self._rows(_TASK)[0]
        place = self.body.copy()
        share = _FRAME_SHARE if self.has_frame else _PAD_SHARE
        place.w = round((_UPRIGHT_SHARE if self.is_upright else share) * place.w)
        if self.is_upright and self.has_frame:
            place.h = round(_COLUMN * self.page.unit)
        return place

    @cached_property
    def _beside(self) -> pygame.Rect:
        """Where the answer is given: beside the task, or below it."""
        if self.is_stacked:
            top = self._rows(_TASK)[1].top
            return pygame.Rect(self.body.left, top, self.body.w, self.body.bottom - top)
        left = self.task.right + round((1 if self.is_upright else 3) * self.page.unit)
        return pygame.Rect(left, self.body.top, self.body.right - left, self.body.h)

    @cached_property
    def _line(self) -> pygame.Rect:
        """The answer, between what leads to the tasks before and after."""
        place = self._beside.copy()
        place.h = round((6.6 if self.is_upright else 8) * self.page.unit)
        if self.has_frame and not self.is_upright:
            place.w = round(0.56 * place.w)
        return place

    @cached_property
    def before(self) -> pygame.Rect:
        """What leads to the task before."""
        return pygame.Rect(self._line.left, self._line.top, self._line.h, self._line.h)

    @cached_property
    def after(self) -> pygame.Rect:
        """What leads to the next task."""
        return self.before.move(self._line.w - self._line.h, 0)

    @cached_property
    def field(self) -> pygame.Rect:
        """Where the answer stands."""
        return self._line.inflate(-2 * (self._line.h + round(self.page.unit)), 0)

    def _below(self, line: pygame.Rect) -> pygame.Rect:
        place, top = self._beside, line.bottom + round(1.4 * self.page.unit)
        return pygame.Rect(place.left, top, place.w, place.bottom - top)

    @cached_property
    def pad(self) -> pygame.Rect:
        """The keys."""
        return self._below(self._line)

    @cached_property
    def clear(self) -> pygame.Rect:
        """What clears the frame."""
        return self._of_frame[0]

    @cached_property
    def take(self) -> pygame.Rect:
        """What takes what the frame reads."""
        return self._of_frame[1]

    @cached_property
    def _of_frame(self) -> list[pygame.Rect]:
        """Right of the answer, or below it."""
        gap = 1.5 * self.page.unit
        if self.is_upright:
            place = self._below(self._line)
            place.h = self._line.h
        else:
            left = self._line.right + round(gap)
            place = pygame.Rect(left, self._line.top, self._beside.right - left, self._line.h)
        return abreast(place, 2, gap)

    @cached_property
    def frame(self) -> pygame.Rect:
        """The frame: in an upright window as wide as that, below all else."""
        if not self.is_upright:
            return self._below(self._line)
        top = max(self.task.bottom, self.clear.bottom) + round(1.4 * self.page.unit)
        return pygame.Rect(self.body.left, top, self.body.w, self.body.bottom - top)

    # The foot

    @cached_property
    def strip(self) -> list[pygame.Rect]:
        """The places of the strip."""
        most = AT_ONCE_NARROW if self.is_upright else AT_ONCE
        return places_in(self.page.band(74, 6.6), most, self.page.unit)

    @cached_property
    def beads(self) -> pygame.Rect:
        """The row of beads below the strip."""
        return self.page.band(81.2, 3.6)

    @cached_property
    def note(self) -> pygame.Rect:
        """What is told meanwhile."""
        return self.page.band(85.4, 3.8)

    # Paused

    @cached_property
    def paused(self) -> pygame.Rect:
        """What a pause is."""
        return self.page.band(24, 22)

    @cached_property
    def go_on(self) -> pygame.Rect:
        """What ends it, in the middle."""
        place = abreast(self.page.band(52, 10), 2, 3 * self.page.unit)[0]
        place.centerx = self.paused.centerx
        return place
