"""What can be worked at a time, a sum, product, quotient or root, and what exactly it comes to."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import MAX_EMAX, MAX_PREC, MIN_EMIN, ROUND_HALF_UP, Context, Decimal, localcontext
from fractions import Fraction
from math import floor, isqrt
from typing import NamedTuple

from frame.technique.reading import NumberError, decimals, plain

MOST_DECIMALS = 30
"""How many decimals of an exact quotient or root are looked for."""

# As wide as can be: only exact operations are done in it.
_WIDE = Context(prec=MAX_PREC, Emax=MAX_EMAX, Emin=MIN_EMIN)


class UndefinedError(NumberError):
    """A quotient by 0, or the square root of a number below zero."""


@dataclass(frozen=True, slots=True)
class Sum:
    """A column of signed numbers. `str` and `parse_sum` are inverse."""

    terms: tuple[Decimal, ...]

    def __str__(self) -> str:
        return sum_text(self.terms)

    @property
    def numbers(self) -> tuple[Decimal, ...]:
        """The numbers as written, signs included."""
        return self.terms

    @property
    def result(self) -> Decimal:
        """What the column comes to."""
        with localcontext(_WIDE):
            return sum(self.terms, Decimal(0))

    @property
    def remainder(self) -> None:
        """None: a sum leaves nothing over."""

    @property
    def places(self) -> None:
        """None: a sum is never rounded."""


@dataclass(frozen=True, slots=True)
class Product:
    """Two numbers multiplied: exactly, or rounded half up to so many `places`."""

    multiplicand: Decimal
    multiplier: Decimal
    places: int | None = None

    def __str__(self) -> str:
        return f"{plain(self.multiplicand)} x {_second(self.multiplier)}"

    @property
    def numbers(self) -> tuple[Decimal, ...]:
        """The two factors, signs included."""
        return self.multiplicand, self.multiplier

    @property
    def result(self) -> Decimal:
        """The product; a half is rounded away from zero."""
        exact = _WIDE.multiply(self.multiplicand, self.multiplier)
        if self.places is not None:
            exact = exact.quantize(Decimal((0, (1,), -self.places)), ROUND_HALF_UP, _WIDE)
        return Decimal(plain(exact))

    @property
    def remainder(self) -> None:
        """None: a product leaves nothing over."""


@dataclass(frozen=True, slots=True)
class Quotient:
    """A number divided by another. Raises UndefinedError for the divisor 0.

    Rounded half up to so many `places`. Without: whole, with its remainder; where there are
    decimals in an operand, the exact quotient if it has at most MOST_DECIMALS.
    """

    dividend: Decimal
    divisor: Decimal
    places: int | None = None

    def __post_init__(self) -> None:
        if not self.divisor:
            raise UndefinedError(f"{plain(self.dividend)} / 0 has no value")

    def __str__(self) -> str:
        return f"{plain(self.dividend)} / {_second(self.divisor)}"

    @property
    def numbers(self) -> tuple[Decimal, ...]:
        """Dividend and divisor, signs included."""
        return self.dividend, self.divisor

    @property
    def result(self) -> Decimal:
        """The quotient: cut towards zero, or a half rounded away from zero."""
        value = Fraction(self.dividend) / Fraction(self.divisor)
        size = _worked(lambda places: _cut(abs(value), places), self.places, self.numbers)
        return size.copy_negate() if size and value < 0 else size

    @property
    def remainder(self) -> Decimal | None:
        """Dividend less result times divisor, signed as the dividend; None where rounded."""
        return self.left_by(self.result)

    def left_by(self, result: Decimal) -> Decimal | None:
        """What the result, once it is known, leaves over."""
        taken = _WIDE.multiply(result, self.divisor)
        return _left_over(_WIDE.subtract(self.dividend, taken), self.places)


@dataclass(frozen=True, slots=True)
class Root:
    """The square root of a number. Raises UndefinedError for one below zero.

    Rounded half up to so many `places`. Without: with its remainder, and half as many decimals as
    the radicand has: a number with up to 2k decimals has a root of k.
    """

    radicand: Decimal
    places: int | None = None

    def __post_init__(self) -> None:
        if self.radicand < 0:
            raise UndefinedError(f"sqrt {plain(self.radicand)} has no value")

    def __str__(self) -> str:
        return f"sqrt {plain(self.radicand)}"

    @property
    def numbers(self) -> tuple[Decimal, ...]:
        """The radicand alone."""
        return (self.radicand,)

    @property
    def result(self) -> Decimal:
        """The root, never below zero."""
        value = Fraction(self.radicand)
        if self.places is None:
            places = -(-decimals(self.radicand) // 2)
            return _decimal(_cut_root(value, places).digits, places)
        return _worked(lambda places: _cut_root(value, places), self.places, self.numbers)

    @property
    def remainder(self) -> Decimal | None:
        """Radicand less the square of the result; None where rounded."""
        return self.left_by(self.result)

    def left_by(self, result: Decimal) -> Decimal | None:
        """What the result, once it is known, leaves over."""
        square = _WIDE.multiply(result, result)
        return _left_over(_WIDE.subtract(self.radicand, square), self.places)


Calculation = Sum | Product | Quotient | Root
"""What can be worked at a time. `str` and `parse_calculation` are inverse, but for `places`."""


class _Cut(NamedTuple):
    """A number cut off: its digits, whether they are all, and whether half of 1 is left."""

    digits: int
    is_exact: bool
    is_half: bool


def _cut(value: Fraction, places: int) -> _Cut:
    digits, rest = divmod(value * 10**places, 1)
    return _Cut(digits, not rest, 2 * rest >= 1)


def _cut_root(value: Fraction, places: int) -> _Cut:
    square = value * 100**places
    digits = isqrt(floor(square))
    rest = square - digits * digits
    return _Cut(digits, not rest, 4 * (rest - digits) >= 1)


def _worked(cut: Callable[[int], _Cut], places: int | None, operands: Sequence[Decimal]) -> Decimal:
    if places is not None:
        rounded = cut(places)
        return _decimal(rounded.digits + rounded.is_half, places)
    if any(map(decimals, operands)):
        exact = cut(MOST_DECIMALS)
        if exact.is_exact:
            return _decimal(exact.digits, MOST_DECIMALS)
    return Decimal(cut(0).digits)


def _decimal(digits: int, places: int) -> Decimal:
    return Decimal(plain(Decimal(digits).scaleb(-places, _WIDE)))


def _left_over(rest: Decimal, places: int | None) -> Decimal | None:
    return None if rest and places is not None else Decimal(plain(rest))


def _second(number: Decimal) -> str:
    """The number as it stands after an operation."""
    return f"({plain(number)})" if number < 0 else plain(number)


def sum_text(terms: Sequence[Decimal]) -> str:
    """The column in one line.

    >>> sum_text([Decimal(38), Decimal(-5)])
    '38 - 5'
    """
    text = "-" if terms and terms[0] < 0 else ""
    text += plain(terms[0].copy_abs()) if terms else "0"
    return text + "".join(f" {'-' if t < 0 else '+'} {plain(t.copy_abs())}" for t in terms[1:])
