"""A rod that lies, with a bead for each of the last exercises, as in a report."""

import pygame

from frame.practice.tally import Tally
from frame.report.drawings import BAR, ROD, SIZE, drawn_beads
from frame.view.widgets import Brushes

_FINER = 3
"""So many times as large it is drawn before it is shrunk, for smooth edges."""


def paint_beads(brushes: Brushes, place: pygame.Rect, tally: Tally) -> None:
    """Paint it on the ground as large as a place allows, at its left."""
    scale = min(place.w / SIZE[0], place.h / SIZE[1])
    if not brushes.needs(place) or scale <= 0:
        return
    fine = _FINER * scale
    picture, theme = pygame.Surface([max(1, round(fine * side)) for side in SIZE]), brushes.theme
    picture.fill(theme.ground)
    for colour, box in ((theme.rod, ROD), (theme.beam, BAR)):
        picture.fill(colour, [round(fine * side) for side in box])
    for bead in drawn_beads(tally):
        colours = theme.bead(used=bead.is_at_bar)
        corners = [(fine * x, fine * y) for x, y in bead.corners]
        pygame.draw.polygon(picture, colours.face, corners)
        pygame.draw.polygon(picture, colours.edge, corners, max(1, round(fine)))
    size = [max(1, round(scale * side)) for side in SIZE]
    shown = pygame.transform.smoothscale(picture, size)
    brushes.surface.blit(shown, shown.get_rect(midleft=place.midleft))
