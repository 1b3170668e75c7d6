"""Plans for square roots, by the half-multiplication table.

The radicand is paired off from its unit rod; the root grows to its left, its unit rod on a mark.
The first pair gives the first digit, and its square is taken away. The rest is halved; then each
digit is found by dividing by the root so far, and half its own square is taken one rod further on
(from memory; common practice, no source).

A trial digit is never too small: to make it larger, what was taken with its square would be needed
again.
"""

from dataclasses import dataclass
from decimal import Decimal
from math import isqrt

from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions
from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, room_around
from frame.technique.plan import Plan, Step
from frame.technique.reading import figures
from frame.technique.trials import (
    Result,
    add_back,
    finished,
    largest_trial,
    revise_down,
    subtract,
    take_products,
    try_digit,
)


def plan_root(
    radicand: Decimal,
    answer: Result,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
) -> Plan:
    """The plan for the square root of a number, from a cleared frame. Raises RodsError."""
    digits, place = figures(radicand)
    top = place // 2
    first = place - top - 2
    lowest = min(first - len(digits), -2 * answer.worked - top - 3)
    size, units = room_around(max(top, 0) + 1, -min(lowest, 0), rods, at_least)
    hand = Hand(conventions, Frame.cleared(size, units))
    hand.span = (top, top)
    hand.put_all(Operation(Act.SET, digits, first))
    return _Root(top, answer).plan(hand, top)


@dataclass(frozen=True, slots=True)
class _Root:
    """A root: the rod of its first digit, and what comes out."""

    top: int
    answer: Result

    def plan(self, hand: Hand, rod: int) -> Plan:
        """The plan of a hand that has come as far as the root's digit on a rod."""
        if rod == self.top:
            self._begin(hand)
        for place in range(min(rod, self.top - 1), -self.answer.worked - 1, -1):
            hand.span = (self.top, place)
            so_far = self._so_far(hand, place)
            if so_far != "0" and try_digit(hand, Act.ROOT, place, so_far):
                self._take(hand, place)
        return finished(hand, self.answer, self)

    def _begin(self, hand: Hand) -> None:
        """Find the first digit, take its square from the first pair, and halve the rest."""
        top = self.top
        pair = hand.shown(top - 1, top - 2)
        digit = isqrt(pair)
        hand.put(Operation(Act.ROOT, str(digit), top, (), (), (Decimal(pair),)), top, digit)
        if digit:
            subtract(hand, top - 1, (digit, digit), (top,))
            _halve(hand, top - 1)

    def _so_far(self, hand: Hand, rod: int) -> str:
        """The digits of the root before the one on a rod."""
        return str(hand.shown(self.top, rod + 1))

    def _take(self, hand: Hand, rod: int, at: int = 0) -> None:
        """Take the digit tried on a rod times the root so far, from its digit `at` on, and half its
        square."""
        so_far = self._so_far(hand, rod)
        root_rods = range(self.top, rod, -1)
        trial = take_products(hand, rod, so_far, root_rods, at)
        below = rod - 1 - len(so_far)
        while 5 * trial * trial > (rest := hand.shown(rod - 1, below - 2)):
            why = (Decimal(5 * trial * trial).scaleb(-1), Decimal(rest).scaleb(-1))
            trial = revise_down(hand, rod, so_far, why)
        if trial:
            digits = f"{5 * trial * trial:03}".removesuffix("0")
            operation = Operation(Act.SUBTRACT_HALF, digits, below, (trial, trial), (rod,))
            hand.work_all(operation, -1)

    def lawful(self, frame: Frame, step: Step) -> range:
        """The first digit alone, for what is left of it is not found again; of the others all from
        what the digit must become to the largest to try."""
        hand, rod, line = Hand(USUAL, frame), step.rod, step.operation
        if rod == self.top:
            return range(int(line.digits), int(line.digits) + 1)
        so_far = self._so_far(hand, rod)
        rest = hand.shown(rod - 1, rod - 3 - len(so_far))
        most = largest_trial(hand, rod, int(so_far[0]))
        if line.act is Act.REVISE_DOWN:
            taken = int(so_far[: line.taken].ljust(len(so_far), "0") or 0)
            rest, most = rest + 100 * line.factors[0] * taken, line.factors[1]
        held = (d for d in range(1, most + 1) if 100 * d * int(so_far) + 5 * d * d <= rest)
        return range(max(held, default=most), most + 1)

    def on_with(self, frame: Frame, step: Step, conventions: Conventions) -> Plan | None:
        """The plan that goes on with the digit that the step's rod shows."""
        if step.rod == self.top or frame.digit(step.rod) not in self.lawful(frame, step):
            return None
        hand, rod, line = Hand(conventions, frame), step.rod, step.operation
        hand.span, at = (self.top, rod), 0
        if line.act is Act.REVISE_DOWN:
            at = line.taken
            so_far = self._so_far(hand, rod)
            add_back(hand, rod, so_far[:at], line.factors[0] - hand.digit(rod))
        self._take(hand, rod, at)
        return self.plan(hand, rod - 1)


def _halve(hand: Hand, first: int) -> None:
    """Halve what stands from a rod on, the highest digit first; of an odd digit, 5 goes to the
    next rod."""
    rods = range(first, hand.lowest - 1, -1)
    digits = "".join(str(hand.digit(rod)) for rod in rods).strip("0")
    highest = next((rod for rod in rods if hand.digit(rod)), first)
    operation, odd = Operation(Act.HALVE, digits, highest), 0
    for rod in rods:
        digit = hand.digit(rod)
        hand.put(operation, rod, digit // 2 + 5 * odd)
        odd = digit % 2
