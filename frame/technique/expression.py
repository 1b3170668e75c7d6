"""A calculation as people write it: "38 + 47 - 5", "37 x 432", "3588 / 46", "sqrt 1764"."""

import re
from decimal import Decimal
from enum import Enum, StrEnum, auto

from frame.technique.calculation import (
    Calculation,
    Product,
    Quotient,
    Root,
    Sum,
    UndefinedError,
    sum_text,
)
from frame.technique.reading import NumberError, parse_number

__all__ = [
    "MOST_CHARACTERS",
    "Calculation",
    "Expected",
    "ExpressionError",
    "Product",
    "Quotient",
    "Root",
    "Sum",
    "UndefinedError",
    "parse_calculation",
    "parse_sum",
    "sum_text",
]

MOST_CHARACTERS = 20_000


class Expected(StrEnum):
    """What should have stood where a text stops being a calculation."""

    NUMBER = "number"
    BRACKETED = "bracketed"
    GROUPED = "grouped"
    OPERATION = "operation"
    SIGN = "sign"
    ONE_AT_A_TIME = "one-at-a-time"
    CLOSING = "closing"
    END = "end"
    NOT_ZERO = "not-zero"
    NOT_NEGATIVE = "not-negative"
    SHORTER = "shorter"


class ExpressionError(ValueError):
    """A text that is no calculation: the column (from 1), the text found there (empty at the
    end; for SHORTER the number of characters), and what was expected."""

    def __init__(self, where: int, found: str, expected: Expected) -> None:
        super().__init__(f"column {where}: found {found!r}; expected {expected}")
        self.where, self.found, self.expected = where, found, expected


class _Kind(Enum):
    SUM = auto()
    PRODUCT = auto()
    QUOTIENT = auto()
    ROOT = auto()


_SEPARATORS = ",'’\u00a0\u2009\u202f"
# A number with whatever separators, a word, or any other sign.
_TOKEN = re.compile(r"[0-9.](?:[0-9.,'’]|[\u00a0\u2009\u202f](?=[0-9.]))*|[^\W\d_]+|\S")
_GROUPED = re.compile(rf"[0-9]{{1,3}}(?:([{_SEPARATORS}])[0-9]{{3}}(?:\1[0-9]{{3}})*)(?:\.[0-9]+)?")
_UNGROUPED = str.maketrans("", "", _SEPARATORS)
_SIGNS = {"+": 1, "-": -1, "−": -1}
_KINDS = {
    **dict.fromkeys(["x", "X", "×", "*", "·", "⋅"], _Kind.PRODUCT),
    **dict.fromkeys(["/", "÷", ":"], _Kind.QUOTIENT),
    **dict.fromkeys(["sqrt", "√"], _Kind.ROOT),
}


def parse_calculation(text: str) -> Calculation:
    """The calculation written in `text`: a sum with brackets, or one product, quotient or root.

    Raises ExpressionError, also for a quotient by 0 and the root of a number below zero.
    """
    return _read(text).calculation()


def parse_sum(text: str) -> Sum:
    """The sum written in `text`: numbers joined by + and -, with brackets. Raises
    ExpressionError."""
    reader = _read(text)
    calculation = reader.calculation()
    if isinstance(calculation, Sum):
        return calculation
    raise ExpressionError(reader.column, reader.operation, Expected.SIGN)


def _read(text: str) -> "_Reader":
    if len(text) > MOST_CHARACTERS:
        raise ExpressionError(1, str(len(text)), Expected.SHORTER)
    reader = _Reader(text)
    for match in _TOKEN.finditer(text):
        reader.take(match[0], match.start() + 1)
    reader.end()
    return reader


