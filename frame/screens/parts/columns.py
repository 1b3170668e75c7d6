"""A sum above a frame: its numbers in as few rows as they need, the one in work dark."""

from bisect import bisect_left
from collections.abc import Callable, Sequence

import pygame

from frame.view.lettering import Lettering
from frame.view.theme import type_size
from frame.view.widgets import Brushes

APART = 0.35
"""The gap between two numbers, in heights of their letters."""
ROW = 1.25
"""The height of a row, in heights of its letters."""


def paint_sum(brushes: Brushes, place: pygame.Rect, parts: Sequence[str], term: int | None) -> None:
    """The parts of a sum, each with its sign, as large as fits. The one with the index `term` is
    dark and the others soft; all are dark for None."""
    usual = type_size(3, brushes.surface.get_height())
    least = type_size(0, brushes.surface.get_height())
    pixels, rows = _fitted(brushes.lettering, place, parts, usual, least)
    shown = around(rows, term, max(1, int(place.h // (pixels * ROW))))
    height = pixels * ROW
    top = place.centery - height * len(shown) / 2
    for at, row in enumerate(shown):
        left = float(place.left)
        for index in row:
            width = brushes.lettering.width(parts[index], pixels, bold=True)
            cell = pygame.Rect(round(left), round(top + at * height), width + 2, round(height))
            colour = brushes.theme.ink if term in (None, index) else brushes.theme.soft_ink
            brushes.lettering.draw(
                brushes.surface, parts[index], cell, 3, colour, bold=True, scale=pixels / usual
            )
            left += width + pixels * APART
        is_cut = (at == 0 and row != rows[0]) or (at == len(shown) - 1 and row != rows[-1])
        if is_cut:
            more = pygame.Rect(round(left), round(top + at * height), 2 * pixels, round(height))
            brushes.text("…", more, 0, bold=True)


def _fitted(
    lettering: Lettering, place: pygame.Rect, parts: Sequence[str], usual: int, least: int
) -> tuple[int, list[list[int]]]:
    """The largest size at which all rows fit, or the least, and the parts of each row."""

    def fits(pixels: int) -> bool:
        rows = rows_of(lettering, place.w, parts, pixels)
        return rows is not None and len(rows) * pixels * ROW <= max(place.h, usual * ROW)

    pixels = largest(range(usual, least, -1), fits) or least
    rows = rows_of(lettering, place.w, parts, pixels)
    return pixels, rows or [[at] for at in range(len(parts))]


def largest(sizes: range, fits: Callable[[int], bool]) -> int | None:
    """The first of some sizes, the largest first, that fits, None where none does. What fits is
    taken to fit when it is smaller too."""
    at = bisect_left(sizes, True, key=fits)
    return sizes[at] if at < len(sizes) else None


def rows_of(
    lettering: Lettering, wide: int, parts: Sequence[str], pixels: int
) -> list[list[int]] | None:
    """The parts broken into rows, None where one is wider than a row."""
    rows: list[list[int]] = [[]]
    left = 0.0
    for index, part in enumerate(parts):
        width = lettering.width(part, pixels, bold=True)
        if width > wide:
            return None
        if rows[-1] and left + width > wide:
            rows.append([])
            left = 0.0
        rows[-1].append(index)
        left += width + pixels * APART
    return rows


def around(rows: list[list[int]], term: int | None, most: int) -> list[list[int]]:
    """As many rows as there is room for, the one in work among them."""
    if len(rows) <= most:
        return rows
    at = next((at for at, row in enumerate(rows) if term in row), 0)
    first = min(max(0, at - most // 2), len(rows) - most)
    return rows[first : first + most]
