"""Products, quotients and roots, each on a line with room for the answer."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import partial

from frame.language.catalogue import Words
from frame.language.printed import printed_parts
from frame.printing.beads import NUMBER_BEAD, draw_number
from frame.printing.blocks import EASES, Block, Ease, grid
from frame.printing.columns import Numbered
from frame.printing.figures import Figures, figures, room_for, write_figures
from frame.printing.leaf import Area
from frame.printing.pen import EDGE, SOFT, Pen, Type
from frame.technique.expression import Calculation, Quotient, Root
from frame.technique.reading import plain

_MOST_ACROSS = 3
_NOTE_HEIGHT = 3.2
"""For what stands below the line to write on: what is left over, or what is rounded to."""
_NOTE = Type(8, grey=SOFT)
_ABOVE_LINE, _BELOW_LINE = 1.2, 3.4
"""From the foot of a sum to the line to write on, and from there to that of a note."""
_GAP = 2.2
_BESIDE = 7.0
"""White between two lines."""
_PER_FIGURE, _LEAST_REST = 4.6, 14.0
"""Room to write a figure by hand, and what is left over."""
_HEAD = NUMBER_BEAD[0] + 3.0


class _Parts:
    """What the lines of a section have in common: their type and how wide their parts are."""

    def __init__(self, pen: Pen, sums: Sequence[Calculation], ease: Ease) -> None:
        self.kind = Type(ease.size)
        self.first = room_for(pen, map(_first, sums), self.kind)
        self.second = room_for(pen, filter(None, map(_second, sums)), self.kind)
        self.sign = pen.width("×", self.kind) + 2 * _GAP if self.second.width else 0.0
        self.equals = pen.width("=", self.kind) + 2 * _GAP
        self.asked = self.first.width + self.sign + self.second.width + self.equals
        self.answer = max(ease.beside, *(_by_hand(one.result) for one in sums))
        rests = [_by_hand(one.remainder) for one in sums if one.remainder]
        self.rest = _GAP + max(_LEAST_REST, *rests) if rests else 0.0

    @property
    def width(self) -> float:
        """All on one line."""
        return _HEAD + self.asked + self.answer + self.rest


@dataclass(frozen=True)
class _Lines:
    """How the lines of a section are laid out: how many side by side, the height for an answer,
    which may stand `below` the sum, and whether something is noted below that."""

    parts: _Parts
    across: int
    answer: float
    is_below: bool
    has_notes: bool

    @property
    def height(self) -> float:
        """Of each line."""
        return self.answer * (1 + self.is_below) + _NOTE_HEIGHT * self.has_notes


def line_blocks(
    pen: Pen, tasks: Sequence[Numbered], width: float, ease: Ease, words: Words
) -> Iterator[Block]:
    """The lines, side by side where there is room."""
    lines = _fit(pen, [task.sum for _, task in tasks], width, ease)
    cells = [partial(_draw, number, task.sum, lines, words) for number, task in tasks]
    return grid(cells, lines.across, lines.height, gap=3.0, beside=_BESIDE)


def _fit(pen: Pen, sums: Sequence[Calculation], width: float, ease: Ease) -> _Lines:
    """The most lines side by side, in the largest type that they can have so; where not even one
    has room for its answer, that stands below it."""
    has_notes = any(one.places is not None or one.remainder for one in sums)
    eases = [one for one in EASES if one.size <= ease.size and one.beside >= ease.beside]
    for across in range(_MOST_ACROSS, 0, -1):
        for one in eases:
            parts = _Parts(pen, sums, one)
            if parts.width <= (width + _BESIDE) / across - _BESIDE:
                return _Lines(parts, across, ease.answer, False, has_notes)
    return _Lines(_Parts(pen, sums, eases[-1]), 1, ease.answer, True, has_notes)


def _draw(
    number: int, calculation: Calculation, lines: _Lines, words: Words, pen: Pen, area: Area
) -> None:
    parts = lines.parts
    foot = area.y + lines.answer - _ABOVE_LINE
    draw_number(pen, number, (area.x, foot - (NUMBER_BEAD[1] + parts.kind.capital) / 2))
    x = area.x + _HEAD
    _draw_asked(pen, (x, foot), calculation, parts)
    line = foot + _ABOVE_LINE
    if lines.is_below:
        line += lines.answer
    else:
        x += parts.asked
    rest = area.right - parts.rest
    pen.line((x, line), (rest, line), 0.25, EDGE)
    if calculation.remainder:
        pen.line((rest + _GAP, line), (area.right, line), 0.25, EDGE)
        pen.write(words.text("sheet.left_over"), (rest + _GAP, line + _BELOW_LINE), _NOTE)
    if calculation.places is not None:
        note = printed_parts(calculation, words)[-1]
        left = min(x, area.right - pen.width(note, _NOTE))
        pen.write(note, (left, line + _BELOW_LINE), _NOTE)


def _draw_asked(pen: Pen, at: tuple[float, float], calculation: Calculation, parts: _Parts) -> None:
    """The calculation up to its sign of equality."""
    x, foot = at
    write_figures(pen, _first(calculation), (x + parts.first.left, foot), parts.kind)
    x += parts.first.width
    if second := _second(calculation):
        sign = "÷" if isinstance(calculation, Quotient) else "×"
        pen.write(sign, (x + parts.sign / 2, foot), parts.kind, 0.5)
        x += parts.sign
        write_figures(pen, second, (x + parts.second.left, foot), parts.kind)
        x += parts.second.width
    pen.write("=", (x + _GAP, foot), parts.kind)


def _first(calculation: Calculation) -> Figures:
    before = "√" if isinstance(calculation, Root) else ""
    return figures(calculation.numbers[0], before)


def _second(calculation: Calculation) -> Figures | None:
    numbers = calculation.numbers
    return figures(numbers[1], is_second=True) if len(numbers) > 1 else None


def _by_hand(number: Decimal) -> float:
    """The room to write a number by hand."""
    return _PER_FIGURE * len(plain(number))
