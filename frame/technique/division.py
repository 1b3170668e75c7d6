"""Plans for quotients: the divisor at the left end, some clear rods, the dividend; the quotient
grows to the left of the dividend. Where the school leaves the divisor on the paper, it alone is
missing and all places stay (from memory, no source).

Rod 0, which lies on a mark, is the unit rod of the quotient: the dividend lies where the
digit-count rule says (F. Kato, *SOROBAN pelo Metodo Moderno*, through later authors). A quotient
digit goes two rods left of the dividend's first digit where the divisor is not above as many of
its digits (Rule I), else one rod left (Rule II; Kojima, through later authors).
"""

from dataclasses import dataclass
from decimal import Decimal

from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions, Operands
from frame.technique.hand import Hand, Hands
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, room_around
from frame.technique.plan import Plan, Step
from frame.technique.reading import figures
from frame.technique.trials import (
    Result,
    add_back,
    finished,
    largest_trial,
    lawful_revision,
    prefix,
    revise_up,
    take_again,
    take_products,
    try_digit,
)

_CLEAR_RODS = 4
"""Rods left free between the divisor and the dividend; the quotient may take two of them."""


def plan_quotient(
    dividend: Decimal,
    divisor: Decimal,
    answer: Result,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
    hands: Hands = Hand,
) -> Plan:
    """The plan for a quotient, from a cleared frame, worked by somebody's `hands`. Raises
    RodsError."""
    (some, place), (others, other_place) = figures(dividend), figures(divisor)
    first = place - other_place - 2
    lowest = min(first + 1 - len(some), -answer.worked - 1 - len(others))
    before = len(others) + max(_CLEAR_RODS + first, _CLEAR_RODS // 2)
    size, units = room_around(before, -lowest, rods, at_least)
    hand = hands(conventions, Frame.cleared(size, units))
    top = first + 2
    hand.span = (top, top)
    divisor_rods: tuple[int, ...] = ()
    if conventions.layout is Operands.BOTH:
        divisor_rods = tuple(hand.highest - at for at in range(len(others)))
        hand.put_all(Operation(Act.SET, others, hand.highest))
    hand.put_all(Operation(Act.SET, some, first))
    return _Division(others, divisor_rods, top, answer).plan(hand, top)


@dataclass(frozen=True, slots=True)
class _Division:
    """A division: the divisor's digits and the rods they stand on, the highest rod of the quotient,
    what comes out."""

    divisor: str
    divisor_rods: tuple[int, ...]
    top: int
    answer: Result

    def plan(self, hand: Hand, rod: int) -> Plan:
        """The plan of a hand that has come as far as the quotient's digit on a rod."""
        for place in range(rod, -self.answer.worked - 1, -1):
            hand.span = (self.top, place)
            if try_digit(hand, Act.QUOTIENT, place, self.divisor, self._compared(hand, place)):
                self._take(hand, place)
        return finished(hand, self.answer, self)

    def _compared(self, hand: Hand, rod: int) -> tuple[Decimal, ...]:
        """What decides the place of the first digit: the dividend's first digits, as many as the
        divisor's, and the divisor; nothing for the others."""
        if rod < self.top - 1 or hand.digit(self.top):
            return ()
        first = self.top - 2
        leading = hand.shown(first, first + 1 - len(self.divisor))
        return Decimal(leading), Decimal(self.divisor)

    def _take(self, hand: Hand, rod: int, at: int = 0) -> None:
        """Take the products of the digit tried on a rod, from the divisor's digit `at` on, and
        revise it."""
        take_products(hand, rod, self.divisor, self.divisor_rods, at)
        while prefix(hand, rod, self.divisor) >= int(self.divisor) and hand.digit(rod) < 9:
            revise_up(hand, rod, self.divisor)

    def lawful(self, frame: Frame, step: Step) -> range:
        """Every digit from 1 to the largest to try; of a revision what it may come to."""
        hand = Hand(USUAL, frame)
        if step.operation.act is Act.QUOTIENT:
            return range(1, largest_trial(hand, step.rod, int(self.divisor[0])) + 1)
        return lawful_revision(hand, step, self.divisor)

    def on_with(self, frame: Frame, step: Step, conventions: Conventions) -> Plan | None:
        """The plan that goes on with the digit that the step's rod shows."""
        if frame.digit(step.rod) not in self.lawful(frame, step):
            return None
        hand, rod, line = Hand(conventions, frame), step.rod, step.operation
        hand.span, at = (self.top, rod), 0
        if line.act is Act.REVISE_DOWN:
            at = line.taken
            add_back(hand, rod, self.divisor[:at], line.factors[0] - hand.digit(rod))
        elif line.act is Act.REVISE_UP:
            at = len(self.divisor)
            take_again(hand, rod, self.divisor, hand.digit(rod) - line.factors[0])
        self._take(hand, rod, at)
        return self.plan(hand, rod - 1)
