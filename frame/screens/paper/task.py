"""A task of a paper as it stands on the sheet, large: a column above its line, or a × b."""

import pygame

from frame.language.catalogue import Words
from frame.language.numbers import grouped
from frame.language.printed import printed_parts
from frame.screens.parts.columns import largest
from frame.technique.calculation import Calculation, Sum
from frame.technique.reading import plain
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_STEP = 3
_NO_BREAK = "\u00a0"
_LONG, _FIVE, _BREATH = 8, 5, 0.35
"""In a column of so many rows and more, each so many are followed by so much more white, as on the
sheet, so that an eye that looks up finds its row again."""
_LINE, _OVER = 0.5, 1.5
"""Units: the line below a column, and what it is longer than the numbers at each end."""


def paint_task(brushes: Brushes, place: pygame.Rect, task: Calculation, words: Words) -> None:
    """The numbers of a task in the middle of a place."""
    if isinstance(task, Sum):
        _paint_column(brushes, place, [grouped(plain(term)) for term in task.terms])
    else:
        # The sign stays beside what it is about.
        first, *others = printed_parts(task, words)
        text = f"{first} {' '.join(others).replace(' ', _NO_BREAK)}"
        brushes.text(text, place, _STEP, bold=True, align="centre")


def _paint_column(brushes: Brushes, place: pygame.Rect, rows: list[str]) -> None:
    """Numbers below one another, their ones in a line."""
    lettering, usual = brushes.lettering, type_size(_STEP, brushes.height)
    over, thick = round(_OVER * brushes.unit), max(2, round(_LINE * brushes.unit))
    wide, high = place.w - 2 * over, place.h - 3 * thick

    def width(pixels: int) -> int:
        return max(lettering.width(row, pixels, bold=True) for row in rows)

    def top(row: int, pixels: int) -> int:
        """Where a row begins, below the first one; behind the last one how high all are."""
        breaths = min(row, len(rows) - 1) // _FIVE if len(rows) >= _LONG else 0
        return row * lettering.height(pixels) + round(breaths * _BREATH * pixels)

    def fits(pixels: int) -> bool:
        return width(pixels) <= wide and top(len(rows), pixels) <= high

    pixels = largest(range(usual, 0, -1), fits) or 1
    block = pygame.Rect(0, 0, width(pixels) + 1, top(len(rows), pixels))
    block.midtop = place.centerx, place.top + (place.h - block.h - 3 * thick) // 2
    for at, row in enumerate(rows):
        cell = pygame.Rect(block.left, block.top + top(at, pixels), block.w, 0)
        cell.h = lettering.height(pixels)
        lettering.draw(
            brushes.surface, row, cell, _STEP, brushes.theme.ink, bold=True, align="right",
            scale=pixels / usual,
        )  # fmt: skip
    line = pygame.Rect(block.left - over, block.bottom + 2 * thick, block.w + 2 * over, thick)
    brushes.surface.fill(brushes.theme.frame, line)


def paint_answer(brushes: Brushes, place: pygame.Rect, text: str, *, has_caret: bool) -> None:
    """What is typed in its field; where nothing is, where it would stand."""
    theme = brushes.theme
    brushes.box(place, theme.card, theme.ink)
    inside = place.inflate(-round(2 * brushes.unit), -round(brushes.unit))
    brushes.line(grouped(text), inside, _STEP, least=0, bold=True, align="centre")
    if has_caret and not text:
        caret = pygame.Rect(0, 0, max(2, round(brushes.unit / 4)), round(inside.h * 0.7))
        caret.center = inside.center
        brushes.surface.fill(theme.ink, caret)
