"""Plans for quotients: the divisor at the left end, some clear rods, the dividend; the quotient
grows to the left of the dividend.

Rod 0, which lies on a mark, is the unit rod of the quotient: the dividend lies where the
digit-count rule says (F. Kato, *SOROBAN pelo Metodo Moderno*, through later authors). A quotient
digit goes two rods left of the dividend's first digit where the divisor is not above as many of
its digits (Rule I), else one rod left (Rule II; Kojima, through later authors).
"""

from dataclasses import dataclass
from decimal import Decimal

from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions
from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, room_around
from frame.technique.plan import Plan, Step
from frame.technique.reading import figures
from frame.technique.trials import (
    Answer,
    finished,
    largest_trial,
    prefix,
    revise_up,
    take_products,
    try_digit,
)

_CLEAR_RODS = 4
"""Rods left free between the divisor and the dividend; the quotient may take two of them."""


def plan_quotient(
    dividend: Decimal,
    divisor: Decimal,
    answer: Answer,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
) -> Plan:
    """The plan for a quotient, from a cleared frame. Raises RodsError."""
    (some, place), (others, other_place) = figures(dividend), figures(divisor)
    first = place - other_place - 2
    lowest = min(first + 1 - len(some), -answer.worked - 1 - len(others))
    before = len(others) + max(_CLEAR_RODS + first, _CLEAR_RODS // 2)
    size, units = room_around(before, -lowest, rods, at_least)
    hand = Hand(conventions, Frame.cleared(size, units))
    top = first + 2
    hand.span = (top, top)
    hand.put_all(Operation(Act.SET, others, hand.highest))
    hand.put_all(Operation(Act.SET, some, first))
    return _Division(others, top, answer).plan(hand, top)


@dataclass(frozen=True, slots=True)
class _Division:
    """A division: the divisor's digits, the highest rod of the quotient, what comes out."""

    divisor: str
    top: int
    answer: Answer

    def plan(self, hand: Hand, rod: int) -> Plan:
        """The plan of a hand that has come as far as the quotient's digit on a rod."""
        for place in range(rod, -self.answer.worked - 1, -1):
            hand.span = (self.top, place)
            if try_digit(hand, Act.QUOTIENT, place, self.divisor):
                self._take(hand, place)
        return finished(hand, self.answer, self._on_with)

    def _take(self, hand: Hand, rod: int) -> None:
        """Take the products of the digit tried on a rod, and revise it."""
        take_products(hand, rod, hand.digit(rod), self.divisor, hand.highest)
        while prefix(hand, rod, self.divisor) >= int(self.divisor):
            revise_up(hand, rod, self.divisor)

    def _on_with(self, frame: Frame, step: Step, conventions: Conventions) -> Plan | None:
        """The plan that goes on with the digit that the step's rod shows; None where its first
        product can't be taken."""
        hand, rod = Hand(conventions, frame), step.rod
        if frame.digit(rod) > largest_trial(hand, rod, int(self.divisor[0])):
            return None
        hand.span = (self.top, rod)
        self._take(hand, rod)
        return self.plan(hand, rod - 1)