class _Reader:
    """Reads a calculation token by token. What is read so far is always the start of one."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.numbers: list[Decimal] = []
        self.kind, self.operation, self.column = _Kind.SUM, "", 0
        self._sign = 1
        self._signs = [1]
        """The sign before each bracket that is open, the whole text counting as one."""
        self._wants_number, self._may_sign, self._is_done = True, True, False
        self._start: int | None = None
        """The column of the sign that leads the number to come."""

    def take(self, token: str, column: int) -> None:
        """The next token is read. Raises ExpressionError."""
        if self._is_done:
            raise ExpressionError(column, token, Expected.END)
        if self._wants_number:
            self._take_before_number(token, column)
        else:
            self._take_after_number(token, column)

    def end(self) -> None:
        """The text is at its end. Raises ExpressionError."""
        if self._wants_number or len(self._signs) > 1:
            expected = Expected.NUMBER if self._wants_number else Expected.CLOSING
            raise ExpressionError(len(self.text) + 1, "", expected)

    def calculation(self) -> Calculation:
        """What was read to its end."""
        match self.kind:
            case _Kind.SUM:
                return Sum(tuple(self.numbers))
            case _Kind.PRODUCT:
                return Product(self.numbers[0], self.numbers[1])
            case _Kind.QUOTIENT:
                return Quotient(self.numbers[0], self.numbers[1])
            case _Kind.ROOT:
                return Root(self.numbers[0])

    def _take_before_number(self, token: str, column: int) -> None:
        if token in _SIGNS:
            if not self._may_sign:
                raise ExpressionError(column, token, Expected.BRACKETED)
            self._sign, self._may_sign = self._signs[-1] * _SIGNS[token], False
            self._start = self._start or column
        elif token == "(":
            self._signs.append(self._sign)
            self._may_sign = True
        elif _kind(token) is _Kind.ROOT:
            self._take_root(token, column)
        else:
            self._take_number(token, column)

    def _take_root(self, token: str, column: int) -> None:
        if self.kind is not _Kind.SUM or self.numbers or -1 in (self._sign, *self._signs):
            raise ExpressionError(column, token, Expected.ONE_AT_A_TIME)
        self.kind, self.operation, self.column = _Kind.ROOT, token, column
        self._may_sign, self._start = True, None

    def _take_number(self, token: str, column: int) -> None:
        number = _number(token, column)
        number = number if self._sign > 0 else number.copy_negate()
        start = self._start or column
        found = self.text[start - 1 : column - 1 + len(token)]
        if self.kind is _Kind.QUOTIENT and not number:
            raise ExpressionError(start, found, Expected.NOT_ZERO)
        if self.kind is _Kind.ROOT and number < 0:
            raise ExpressionError(start, found, Expected.NOT_NEGATIVE)
        self.numbers.append(number)
        self._wants_number = False

    def _take_after_number(self, token: str, column: int) -> None:
        is_open, kind = len(self._signs) > 1, _kind(token)
        if token == ")" and is_open:
            self._signs.pop()
        elif token == "=" and not is_open:
            self._is_done = True
        elif token in _SIGNS and self.kind is _Kind.SUM:
            self._expect_number(self._signs[-1] * _SIGNS[token])
        elif kind in (_Kind.PRODUCT, _Kind.QUOTIENT) and self._is_one_number:
            self.kind, self.operation, self.column = kind, token, column
            self._expect_number(1)
        else:
            raise ExpressionError(column, token, self._expected_for(token))

    def _expect_number(self, sign: int) -> None:
        self._sign, self._start = sign, None
        self._wants_number, self._may_sign = True, False

    @property
    def _is_one_number(self) -> bool:
        return self.kind is _Kind.SUM and len(self.numbers) == 1

    def _expected_for(self, token: str) -> Expected:
        """What should have stood after a number in the place of a token that cannot."""
        if token in _SIGNS or _kind(token):
            return Expected.ONE_AT_A_TIME
        if len(self._signs) > 1 and (self.kind is not _Kind.SUM or token == "="):
            return Expected.CLOSING
        if self.kind is not _Kind.SUM:
            return Expected.END
        return Expected.OPERATION if self._is_one_number else Expected.SIGN


def _kind(token: str) -> _Kind | None:
    return _KINDS.get(token) or _KINDS.get(token.lower())


def _number(token: str, column: int) -> Decimal:
    plain = token.translate(_UNGROUPED)
    try:
        number = parse_number(plain)
    except NumberError:
        raise ExpressionError(column, token, Expected.NUMBER) from None
    if plain != token and not _GROUPED.fullmatch(token):
        raise ExpressionError(column, token, Expected.GROUPED)
    return number
