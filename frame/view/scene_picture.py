"""A scene of the harbour: drawings side by side on a quay, and nothing that moves."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import pygame

from frame.drawn import AFLOAT, ANIMALS, SCENERY
from frame.view.pictures import LINE, Pictures
from frame.view.quay import Quay, paint_quay
from frame.view.sprites import paint_disc
from frame.view.theme import Theme

_HIGH = dict.fromkeys(SCENERY, 1.0) | dict.fromkeys(ANIMALS, 0.78)
_HIGH |= dict.fromkeys(("boat", "sail", "stack"), 0.85)
_HIGH |= dict.fromkeys(("bollard", "buoy", "anchor", "scales", "cart", "gate"), 0.7)
_HIGH_THING = 0.5
"""How large drawings are beside one another: the largest is 1."""
_GAP, _MARGIN = 0.12, 0.16
"""Between drawings, and beside the first and the last."""
_PLANK, _WATER = 0.08, 0.3
"""How thick the plank is, and how deep below it the posts stand."""
_MOST_ALONE = 0.5
"""How large a drawing is at most, in shares of a quay that is there."""
_AFLOAT = 1.6
"""How deep behind a quay the foot of what is afloat lies, in planks."""
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
    quay: Quay | None = None,
) -> pygame.Rect:
    """Up to `MOST_IN_SCENE` of `DRAWN` on a quay, as large as the place lets them be, with the sun
    behind them at an end; answers what was taken of the place. It is
    a quay of its own unless one in the place is given."""
    if quay is not None:
        side = min(_side(names, place), round(_MOST_ALONE * quay.place.w))
        return _Brushes(surface, pictures, theme, side).put(names, quay, is_end)
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
        """All of it, in the middle of a place."""
        stood = [self._stood(name) for name in names]
        high = max((one.seen.h for one in stood), default=0)
        deep = self._of(_PLANK + _WATER)
        wide = min(place.w, self._length(stood) + self._of(2 * _MARGIN))
        quay = pygame.Rect(0, 0, wide, deep)
        quay.midtop = place.centerx, place.centery + (high - deep) // 2
        return self.put(names, Quay(quay, self._of(_PLANK, 3)), is_end)

    def put(self, names: Sequence[str], quay: Quay, is_end: bool) -> pygame.Rect:
        """What stands on a quay, and behind it what is afloat and at an end the sun."""
        stood = [self._stood(name) for name in names]
        place, high = quay.place, max((one.seen.h for one in stood), default=0)
        if is_end:
            self._paint_sun(place, round(min(_SUN * high, (1 - _SUN_AT) * place.w)))
        left = place.centerx - self._length(stood) // 2
        ashore = []
        for name, (picture, seen) in zip(names, stood, strict=True):
            deep = min(round(_AFLOAT * quay.thick), place.h) if name in AFLOAT else 0
            at = left - seen.left, place.top - seen.bottom + deep
            if deep:
                self.surface.blit(picture, at)
            else:
                ashore.append((picture, at))
            left += seen.w + self._of(_GAP)
        paint_quay(self.surface, self.pictures, self.theme, quay)
        for picture, at in ashore:
            self.surface.blit(picture, at)
        return pygame.Rect(place.left, place.top - high, place.w, high + place.h)

    def _of(self, share: float, least: int = 0) -> int:
        """A share of the side in whole pixels."""
        return max(least, round(share * self.side))

    def _stood(self, name: str) -> _Stood:
        size = self._of(_HIGH.get(name, _HIGH_THING), 1)
        picture = self.pictures.drawn(name, size, self.theme.drawn)
        return _Stood(picture, picture.get_bounding_rect())

    def _length(self, stood: Sequence[_Stood]) -> int:
        return sum(one.seen.w for one in stood) + self._of(_GAP) * (len(stood) - 1)

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
