"""Plans for products, in the layouts and orders that schools use.

With both operands set, the multiplier stands at the left end and the multiplicand in the middle,
its unit rod on a mark. Its lowest digit is worked first, with the multiplier's digits from the
highest, and then cleared; a product of two digits always takes two rods (Kojima 1954, through
worked examples printed after it). With the multiplicand alone on the frame the places are the
same; with nothing set the highest digits are worked first (common practice, no source).

Rod 0 is the unit rod of the result, and the first digit of the multiplicand lies where the
digit-count rule says (F. Kato, *SOROBAN pelo Metodo Moderno*, through later authors); where an
operand has decimals it is rod 0 that lies on a mark.

Other schools: the multiplier may be the number in the middle, worked digit by digit (from memory,
no source). In the older way the other number's digits come from the lowest, each product one rod
further left, and the last one overwrites the digit that is worked. A carry may run into that digit,
which then reads otherwise than it is: the hand remembers it (Tochio, *Computation on the Soroban*;
with more digits than its examples have: worked out here).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions, First, Operands, Outer
from frame.technique.hand import Hand, Hands
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, room_around
from frame.technique.plan import Plan
from frame.technique.reading import decimals, figures
from frame.technique.rounding import round_half_up

_CLEAR_RODS = 2
"""Rods left free between the operands."""

Factors = tuple[Decimal, Decimal]
"""The multiplicand and the multiplier."""


def plan_product(
    factors: Factors,
    result: Decimal,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
    hands: Hands = Hand,
) -> Plan:
    """The plan for a product, from a cleared frame, worked by somebody's `hands`.

    A `result` with fewer decimals than the product is what it is rounded to. Raises RodsError.
    """
    own = conventions.first is First.LOWEST
    work = _Multiplication(factors, result, conventions, rods, at_least, hands)
    return work.plan(conventions, own)


@dataclass(frozen=True, slots=True)
class _Multiplication:
    """A product: its factors, what comes out, and the frame that is asked for."""

    factors: Factors
    result: Decimal
    conventions: Conventions
    rods: int | None
    at_least: int
    hands: Hands

    def plan(self, conventions: Conventions, overwrites: bool) -> Plan:
        """The plan by one school's order. A number in the middle is overwritten or cleared."""
        if conventions.layout is Operands.NONE:
            hand = self._worked_unset(conventions)
        else:
            hand = self._worked_set(conventions, overwrites)
        round_half_up(hand, decimals(self.result), hand.lowest)
        return Plan(hand.start, tuple(hand.steps), self.result, conventions, orders=self)

    def plans(self) -> tuple[Plan, ...]:
        """The plans on the same frame by every order that its places allow."""
        ours = self.conventions
        if ours.layout is Operands.NONE:
            ways = [replace(ours, outer=outer, first=first) for outer in Outer for first in First]
        elif ours.first is First.HIGHEST:
            ways = [replace(ours, first=First.LOWEST)]
        else:
            ways = []
        return tuple(self.plan(way, overwrites=False) for way in ways)

    def _worked_unset(self, conventions: Conventions) -> Hand:
        """The work with no operand on the frame: either number digit by digit, both from the
        highest or both from the lowest."""
        (some, place), (others, other_place) = map(figures, self.factors)
        first = place + other_place + 1
        lowest = min(first + 2 - len(some) - len(others) - 1, 0)
        size, units = room_around(max(first, 0), -lowest, self.rods, self.at_least)
        hand = self.hands(conventions, Frame.cleared(size, units))
        hand.span = (hand.highest, hand.lowest)
        is_multiplier = conventions.outer is Outer.MULTIPLIER
        both = [_digits(number, conventions.first) for number in (some, others)]
        outer, inner = reversed(both) if is_multiplier else both
        for index, digit in outer:
            for other_index, other in inner:
                factors = (other, digit) if is_multiplier else (digit, other)
                _multiply(hand, factors, first - index - other_index, row=index)
        return hand

    def _worked_set(self, conventions: Conventions, overwrites: bool) -> Hand:
        """The work with one number in the middle of the frame: its lowest digit first."""
        is_multiplier = conventions.outer is Outer.MULTIPLIER
        factors = self.factors[::-1] if is_multiplier else self.factors
        (some, place), (others, other_place) = map(figures, factors)
        first = place + other_place + 2 - overwrites
        last = first + 1 - len(some)
        lowest = min(last - len(others) - 1 + overwrites, 0)
        marked = 0 if any(map(decimals, factors)) else last
        before = len(others) + _CLEAR_RODS + max(first, 0) - marked
        size, index = room_around(before, marked - lowest, self.rods, self.at_least)
        hand = self.hands(conventions, Frame.cleared(size, index + marked))
        hand.span = (last - 1, lowest)
        if conventions.layout is Operands.BOTH:
            hand.put_all(Operation(Act.SET, others, hand.highest))
        hand.put_all(Operation(Act.SET, some, first))
        inner = _digits(others, conventions.first)
        for rod, digit in zip(range(last, first + 1), reversed(some), strict=True):
            _multiply_digit(hand, rod, int(digit), inner, overwrites)
        return hand


Digits = Sequence[tuple[int, int]]
"""The digits of a number with their index."""


def _digits(number: str, first: First) -> Digits:
    """The digits of a number in a school's order."""
    digits = [(index, int(digit)) for index, digit in enumerate(number)]
    return digits if first is First.HIGHEST else digits[::-1]


def _multiply_digit(hand: Hand, rod: int, digit: int, inner: Digits, overwrites: bool) -> None:
    """Multiply the digit on a rod by the other number, and clear it; or clear it for the last
    product, which goes in its place."""
    is_inner_set = hand.conventions.layout is Operands.BOTH
    is_multiplier = hand.conventions.outer is Outer.MULTIPLIER
    hand.span = (rod - 1, hand.lowest)
    clearing = Operation(Act.CLEAR, str(digit), rod)
    for index, other in inner:
        if overwrites and not index:
            _take_digit(hand, clearing, digit)
            hand.span = (rod, hand.lowest)
        of = (rod, hand.highest - index) if is_inner_set else (rod,)
        factors = (other, digit) if is_multiplier else (digit, other)
        _multiply(hand, factors, rod - 1 - index + overwrites, of[::-1] if is_multiplier else of)
    if not overwrites:
        hand.put(clearing, rod, 0)


def _take_digit(hand: Hand, clearing: Operation, digit: int) -> None:
    """Take a digit off its rod, to which a 1 may have been carried since."""
    if digit:
        hand.work(clearing, clearing.rod, -digit)


def _multiply(
    hand: Hand, factors: tuple[int, int], rod: int, of: tuple[int, ...] = (), row: int = 0
) -> None:
    """Add the product of two digits on a rod and the one to its right."""
    digits = f"{factors[0] * factors[1]:02}"
    hand.work_all(Operation(Act.MULTIPLY, digits, rod, factors, of, (), row), 1)
