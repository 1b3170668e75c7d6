"""Rows of things to choose of which some stand side by side."""

from collections.abc import Sequence
from itertools import accumulate

import pygame

from frame.screens.parts.dials import Dial, DialPage

_LABEL_SHARE = 0.238
"""Of the width, for the names at the left edge."""
_SECOND_LABEL = 0.16
_GAP = 0.015
_LABEL_HEIGHT, _BELOW_LABEL = 2.6, 1.0
"""Units, where the names stand above: letters hang there, and the ring comes."""
_MOST_APART, _MOST_NARROWLY_APART = 7.9, 5.2
_BETWEEN, _NARROWLY_BETWEEN = 1.3, 0.7
"""Units from one line to the next, and how many of them are free."""
_FEW = 3
"""So many choices have room in half of a line."""
_LEAST_FOR_TURNS = 5.4
"""How many times as wide as high it is where there are leaps beside a number."""


class DialLines(DialPage):
    """A page of lines, each of one row of choices or of two side by side."""

    def lines(self) -> Sequence[tuple[Dial, ...]]:
        """The rows of each line, from the top."""
        return ()

    def rows(self) -> tuple[Dial, ...]:
        """All of them, line by line."""
        return tuple(dial for line in self.lines() for dial in line)

    def places(self) -> list[tuple[pygame.Rect, pygame.Rect]]:
        """For each row the places for its name and for what can be touched: in a narrow window
        the name stands above it."""
        lines = self.lines()
        above = [
            (_LABEL_HEIGHT + _BELOW_LABEL) * any(one.label.show for one in line) * self.is_narrow
            for line in lines
        ]
        apart = (self.bottom - self.top - sum(above)) / max(1, len(lines))
        apart = min(_MOST_NARROWLY_APART if self.is_narrow else _MOST_APART, apart)
        tops = accumulate((high + apart for high in above), initial=self.top)
        place = self._above if self.is_narrow else self._beside
        return [
            _fitting(dial, *place(top, high, apart, at, len(line) > 1 or _is_short(dial)))
            for line, high, top in zip(lines, above, tops, strict=False)
            for at, dial in enumerate(line)
        ]

    def _beside(
        self, top: float, _: float, apart: float, at: int, is_half: bool
    ) -> tuple[pygame.Rect, pygame.Rect]:
        """A name and, right of it, what can be touched: of the second of two in the right half."""
        whole = self.band(top, apart - _BETWEEN)
        wide = (1 - _LABEL_SHARE - _SECOND_LABEL - _GAP) / 2
        left, share = (_LABEL_SHARE + wide + _GAP, _SECOND_LABEL) if at else (0.0, _LABEL_SHARE)
        label, area = whole.copy(), whole.copy()
        label.left, label.w = whole.left + round(left * whole.w), round(share * whole.w) - 8
        area.left = whole.left + round((left + share) * whole.w)
        area.w = round(wide * whole.w) if is_half and not at else whole.right - area.left
        return label, area

    def _above(
        self, top: float, high: float, apart: float, at: int, is_half: bool
    ) -> tuple[pygame.Rect, pygame.Rect]:
        """A name and, below it, what can be touched: two side by side."""
        label = self.band(top, max(0.0, high - _BELOW_LABEL))
        area = self.band(top + high, apart - _NARROWLY_BETWEEN)
        gap = round(2 * self.unit)
        if is_half:
            for place in (label, area):
                place.w = (place.w - gap) // 2
                place.left += at * (place.w + gap)
        return label, area


def _is_short(dial: Dial) -> bool:
    return 0 < len(dial.choices) <= _FEW


def _fitting(dial: Dial, label: pygame.Rect, area: pygame.Rect) -> tuple[pygame.Rect, pygame.Rect]:
    """The places of a row, so low that all that turns it stands side by side."""
    most = round(area.w / _LEAST_FOR_TURNS)
    if len(dial.turns) > 2 and area.h > most:
        area = pygame.Rect(area.left, area.centery - most // 2, area.w, most)
    return label, area
