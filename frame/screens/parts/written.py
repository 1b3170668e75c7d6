"""The written work above a frame: each line's digits over the rods they touch, the line in work
with a bracket, and marks over the digits that it multiplies."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

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
    half, shown = field.layout.spacing // 2, labelled[-room:]
    digits = [middles[rod] for line, _ in shown for rod in line.rods if rod in middles]
    column = max(digits, default=place.left) + half
    for index, (line, label) in enumerate(reversed(shown)):
        at = pygame.Rect(place.left, bottom - (index + 1) * row, place.w, row)
        is_last = index == 0
        _paint_line(brushes, at, line, middles, label, half, column, script, is_last=is_last)
        if is_last:
            _paint_bracket(brushes, place.bottom, line, middles, field.layout.spacing, script)
            _paint_factors(brushes, at, place.bottom, line, middles, script)


def _colour(brushes: Brushes, script: Script, *, is_last: bool) -> Colour:
    if script.is_ink_alone:
        return brushes.theme.ink
    return brushes.theme.work if is_last else brushes.theme.soft_ink


def _paint_line(
    brushes: Brushes, place: pygame.Rect, line: WrittenLine, middles: Mapping[int, int],
    label: str, half: int, column: int, script: Script, *, is_last: bool,
) -> None:  # fmt: skip
    """The digits of a line over their rods, and beside them what they come from: in the column to
    the right of all lines, or where the row ends there in the nearest gap that is wide enough, or
    as much of it as fits."""
    colour = _colour(brushes, script, is_last=is_last)
    seen = [middles[rod] for rod in line.rods if rod in middles]
    if not seen:
        return
    for rod, digit in zip(line.rods, line.digits, strict=True):
        if rod in middles:
            _paint_digit(brushes, place, middles[rod], digit, colour, script, is_bold=is_last)
    taken = [*seen, *(_marked(line, middles) if is_last else ())]
    pixels = type_size(script.labels, brushes.height)
    *others, right = _gaps(place, taken, half)
    width = brushes.lettering.width(label, pixels)
    if place.right - column > width:
        right.w, right.left = min(right.w, place.right - column), max(right.left, column)
    gap = next((one for one in (right, *reversed(others)) if one.w > width), None)
    gap = gap or max((right, *others), key=lambda one: one.w)
    label = brushes.lettering.shortened(label, pixels, gap.w)
    align = "left" if gap is right else "right"
    brushes.text(label, gap, script.labels, align=align, colour=colour)


def _gaps(place: pygame.Rect, middles: Sequence[int], half: int) -> list[pygame.Rect]:
    """What digits at these middles leave free of a row, from the left."""
    digits = [edge for middle in sorted(middles) for edge in (middle - half, middle + half)]
    ends = [place.left, *digits, place.right]
    spans = zip(ends[::2], ends[1::2], strict=True)
    return [pygame.Rect(left, place.top, right - left, place.h) for left, right in spans]


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
