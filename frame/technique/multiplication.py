"""Plans for products, in the layouts that schools use.

With both operands set, the multiplier stands at the left end and the multiplicand in the middle,
its unit rod on a mark. Its lowest digit is worked first, with the multiplier's digits from the
highest, and then cleared; a product of two digits always takes two rods (Kojima 1954, through
worked examples printed after it). With the multiplicand alone on the frame the places are the
same; with nothing set the highest digits are worked first (common practice, no source).

Rod 0 is the unit rod of the result, and the first digit of the multiplicand lies where the
digit-count rule says (F. Kato, *SOROBAN pelo Metodo Moderno*, through later authors); where an
operand has decimals it is rod 0 that lies on a mark.
"""

from decimal import Decimal

from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions, Layout
from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, room_around
from frame.technique.plan import Plan
from frame.technique.reading import decimals, figures
from frame.technique.rounding import round_half_up

_CLEAR_RODS = 2
"""Rods left free between the multiplier and the multiplicand."""

Factors = tuple[Decimal, Decimal]
"""The multiplicand and the multiplier."""


def plan_product(
    factors: Factors,
    result: Decimal,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
) -> Plan:
    """The plan for a product, from a cleared frame.

    A `result` with fewer decimals than the product is what it is rounded to. Raises RodsError.
    """
    if conventions.layout is Layout.NONE:
        hand = _worked_unset(factors, conventions, rods, at_least)
    else:
        hand = _worked_set(factors, conventions, rods, at_least)
    round_half_up(hand, decimals(result), hand.lowest)
    return Plan(hand.start, tuple(hand.steps), result, conventions)


def _worked_unset(
    factors: Factors, conventions: Conventions, rods: int | None, at_least: int
) -> Hand:
    """The work with no operand on the frame: the highest digits first."""
    (some, place), (others, other_place) = map(figures, factors)
    first = place + other_place + 1
    lowest = min(first + 2 - len(some) - len(others) - 1, 0)
    size, units = room_around(max(first, 0), -lowest, rods, at_least)
    hand = Hand(conventions, Frame.cleared(size, units))
    hand.span = (hand.highest, hand.lowest)
    for index, digit in enumerate(some):
        for other_index, other in enumerate(others):
            _multiply(hand, int(digit), int(other), first - index - other_index, row=index)
    return hand


def _worked_set(
    factors: Factors, conventions: Conventions, rods: int | None, at_least: int
) -> Hand:
    """The work with the multiplicand on the frame: its lowest digit first."""
    (some, place), (others, other_place) = map(figures, factors)
    first = place + other_place + 2
    last = first + 1 - len(some)
    lowest = min(last - len(others) - 1, 0)
    marked = 0 if any(map(decimals, factors)) else last
    before = len(others) + _CLEAR_RODS + max(first, 0) - marked
    size, index = room_around(before, marked - lowest, rods, at_least)
    hand = Hand(conventions, Frame.cleared(size, index + marked))
    hand.span = (last - 1, lowest)
    if conventions.layout is Layout.BOTH:
        hand.put_all(Operation(Act.SET, others, hand.highest))
    hand.put_all(Operation(Act.SET, some, first))
    for rod in range(last, first + 1):
        _multiply_digit(hand, rod, others)
    return hand


def _multiply_digit(hand: Hand, rod: int, multiplier: str) -> None:
    """Multiply the digit of the multiplicand on a rod, and clear it."""
    digit, is_multiplier_set = hand.digit(rod), hand.conventions.layout is Layout.BOTH
    hand.span = (rod - 1, hand.lowest)
    for index, other in enumerate(multiplier):
        of = (rod, hand.highest - index) if is_multiplier_set else (rod,)
        _multiply(hand, digit, int(other), rod - 1 - index, of)
    hand.put(Operation(Act.CLEAR, str(digit), rod), rod, 0)


def _multiply(
    hand: Hand, digit: int, other: int, rod: int, of: tuple[int, ...] = (), row: int = 0
) -> None:
    """Add the product of two digits on a rod and the one to its right."""
    operation = Operation(Act.MULTIPLY, f"{digit * other:02}", rod, (digit, other), of, (), row)
    hand.work_all(operation, 1)
