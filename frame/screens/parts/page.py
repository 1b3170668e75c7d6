"""A page: a title beside the way back, and below it bands across the window."""

import pygame

from frame.screens.parts.panel import Panel
from frame.view.widgets import Brushes

_NARROW = 90
"""A window fewer units wide than this is higher than wide."""


class Page(Panel):
    """A screen read from top to bottom. In a narrow window it takes all of the width."""

    @property
    def is_narrow(self) -> bool:
        """Whether the window is too narrow for much to stand side by side."""
        return self.across < _NARROW

    def band(self, top: float, height: float) -> pygame.Rect:
        """A band across the window, given in units."""
        side = 2 if self.is_narrow else 12
        return self.rect(side, top, self.across - 2 * side, height)

    def paint_title(self, brushes: Brushes, text: str) -> None:
        """The title, right of the way back."""
        right = 2 if self.is_narrow else 12
        place = self.rect(12, 3, self.across - 12 - right, 8)
        brushes.text(text, place, 2, bold=True)


def abreast(place: pygame.Rect, count: int, gap: float) -> list[pygame.Rect]:
    """So many places of one size side by side in a place, with a gap of so many pixels."""
    width = (place.w - gap * (count - 1)) / count
    lefts = [round(place.left + index * (width + gap)) for index in range(count)]
    return [pygame.Rect(left, place.top, round(width), place.h) for left in lefts]
