"""The written work of products, quotients and roots with plain integers, line by line.

A second way to the same rows, made from the published rules and from no planner: what stands on
the frame right of the far-left number is one integer, counted in 10 ** LOWEST. Rod 0 is the unit
rod of the result; a digit on rod p counts 10 ** p there.

Products: T. Kojima 1954 as given at funabacus.blogspot.com, July 2011; operands left out as the
schools named in `Layout` do. Quotients: Heffelfinger & Flom 2004 (rules I and II); a digit taken
back by one is common practice, no source. Roots: half of the table, from memory. First digits: the
rule of F. Kato, in Heffelfinger & Flom.
"""

from dataclasses import dataclass, field
from decimal import Decimal
from math import isqrt

LOWEST = -80
Line = tuple[str, tuple[int, ...], int]
"""What is done, with which digits, and what then stands right of the far-left number."""


def one_on(place: int) -> int:
    return 10 ** (place - LOWEST)


def places_before_point(number: Decimal) -> int:
    """Kato's count: whole digits, or, below nought, less the zeros after the point."""
    return number.adjusted() + 1


def digits_of(number: Decimal) -> list[tuple[int, int]]:
    """The digits but zeros with their powers of ten, highest first."""
    return [
        (digit, number.adjusted() - index)
        for index, digit in enumerate(number.as_tuple().digits)
        if digit
    ]


def significant(number: Decimal) -> str:
    """The digits from the first to the last that is no zero."""
    return "".join(map(str, number.as_tuple().digits)).strip("0")


def counted(number: Decimal, shift: int) -> int:
    """What the number stands for when it is set `shift` rods further left."""
    return sum(digit * one_on(power + shift) for digit, power in digits_of(number))


@dataclass
class Written:
    """What stands on the frame; `lines` is the work so far, its first line what is set."""

    found: int = 0
    """The quotient's or the root's digits, or what is left of the multiplicand."""
    rest: int = 0
    """What is left to work on, or the product so far."""
    lines: list[Line] = field(default_factory=list)

    def note(self, done: str, *digits: int) -> None:
        self.lines.append((done, digits, self.found + self.rest))


def product(multiplicand: Decimal, multiplier: Decimal, nothing_set: bool = False) -> Written:
    """Lowest digit of the multiplicand first; with nothing set, the highest first."""
    ahead = places_before_point(multiplier) + 1
    work = Written(found=0 if nothing_set else counted(multiplicand, ahead))
    work.note("set")
    of_multiplicand = digits_of(multiplicand)
    for digit, power in of_multiplicand if nothing_set else reversed(of_multiplicand):
        for other, other_power in digits_of(multiplier):
            work.rest += digit * other * one_on(power + other_power)
            work.note("multiply", digit, other)
        if not nothing_set:
            work.found -= digit * one_on(power + ahead)
            work.note("clear", digit)
    return work


def first_place(rest: int) -> int:
    return len(str(rest)) - 1 + LOWEST


def rod_by_rule(rest: int, divisor: str) -> int:
    """The rod of the next digit: rule I two rods left of the first digit, rule II one."""
    leading = str(rest)[: len(divisor)].ljust(len(divisor), "0")
    return first_place(rest) + (2 if divisor <= leading else 1)


def trial(rest: int, divisor: str, rod: int) -> int:
    """The digits above the first product, by the divisor's first digit; at most 9."""
    return min(9, rest // one_on(rod - 2) // int(divisor[0]))


def try_digit(work: Written, divisor: str, rod: int, square: bool) -> None:
    """Set a digit, take its products away; where one is not there, go back by one.

    With `square`, half the digit's square is the last of the products.
    """
    digit = trial(work.rest, divisor, rod)
    work.found += digit * one_on(rod)
    work.note("root" if square else "quotient", digit)
    at = 0
    while at < len(divisor) + square and digit:
        amount = amount_of(digit, divisor, rod, at)
        if work.rest >= amount:
            work.rest -= amount
            note_taken(work, digit, divisor, at, amount)
            at += 1
            continue
        digit -= 1
        work.found -= one_on(rod)
        work.note("down", digit + 1, digit)
        if at and (back := int(divisor[:at])):
            work.rest += back * one_on(rod - at - 1)
            work.note("back")


def amount_of(digit: int, divisor: str, rod: int, at: int) -> int:
    if at == len(divisor):
        return digit * digit * one_on(rod - at - 2) // 2
    return digit * int(divisor[at]) * one_on(rod - at - 2)


def note_taken(work: Written, digit: int, divisor: str, at: int, amount: int) -> None:
    if at == len(divisor):
        work.note("half", digit, digit)
    elif amount:
        work.note("take", digit, int(divisor[at]))


def quotient(dividend: Decimal, divisor: Decimal, places: int) -> Written:
    """Digit by digit to that many decimal places, or until nothing is left."""
    work = Written(rest=counted(dividend, -places_before_point(divisor) - 1))
    work.note("set")
    by = significant(divisor)
    while work.rest and (rod := rod_by_rule(work.rest, by)) >= -places:
        try_digit(work, by, rod, square=False)
    return work


def root(radicand: Decimal, places: int) -> Written:
    """The root to that many decimal places, or until nothing is left."""
    first = radicand.adjusted() // 2
    work = Written(rest=counted(radicand, -first - 2))
    work.note("set")
    if first < -places:
        return work
    digit = isqrt(work.rest // one_on(first - 2))
    work.found = digit * one_on(first)
    work.note("root", digit)
    work.rest -= digit * digit * one_on(first - 2)
    work.note("take", digit, digit)
    if work.rest:
        work.rest //= 2
        work.note("halve")
    for rod in range(first - 1, -places - 1, -1):
        by = str(work.found // one_on(rod + 1))
        if work.rest and rod_by_rule(work.rest, by.rstrip("0")) >= rod:
            try_digit(work, by, rod, square=True)
    return work


def row(at_left: str, right: int, rods: int, lowest: int) -> str:
    """The whole frame, highest rod first."""
    shown, beyond = divmod(right, one_on(lowest))
    assert not beyond, "a bead beyond the last rod"
    free = rods - len(at_left)
    assert len(str(shown)) <= free, "no room beside the far-left number"
    return at_left + str(shown).zfill(free)
