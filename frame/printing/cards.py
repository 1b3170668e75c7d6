"""Cards to be cut out: questions on one page, and on the next the answers that lie behind them."""

from collections.abc import Iterator, Sequence
from functools import partial

from frame.language.catalogue import Words
from frame.language.printed import printed_sum
from frame.printing.beads import draw_number
from frame.printing.columns import Numbered
from frame.printing.cuts import draw_cuts
from frame.printing.figures import figures
from frame.printing.leaf import Area
from frame.printing.paging import Page
from frame.printing.pen import INK, SOFT, Pen, Type
from frame.technique.expression import Calculation, Sum

_ACROSS, _DOWN = 4, 5
_ASKED, _ANSWER, _WHOLE = Type(18), Type(34, bold=True), Type(14, grey=SOFT)
_BLANK = 0.9
"""The side of the square that stands for what is asked, in heights of a line."""
_INSET = 3.5


def card_pages(tasks: Sequence[Numbered], words: Words) -> Iterator[Page]:
    """A page of questions and one of answers by turns."""
    for first in range(0, len(tasks), _ACROSS * _DOWN):
        cards = tasks[first : first + _ACROSS * _DOWN]
        yield Page(partial(_draw_fronts, cards, words))
        yield Page(partial(_draw_backs, cards, words), is_back=True)


def _places(area: Area, count: int) -> Iterator[tuple[int, Area]]:
    """The column and the place of each card."""
    width, height = area.w / _ACROSS, area.h / _DOWN
    for index in range(count):
        row, column = divmod(index, _ACROSS)
        yield column, Area(area.x + column * width, area.y + row * height, width, height)


def _draw_fronts(cards: Sequence[Numbered], words: Words, pen: Pen, area: Area) -> None:
    for (number, task), (_, place) in zip(cards, _places(area, len(cards)), strict=True):
        draw_number(pen, number, (place.x + _INSET, place.y + _INSET))
        _draw_question(pen, place, task.sum, words)
    draw_cuts(pen, area, _ACROSS, _DOWN, len(cards))


def _draw_backs(cards: Sequence[Numbered], words: Words, pen: Pen, area: Area) -> None:
    """The answers, left for right, since the leaf is turned over its long edge."""
    for (number, task), (column, place) in zip(cards, _places(area, len(cards)), strict=True):
        mirrored = place._replace(x=area.x + (_ACROSS - 1 - column) * place.w)
        draw_number(pen, number, (mirrored.x + _INSET, mirrored.y + _INSET))
        middle = mirrored.y + mirrored.h / 2 + _ANSWER.capital / 2
        answer = figures(task.sum.result).text
        fitting = pen.fitting(answer, _ANSWER, place.w - 2 * _INSET)
        pen.write(answer, (mirrored.middle, middle), fitting, 0.5)
        whole = _whole(task.sum, words)
        fitting = pen.fitting(whole, _WHOLE, place.w - 2 * _INSET)
        pen.write(whole, (mirrored.middle, mirrored.bottom - 2 * _INSET), fitting, 0.5)


def _draw_question(pen: Pen, place: Area, calculation: Calculation, words: Words) -> None:
    """A number and a blank that make five or ten; another sum as it is printed."""
    foot = place.y + place.h / 2 + _ASKED.capital / 2
    if not (pair := _pair(calculation)):
        text = printed_sum(calculation, words)
        kind = pen.fitting(text, _ASKED, place.w - 2 * _INSET)
        pen.write(text, (place.middle, foot), kind, 0.5)
        return
    one, whole = pair
    before, after = f"{one} +", f"= {whole}"
    side = _ASKED.leading * _BLANK
    gap = pen.width(" ", _ASKED) + 0.8
    width = pen.width(before, _ASKED) + side + 2 * gap + pen.width(after, _ASKED)
    left = place.middle - width / 2
    pen.write(before, (left, foot), _ASKED)
    left += pen.width(before, _ASKED) + gap
    pen.outline(Area(left, foot - (side + _ASKED.capital) / 2, side, side), 0.3, INK)
    pen.write(after, (left + side + gap, foot), _ASKED)


def _pair(calculation: Calculation) -> tuple[str, str] | None:
    """The number whose partner is asked for, and what both make."""
    match calculation:
        case Sum((whole, taken)) if whole > 0 > taken:
            return figures(-taken).text, figures(whole).text
    return None


def _whole(calculation: Calculation, words: Words) -> str:
    result = figures(calculation.result).text
    if pair := _pair(calculation):
        return f"{pair[0]} + {result} = {pair[1]}"
    return f"{printed_sum(calculation, words)} = {result}"
