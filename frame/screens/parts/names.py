"""The names of places beneath a frame."""

import pygame

from frame.view.bead_field import BeadField
from frame.view.place_names import place_names
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_MOST_OF_SPACING = 0.95


def paint_names(
    brushes: Brushes,
    field: BeadField,
    band: pygame.Rect,
    step: int = 0,
    *,
    soft: bool = True,
    is_one_number: bool = True,
) -> None:
    """As many names as there is room for, in a band from the left to the right of the window; that
    of the ones alone where more than one number stands on the frame."""
    pixels = type_size(step, brushes.height)
    room = field.layout.spacing * _MOST_OF_SPACING
    middles = {rod: at for rod, at in field.rod_places() if is_one_number or rod == 0}
    names = place_names(middles, room, lambda name: brushes.lettering.width(name, pixels))
    for rod, name in names.items():
        place = pygame.Rect(0, band.top, field.layout.spacing, band.height)
        place.centerx = middles[rod]
        brushes.text(name, place, step, soft=soft, align="centre")
