"""Columns of numbers side by side, with a beam below them and room for the answer."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from frame.language.numbers import THIN_SPACE
from frame.practice.exercises import Exercise
from frame.printing.beads import NUMBER_BEAD, draw_number
from frame.printing.blocks import EASES, Block, Ease
from frame.printing.figures import Figures, Room, figures, room_for, write_figures
from frame.printing.leaf import Area
from frame.printing.pen import EDGE, INK, SOFT, WHITE, Pen, Type

Numbered = tuple[int, Exercise]
"""A task with its number."""
_Column = tuple[int, list[Figures]]
_NARROW = 33.0
"""The least width of a column: five stand abreast on a leaf that stands."""
_BESIDE = 5.0
"""White between two columns, at least."""
_GUTTER = 7.0
"""For the numbers of the rows."""
_FEW_ROWS = 2
"""So many rows need no numbers."""
_HEAD, _FOOT = NUMBER_BEAD[1] + 1.1, 1.8
"""Above the first number, and below the last."""
_BEAM, _DOT = 1.3, 0.34
"""The height of a beam and, of that, the radius of its dots."""
_PITCH = 1.17
"""From row to row, in sizes of the type."""
_LONG, _FIVE, _BREATH = 8, 5, 1.3
"""In a column of so many rows and more, each so many are followed by so much more white, so that an
eye that looks up finds its row again."""
_OVER = 1.5
"""What a beam is longer than the numbers on it, at each end."""
_ROW_NUMBER = Type(8, grey=SOFT)


@dataclass(frozen=True)
class _Columns:
    """How the columns of a section are laid out: how many stand abreast, the type of their numbers
    and the room these take, and how many rows are told apart by numbers."""

    across: int
    kind: Type
    room: Room
    rows: int
    answer: float

    @property
    def pitch(self) -> float:
        """From a row to the next."""
        return self.kind.millimetres * _PITCH

    @property
    def gutter(self) -> float:
        """The room for the numbers of the rows."""
        return _GUTTER if self.rows > _FEW_ROWS else 0

    @property
    def wide(self) -> float:
        """The width of a column without the white beside it."""
        return max(self.room.width, 2 * NUMBER_BEAD[0])

    def top(self, row: int) -> float:
        """Where a row begins, below the first one."""
        breaths = row // _FIVE if self.rows >= _LONG else 0
        return row * self.pitch + breaths * _BREATH

    def height(self, rows: int) -> float:
        """Of so many rows with all that stands above and below them."""
        return _HEAD + self.top(rows - 1) + self.pitch + _FOOT + _BEAM + self.answer

    def foot(self, area: Area, row: int) -> float:
        """The line on which the numbers of a row stand."""
        return area.y + _HEAD + self.top(row) + (self.pitch + self.kind.capital) / 2


def column_blocks(pen: Pen, tasks: Sequence[Numbered], width: float, ease: Ease) -> Iterator[Block]:
    """The columns, as many abreast as their digits allow."""
    listed = [(number, [figures(term) for term in task.sum.numbers]) for number, task in tasks]
    columns = _fit(pen, listed, width, ease)
    for first in range(0, len(listed), columns.across):
        band = listed[first : first + columns.across]
        rows = max(len(column) for _, column in band)
        yield Block(columns.height(rows), partial(_draw_band, band, columns), gap=5.0)


def _fit(pen: Pen, listed: Sequence[_Column], width: float, ease: Ease) -> _Columns:
    """The most columns abreast, in the largest type that they can have so."""
    terms = [term for _, column in listed for term in column]
    rows = max(len(column) for _, column in listed)
    sizes = [one.size for one in EASES if one.size <= ease.size]
    fits = [
        _Columns(across, Type(size), room_for(pen, terms, Type(size)), rows, ease.answer)
        for across in range(int(width // _NARROW), 0, -1)
        for size in sizes
    ]
    return next((one for one in fits if _has_room(one, width)), fits[-1])


def _has_room(columns: _Columns, width: float) -> bool:
    return columns.across * (columns.wide + 2 * _OVER + _BESIDE) <= width - columns.gutter


def _draw_band(band: Sequence[_Column], columns: _Columns, pen: Pen, area: Area) -> None:
    """Columns side by side, with the numbers of their rows on the left."""
    if columns.gutter:
        for row in range(max(len(column) for _, column in band)):
            pen.write(str(row + 1), (area.x + 4, columns.foot(area, row)), _ROW_NUMBER, 1)
    width = (area.w - columns.gutter) / columns.across
    for index, (number, column) in enumerate(band):
        x = area.x + columns.gutter + index * width
        place = Area(x + (width - columns.wide) / 2, area.y, columns.wide, area.h)
        _draw_column(pen, place, number, column, columns)


def _draw_column(
    pen: Pen, area: Area, number: int, column: Sequence[Figures], columns: _Columns
) -> None:
    """The number of the task, those of the column, the beam, and the line below the answer."""
    room = columns.room
    point = area.middle + room.width / 2 - room.right
    draw_number(pen, number, (area.middle - NUMBER_BEAD[0] / 2, area.y))
    for row, term in enumerate(column):
        write_figures(pen, term, (point, columns.foot(area, row)), columns.kind)
    top = area.bottom - columns.answer - _BEAM
    beam = Area(area.x - _OVER, top, area.w + 2 * _OVER, _BEAM)
    pen.fill(beam, INK)
    _draw_dots(pen, beam, point, columns.kind)
    pen.line((beam.x, area.bottom), (beam.right, area.bottom), 0.25, EDGE)


def _draw_dots(pen: Pen, beam: Area, point: float, kind: Type) -> None:
    """Unit dots on the beam below the ones and every third place from there."""
    figure, white = pen.width("0", kind), pen.width(THIN_SPACE, kind)
    x = point - figure / 2
    while x > beam.x + _BEAM:
        pen.disc((x, beam.y + _BEAM / 2), _BEAM * _DOT, WHITE)
        x -= 3 * figure + white
