"""Paints the board, to be read from afar: no text below 4 % of the window's height, the sum at
12 %."""

from dataclasses import dataclass
from decimal import Decimal

import pygame

from frame.language.numbers import grouped
from frame.screens.board.seen import Seen
from frame.technique.reading import plain
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.widgets import Brushes

LEAST_STEP = 2
"""The smallest type size on the board: 4.5 % of the window's height."""
_DIM = 150


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of a window so many units wide, in pixels."""

    across: float
    unit: float

    def rect(self, x: float, y: float, w: float, h: float) -> pygame.Rect:
        """A place given in units."""
        return pygame.Rect(*(round(each * self.unit) for each in (x, y, w, h)))

    @property
    def timeline(self) -> pygame.Rect:
        """The line along which one jumps to any point of the work."""
        return self.rect(6, 77.4, self.across - 12, 2.6)

    def line(self, seen: Seen) -> pygame.Rect:
        """Where the rule stands; the word on a try has two lines, and the timeline's place."""
        wide = self.across * 0.76 - 7 if seen.reading else self.across - 12
        return self.rect(6, 70.7, wide, 9.7 if seen.word else 6)


def paint_texts(brushes: Brushes, at: Places, seen: Seen) -> None:
    """The sum at the left, the answer at the right, the line below the frame."""
    wide = at.across - 12
    brushes.text(seen.head, at.rect(6, 2, wide * 0.72, 14), 4, bold=True)
    brushes.text(seen.middle, at.rect(6, 30, wide, 24), 3, align="centre")
    answer = at.rect(6 + wide * 0.72, 2, wide * 0.28, 14)
    brushes.text(seen.answer, answer, 4, bold=seen.is_told, align="right")
    brushes.text(seen.word, at.line(seen), LEAST_STEP, bold=True)
    brushes.line(seen.line, at.line(seen), 3, least=LEAST_STEP, bold=seen.is_rule)
    reading = at.rect(at.across * 0.76, 70.7, at.across * 0.24 - 6, 6)
    brushes.text(seen.reading, reading, 3, align="right")


def paint_foot(brushes: Brushes, at: Places, seen: Seen) -> None:
    """How far it is: which bead of how many, which item of how many."""
    place = at.rect(6, 82, at.across - 12, 6)
    brushes.text(seen.bead, place, LEAST_STEP)
    brushes.text(seen.item, place, LEAST_STEP, align="right")


def paint_timeline(brushes: Brushes, at: Places, seen: Seen) -> None:
    """How far the work is, with a mark where each step begins."""
    line, one = at.timeline, max(2, round(at.unit * 0.5))
    bar = pygame.Rect(line.left, line.centery - one // 2, line.w, one)
    brushes.surface.fill(brushes.theme.rod, bar)
    done = pygame.Rect(bar.left, bar.top - one // 2, round(line.w * seen.done), 2 * one)
    brushes.surface.fill(brushes.theme.ink, done)
    for share in seen.steps:
        x = line.left + round(line.w * share)
        brushes.surface.fill(brushes.theme.ink, (x, line.top, max(1, one // 2), line.h))


def paint_tool_name(brushes: Brushes, at: Places, seen: Seen, name: str) -> None:
    """The name of the tool in focus or under the mouse, above the bar."""
    if name:
        place = at.line(seen)
        place.w = round(at.across * at.unit) - 2 * place.left
        brushes.surface.fill(brushes.theme.ground, place)
        brushes.text(name, place, LEAST_STEP, align="centre")


def paint_names(brushes: Brushes, at: Places, field: BeadField) -> None:
    """The places under the rods where they are wide enough for their names, else the ones alone."""
    top, height, rods = field.box.bottom, round(4.75 * at.unit), len(field.frame.digits)
    for rod, middle in field.rod_places():
        if rod == 0 or (rods <= 7 and abs(rod) <= 3):
            place = pygame.Rect(0, top, field.layout.spacing, height)
            place.centerx = middle
            name = grouped(plain(Decimal(10) ** rod))
            brushes.text(name, place, LEAST_STEP, align="centre")


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


def paint_ring(brushes: Brushes, at: Places, mouse: Point) -> None:
    """A ring round the mouse."""
    size = round(5 * at.unit)
    for radius, colour in ((size, brushes.theme.ink), (size - 2, brushes.theme.hint)):
        pygame.draw.circle(brushes.surface, colour, mouse, radius, round(at.unit))
