"""The key: every answer under its task's number, and how the first task is worked."""

from collections.abc import Iterator, Sequence
from functools import partial

from frame.language.catalogue import Words
from frame.practice.exercises import Kind
from frame.printing.beads import NUMBER_BEAD, draw_number
from frame.printing.blocks import Block, grid
from frame.printing.columns import Numbered
from frame.printing.figures import Figures, Room, figures, room_for, write_figures
from frame.printing.leaf import Area
from frame.printing.pen import SOFT, Pen, Type
from frame.printing.reading import set_frame_blocks
from frame.technique.expression import Calculation

_KIND, _REST = Type(14), Type(9.5, grey=SOFT)
_HEIGHT = 7.6
_MOST_ACROSS = 5
_GAP, _BESIDE = 3.0, 5.0


def key_blocks(pen: Pen, tasks: Sequence[Numbered], width: float, words: Words) -> Iterator[Block]:
    """The answers of a section: frames where a number was to be set, else numbers."""
    if tasks[0][1].kind is Kind.SET:
        return set_frame_blocks(tasks, width)
    numbers = [_answer(task.kind, task.sum) for _, task in tasks]
    rests = [_rest(task.sum, words) for _, task in tasks]
    room = room_for(pen, numbers, _KIND)
    rest = max(pen.width(one, _REST) for one in rests)
    needed = NUMBER_BEAD[0] + _GAP + room.width + (rest + _GAP if rest else 0) + _BESIDE
    across = max(1, min(_MOST_ACROSS, int((width + _BESIDE) // needed)))
    cells = [
        partial(_draw, number, answer, left, room)
        for (number, _), answer, left in zip(tasks, numbers, rests, strict=True)
    ]
    return grid(cells, across, _HEIGHT, gap=1.4, beside=_BESIDE)


def _draw(number: int, answer: Figures, rest: str, room: Room, pen: Pen, area: Area) -> None:
    foot = area.y + (_HEIGHT + _KIND.capital) / 2
    draw_number(pen, number, (area.x, area.y + (_HEIGHT - NUMBER_BEAD[1]) / 2))
    left = area.x + NUMBER_BEAD[0] + _GAP
    write_figures(pen, answer, (left + room.left, foot), _KIND)
    pen.write(rest, (left + room.width + _GAP, foot), _REST)


def _answer(kind: Kind, calculation: Calculation) -> Figures:
    return figures(calculation.result if kind is Kind.SUM else calculation.numbers[0])


def _rest(calculation: Calculation, words: Words) -> str:
    """What is left over, if anything."""
    rest = calculation.remainder
    return words.text("sheet.rest", number=figures(rest).text) if rest else ""
