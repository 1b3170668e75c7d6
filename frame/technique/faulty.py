"""A faulty hand: the technique model under known habits, each used or not where it could be.

What a hand with some habits answers is worked out bead by bead as the right answer is, by the same
planners. Where a habit could show is a **site**; a hand that uses its habits at some sites alone
comes to another answer, so the sites are gone through one by one.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from functools import lru_cache, partial
from typing import NamedTuple

from frame.technique.addition import Column, plan_sum
from frame.technique.beads import Frame
from frame.technique.calculation import Calculation, Product, Quotient, Sum
from frame.technique.conventions import Conventions
from frame.technique.division import plan_quotient
from frame.technique.habits import Habit
from frame.technique.hand import Hand
from frame.technique.multiplication import Factors, plan_product
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Technique
from frame.technique.planning import answer_of
from frame.technique.reading import EXACT, NumberError, decimals, plain, read, whole_digits


class Site(NamedTuple):
    """Where a habit could show: the rod, and the digit worked there without its sign (for a whole
    number the number's first rod, and 0)."""

    habit: Habit
    rod: int
    digit: int


@dataclass
class Choosing:
    """Whether a habit is used at the sites in turn: as `choices` has it, and behind them always
    or, where `usual` says so, never. `before` is the answer before, where it is known, which may
    stand on the frame still. `sites` are those come to so far."""

    habits: Collection[Habit]
    choices: Sequence[bool] = ()
    usual: bool = True
    before: Decimal | None = None

    def __post_init__(self) -> None:
        self.sites: list[Site] = []

    def uses(self, habit: Habit, rod: int, digit: int = 0) -> bool:
        """Whether the hand, come to a site of a habit, uses it."""
        if habit not in self.habits:
            return False
        at = len(self.sites)
        self.sites.append(Site(habit, rod, digit))
        return self.choices[at] if at < len(self.choices) else self.usual

    def one_of(self, habits: Sequence[tuple[Habit, int]], rod: int, digit: int) -> int | None:
        """What the first of some habits that is used here leaves on the rod; None without one."""
        for habit, after in habits:
            if habit in self.habits and self.uses(habit, rod, digit):
                return after
        return None


class FaultyHand(Hand):
    """A hand with habits, of products and quotients."""

    def __init__(self, choosing: Choosing, conventions: Conventions, frame: Frame) -> None:
        super().__init__(conventions, frame)
        self.choosing, self.is_setting = choosing, False

    def lands(
        self, rod: int, change: int, after: int, carry: int, technique: Technique
    ) -> tuple[int, int]:
        """What the rod shows after a digit is worked, and the carry."""
        if self.is_setting:
            return after, carry
        before, digit, sign = self.digit(rod), abs(change), 1 if change > 0 else -1
        used = self.choosing.one_of(_on_rod(before, digit, sign, technique), rod, digit)
        if carry:
            forgotten = Habit.CARRY_FORGOTTEN if sign > 0 else Habit.BORROW_FORGOTTEN
            if self.choosing.uses(forgotten, rod, digit):
                carry = 0
        elif sign < 0 and technique is Technique.FIVE and any(self.digits[rod + 1 - self.lowest :]):
            carry = -int(self.choosing.uses(Habit.BORROWED_THOUGH_FIVE, rod, digit))
        return after if used is None else used, carry

    def stops(self, rod: int, carry: int) -> bool:
        """Whether a carry that comes to a rod which it runs over stops there."""
        return self.choosing.uses(Habit.RIPPLE_STOPPED, rod, 1)

    def work_all(self, operation: Operation, sign: int) -> None:
        """Add or take the digits of a product; those of a divisor may not come back."""
        act, rod = operation.act, operation.rod
        if act is Act.ADD_BACK and self.choosing.uses(Habit.REVISED_WITHOUT_ADDING_BACK, rod):
            return
        is_one_digit = act is Act.MULTIPLY and operation.digits[0] == "0" != operation.digits[1]
        if is_one_digit and self.choosing.uses(Habit.PRODUCT_ONE_ROD_OFF, rod):
            operation = operation._replace(rod=rod + 1)
            self.reach(rod)
        super().work_all(operation, sign)


class FaultyColumn(FaultyHand, Column):
    """A hand with habits, of columns."""

    def __init__(self, choosing: Choosing, conventions: Conventions, frame: Frame) -> None:
        left = _left(choosing, frame)
        super().__init__(choosing, conventions, left or frame)
        self.is_cleared = left is None

    def work_number(self, term: Decimal, first: bool) -> None:
        """Work one number, or what is taken for it. To set the first one is no work."""
        meant, is_set = self._meant(term, first), first and term >= 0
        self.is_setting = is_set and self.is_cleared
        super().work_number(meant, first)

    def _meant(self, term: Decimal, first: bool) -> Decimal:
        rod, swapped = _swapped(term)
        if swapped is not None and self.choosing.uses(Habit.DIGITS_SWAPPED, rod):
            term = swapped
        if term < 0 and self.choosing.uses(Habit.ADDED_FOR_TAKEN, rod):
            term = -term
        if not first and self.choosing.uses(Habit.WRONG_ROD, rod):
            term *= 10
        return term

    def give_back(self) -> None:
        """Give the borrowed 1 back, once what stands there allows it."""
        borrowed = 0 if self.owed is None else 10 ** (self.owed - self.lowest)
        self.value = self.shown(self.highest, self.lowest) - borrowed
        is_due = self.owed is not None and self.value >= 0
        if is_due and self.choosing.uses(Habit.NOT_GIVEN_BACK, self.owed or 0):
            self.owed, self.value = None, self.value + borrowed
        super().give_back()


@lru_cache(maxsize=1024)
def _swapped(term: Decimal) -> tuple[int, Decimal | None]:
    """The first rod of a number, and the number with its last two digits swapped, where it can be
    another."""
    rod, figures = max(whole_digits(term) - 1, 0), plain(term)
    swapped = f"{figures[:-2]}{figures[:-3:-1]}"
    can_swap = figures[-2:].isdigit() and swapped != figures
    return rod, Decimal(swapped) if can_swap else None


def _left(choosing: Choosing, frame: Frame) -> Frame | None:
    """The frame with the answer before on it still; None where it is cleared, or cannot show it."""
    before = choosing.before
    if before is None or before <= 0 or decimals(before) > -frame.lowest:
        return None
    if not choosing.uses(Habit.NOT_CLEARED, max(whole_digits(before) - 1, 0)):
        return None
    digits = str(int(before.scaleb(-frame.lowest))).zfill(len(frame.digits))
    return Frame(digits, frame.lowest + len(digits) - 1)


Worked = tuple[Plan, Decimal]
"""The beads moved, and the number that is read."""


class Answer(NamedTuple):
    """What a hand answers, the sites it came to, and the beads that it moved."""

    number: Decimal
    sites: tuple[Site, ...]
    plan: Plan


def answer_by(
    calculation: Calculation, conventions: Conventions, choosing: Choosing
) -> Answer | None:
    """What comes out of a calculation that is worked with habits; None where the work is lost, or
    is none of a kind that is modelled (roots)."""
    try:
        with localcontext(EXACT):
            worked = _worked(calculation, conventions, choosing)
            if worked is None:
                return None
            plan, shown = worked
            number = _read(shown, calculation, choosing)
            return Answer(number, tuple(choosing.sites), plan)
    except NumberError:
        return None


def _read(number: Decimal, calculation: Calculation, choosing: Choosing) -> Decimal:
    """What is read of a result that stands there."""
    if isinstance(calculation, Quotient):
        if number and choosing.uses(Habit.REMAINDER_NOT_SMALLER, 0):
            number -= Decimal(1).scaleb(-decimals(number))
        if choosing.uses(Habit.QUOTIENT_ONE_ROD_OFF, 0):
            number *= 10
    elif choosing.uses(Habit.ROD_MISREAD, 0):
        number *= 10
    elif number and not number % 10 and choosing.uses(Habit.ROD_MISREAD, 0):
        number /= 10  # Read the other way, a nought at the end is not missed.
    return Decimal(plain(number))


def _worked(
    calculation: Calculation, conventions: Conventions, choosing: Choosing
) -> Worked | None:
    match calculation:
        case Sum(terms):
            return _column(terms, conventions, choosing)
        case Product(one, other):
            factors = _meant(one, choosing), _meant(other, choosing)
            return _product(factors, calculation, conventions, choosing)
        case Quotient(dividend, divisor):
            worked = _Kept(choosing)
            answer = answer_of(calculation)
            plan = plan_quotient(dividend, divisor, answer, conventions, None, 1, worked.hand_on)
            return plan, worked.read(-answer.worked, calculation.result)
    return None


def _column(terms: Sequence[Decimal], conventions: Conventions, choosing: Choosing) -> Worked:
    plan = plan_sum(terms, conventions, None, 1, partial(FaultyColumn, choosing))
    if plan.result < 0 and choosing.uses(Habit.NEGATIVE_READ_AS_SHOWN, 0):
        return plan, read(plan.end)
    return plan, plan.result


def _product(
    factors: Factors, product: Product, conventions: Conventions, choosing: Choosing
) -> Worked:
    worked = _Kept(choosing)
    plan = plan_product(factors, product.result, conventions, None, 1, worked.hand_on)
    return plan, worked.read(worked.hands[0].lowest, product.result)


def _meant(number: Decimal, choosing: Choosing) -> Decimal:
    """A factor, or what is taken for it where its noughts take no rod."""
    text = plain(number)
    without = f"{text[:-1].replace('0', '')}{text[-1]}"
    is_site = "." not in text and without != text
    rod = max(whole_digits(number) - 1, 0)
    return Decimal(without) if is_site and choosing.uses(Habit.ZERO_NOT_SKIPPED, rod) else number


class _Kept:
    """The hand that a planner is given, kept to be read."""

    def __init__(self, choosing: Choosing) -> None:
        self.choosing, self.hands = choosing, list[FaultyHand]()

    def hand_on(self, conventions: Conventions, frame: Frame) -> FaultyHand:
        """A hand with habits on a frame."""
        self.hands.append(FaultyHand(self.choosing, conventions, frame))
        return self.hands[0]

    def read(self, lowest: int, right: Decimal) -> Decimal:
        """What its result's rods show down to one, with the sign of what is right."""
        hand = self.hands[0]
        top = hand.span[0] if hand.span else hand.highest
        number = Decimal(hand.shown(top, lowest)).scaleb(lowest)
        return Decimal(plain(-number if right < 0 else number))


@lru_cache(maxsize=1024)
def _on_rod(
    before: int, digit: int, sign: int, technique: Technique
) -> tuple[tuple[Habit, int], ...]:
    """The habits that could show on a rod as far as beads allow it, and what each leaves there."""
    found = _thought_of(before, digit, sign, technique)
    return tuple([(habit, after) for habit, after in found if 0 <= after <= 9])


def _thought_of(
    before: int, digit: int, sign: int, technique: Technique
) -> list[tuple[Habit, int]]:
    """The same, also where beads do not allow it: what is left is out of 0 to 9 then."""
    earth, ten, five = before % 5, 10 - digit, 5 - digit
    match technique:
        case Technique.DIRECT if digit > 5:
            return [(Habit.FIVE_BEAD_LEFT, before + sign * (digit - 5))]
        case Technique.FIVE:
            wrong = before + 5 * sign - sign * digit
            return [
                (Habit.PARTNER_OF_FIVE_LEFT, before + 5 * sign),
                (Habit.WRONG_PARTNER_OF_FIVE, wrong if 0 <= earth - sign * digit <= 4 else -1),
                (Habit.FIVE_BEAD_LEFT, before - sign * five),
            ]
        case Technique.TEN | Technique.TEN_FIVE:
            without = Habit.CARRIED_WITHOUT_PARTNER if sign > 0 else Habit.BORROWED_WITHOUT_PARTNER
            found = [(without, before)]
            if digit != 5:
                found.append((Habit.WRONG_PARTNER, before - sign * digit))
            if digit < 5:
                found.append((Habit.FIVES_PARTNER_FOR_TENS, before - sign * five))
            if technique is Technique.TEN_FIVE:
                inner = before - 5 * sign + sign * ten
                is_there = 0 <= earth + sign * ten <= 4
                found.append((Habit.INNER_FIVE_MISSED, inner if is_there else -1))
                found.append((Habit.FIVE_BEAD_LEFT, before + sign * (5 - ten)))
            return found
    return []
