"""Where things stand on the lesson screen with a frame of many rods: it takes the whole width.

Above it is the written work, each digit over its rod; below it one row with the buttons and the
rule's card, or the keys of an answer.
"""

import pygame

from frame.screens.lesson_places import EDGE, MARGIN, Places, ruler
from frame.view.scrolling import BAR_ROOM, fitted

MOST_RODS_BESIDE = 7
"""A frame of more rods takes the whole width."""
LEAST_SPACING = 44
"""Pixels a rod is wide at least, so that it can be touched; what does not fit is scrolled to."""

_TOP = 18.4
_BOTTOM = 83.2
_GAP = 1.4
_WRITTEN = 14.5
_ROW = 9.4
_MOST_MORE_WRITTEN = 9.0
_MOST_ROW = 21.0
_BUTTON = 24.0
_TYPED = 60.0


def places_around(
    across: float, unit: float, rods: int, units: int, is_left: bool, is_narrow: bool
) -> Places:
    """The frame in the full width. It is as high as leaves room for two lines of written work and
    for the row below; what a low frame leaves over goes to these.

    The buttons stand at the right of their row, in a left-handed layout at its left. `is_narrow`
    is for beads that are taller for their width.
    """
    column = across - 2 * EDGE
    most = _BOTTOM - _TOP - _WRITTEN - _ROW - _GAP
    area = (0, 0, column * unit, most * unit)
    layout = fitted(area, rods, units, is_narrow, LEAST_SPACING)
    bar = BAR_ROOM if layout.window else 0
    height = (layout.frame_box.h + bar) / unit + 0.2
    over = max(0.0, most - height)
    written = _WRITTEN + min(over / 2, _MOST_MORE_WRITTEN)
    row = min(_MOST_ROW, _BOTTOM - _TOP - written - height - _GAP)
    rect = ruler(unit)
    frame_top = _TOP + written + max(0.0, _BOTTOM - _TOP - written - height - _GAP - row) / 2
    below = rect(EDGE, _BOTTOM - row, column, row)
    buttons, card = _split(below, unit, is_left)
    above = rect(EDGE, _TOP, column, frame_top - _TOP)
    typed = rect(across - EDGE - _TYPED, _TOP + 1, _TYPED, 10.5)
    if is_left:
        typed.left = above.left
    return Places(
        sum=rect(MARGIN, 2.5, across - MARGIN - EDGE, 8.5),
        line=rect(MARGIN, 11, across - MARGIN - EDGE, 7.2),
        frame=rect(EDGE, frame_top, column, height),
        written=above,
        buttons=buttons,
        card=card,
        typed=typed,
        keys=below,
        called=above,
        string=rect(EDGE, 84.2, column - 12, 3.6),
        count=rect(across - EDGE - 11, 84, 11, 4),
        is_wide=True,
    )


def _split(below: pygame.Rect, unit: float, is_left: bool) -> tuple[pygame.Rect, pygame.Rect]:
    """The part of the row below the frame for buttons, and the part for the card."""
    gap = round(2 * unit)
    wide = min(round((3 * _BUTTON + 4) * unit), round(below.w * 0.58))
    buttons = pygame.Rect(below.right - wide, below.top, wide, below.h)
    card = pygame.Rect(below.left, below.top, below.w - wide - gap, below.h)
    if is_left:
        buttons.left, card.right = below.left, below.right
    return buttons, card
