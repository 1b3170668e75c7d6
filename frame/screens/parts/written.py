"""The written work above a frame: each line's digits over the rods they touch, the line in work
with a bracket, and marks over the digits that it multiplies."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import pygame

from frame.language.catalogue import Words
from frame.language.written import line_label
from frame.practice.written import WrittenLine
from frame.view.bead_field import BeadField
from frame.view.theme import Colour, type_size
from frame.view.widgets import Brushes


@dataclass(frozen=True, slots=True)
class Script:
    """How large it is written: rows, brackets and pointers in units, digits and what stands beside
    them in steps of type size; and whether in ink alone, or soft where it is done and in a colour
    of its own where it is in work."""

    row: float = 3.6
    bracket: float = 1.9
    pointer: float = 1.6
    digits: int = 1
    labels: int = 0
    is_ink_alone: bool = False


USUAL = Script()


def paint_written(
    brushes: Brushes, place: pygame.Rect, field: BeadField, lines: Sequence[WrittenLine],
    words: Words, *, unused: WrittenLine | None = None, script: Script = USUAL,
) -> None:  # fmt: skip
    """As many of the last lines as there is room for, the last one lowest; `unused` tells how a
    frame below zero is read, and stands below them."""
    if not place.h or not brushes.needs(place):
        return
    one, middles = brushes.unit, dict(field.rod_places())
    labelled = [(line, line_label(line.operation, words)) for line in lines]
    if unused is not None:
        labelled.append((unused, words.text("written.unused")))
    row, bottom = round(script.row * one), place.bottom - round(script.bracket * one)
    room = max(1, (bottom - place.top) // row)
    shown = labelled[-room:]
    pixels = type_size(script.labels, brushes.height)
    widths = [brushes.lettering.width(label, pixels) for _, label in shown]
    gaps = _gaps_for(widths, place, [line for line, _ in shown], middles, field.layout.spacing // 2)
    for index, ((line, label), gap) in enumerate(zip(reversed(shown), reversed(gaps), strict=True)):
        at = pygame.Rect(place.left, bottom - (index + 1) * row, place.w, row)
        is_last = index == 0
        _paint_line(brushes, at, line, middles, script, is_last=is_last)
        if gap is not None:
            _paint_label(brushes, at, label, gap, script, is_last=is_last)
        if is_last:
            _paint_bracket(brushes, place.bottom, line, middles, field.layout.spacing, script)
            _paint_factors(brushes, at, place.bottom, line, middles, script)


def _colour(brushes: Brushes, script: Script, *, is_last: bool) -> Colour:
    if script.is_ink_alone:
        return brushes.theme.ink
    return brushes.theme.work if is_last else brushes.theme.soft_ink


def _paint_line(
    brushes: Brushes, place: pygame.Rect, line: WrittenLine, middles: Mapping[int, int],
    script: Script, *, is_last: bool,
) -> None:  # fmt: skip
    """The digits of a line over their rods."""
    colour = _colour(brushes, script, is_last=is_last)
    for rod, digit in zip(line.rods, line.digits, strict=True):
        if rod in middles:
            _paint_digit(brushes, place, middles[rod], digit, colour, script, is_bold=is_last)


def _paint_label(
    brushes: Brushes, place: pygame.Rect, label: str, gap: "_Gap", script: Script, *, is_last: bool
) -> None:
    """What the digits of a line come from, beside them, or as much of it as fits."""
    wide = gap.right - gap.left
    label = brushes.lettering.shortened(label, type_size(script.labels, brushes.height), wide)
    align = "left" if gap.is_behind else "right"
    colour = _colour(brushes, script, is_last=is_last)
    at = pygame.Rect(gap.left, place.top, wide, place.h)
    brushes.text(label, at, script.labels, align=align, colour=colour)


class _Gap(NamedTuple):
    """A free part of a row, in pixels, and whether it is right of the row's digits."""

    left: int
    right: int
    is_behind: bool

    def holds(self, width: int) -> bool:
        """Whether a label of this width has room in it."""
        return self.right - self.left > width


def _digits(line: WrittenLine, middles: Mapping[int, int]) -> list[int]:
    """The middles of a line's digits that are seen."""
    return [middles[rod] for rod in line.rods if rod in middles]


