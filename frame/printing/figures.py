"""Numbers as they are printed on a sheet, and set below one another by their places."""

from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from frame.language.numbers import grouped
from frame.printing.pen import Pen, Type
from frame.technique.reading import plain


class Figures(NamedTuple):
    """A number in print: up to its ones, and from its point on."""

    whole: str
    parts: str = ""

    @property
    def text(self) -> str:
        """All of it."""
        return self.whole + self.parts


class Room(NamedTuple):
    """How far numbers reach left and right of where their points stand."""

    left: float
    right: float

    @property
    def width(self) -> float:
        """From end to end."""
        return self.left + self.right


def figures(number: Decimal, before: str = "", is_second: bool = False) -> Figures:
    """A number written as in the window, in brackets where it is below zero and the `second` of a
    calculation.

    >>> figures(Decimal("-12345.5")).text == "−12\u202f345.5"
    True
    """
    whole, point, parts = grouped(plain(number)).partition(".")
    opened, closed = ("(", ")") if is_second and number < 0 else ("", "")
    return Figures(f"{before}{opened}{whole}", point + parts + closed)


def room_for(pen: Pen, numbers: Iterable[Figures], kind: Type) -> Room:
    """The room that takes all numbers, one below the other."""
    listed = list(numbers)
    left = max((pen.width(one.whole, kind) for one in listed), default=0)
    return Room(left, max((pen.width(one.parts, kind) for one in listed), default=0))


def write_figures(pen: Pen, number: Figures, point: tuple[float, float], kind: Type) -> None:
    """Write a number with its ones left of a point."""
    pen.write(number.text, (point[0] - pen.width(number.whole, kind), point[1]), kind)
