"""Digits of a quotient or a root, found by trial: tried, taken, made smaller or larger.

A digit on a rod takes its product with the first digit of the divisor from the two rods to its
right, with each next digit one rod further. What can't be taken makes the trial 1 smaller, and
what was taken too much is added back; a rest that still holds the divisor makes it 1 larger
(common practice, no source).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from frame.technique.fingers import strokes_on
from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Step, Trials
from frame.technique.rounding import round_half_up


@dataclass(frozen=True, slots=True)
class Result:
    """What a division or a root comes to: the number asked for, what is left over or None where
    it was rounded, and to how many decimals it is worked out."""

    result: Decimal
    remainder: Decimal | None
    worked: int


def try_digit(
    hand: Hand, act: Act, rod: int, divisor: str, place: tuple[Decimal, ...] = ()
) -> bool:
    """Set the largest digit to try on a rod; False where the rest does not hold the divisor.
    `place` is what decides where it stands, told of the first digit."""
    if prefix(hand, rod, divisor) < int(divisor):
        return False
    first_digit = int(divisor[0])
    trial = largest_trial(hand, rod, first_digit)
    why = (Decimal(hand.shown(rod - 1, rod - 2)), Decimal(first_digit))
    hand.put(Operation(act, str(trial), rod, (), (), why, place=place), rod, trial)
    return True


def finished(hand: Hand, answer: Result, trials: Trials) -> Plan:
    """The plan of a hand that has found all digits; the result is rounded where one was worked
    for that."""
    if answer.remainder is None:
        round_half_up(hand, answer.worked - 1, -answer.worked)
    return Plan(
        hand.start, tuple(hand.steps), answer.result, hand.conventions, answer.remainder, trials
    )


def largest_trial(hand: Hand, rod: int, first_digit: int) -> int:
    """The largest digit to try on a rod: what the two rods to its right hold of the divisor's
    first digit, at most 9."""
    return min(9, hand.shown(rod - 1, rod - 2) // first_digit)


def prefix(hand: Hand, rod: int, divisor: str) -> int:
    """The part of the rest that the divisor is compared with for the digit on a rod."""
    return hand.shown(rod - 1, rod - 1 - len(divisor))


def take_products(
    hand: Hand, rod: int, divisor: str, divisor_rods: Sequence[int], at: int = 0
) -> int:
    """Take the products of the trial digit on a rod with the divisor's digits away, from the digit
    `at` on; the digit that this leaves. `divisor_rods` are those on which the divisor stands."""
    trial = hand.digit(rod)
    while trial and at < len(divisor):
        product, rest = trial * int(divisor[at]), hand.shown(rod - 1, rod - 2 - at)
        if product > rest:
            trial = revise_down(hand, rod, divisor[:at], (Decimal(product), Decimal(rest)))
        else:
            of = (rod, *divisor_rods[at : at + 1])
            subtract(hand, rod - 1 - at, (trial, int(divisor[at])), of)
            at += 1
    return trial


def subtract(hand: Hand, rod: int, factors: tuple[int, int], of: tuple[int, ...]) -> None:
    """Take the product of two digits from a rod and the one to its right."""
    digits = f"{factors[0] * factors[1]:02}"
    hand.work_all(Operation(Act.SUBTRACT, digits, rod, factors, of), -1)


def revise_down(hand: Hand, rod: int, taken: str, why: tuple[Decimal, Decimal]) -> int:
    """Make the trial digit on a rod 1 smaller, and add the divisor's digits that were taken with
    it back; the digit there is now."""
    trial = hand.digit(rod)
    smaller = trial - 1
    line = Operation(
        Act.REVISE_DOWN, str(smaller), rod, (trial, smaller), (), why, taken=len(taken)
    )
    hand.put(line, rod, smaller)
    add_back(hand, rod, taken, 1)
    return smaller


def add_back(hand: Hand, rod: int, taken: str, times: int) -> None:
    """Add what was taken too much with the trial digit on a rod: the divisor's digits `taken`, as
    many times as the digit was made smaller."""
    if taken.strip("0"):
        _work_divisor(hand, Act.ADD_BACK, rod, taken, times)


def revise_up(hand: Hand, rod: int, divisor: str) -> None:
    """Make the trial digit on a rod 1 larger, and take the divisor once more."""
    trial = hand.digit(rod)
    larger = trial + 1
    why = (Decimal(prefix(hand, rod, divisor)), Decimal(divisor))
    line = Operation(Act.REVISE_UP, str(larger), rod, (trial, larger), (), why)
    hand.put(line, rod, larger)
    take_again(hand, rod, divisor, 1)


def take_again(hand: Hand, rod: int, divisor: str, times: int) -> None:
    """Take the divisor away as many times more as the trial digit on a rod was made larger."""
    _work_divisor(hand, Act.TAKE_AGAIN, rod, divisor, times)


def _work_divisor(hand: Hand, act: Act, rod: int, digits: str, times: int) -> None:
    """Add or take some digits of the divisor, so many times, in their place for the trial digit on
    a rod."""
    number = str(times * int(digits)).zfill(len(digits))
    first = rod - 2 + len(number) - len(digits)
    hand.work_all(Operation(act, number, first, (), (rod,)), 1 if act is Act.ADD_BACK else -1)


def lawful_revision(hand: Hand, step: Step, divisor: str) -> range:
    """The digits that may come of a revision: any smaller one, or any larger one whose products
    the rest still holds."""
    before = step.operation.factors[0]
    if step.operation.act is Act.REVISE_DOWN:
        return range(min(1, before - 1), before)
    more = prefix(hand, step.rod, divisor) // int(divisor)
    return range(before + 1, min(9, before + more) + 1)


def with_first_trial(plan: Plan, digit: int) -> Plan | None:
    """The plan with this digit tried first, for no reason of its own; None where it tries none or
    can't go on with this."""
    trials = (at for at, step in enumerate(plan.steps) if step.operation.act.is_trial)
    at = next(trials, None)
    if at is None or plan.trials is None:
        return None
    step, before = plan.steps[at], plan.steps[:at]
    strokes = strokes_on(step.rod, 0, digit, plan.conventions)
    tried = step._replace(
        operation=step.operation._replace(digits=str(digit), why=()), change=digit, strokes=strokes
    )
    frame = plan.start.apply_all(tuple(move for one in (*before, tried) for move in one.moves))
    rest = plan.trials.on_with(frame, step, plan.conventions)
    return None if rest is None else replace(plan, steps=(*before, tried, *rest.steps))
