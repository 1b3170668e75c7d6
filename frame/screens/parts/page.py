"""A page: a title beside the way back, and below it bands across the window."""

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise
from typing import NamedTuple

import pygame

from frame.language.lines import Line
from frame.screens.parts.panel import Panel
from frame.screens.parts.sentence import is_heard
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style, label_room

_TABS_IN_LINE = 3
"""In a narrow window, unless a page has other names."""


class Tab(NamedTuple):
    """The name of a part of a page, what opens it, and whether it is open."""

    text: str
    act: Callable[[], object]
    is_open: bool


class Page(Panel):
    """A screen read from top to bottom. In a narrow window it takes all of the width."""

    def band(self, top: float, height: float) -> pygame.Rect:
        """A band across the window, given in units."""
        side = 2 if self.is_narrow else 12
        return self.rect(side, top, self.across - 2 * side, height)

    def tabs(
        self, place: pygame.Rect, tabs: Sequence[Tab], step: int, narrow: int = _TABS_IN_LINE
    ) -> list[Button]:
        """The names of the parts of a page, side by side, all of one size; in a narrow window so
        many in a line."""
        in_line = narrow if self.is_narrow else len(tabs)
        places = lines(place, len(tabs), in_line, 2 * self.unit)
        window = min(map(partial(self._window, step), tabs, places))
        return [
            Button(at, tab.act, tab.text, style=Style.TAB, step=step, chosen=tab.is_open,
                   window=window)
            for at, tab in zip(places, tabs, strict=True)
        ]  # fmt: skip

    def _window(self, step: int, tab: Tab, place: pygame.Rect) -> int:
        """The height in pixels of a window for whose type a name has room."""
        size, usual = label_room(place, self.unit).size, type_size(step, self.size[1])
        pixels, _ = self.room.lettering.fitted(tab.text, usual, size, bold=True)
        return self.size[1] * pixels // usual

    def speaker(self, place: pygame.Rect) -> list[Button]:
        """What lets the greeting be heard again; nothing where nothing is."""
        if not is_heard(self.room):
            return []
        return [Button(place, self._greet_again, sign="speaker", style=Style.SIGN)]

    @property
    def heard(self) -> Line | None:
        """What is heard from the loudspeaker."""
        return self.greeting

    def _greet_again(self) -> None:
        self.room.say(self.heard)

    @property
    def corner(self) -> pygame.Rect:
        """The place for a sign at the end of the title."""
        return self.rect(self.across - 9.5, 3, 8, 8)

    def paint_title(self, brushes: Brushes, text: str) -> None:
        """The title, right of the way back; up to the sign behind it, where one is."""
        has_sign = any(button.place == self.corner for button in self.buttons)
        left = 24 if has_sign or not self.is_narrow else 14
        place = self.rect(12, 3, self.across - left, 8)
        brushes.text(text, place, 2, bold=True)


def abreast(place: pygame.Rect, count: int, gap: float) -> list[pygame.Rect]:
    """So many places of one size side by side in a place, with a gap of so many pixels."""
    width = (place.w - gap * (count - 1)) / count
    lefts = [round(place.left + index * (width + gap)) for index in range(count)]
    return [pygame.Rect(left, place.top, round(width), place.h) for left in lefts]


def shares(place: pygame.Rect, parts: Sequence[float]) -> list[pygame.Rect]:
    """A place cut into columns that have these shares of it."""
    lefts = [round(sum(parts[:at]) * place.w) for at in range(len(parts) + 1)]
    return [
        pygame.Rect(place.left + left, place.top, right - left, place.h)
        for left, right in pairwise(lefts)
    ]


def lines(place: pygame.Rect, count: int, in_line: int, gap: float) -> list[pygame.Rect]:
    """So many places in lines one below the other."""
    high = place.h // -(-count // in_line)
    line = pygame.Rect(place.topleft, (place.w, high))
    columns = abreast(line, in_line, gap)
    return [columns[at % in_line].move(0, at // in_line * high) for at in range(count)]
