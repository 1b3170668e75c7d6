"""The parts of the board. A unit is a ninetieth of the window's height or, in a window that is
higher than three quarters of its width, of three quarters of the width; what is left of such a
window makes room for more."""

from dataclasses import dataclass

import pygame

LEAST_ASPECT = 4 / 3
"""In narrower windows space and type are measured by the width."""
_HIGH = 110.0
"""From so many units on a window is a high one."""
_MARGIN = 6.0
_HEAD_TOP = 2.0
_NAMES = 4.75
_WRITTEN = 13.0
_LINE = 6.0
_TWO_LINES = 9.8


def measure_of(size: tuple[int, int]) -> int:
    """The height in pixels that space and type are measured by in a window."""
    return round(min(size[1], size[0] / LEAST_ASPECT))


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of a window so many units wide and high, of `unit` pixels, for an item whose work
    is written above the rods or not."""

    across: float
    down: float
    unit: float
    is_written: bool = False

    def rect(self, x: float, y: float, w: float, h: float) -> pygame.Rect:
        """A place given in units."""
        return pygame.Rect(*(round(each * self.unit) for each in (x, y, w, h)))

    @property
    def _is_high(self) -> bool:
        return self.down >= _HIGH

    @property
    def _head_height(self) -> float:
        return 28.0 if self._is_high else 14.0

    @property
    def head(self) -> pygame.Rect:
        """The sum and its answer."""
        return self.rect(_MARGIN, _HEAD_TOP, self.across - 2 * _MARGIN, self._head_height)

    @property
    def watch(self) -> pygame.Rect:
        """The watch, in the margin left of the sum."""
        return self.rect(0.8, _HEAD_TOP, _MARGIN - 1.6, 5)

    @property
    def frame(self) -> pygame.Rect:
        """The frame, with the names of places below it."""
        top = _HEAD_TOP + self._head_height + 1 + (_WRITTEN if self.is_written else 0)
        return self.rect(5, top, self.across - 10, self._line_top - _NAMES - top)

    def written(self, frame: pygame.Rect) -> pygame.Rect:
        """The written work, above the frame where it lies."""
        top = round((_HEAD_TOP + self._head_height + 0.4) * self.unit)
        left = round(_MARGIN * self.unit)
        wide = round((self.across - 2 * _MARGIN) * self.unit)
        return pygame.Rect(left, top, wide, max(0, frame.top - top))

    @property
    def _line_height(self) -> float:
        return 14.0 if self._is_high else _TWO_LINES if self.is_written else _LINE

    @property
    def _line_top(self) -> float:
        return self.bar_top - 3.8 - self._line_height

    def line(self, *, has_reading: bool, is_word: bool) -> pygame.Rect:
        """Where the rule stands, left of what the frame reads; the word on a try or a file has two
        lines, and the timeline's place with it."""
        wide = self.across * (0.76 if has_reading else 1) - 2 * _MARGIN
        height = max(9.7, self._line_height) if is_word else self._line_height
        return self.rect(_MARGIN, self._line_top, wide, height)

    @property
    def reading(self) -> pygame.Rect:
        """What the frame reads."""
        left = self.across * 0.76
        return self.rect(left, self._line_top, self.across - left - _MARGIN, self._line_height)

    @property
    def timeline(self) -> pygame.Rect:
        """The line along which one jumps to any point of the work."""
        return self.rect(_MARGIN, self.bar_top - 3.1, self.across - 2 * _MARGIN, 2.6)

    @property
    def bar_rows(self) -> int:
        """How many rows the bar has."""
        return 2 if self._is_high else 1

    @property
    def bar_size(self) -> float:
        """How large, in units, its signs are at most."""
        return 9.5 if self._is_high else 8.0

    @property
    def bar_top(self) -> float:
        """Where it begins, in units from the top."""
        return self.down - 1.1 - self.bar_rows * (self.bar_size + 0.4)

    @property
    def foot(self) -> pygame.Rect:
        """How far it is, where the bar is not."""
        return self.rect(_MARGIN, self.down - 8, self.across - 2 * _MARGIN, 6)

    @property
    def middle(self) -> pygame.Rect:
        """What is said on an empty board, or asked."""
        return self.rect(_MARGIN, self.down / 2 - 22, self.across - 2 * _MARGIN, 24)

    @property
    def way_in(self) -> pygame.Rect:
        """The way to the agendas, below what is said on an empty board."""
        place = self.answer(0)
        place.centerx = round(self.across * self.unit / 2)
        return place

    def answer(self, index: int) -> pygame.Rect:
        """The first (0) or the second (1) of two large answers below what is asked."""
        wide = (self.across - 3 * _MARGIN) / 2
        left = _MARGIN + index * (wide + _MARGIN)
        return self.rect(left, self.down / 2 + 5, wide, 16)
