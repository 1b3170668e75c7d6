"""How well each digit on each rod is known, and the table of products: a square for each, the
fuller the better it is known."""

from collections.abc import Sequence
from typing import NamedTuple

import pygame

from frame.language.lines import Line
from frame.practice.figures import Level, figure_of
from frame.practice.items import Cell, Factors
from frame.screens.grown.sentences import item_line, level_line
from frame.screens.grown.view import GlidingPage, Spot, View
from frame.screens.parts.page import lines
from frame.view.widgets import Brushes, Button

_GAP = 1.0
"""Squares of space between two tables."""
_SHARES = {Level.LEARNING: 0.36, Level.KNOWN: 0.5, Level.AT_ONCE: 0.72, Level.KEPT: 1.0}
"""How much of a square's side is full."""
_LEGEND, _NARROW_LEGEND = 5, 2
"""So many signs stand in a line."""


class Table(NamedTuple):
    """Its sign; what stands above its columns and before its rows; and the items of each row."""

    sign: str
    columns: tuple[int, ...]
    rows: tuple[int, ...]
    items: tuple[tuple[str, ...], ...]


_DIGITS, _WORKED, _FACTORS = tuple(range(10)), tuple(range(1, 10)), tuple(range(2, 10))
TABLES = (
    *(
        Table(
            sign, _DIGITS, _WORKED,
            tuple(tuple(str(Cell(digit, way * d)) for digit in _DIGITS) for d in _WORKED),
        )
        for sign, way in (("+", 1), ("−", -1))
    ),
    Table(
        "×", _FACTORS, _FACTORS,
        tuple(
            tuple(str(Factors(*sorted((one, other)))) for other in _FACTORS) for one in _FACTORS
        ),
    ),
)  # fmt: skip


class FactMap(View):
    """Three tables; in a narrow window that of products stands below the others."""

    def __init__(self, page: GlidingPage) -> None:
        super().__init__(page)
        mastery = self.room.mastery
        self.figures = {
            item: figure_of(mastery, item)
            for table in TABLES
            for row in table.items
            for item in row
        }
        self._told = {item: item_line(one, self.words) for item, one in self.figures.items()}
        self.items: tuple[str, ...] = ()
        self._corners: tuple[tuple[int, int], ...] = ()
        self._side = 0

    @property
    def told(self) -> Line:
        """How it is read."""
        return self.words.line("grown.squares")

    # How it is laid out

    def arrange(self) -> Sequence[Button]:
        """A spot for each square."""
        self._place(self.page.band(23, 46))
        found = [
            (item, Spot(self._square(corner, column, row), self._told[item]))
            for table, corner in zip(TABLES, self._corners, strict=True)
            for row, items in enumerate(table.items, 1)
            for column, item in enumerate(items, 1)
        ]
        self.items = tuple(item for item, _ in found)
        self.spots = [spot for _, spot in found]
        return ()

    def _place(self, area: pygame.Rect) -> None:
        """The corners of the tables and the side of a square, as large as fits."""
        across = [len(table.columns) + 1 for table in TABLES]
        down = [len(table.rows) + 1 for table in TABLES]
        abreast = min(area.w / (sum(across) + 2 * _GAP), area.h / max(down))
        below = min(area.w / (sum(across[:2]) + _GAP), area.h / (max(down[:2]) + _GAP + down[2]))
        side = self._side = int(max(abreast, below))
        second, gap = round((across[0] + _GAP) * side), round(_GAP * side)
        if abreast >= below:
            third = second + across[1] * side + gap, 0
            wide, high = third[0] + across[2] * side, max(down) * side
        else:
            third = 0, down[0] * side + gap
            wide, high = second + across[1] * side, third[1] + down[2] * side
        left, top = area.left + (area.w - wide) // 2, area.top + (area.h - high) // 2
        corners = (0, 0), (second, 0), third
        self._corners = tuple((left + x, top + y) for x, y in corners)

    def _square(self, corner: tuple[int, int], column: int, row: int) -> pygame.Rect:
        side = self._side
        return pygame.Rect(corner[0] + column * side, corner[1] + row * side, side, side)

    # How it is painted

    def paint(self, brushes: Brushes, at: int | None) -> None:
        """The tables, what the squares mean, and what is told of one."""
        for table, corner in zip(TABLES, self._corners, strict=True):
            self._paint_heads(brushes, table, corner)
        for item, spot in zip(self.items, self.spots, strict=True):
            paint_square(brushes, spot.place, self.figures[item].level)
        if at is not None:
            _paint_ring(brushes, self.spots[at].place)
        self._paint_legend(brushes)
        self.paint_told(brushes, self.page.band(80, 8), at)

    def _paint_heads(self, brushes: Brushes, table: Table, corner: tuple[int, int]) -> None:
        sign = self._square(corner, 0, 0)
        brushes.text(table.sign, sign, 1, bold=True, align="centre")
        for column, digit in enumerate(table.columns, 1):
            brushes.text(str(digit), self._square(corner, column, 0), 0, soft=True, align="centre")
        for row, digit in enumerate(table.rows, 1):
            brushes.text(str(digit), self._square(corner, 0, row), 0, soft=True, align="centre")

    def _paint_legend(self, brushes: Brushes) -> None:
        in_line = _NARROW_LEGEND if self.page.is_narrow else _LEGEND
        places = lines(self.page.band(70.5, 9), len(Level), in_line, 2 * self.page.unit)
        for level, place in zip(Level, places, strict=True):
            side = min(round(2.6 * self.page.unit), place.h)
            square = pygame.Rect(place.left, place.centery - side // 2, side, side)
            paint_square(brushes, square, level)
            left = square.right + round(self.page.unit)
            beside = pygame.Rect(left, place.top, place.right - left, place.h)
            brushes.text(level_line(level, self.words).show, beside, 0, soft=True)


def paint_square(brushes: Brushes, place: pygame.Rect, level: Level) -> None:
    """A square, as full as what it stands for is known; of too few tries grey and empty."""
    if not brushes.needs(place):
        return
    theme, inside = brushes.theme, place.inflate(-1, -1)
    ground = theme.bead_rest.face if level is Level.FEW else theme.field
    brushes.surface.fill(ground, inside)
    pygame.draw.rect(brushes.surface, theme.hairline, inside, 1)
    if level is Level.FEW:
        return
    side = round(_SHARES[level] * (inside.w - 2))
    mark = pygame.Rect(0, 0, side, side)
    mark.center = inside.center
    if level is Level.LEARNING:
        thick = max(1, side // 5)
        pygame.draw.rect(brushes.surface, theme.bead_rest.edge, mark, thick)
    else:
        brushes.surface.fill(theme.bead_used.face, mark)


def _paint_ring(brushes: Brushes, place: pygame.Rect) -> None:
    """The ring around a square, as near to it as its neighbours allow."""
    thick = max(2, place.w // 9)
    for colour, out in ((brushes.theme.ground, 2 * thick), (brushes.theme.focus, thick)):
        around = place.inflate(2 * out, 2 * out)
        pygame.draw.rect(brushes.surface, colour, around, out, border_radius=thick)