def _gaps_for(
    widths: Sequence[int], place: pygame.Rect, lines: Sequence[WrittenLine],
    middles: Mapping[int, int], half: int,
) -> list[_Gap | None]:  # fmt: skip
    """Where the labels of lines stand, each so wide: all in one column; or where there is room for
    none, each by itself. None for a line that is not seen."""
    rows = [_digits(line, middles) for line in lines]
    digits = [middle for row in rows for middle in row]
    if not digits:
        return [None] * len(rows)
    marks = sorted(_marked(lines[-1], middles)) if rows[-1] else []
    seen = [width for width, row in zip(widths, rows, strict=True) if row]
    for column, last in _columns(place, digits, marks, half):
        if all(map(column.holds, seen)) and (not rows[-1] or last.holds(seen[-1])):
            return [*(column if row else None for row in rows[:-1]), last if rows[-1] else None]
    rows[-1] = sorted([*rows[-1], *marks])
    behind = max(digits) + half
    return [
        _alone(width, place, row, behind, half) if row else None
        for width, row in zip(widths, rows, strict=True)
    ]


def _columns(
    place: pygame.Rect, digits: Sequence[int], marks: Sequence[int], half: int
) -> Iterator[tuple[_Gap, _Gap]]:
    """The columns beside digits at these middles, the best first: right of them or beyond a mark
    there, left of them or beyond a mark there. Of each what it is in any row, and what the marks
    leave of it in the last."""
    right, left = max(digits) + half, min(digits) - half
    after = [mark for mark in marks if mark - half >= right]
    for edge in (right, *(mark + half for mark in after)):
        end = next((mark - half for mark in after if mark - half >= edge), place.right)
        yield _Gap(edge, place.right, True), _Gap(edge, end, True)
    before = [mark for mark in reversed(marks) if mark + half <= left]
    for edge in (left, *(mark - half for mark in before)):
        end = next((mark + half for mark in before if mark + half <= edge), place.left)
        yield _Gap(place.left, edge, False), _Gap(end, edge, False)


def _alone(width: int, place: pygame.Rect, row: Sequence[int], behind: int, half: int) -> _Gap:
    """Where a label stands that shares no column: right of all digits, or else in the nearest gap
    between those of its row that is wide enough, or in the widest."""
    edges = [place.left, *(edge for one in row for edge in (one - half, one + half)), place.right]
    *others, last = zip(edges[::2], edges[1::2], strict=True)
    gaps = [
        _Gap(max(behind, last[0]), place.right, True),
        _Gap(*last, True),
        *(_Gap(*one, False) for one in reversed(others)),
    ]
    fitting = (gap for gap in gaps if gap.holds(width))
    return next(fitting, None) or max(gaps, key=lambda gap: gap.right - gap.left)


def _paint_digit(
    brushes: Brushes, place: pygame.Rect, middle: int, digit: str, colour: Colour,
    script: Script, *, is_bold: bool,
) -> None:  # fmt: skip
    cell = pygame.Rect(0, place.top, place.h, place.h)
    cell.centerx = middle
    brushes.text(digit, cell, script.digits, bold=is_bold, align="centre", colour=colour)


def _paint_bracket(
    brushes: Brushes, bottom: int, line: WrittenLine, middles: Mapping[int, int], spacing: int,
    script: Script,
) -> None:  # fmt: skip
    """A bracket from the line down to the rods it touches."""
    seen = [middles[rod] for rod in line.rods if rod in middles]
    if not seen:
        return
    half, thick = spacing * 0.42, max(2, round(brushes.unit * 0.35))
    left, right = round(seen[0] - half), round(seen[-1] + half)
    top = bottom - round(script.bracket * brushes.unit * 0.8)
    colour = _colour(brushes, script, is_last=True)
    brushes.surface.fill(colour, (left, top, right - left, thick))
    for x in (left, right - thick):
        brushes.surface.fill(colour, (x, top, thick, bottom - top))


def _paint_factors(
    brushes: Brushes, place: pygame.Rect, bottom: int, line: WrittenLine,
    middles: Mapping[int, int], script: Script,
) -> None:  # fmt: skip
    """A pointer and the digit over each rod whose digit is multiplied."""
    colour = _colour(brushes, script, is_last=True)
    for middle, factor in _marked(line, middles).items():
        _paint_digit(brushes, place, middle, str(factor), colour, script, is_bold=True)
        size, tip = round(script.pointer * brushes.unit), bottom - 1
        corners = [(middle - size, tip - size), (middle + size, tip - size), (middle, tip)]
        pygame.draw.polygon(brushes.surface, colour, corners)


def _marked(line: WrittenLine, middles: Mapping[int, int]) -> dict[int, int]:
    """The digits that are multiplied, by the middle of their rods, while the line is in work."""
    if line.is_done:
        return {}
    factors = zip(line.operation.of, line.operation.factors, strict=False)
    return {middles[at]: one for at, one in factors if at in middles and at not in line.rods}
