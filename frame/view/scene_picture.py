"""A scene of the harbour: drawings side by side on a quay, and nothing that moves."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import pygame

from frame.drawn import ANIMALS, SCENERY
from frame.view.pictures import LINE, Pictures
from frame.view.sprites import paint_disc
from frame.view.theme import Theme

_HIGH = dict.fromkeys(SCENERY, 1.0) | dict.fromkeys(ANIMALS, 0.78)
_HIGH |= dict.fromkeys(("boat", "sail", "stack"), 0.85)
_HIGH |= dict.fromkeys(("bollard", "buoy", "anchor", "scales", "cart", "gate"), 0.7)
_HIGH_THING = 0.5
"""How large drawings are beside one another: the largest is 1."""
_GAP, _MARGIN = 0.12, 0.16
"""Between drawings, and beside the first and the last."""
_PLANK, _POST, _WATER = 0.08, 0.09, 0.3
"""How thick the plank is, how wide a post, and how deep below the plank the posts stand."""
_POSTS = (0.08, 0.92, 0.5)
_WAVES = ((0.29, 0.42), (0.71, 0.62))
_WAVE_ALONE = ((0.5, 0.5),)
"""Where their middles are, in shares of the quay and of the water."""
_SHORT = 1.6
"""A quay that is shorter, in sides, has no post in the middle, and one wave."""
_WAVE = 0.4
_SUN, _SUN_AT = 0.8, 0.6
"""How high half of it rises, in shares of the highest drawing, where the quay is long enough, and
where along that its middle is."""
_WORTH_TWO = 1.3
"""So many times larger are drawings on two quays, one above the other, where there are two."""


class _Stood(NamedTuple):
    """A drawing, and where on it there is anything."""

    picture: pygame.Surface
    seen: pygame.Rect


def paint_scene(
    surface: pygame.Surface,
    pictures: Pictures,
    theme: Theme,
    names: Sequence[str],
    place: pygame.Rect,
    *,
    is_end: bool = False,
) -> pygame.Rect:
    """Up to `MOST_IN_SCENE` of `DRAWN` on a quay, as large as the place lets them be, with the sun
    behind them at an end; answers what was taken of the place."""
    half = (len(names) + 1) // 2
    upper = pygame.Rect(place.x, place.y, place.w, place.h // 2)
    if half < len(names) and _side(names[:half], upper) >= _WORTH_TWO * _side(names, place):
        brushes = _Brushes(surface, pictures, theme, _side(names[:half], upper))
        above = brushes.paint(names[:half], upper, is_end)
        return above.union(brushes.paint(names[half:], upper.move(0, upper.h), is_end=False))
    return _Brushes(surface, pictures, theme, _side(names, place)).paint(names, place, is_end)


def _side(names: Sequence[str], place: pygame.Rect) -> int:
    """How many pixels the largest drawing may be wide and high."""
    shares = [_HIGH.get(name, _HIGH_THING) for name in names] or [1.0]
    wide = sum(shares) + _GAP * (len(shares) - 1) + 2 * _MARGIN
    return max(1, int(min(place.w / wide, place.h / (max(shares) + _PLANK + _WATER))))


@dataclass(frozen=True)
class _Brushes:
    """What paints a quay and what is on it, the largest drawing `side` pixels wide and high."""

    surface: pygame.Surface
    pictures: Pictures
    theme: Theme
    side: int

    def paint(self, names: Sequence[str], place: pygame.Rect, is_end: bool) -> pygame.Rect:
        stood = [self._stood(name) for name in names]
        high = max((one.seen.h for one in stood), default=0)
        quay = self._quay(stood, high, place)
        if is_end:
            self._paint_sun(quay, round(min(_SUN * high, (1 - _SUN_AT) * quay.w)))
        self._paint_quay(quay)
        left = quay.centerx - self._length(stood) // 2
        for picture, seen in stood:
            self.surface.blit(picture, (left - seen.left, quay.top - seen.bottom))
            left += seen.w + self._of(_GAP)
        return pygame.Rect(quay.left, quay.top - high, quay.w, high + quay.h)

    def _of(self, share: float, least: int = 0) -> int:
        """A share of the side in whole pixels."""
        return max(least, round(share * self.side))

    def _stood(self, name: str) -> _Stood:
        size = self._of(_HIGH.get(name, _HIGH_THING), 1)
        picture = self.pictures.drawn(name, size, self.theme.drawn)
        return _Stood(picture, picture.get_bounding_rect())

    def _length(self, stood: Sequence[_Stood]) -> int:
        return sum(one.seen.w for one in stood) + self._of(_GAP) * (len(stood) - 1)

    def _quay(self, stood: Sequence[_Stood], high: int, place: pygame.Rect) -> pygame.Rect:
        """The plank and what is below; with what stands on it, it is in the middle of the place."""
        deep = self._of(_PLANK + _WATER)
        wide = min(place.w, self._length(stood) + self._of(2 * _MARGIN))
        quay = pygame.Rect(0, 0, wide, deep)
        quay.midtop = place.centerx, place.centery + (high - deep) // 2
        return quay

    def _paint_quay(self, quay: pygame.Rect) -> None:
        thick = self._of(_PLANK, 3)
        is_short = quay.w < self._of(_SHORT)
        for at in _POSTS[:2] if is_short else _POSTS:
            post = pygame.Rect(0, quay.top, self._of(_POST, 3), quay.h)
            post.centerx = quay.left + round(at * quay.w)
            self._paint_board(post)
        self._paint_board(pygame.Rect(*quay.topleft, quay.w, thick))
        wave = self.pictures.drawn("wave", self._of(_WAVE, 1), self.theme.drawn)
        for along, down in _WAVE_ALONE if is_short else _WAVES:
            middle = quay.left + along * quay.w, quay.top + thick + down * (quay.h - thick)
            self.surface.blit(wave, wave.get_rect(center=middle))

    def _paint_board(self, board: pygame.Rect) -> None:
        line = self._of(LINE, 1)
        pygame.draw.rect(self.surface, self.theme.drawn.ink, board)
        inner = board.inflate(-2 * line, -2 * line)
        pygame.draw.rect(self.surface, self.theme.drawn.wood, inner)

    def _paint_sun(self, quay: pygame.Rect, high: int) -> None:
        """Half a disc, low behind the quay."""
        middle = quay.left + round(_SUN_AT * quay.w), quay.top
        inner = high - self._of(LINE, 1)
        for radius, colour in ((high, self.theme.drawn.quiet), (inner, self.theme.drawn.straw)):
            if radius > 0:
                disc = _disc(2 * radius, colour)
                upper = pygame.Rect(0, 0, 2 * radius, radius)
                self.surface.blit(disc, disc.get_rect(center=middle), upper)


_disc = lru_cache(maxsize=8)(paint_disc)
