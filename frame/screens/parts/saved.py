"""What became of a file that was to be saved, and the whole path of its folder."""

from pathlib import Path

import pygame

from frame.screens.parts.fitting import printable
from frame.screens.parts.own_files import path_lines
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_PATH_LINES = 2


def paint_saved(brushes: Brushes, place: pygame.Rect, said: str, folder: Path) -> None:
    """What is said of the file, and below it its folder."""
    pixels = type_size(0, brushes.height)
    line = min(brushes.lettering.height(pixels), place.h // (_PATH_LINES + 1))

    def fits(text: str) -> bool:
        return brushes.lettering.width(text, pixels, bold=True) <= place.w

    lines = path_lines(printable(str(folder)), fits, _PATH_LINES)
    first = pygame.Rect(place.left, place.top, place.w, place.h - len(lines) * line)
    brushes.text(said, first, 0)
    for at, text in enumerate(lines):
        here = pygame.Rect(place.left, first.bottom + at * line, place.w, line)
        brushes.text(text, here, 0, bold=True)
