"""Paints a quay: a plank on posts, and quiet water under it."""

from typing import NamedTuple

import pygame

from frame.view.pictures import Pictures
from frame.view.theme import Theme

_LINE = 0.29
"""How thick its edges are, in shares of the plank."""
_POST = 1.1
"""How wide a post is, in planks."""
_SIDE_POSTS, _MIDDLE_POST = (0.08, 0.92), 0.5
_WAVES = ((0.29, 0.42), (0.71, 0.62))
_WAVE_ALONE = ((0.5, 0.5),)
"""Where the middles of posts and waves are, in shares of the quay and of the water."""
_WAVE = 5.0
"""How wide a wave is, in planks."""
_SHORT = 20.0
"""A quay that is shorter, in planks, has one wave."""


class Quay(NamedTuple):
    """A plank so many pixels `thick` along the top of a place, on posts that stand in water down to
    its foot; one that `is_open` has no post in its middle."""

    place: pygame.Rect
    thick: int
    is_open: bool = False


def paint_quay(surface: pygame.Surface, pictures: Pictures, theme: Theme, quay: Quay) -> None:
    """Paint a quay, and the waves under it."""
    place, thick, is_open = quay
    is_short = place.w < _SHORT * thick
    inner = () if is_open or is_short else (_MIDDLE_POST,)
    for at in (*_SIDE_POSTS, *inner):
        post = pygame.Rect(0, place.top, round(_POST * thick), place.h)
        post.centerx = place.left + round(at * place.w)
        _paint_board(surface, theme, post, thick)
    _paint_board(surface, theme, pygame.Rect(*place.topleft, place.w, thick), thick)
    wave = pictures.drawn("wave", max(1, round(_WAVE * thick)), theme.drawn)
    for along, down in _WAVE_ALONE if is_short and not is_open else _WAVES:
        middle = place.left + along * place.w, place.top + thick + down * (place.h - thick)
        at = wave.get_rect(center=middle)
        seen = at.clip(place)
        surface.blit(wave, seen, seen.move(-at.left, -at.top))


def _paint_board(surface: pygame.Surface, theme: Theme, board: pygame.Rect, thick: int) -> None:
    line = max(1, round(_LINE * thick))
    pygame.draw.rect(surface, theme.drawn.ink, board)
    pygame.draw.rect(surface, theme.drawn.wood, board.inflate(-2 * line, -2 * line))
