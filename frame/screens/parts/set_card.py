"""A picture of what a set of exercises asks: a sign, and a small frame with what it is about."""

from typing import NamedTuple

import pygame

from frame.technique.beads import Frame
from frame.view.bead_field import BeadField
from frame.view.painter import Appearance, Painter
from frame.view.widgets import Brushes

_SIGN_SHARE, _FRAME_SHARE, _MARGIN = 0.28, 0.5, 0.07
"""Of the side of the card: the side of a sign, the width of the frame beside it, the margin."""


class SetCard(NamedTuple):
    """What is on it: the picture of a sign, what the frame reads, how strong its beads are, from 0
    to 1, and in the place of the frame another sign, where there is none on the screen."""

    sign: str
    digits: str = ""
    opacity: float = 1.0
    instead: str = ""


def paint_set(card: SetCard, painter: Painter, brushes: Brushes, place: pygame.Rect) -> None:
    """Paint the card in a square."""
    theme, side = brushes.theme, place.w
    brushes.box(place, theme.card, radius=max(2, side // 12))
    if not card.sign:
        return
    margin = round(_MARGIN * side)
    sign = pygame.Rect(place.left + margin, 0, round(_SIGN_SHARE * side), 0)
    _paint_sign(brushes, card.sign, sign.left, place.centery, sign.w)
    beside = pygame.Rect(0, place.top, round(_FRAME_SHARE * side), place.h)
    beside.right = place.right - margin
    if card.instead:
        _paint_sign(brushes, card.instead, beside.left, place.centery, beside.w)
        return
    area = beside.inflate(0, -2 * margin)
    field = BeadField(painter, Frame(card.digits, len(card.digits) - 1), area)
    field.appear(Appearance(opacity=card.opacity))
    field.paint(brushes.surface)


def _paint_sign(brushes: Brushes, sign: str, left: int, middle: int, side: int) -> None:
    picture = brushes.pictures.get(sign, side, brushes.theme.ink)
    brushes.surface.blit(picture, picture.get_rect(midleft=(left, middle)))
