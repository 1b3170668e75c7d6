"""Slips planted in random products, quotients and roots: none is taken for right work, and nearly
all are named for what they are."""

import random
from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from itertools import islice
from typing import NamedTuple

import pytest

from frame.technique.addition import plan_on
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.calculation import Calculation, Product, Quotient, Root
from frame.technique.conventions import Conventions, Operands
from frame.technique.judge import Judge, Verdict
from frame.technique.operation import Act, Operation
from frame.technique.plan import WorkLine
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError
from frame.technique.slips import Fault, Slip

SHARE, ALL = 120, 5000
COUNTS = [pytest.param(SHARE), pytest.param(ALL, marks=pytest.mark.proof)]


class Planted(NamedTuple):
    """A hand that has worked rightly so far, the strokes by which it goes wrong, and whether the
    first of them could begin a digit that may be worked."""

    text: str
    judge: Judge
    line: WorkLine
    strokes: tuple[Stroke, ...]
    could_be_right: bool


class Point(NamedTuple):
    """A hand before a line of a random work, and the lines that may be begun there: the plan's own
    and, where the first product is chosen, those of other schools' orders. `trial` is the rod of a
    trial digit that may still be changed."""

    text: str
    judge: Judge
    lines: tuple[WorkLine, ...]
    may_begin: tuple[WorkLine, ...]
    trial: int | None

    @property
    def rest(self) -> int:
        """What the two rods of the product to come hold."""
        rod = self.lines[0].operation.rod
        return 10 * self.frame.digit(rod) + self.frame.digit(rod - 1)

    @property
    def frame(self) -> Frame:
        return self.judge.frame


def products(rng: random.Random) -> Calculation:
    return Product(number(rng, 3), number(rng, 3))


def quotients(rng: random.Random) -> Calculation:
    divisor = number(rng, 3)
    return Quotient(divisor * number(rng, 3) + rng.randrange(int(divisor)), divisor)


def roots(rng: random.Random) -> Calculation:
    return Root(Decimal(rng.randrange(100, 10**7)))


def number(rng: random.Random, most: int) -> Decimal:
    return Decimal(rng.randrange(2, 10 ** rng.randint(1, most)))


Kind = Callable[[random.Random], Calculation]


def is_chosen(line: Operation) -> bool:
    return line.act.is_trial or line.act.is_revision


def points(rng: random.Random, *kinds: Kind) -> Iterator[Point]:
    """Hands before a random line of random works."""
    while True:
        calculation = rng.choice(kinds)(rng)
        layout = rng.choice([Operands.BOTH, Operands.ONE])
        plan = plan_of(calculation, Conventions(layout=layout))
        judge, at = Judge.of(plan), rng.randrange(len(plan.lines) or 1)
        for line in plan.lines[:at]:
            for stroke in line.strokes:
                verdict = judge.judge(stroke)
                assert verdict.is_right, f"{calculation}: {stroke}"
                judge = judge.after(verdict)
        before = plan.lines[at - 1].operation if at else None
        chosen = [one for one in (before, plan.lines[at].operation) if one and is_chosen(one)]
        trial = chosen[-1].rod if chosen else None
        # Beads of one order of products may be those of another as well.
        others = [other.lines[at] for other in plan.others if at >= plan.fork]
        if at < len(plan.lines):
            may_begin = (plan.lines[at], *others)
            yield Point(str(calculation), judge, plan.lines[at:], may_begin, trial)


def digits_at(frame: Frame, digits: str, rod: int, sign: int) -> tuple[Stroke, ...]:
    """The strokes of a number worked on rods, from its highest digit, as the school works them;
    none where the frame has not the rods or nothing is left to borrow from."""
    strokes: list[Stroke] = []
    for at, digit in enumerate(digits):
        if digit != "0":
            number = Decimal(sign * int(digit)).scaleb(rod - at)
            try:
                plan = plan_on(frame, number)
            except NumberError:
                return ()
            if plan.end.highest != frame.highest or any(
                step.owed is not None for step in plan.steps
            ):
                return ()
            frame = plan.end
            strokes += plan.strokes
    return tuple(strokes)


def begins_right(frame: Frame, line: WorkLine, move: BeadMove) -> bool:
    """Whether a bead goes part of the way that some rod goes with the first digit of a line."""
    digits = {rod: frame.digit(rod) for rod in range(frame.lowest, frame.highest + 1)}
    for one in line.steps[0].moves:
        digits[one.rod] += one.change
    before, after = frame.digit(move.rod), digits[move.rod]
    if move.is_heaven:
        return after // 5 - before // 5 == move.change // 5
    earth = after % 5 - before % 5
    return 0 < move.change <= earth or earth <= move.change < 0


def planted(point: Point, strokes: tuple[Stroke, ...]) -> Iterator[Planted]:
    """The slip, where its strokes can be made."""
    if strokes:
        could = strokes[0][0].rod == point.trial or any(
            any(begins_right(point.frame, line, move) for move in strokes[0])
            for line in point.may_begin
        )
        yield Planted(point.text, point.judge, point.lines[0], strokes, could)


PRODUCTS = (Act.MULTIPLY, Act.SUBTRACT)


def product_strokes(point: Point, digits: str, off: int = 0) -> tuple[Stroke, ...]:
    """The strokes of a product with these digits, some rods beside the place of the next line."""
    line = point.lines[0].operation
    sign = 1 if line.act is Act.MULTIPLY else -1
    return digits_at(point.frame, digits, line.rod + off, sign)


