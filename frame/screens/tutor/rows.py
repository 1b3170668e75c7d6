"""Texts one below the other in a place, each as high as it needs."""

import pygame

from frame.view.theme import type_size
from frame.view.widgets import Brushes

_LEADING = 1.45
"""The height of a line, in heights of its letters."""
_COUNTED = 0.14
"""The share of a line that a count at its end takes."""


class Rows:
    """They are written from the top, as long as there is room."""

    def __init__(self, brushes: Brushes, area: pygame.Rect, step: int) -> None:
        self.brushes, self.area, self.step = brushes, area, step
        self.top = area.top
        self._pixels = type_size(step, brushes.height)

    @property
    def high(self) -> int:
        """The height of a line."""
        return round(_LEADING * self._pixels)

    def write(
        self, text: str, count: str = "", *, bold: bool = False, soft: bool = False, most: int = 1
    ) -> None:
        """A text more, in at most so many lines, with a count at its end; nothing for an empty one,
        or where there is no room left."""
        counted = round(_COUNTED * self.area.w) if count else 0
        wide = self.area.w - counted
        lines = len(self.brushes.lettering.wrapped(text, self._pixels, wide, bold))
        high = min(lines, most, (self.area.bottom - self.top) // self.high) * self.high
        if not text or high <= 0:
            return
        place = pygame.Rect(self.area.left, self.top, wide, high)
        self.brushes.text(text, place, self.step, bold=bold, soft=soft)
        if count:
            end = pygame.Rect(place.right, place.top, counted, high)
            self.brushes.text(count, end, self.step, bold=True, align="right")
        self.top += high

    def space(self) -> None:
        """Leave half a line."""
        self.top += self.high // 2
