"""Between a frame and the exact decimal number it reads."""

import re
from decimal import Context, Decimal, localcontext

from frame.technique.beads import MOST_RODS, Frame

# Wide enough for any number on the widest frame with its borrowed one, so nothing is rounded.
EXACT = Context(prec=2 * MOST_RODS + 6)

_NUMBER = re.compile(r"\d+(\.\d+)?|\.\d+")


class NumberError(ValueError):
    """A text that is no plain number, or a number that does not fit the frame."""


class RodsError(NumberError):
    """Work that needs more rods than there are."""

    def __init__(self, needed: int, most: int) -> None:
        super().__init__(f"the work needs {needed} rods; there are at most {most}")
        self.needed, self.most = needed, most


def parse_number(text: str) -> Decimal:
    """The number written in plain digits with at most one point. Raises NumberError."""
    if not (text.isascii() and _NUMBER.fullmatch(text)):
        raise NumberError(f"no number: {text!r}; expected digits with at most one point")
    return Decimal(text)


def plain(number: Decimal) -> str:
    """The number as plain text: ASCII minus, a point, no grouping, no trailing zeros.

    >>> plain(Decimal("50.20"))
    '50.2'
    """
    text = format(number, "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def decimals(number: Decimal) -> int:
    """How many digits the number has after the point."""
    _, _, places = plain(number).partition(".")
    return len(places)


def whole_digits(number: Decimal) -> int:
    """How many digits the number has before the point; 0 for a number below one."""
    return len(plain(number.copy_abs()).partition(".")[0].lstrip("0"))


def figures(number: Decimal) -> tuple[str, int]:
    """The digits of a number without its sign, its point and the zeros before the first digit that
    counts, and the place of that one (0 for ones, 1 for tens, -1 for tenths).

    >>> figures(Decimal("0.026"))
    ('26', -2)
    """
    whole, _, after = plain(number.copy_abs()).partition(".")
    digits = (whole + after).lstrip("0")
    return digits or "0", len(digits) - 1 - len(after) if digits else 0


def read(frame: Frame, owed: int | None = None) -> Decimal:
    """The number on the frame; with `owed`, less the 1 borrowed on that rod (10 ** owed).

    >>> read(Frame("0502", 2))
    Decimal('50.2')
    """
    with localcontext(EXACT):
        shown = Decimal(frame.digits).scaleb(frame.lowest)
        number = shown if owed is None else shown - Decimal(1).scaleb(owed)
        return Decimal(plain(number))


def frame_of(number: Decimal, rods: int, units: int | None = None) -> Frame:
    """A frame of `rods` rods that reads `number` (not negative). Raises NumberError.

    >>> frame_of(Decimal(38), 4).digits
    '0038'
    """
    frame = Frame.cleared(rods, units)
    if number < 0:
        raise NumberError(f"{plain(number)} is below zero; a frame alone reads zero or more")
    if whole_digits(number) > frame.highest + 1 or decimals(number) > -frame.lowest:
        raise NumberError(f"{plain(number)} does not fit {rods} rods, unit rod {frame.units + 1}")
    with localcontext(EXACT):
        scaled = int(number.scaleb(-frame.lowest))
    return Frame(str(scaled).zfill(rods), frame.units)
