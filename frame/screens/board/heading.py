"""The sum on the board and what it comes to: as large as fits, in as many rows as it needs, the
number in work bold and underlined. Of a sum that is too long the rows about that one are seen."""

from collections.abc import Sequence
from typing import NamedTuple

import pygame

from frame.screens.board.seen import Seen
from frame.screens.parts.columns import APART, ROW, around, largest, rows_of
from frame.view.lettering import Lettering
from frame.view.theme import type_size
from frame.view.widgets import Brushes

LEAST_STEP = 2
"""The smallest type size on the board: 4.5 % of the window's height."""
_LARGEST_STEP = 4
_GAP = 1.2
"""Between sum and answer, in heights of their letters."""


class Setting(NamedTuple):
    """How a sum is set: the size of its letters in pixels, the indices of its parts row by row, and
    whether the answer has a row of its own below them."""

    pixels: int
    rows: list[list[int]]
    is_below: bool


def setting_of(lettering: Lettering, place: pygame.Rect, seen: Seen, sizes: range) -> Setting:
    """The largest of some sizes, the largest first, at which sum and answer fit beside one another,
    or else one below the other; at the smallest as many rows as fit."""

    def whole(pixels: int) -> Setting | None:
        answer, high = _answer_width(lettering, seen, pixels), _most_rows(place, pixels)
        for is_below, wide in ((False, round(place.w - answer)), (True, place.w)):
            rows = rows_of(lettering, wide, seen.head, pixels)
            if rows is not None and answer <= place.w and len(rows) <= high - is_below:
                return Setting(pixels, rows, is_below)
        return None

    pixels = largest(sizes, lambda size: whole(size) is not None) or sizes[-1]
    return whole(pixels) or _cut(lettering, place, seen, pixels)


def _cut(lettering: Lettering, place: pygame.Rect, seen: Seen, pixels: int) -> Setting:
    """As many rows as fit, of a sum that is too long."""
    answer = _answer_width(lettering, seen, pixels)
    is_below = answer > place.w / 2
    rows = rows_of(lettering, place.w if is_below else round(place.w - answer), seen.head, pixels)
    rows = rows or [[at] for at in range(len(seen.head))]
    most = max(1, _most_rows(place, pixels) - is_below)
    return Setting(pixels, around(rows, _middle(seen), most), is_below)


def _most_rows(place: pygame.Rect, pixels: int) -> int:
    return int(place.h // (pixels * ROW))


def _answer_width(lettering: Lettering, seen: Seen, pixels: int) -> float:
    """How much room the answer takes, told or not, with the gap before it."""
    texts = [text for text in (seen.answer, seen.told) if text]
    widest = max((lettering.width(text, pixels, bold=True) for text in texts), default=0)
    return widest + _GAP * pixels if widest else 0


def _middle(seen: Seen) -> int | None:
    """The part that must be seen: the one in work; of what is typed the end."""
    return seen.term if seen.answer else len(seen.head) - 1


def paint_heading(brushes: Brushes, place: pygame.Rect, seen: Seen) -> None:
    """The sum at the left, the answer at the right."""
    if not brushes.needs(place) or not (seen.head or seen.answer):
        return
    largest, least = (type_size(step, brushes.height) for step in (_LARGEST_STEP, LEAST_STEP))
    sizes = range(largest, least - 1, -1)
    setting = setting_of(brushes.lettering, place, seen, sizes)
    count, high = len(setting.rows) + setting.is_below, setting.pixels * ROW
    top = place.centery - high * count / 2
    for at, row in enumerate(setting.rows):
        line = pygame.Rect(place.left, round(top + at * high), place.w, round(high))
        _paint_row(brushes, line, row, seen, setting.pixels)
    _paint_dots(brushes, place, setting, len(seen.head), round(top))
    answer = place.copy()
    if setting.is_below:
        answer.top, answer.h = round(top + (count - 1) * high), round(high)
    _write(brushes, seen.answer, answer, setting.pixels, align="right")


def _paint_dots(
    brushes: Brushes, place: pygame.Rect, setting: Setting, count: int, top: int
) -> None:
    """Dots in the margin where there is more of a sum than is seen."""
    rows, high = setting.rows, round(setting.pixels * ROW)
    before = pygame.Rect(0, top, place.left, high)
    after = pygame.Rect(place.right, top + (len(rows) - 1) * high, place.left, high)
    if count and rows[0][0] > 0:
        _write(brushes, "…", before, setting.pixels, align="centre")
    if count and rows[-1][-1] < count - 1:
        _write(brushes, "…", after, setting.pixels, align="centre")


def _paint_row(
    brushes: Brushes, line: pygame.Rect, row: Sequence[int], seen: Seen, pixels: int
) -> None:
    left = float(line.left)
    for index in row:
        part, is_now = seen.head[index], index == seen.term
        width = brushes.lettering.width(part, pixels, bold=True)
        cell = pygame.Rect(round(left), line.top, min(width + 2, line.right - round(left)), line.h)
        _write(brushes, part, cell, pixels, is_bold=is_now or seen.term is None)
        if is_now:
            thick = max(2, pixels // 14)
            under = pygame.Rect(cell.left, cell.centery + round(pixels * 0.48), width, thick)
            brushes.surface.fill(brushes.theme.ink, under)
        left += width + pixels * APART


def _write(
    brushes: Brushes, text: str, place: pygame.Rect, pixels: int, *, is_bold: bool = True,
    align: str = "left",
) -> None:  # fmt: skip
    usual = type_size(_LARGEST_STEP, brushes.height)
    brushes.lettering.draw(
        brushes.surface, text, place, _LARGEST_STEP, brushes.theme.ink, bold=is_bold, align=align,
        scale=pixels / usual, window=brushes.height,
    )  # fmt: skip
