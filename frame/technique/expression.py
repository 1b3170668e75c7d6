"""A sum as people write it: "38 + 47 - 5"."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from enum import StrEnum

from frame.technique.reading import EXACT, NumberError, parse_number, plain

MOST_CHARACTERS = 20_000


class Expected(StrEnum):
    """What should have stood where a text stops being a sum."""

    NUMBER = "number"
    OPERATION = "operation"
    SHORTER = "shorter"


class ExpressionError(ValueError):
    """A text that is no sum: the column (from 1), the text found there (empty at the end; for
    SHORTER the number of characters), and what was expected."""

    def __init__(self, where: int, found: str, expected: Expected) -> None:
        super().__init__(f"column {where}: found {found!r}; expected {expected}")
        self.where, self.found, self.expected = where, found, expected


@dataclass(frozen=True, slots=True)
class Sum:
    """A column of signed numbers. `str` and `parse_sum` are inverse."""

    terms: tuple[Decimal, ...]

    def __str__(self) -> str:
        return sum_text(self.terms)

    @property
    def result(self) -> Decimal:
        """What the column comes to."""
        with localcontext(EXACT):
            return sum(self.terms, Decimal(0))


def sum_text(terms: Sequence[Decimal]) -> str:
    """The column in one line.

    >>> sum_text([Decimal(38), Decimal(-5)])
    '38 - 5'
    """
    text = "-" if terms and terms[0] < 0 else ""
    text += plain(terms[0].copy_abs()) if terms else "0"
    return text + "".join(f" {'-' if t < 0 else '+'} {plain(t.copy_abs())}" for t in terms[1:])


_TOKEN = re.compile(r"\s*([0-9.]+|\S)")
_SIGNS = {"+": 1, "-": -1, "−": -1}


def parse_sum(text: str) -> Sum:
    """The sum written in `text`: numbers joined by + and -. Raises ExpressionError."""
    if len(text) > MOST_CHARACTERS:
        raise ExpressionError(1, str(len(text)), Expected.SHORTER)
    tokens = [(match[1], match.start(1) + 1) for match in _TOKEN.finditer(text)]
    terms: list[Decimal] = []
    sign = 1
    number_is_next = True
    for token, column in tokens:
        if (
            number_is_next
            and token in _SIGNS
            and not terms
            and sign == 1
            and column == tokens[0][1]
        ):
            sign = _SIGNS[token]
        elif number_is_next:
            number = _number(token, column)
            terms.append(number if sign > 0 else number.copy_negate())
            number_is_next = False
        elif token in _SIGNS:
            sign, number_is_next = _SIGNS[token], True
        else:
            raise ExpressionError(column, token, Expected.OPERATION)
    if number_is_next:
        raise ExpressionError(len(text) + 1, "", Expected.NUMBER)
    return Sum(tuple(terms))


def _number(token: str, column: int) -> Decimal:
    try:
        return parse_number(token)
    except NumberError:
        raise ExpressionError(column, token, Expected.NUMBER) from None
