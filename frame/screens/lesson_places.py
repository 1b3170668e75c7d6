"""The parts of the lesson screen, and where they stand beside a frame of few rods."""

from collections.abc import Callable
from dataclasses import dataclass

import pygame

from frame.view.geometry import Layout

MARGIN = 12.0
EDGE = 5.0
GAP = 8.0
_TOP = 19.0
_FRAME_HEIGHT = 59.0
_LEAST_COLUMN = 90.0
_TYPED_HEIGHT = 10.5
_KEYS_BELOW = 12.0


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of the screen: the header's sum and sentence, the frame, the written work above
    it, the string of progress with its count, and the rest beside or below the frame.

    In that rest stand the `buttons`, one above another or, where it `is_wide`, one beside
    another; the rule's `card`; a number that is `typed`, and the `keys` it is typed with; what
    numbers have been `called`. They share room that is not used at the same time.
    """

    sum: pygame.Rect
    line: pygame.Rect
    frame: pygame.Rect
    written: pygame.Rect
    buttons: pygame.Rect
    card: pygame.Rect
    typed: pygame.Rect
    keys: pygame.Rect
    called: pygame.Rect
    string: pygame.Rect
    count: pygame.Rect
    is_wide: bool

    @property
    def rest(self) -> pygame.Rect:
        """The part of the screen where all but the header, the frame and the string stands."""
        return self.buttons.union(self.card).union(self.keys)

    @property
    def changing(self) -> tuple[pygame.Rect, ...]:
        """What looks different after a touch, beside the beads."""
        return (self.sum.union(self.line), self.rest.inflate(8, 8), self.written)

    @property
    def between_exercises(self) -> tuple[pygame.Rect, ...]:
        """What looks different when the lesson waits for something else: all but the frame."""
        header, rest, string = self.sum.union(self.line), self.rest, self.string.union(self.count)
        if self.is_wide:
            return (header, self.written, rest.inflate(8, 8), string)
        gap = self.frame.union(rest)
        beside = pygame.Rect(self.frame.right, gap.top, gap.right - self.frame.right, gap.h)
        if rest.left < self.frame.left:
            beside = pygame.Rect(gap.left, gap.top, self.frame.left - gap.left, gap.h)
        return (header, beside.inflate(8, 8), string)


Ruler = Callable[[float, float, float, float], pygame.Rect]
"""Makes a rectangle in pixels of one in units."""


def ruler(unit: float) -> Ruler:
    """The way from units to pixels, for a window whose unit is so many pixels."""

    def rect(x: float, y: float, w: float, h: float) -> pygame.Rect:
        return pygame.Rect(round(x * unit), round(y * unit), round(w * unit), round(h * unit))

    return rect


def places_beside(across: float, unit: float, rods: int, units: int, is_left: bool) -> Places:
    """One column in the middle, as wide as the frame needs when it takes the whole height.

    What is not the frame stands at its right, in a left-handed layout at its left.
    """
    endless = (0, 0, 10**6, _FRAME_HEIGHT * unit)
    natural = Layout.fit(endless, rods, units).frame_box.w / unit + 0.2
    most = across - MARGIN - EDGE
    side_width = max(40.0, min(56.0, across * 0.34))
    frame_width = min(natural, most - side_width - GAP)
    column = min(most, max(_LEAST_COLUMN, frame_width + GAP + side_width))
    left = max(MARGIN, (across - column) / 2)
    frame_x, side_x = left, left + column - side_width
    if is_left:
        frame_x, side_x = left + column - frame_width, left
    rect = ruler(unit)
    side = rect(side_x, _TOP, side_width, _FRAME_HEIGHT)
    typed = pygame.Rect(side.left, side.top, side.w, round(_TYPED_HEIGHT * unit))
    keys_top = side.top + round(_KEYS_BELOW * unit)
    return Places(
        sum=rect(left, 2.5, column, 8.5),
        line=rect(left, 11, column, 7.2),
        frame=rect(frame_x, _TOP, frame_width, _FRAME_HEIGHT),
        written=pygame.Rect(0, 0, 0, 0),
        buttons=side,
        card=side,
        typed=typed,
        keys=pygame.Rect(side.left, keys_top, side.w, side.bottom - keys_top),
        called=side,
        string=rect(left, 84.2, column - 12, 3.6),
        count=rect(left + column - 11, 84, 11, 4),
        is_wide=False,
    )
