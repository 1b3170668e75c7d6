"""What home offers on its large buttons, and the picture of each, drawn in a square."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.room import Room
from frame.technique.beads import Frame
from frame.technique.fingers import Finger
from frame.view.geometry import Layout, pose_of
from frame.view.painter import Appearance
from frame.view.widgets import Brushes, Drawing

_FREE = Frame("251", 2)
"""What the small frame shows."""
_BEAD_SHARE, _BADGE_SHARE = 0.6, 0.42
"""How high a bead is and its badge, in shares of the square's side."""
_LEAST_WIDTH = 37.0
"""So many units wide is a window at least for each offer in one row."""


class Offer(NamedTuple):
    """One thing to do from home: what does it, its words, its sign, what is said of it where that
    is not its words, and whether it is the main one."""

    act: Callable[[], object]
    text: str
    sign: str
    said: str = ""
    is_main: bool = False


def in_rows(offers: Sequence[Offer], across: float, *, is_narrow: bool) -> list[Sequence[Offer]]:
    """The offers side by side in a window so many units wide; where there is no room for all, two
    in a row, in a narrow one below the main one."""
    if not is_narrow and across >= _LEAST_WIDTH * len(offers):
        return [offers]
    alone, rest = (offers[:1], offers[1:]) if is_narrow else ((), offers)
    twos = [rest[at : at + 2] for at in range(0, len(rest), 2)]
    return [alone, *twos] if alone else twos


def drawing_of(room: Room, sign: str, *, is_main: bool) -> Drawing:
    """What is drawn for an offer with this sign: a lit bead for the next lesson, a small frame for
    the free one; of the main offer in the ink of its button."""
    if sign == "lesson":
        return partial(_paint_bead, room)
    if sign == "free":
        return partial(_paint_frame, room)
    return partial(_paint_sign, sign, is_main)


def _paint_bead(room: Room, brushes: Brushes, square: pygame.Rect) -> None:
    high = round(_BEAD_SHARE * square.h)
    bead = room.painter.bead(square.w, high, used=True)
    at = bead.get_rect(center=square.center)
    brushes.surface.blit(bead, at)
    badge = room.painter.badge(round(_BADGE_SHARE * square.h), Finger.THUMB, is_up=True)
    brushes.surface.blit(badge, badge.get_rect(center=at.center))


def _paint_frame(room: Room, brushes: Brushes, square: pygame.Rect) -> None:
    layout = Layout.fit((*square.topleft, *square.size), len(_FREE.digits), _FREE.units)
    room.painter.draw_frame(brushes.surface, layout, pose_of(_FREE), Appearance())


def _paint_sign(sign: str, is_main: bool, brushes: Brushes, square: pygame.Rect) -> None:
    theme = brushes.theme
    ink = theme.button_ink if is_main else theme.ink
    picture = brushes.pictures.get(f"icon-{sign}", min(square.size), ink)
    brushes.surface.blit(picture, picture.get_rect(center=square.center))
