"""A name below each rod of a frame."""

from collections.abc import Sequence
from dataclasses import replace

import pygame

from frame.view.bead_field import BeadField
from frame.view.theme import type_size
from frame.view.widgets import Brushes

HEIGHT = 6.5
"""Units of space that they take below a frame."""
USUAL_ROOM = 5.0
"""Units of space from rod to rod that each name needs, unless names are longer."""
_ALIGNS = {-1: "right", 0: "centre", 1: "left"}


def paint_rod_names(
    brushes: Brushes, field: BeadField, area: pygame.Rect, names: Sequence[str],
    strong: int | None, room: float = USUAL_ROOM,
) -> None:  # fmt: skip
    """The names below the rods, from the left, between the sides of an area; one of them strong
    and, where rods are narrow, alone."""
    space, spacing = brushes.unit, field.layout.spacing
    is_crowded = spacing < room * space
    width = round(24 * space) if is_crowded else round(spacing - space)
    window = _window(brushes, names, width)
    for at, (name, (_, middle)) in enumerate(zip(names, field.rod_places(), strict=True)):
        if is_crowded and at != strong:
            continue
        place = pygame.Rect(0, 0, width, round(6 * space))
        place.midtop = middle, field.box.bottom + round(0.5 * space)
        inside = place.clamp((area.left, place.top), (area.w, place.h))
        align = _ALIGNS[(inside.left > place.left) - (inside.left < place.left)]
        alike = replace(brushes, measure=window)
        alike.text(name, inside, 0, soft=at != strong, bold=at == strong, align=align)


def _window(brushes: Brushes, names: Sequence[str], width: int) -> int:
    """The height of a window in whose type no word of the names is wider than its place."""
    usual = type_size(0, brushes.height)
    words = [word for name in names for word in name.split()]
    widest = max((brushes.lettering.width(word, usual, bold=True) for word in words), default=0)
    return brushes.height if widest <= width else brushes.height * width // widest
