"""Paints the board, to be read from afar: no type below 4.4 % of the window's height, the sum at
12 % where it is not too long. All in ink: soft ink on paper falls below 4.5 : 1 on a projector
whose white is seven times as bright as its black."""

import pygame

from frame.language.catalogue import Words
from frame.screens.board.heading import LEAST_STEP, paint_heading
from frame.screens.board.places import Places
from frame.screens.board.seen import Seen
from frame.screens.parts.names import paint_names
from frame.screens.parts.written import Script, paint_written
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_SCRIPT = Script(row=5.3, digits=2, labels=2, is_ink_alone=True)
_DIM = 150


def paint_texts(brushes: Brushes, places: Places, seen: Seen) -> None:
    """The sum and its answer above the frame, the line below it."""
    paint_heading(brushes, places.head, seen)
    brushes.text(seen.middle, places.middle, 3, align="centre")
    line = places.line(has_reading=bool(seen.reading), is_word=bool(seen.word))
    if seen.word:
        brushes.text(seen.word, line, LEAST_STEP, bold=True)
    else:
        brushes.text(_fitting(brushes, line, seen), line, 3, bold=seen.is_rule)
    brushes.line(seen.reading, places.reading, 3, least=LEAST_STEP, align="right")


def _fitting(brushes: Brushes, line: pygame.Rect, seen: Seen) -> str:
    """As many of the sentences as can be read in their place, the last ones."""
    usual, lettering = type_size(3, brushes.height), brushes.lettering
    for first in range(len(seen.line)):
        text = " ".join(seen.line[first:])
        pixels, rows = lettering.fitted(text, usual, line.size, seen.is_rule)
        widest = max(lettering.width(row, pixels, seen.is_rule) for row in rows)
        if widest <= line.w and len(rows) * lettering.height(pixels) <= line.h:
            return text
    return seen.line[-1] if seen.line else ""


def paint_work(
    brushes: Brushes, places: Places, seen: Seen, field: BeadField, words: Words
) -> None:
    """The written work above the rods."""
    if places.is_written:
        place = places.written(field.box)
        paint_written(
            brushes, place, field, seen.lines, words, unused=seen.unused, script=_SCRIPT
        )  # fmt: skip


def paint_foot(brushes: Brushes, places: Places, seen: Seen) -> None:
    """How far it is: which bead of how many, which item of how many."""
    brushes.text(seen.bead, places.foot, LEAST_STEP)
    brushes.text(seen.item, places.foot, LEAST_STEP, align="right")


def paint_watch(brushes: Brushes, place: pygame.Rect, left: int | None, is_over: bool) -> None:
    """The minutes left, while they are told; that the time is over, as a small ring."""
    if left is not None:
        brushes.text(str(left), place, LEAST_STEP, align="centre")
    elif is_over:
        radius = round(1.2 * brushes.unit)
        thick = max(2, round(0.4 * brushes.unit))
        pygame.draw.circle(brushes.surface, brushes.theme.ink, place.center, radius, thick)


def paint_timeline(brushes: Brushes, places: Places, seen: Seen) -> None:
    """How far the work is, with a mark where each step begins."""
    line, one = places.timeline, max(2, round(places.unit * 0.5))
    bar = pygame.Rect(line.left, line.centery - one // 2, line.w, one)
    brushes.surface.fill(brushes.theme.rod, bar)
    done = pygame.Rect(bar.left, bar.top - one // 2, round(line.w * seen.done), 2 * one)
    brushes.surface.fill(brushes.theme.ink, done)
    for share in seen.steps:
        x = line.left + round(line.w * share)
        brushes.surface.fill(brushes.theme.ink, (x, line.top, max(1, one // 2), line.h))


def paint_tool_name(brushes: Brushes, places: Places, seen: Seen, name: str) -> None:
    """The name of the tool in focus or under the mouse, above the bar."""
    if name:
        place = places.line(has_reading=False, is_word=bool(seen.word))
        brushes.surface.fill(brushes.theme.ground, place)
        brushes.text(name, place, LEAST_STEP, align="centre")


def paint_place_names(brushes: Brushes, field: BeadField, *, is_one_number: bool) -> None:
    """The places under the rods."""
    band = pygame.Rect(0, field.box.bottom, 0, round(4.75 * brushes.unit))
    paint_names(brushes, field, band, LEAST_STEP, soft=False, is_one_number=is_one_number)


def paint_spot(brushes: Brushes, field: BeadField, rod: int | None) -> None:
    """All rods but one in the shade."""
    middle = dict(field.rod_places()).get(rod) if rod is not None else None
    if middle is None:
        return
    half = field.layout.spacing // 2
    shade = pygame.Surface(field.box.size, pygame.SRCALPHA)
    shade.fill((*brushes.theme.ground, _DIM))
    shade.fill((0, 0, 0, 0), pygame.Rect(middle - half - field.box.left, 0, 2 * half, field.box.h))
    brushes.surface.blit(shade, field.box)


def paint_ring(brushes: Brushes, mouse: Point) -> None:
    """A ring round the mouse."""
    size = round(5 * brushes.unit)
    for radius, colour in ((size, brushes.theme.ink), (size - 2, brushes.theme.hint)):
        pygame.draw.circle(brushes.surface, colour, mouse, radius, round(brushes.unit))