def one_rod_off(rng: random.Random, side: int) -> Iterator[Planted]:
    for point in points(rng, products, quotients):
        line = point.lines[0].operation
        if line.act in PRODUCTS:
            yield from planted(point, product_strokes(point, line.digits, side))


def first_wrong(slip: Planted) -> Verdict | None:
    """The first verdict that is wrong; None where all was accepted."""
    judge = slip.judge
    for stroke in slip.strokes:
        verdict = judge.judge(stroke)
        if not verdict.is_right:
            return verdict
        judge = judge.after(verdict)
    return None


def refused(slips: Iterator[Planted], count: int) -> Iterator[tuple[Planted, Fault]]:
    """Of so many slips those that do not begin like right work, and what the judge says of them:
    it must refuse each."""
    for slip in islice(slips, count):
        if slip.could_be_right:
            continue
        verdict = slip.judge.judge(slip.strokes[0])
        told = f"{slip.text}, at {slip.line.operation}: {slip.strokes}, {slip.judge.frame}"
        assert not verdict.is_right and verdict.fault is not None, told
        yield slip, verdict.fault


def assert_named(names: Counter[object], name: object, share: float) -> None:
    assert names[name] >= share * names.total() > 0, names


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("side", [1, -1])
def test_a_product_one_rod_off_is_refused_and_named_with_its_side(side: int, count: int) -> None:
    slips = refused(one_rod_off(random.Random(side), side), count)
    names = Counter((fault.slip, fault.side) for _, fault in slips)
    assert_named(names, (Slip.PRODUCT_ONE_ROD_OFF, side), 0.95)


def wrong_products(rng: random.Random) -> Iterator[Planted]:
    """A wrong fact of the table, at the right place: a neighbour in the row or in the column, or
    its two digits changed about."""
    for point in points(rng, products, quotients):
        line = point.lines[0].operation
        if line.act in PRODUCTS:
            other = rng.choice(neighbours(line))
            held = other if line.act is Act.MULTIPLY else str(point.rest)
            if other != line.digits and int(other) <= int(held):
                yield from planted(point, product_strokes(point, other))


def neighbours(line: Operation) -> list[str]:
    one, other = line.factors
    near = [(one + 1, other), (one - 1, other), (one, other + 1), (one, other - 1)]
    products = [f"{some * others:02}" for some, others in near if 0 < some < 10 > others > 0]
    # With a nought among them the digits changed about are the product one rod off.
    return [*products, *([] if "0" in line.digits else [line.digits[::-1]])]


@pytest.mark.parametrize("count", COUNTS)
def test_a_wrong_fact_of_the_table_is_named(count: int) -> None:
    names: Counter[object] = Counter()
    for slip in islice(wrong_products(random.Random(3)), count):
        verdict = first_wrong(slip)
        if verdict is None:
            continue  # All of its beads were a part of right work, and more are to come.
        names[verdict.slip] += 1
    print(names)
    assert_named(names, Slip.WRONG_PRODUCT, 0.9)


def not_cleared(rng: random.Random) -> Iterator[Planted]:
    """The next digit is multiplied while the one that is done still stands."""
    for point in points(rng, products):
        if point.lines[0].operation.act is Act.CLEAR and len(point.lines) > 1:
            line = point.lines[1].operation
            strokes = digits_at(point.frame, line.digits, line.rod, 1)
            yield from planted(point, strokes)


@pytest.mark.parametrize("count", COUNTS)
def test_a_digit_not_cleared_is_named(count: int) -> None:
    slips = refused(not_cleared(random.Random(4)), count)
    names: Counter[object] = Counter(fault.slip for _, fault in slips)
    print(names)
    assert_named(names, Slip.DIGIT_NOT_CLEARED, 0.9)


def early_digits(rng: random.Random) -> Iterator[Planted]:
    """The next digit of a quotient is set before the products of this one have left."""
    for point in points(rng, quotients):
        line = point.lines[0].operation
        if line.act is Act.SUBTRACT:
            rod = line.of[0] - 1
            digit = rng.randint(1, 9)
            yield from planted(point, digits_at(point.frame, str(digit), rod, 1))


@pytest.mark.parametrize("count", COUNTS)
def test_a_digit_of_the_quotient_too_early_is_named(count: int) -> None:
    slips = refused(early_digits(random.Random(5)), count)
    names: Counter[object] = Counter(fault.slip for _, fault in slips)
    print(names)
    assert_named(names, Slip.QUOTIENT_TOO_EARLY, 0.9)


def trials_beside(rng: random.Random, side: int) -> Iterator[Planted]:
    for point in points(rng, quotients, roots):
        line = point.lines[0].operation
        rod = line.rod + side
        # A trial digit is set, not added: the rod must have the beads for it.
        is_free = point.frame.has(rod) and point.frame.digit(rod) + int(line.digits) <= 9
        if line.act.is_trial and is_free:
            digits = digits_at(point.frame, line.digits, line.rod + side, 1)
            yield from planted(point, digits)


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("side", [1, -1])
def test_a_trial_digit_one_rod_off_is_refused_and_named_with_its_side(
    side: int, count: int
) -> None:
    slips = refused(trials_beside(random.Random(6), side), count)
    names: Counter[object] = Counter((fault.slip, fault.side) for _, fault in slips)
    print(names)
    assert_named(names, (Slip.QUOTIENT_ONE_ROD_OFF, side), 0.95)
