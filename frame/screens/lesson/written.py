"""The written work above the frame: each line's digits over the rods they touch, the line in work
with a bracket, and marks over the digits that it multiplies."""

from collections.abc import Mapping, Sequence

import pygame

from frame.language.written import line_label
from frame.practice.written import WrittenLine, unused_line, written_lines
from frame.screens.lesson.scene import Scene
from frame.view.theme import Colour, type_size
from frame.view.widgets import Brushes

_ROW = 3.6
_BRACKET = 1.9
_MARK = 1.6


def paint_written(scene: Scene, brushes: Brushes, place: pygame.Rect) -> None:
    """As many of the last lines as there is room for, the last one lowest."""
    work = scene.work
    if work is None or not place.h or not brushes.needs(place):
        return
    middles = dict(scene.field.rod_places())
    one, lines = scene.unit, written_lines(work)
    unused = unused_line(work)
    row, bottom = round(_ROW * one), place.bottom - round(_BRACKET * one)
    if unused is not None:
        lines = (*lines, unused)
    room = max(1, (bottom - place.top) // row)
    for index, line in enumerate(reversed(lines[-room:])):
        at = pygame.Rect(place.left, bottom - (index + 1) * row, place.w, row)
        is_last = index == 0
        label = scene.room.words.text("written.unused") if line is unused else ""
        _paint_line(scene, brushes, at, line, middles, label, is_last=is_last)
        if is_last:
            _paint_bracket(scene, brushes, place.bottom, line, middles)
            _paint_factors(scene, brushes, at, place.bottom, line, middles)


def _paint_line(
    scene: Scene, brushes: Brushes, place: pygame.Rect, line: WrittenLine,
    middles: Mapping[int, int], label: str, *, is_last: bool,
) -> None:  # fmt: skip
    """The digits of a line over their rods, and beside them what they come from: to their right, or
    where the row ends there in the nearest gap that is wide enough, or as much of it as fits."""
    colour = brushes.theme.work if is_last else brushes.theme.soft_ink
    seen = [middles[rod] for rod in line.rods if rod in middles]
    if not seen:
        return
    for rod, digit in zip(line.rods, line.digits, strict=True):
        if rod in middles:
            _paint_digit(brushes, place, middles[rod], digit, colour, is_bold=is_last)
    text = label or line_label(line.operation, scene.room.words)
    taken = [*seen, *(_marked(line, middles) if is_last else ())]
    pixels = type_size(0, brushes.surface.get_height())
    *others, right = _gaps(place, taken, scene.field.layout.spacing // 2)
    width = brushes.lettering.width(text, pixels)
    gap = next((one for one in (right, *reversed(others)) if one.w > width), None)
    gap = gap or max((right, *others), key=lambda one: one.w)
    text = brushes.lettering.shortened(text, pixels, gap.w)
    brushes.text(text, gap, 0, align="left" if gap is right else "right", colour=colour)


def _gaps(place: pygame.Rect, middles: Sequence[int], half: int) -> list[pygame.Rect]:
    """What digits at these middles leave free of a row, from the left."""
    digits = [edge for middle in sorted(middles) for edge in (middle - half, middle + half)]
    ends = [place.left, *digits, place.right]
    spans = zip(ends[::2], ends[1::2], strict=True)
    return [pygame.Rect(left, place.top, right - left, place.h) for left, right in spans]


def _paint_digit(
    brushes: Brushes, place: pygame.Rect, middle: int, digit: str, colour: Colour, *, is_bold: bool
) -> None:
    cell = pygame.Rect(0, place.top, place.h, place.h)
    cell.centerx = middle
    brushes.text(digit, cell, 1, bold=is_bold, align="centre", colour=colour)


def _paint_bracket(
    scene: Scene, brushes: Brushes, bottom: int, line: WrittenLine, middles: Mapping[int, int]
) -> None:
    """A bracket from the line down to the rods it touches."""
    seen = [middles[rod] for rod in line.rods if rod in middles]
    if not seen:
        return
    one, half = scene.unit, scene.field.layout.spacing * 0.42
    thick = max(2, round(one * 0.35))
    left, right = round(seen[0] - half), round(seen[-1] + half)
    top = bottom - round(_BRACKET * one * 0.8)
    brushes.surface.fill(brushes.theme.work, (left, top, right - left, thick))
    for x in (left, right - thick):
        brushes.surface.fill(brushes.theme.work, (x, top, thick, bottom - top))


def _paint_factors(
    scene: Scene, brushes: Brushes, place: pygame.Rect, bottom: int, line: WrittenLine,
    middles: Mapping[int, int],
) -> None:  # fmt: skip
    """A pointer and the digit over each rod whose digit is multiplied."""
    for middle, factor in _marked(line, middles).items():
        _paint_digit(brushes, place, middle, str(factor), brushes.theme.work, is_bold=True)
        size, tip = round(_MARK * scene.unit), bottom - 1
        corners = [(middle - size, tip - size), (middle + size, tip - size), (middle, tip)]
        pygame.draw.polygon(brushes.surface, brushes.theme.work, corners)


def _marked(line: WrittenLine, middles: Mapping[int, int]) -> dict[int, int]:
    """The digits that are multiplied, by the middle of their rods, while the line is in work."""
    if line.is_done:
        return {}
    factors = zip(line.operation.of, line.operation.factors, strict=False)
    return {middles[at]: one for at, one in factors if at in middles and at not in line.rods}
