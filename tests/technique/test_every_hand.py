"""Every lawful hand is let through to the end, and no bead of what comes next is taken too early.

The hands and the lawful beads are reckoned from numbers alone (`lawful_hands`, `lawful_beads`).
"""

import random
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from itertools import chain, product

import pytest
from lawful_beads import DividedBy, Lawful, column, every_move, multiplied, wander, with_number
from lawful_hands import (
    Division,
    Sight,
    Written,
    column_worked,
    lines_worked,
    middle_rod,
    set_numbers,
    set_products,
    unset_products,
)

from frame.technique.beads import BeadMove, Frame, Stroke, stroke_text
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.conventions import (
    Carry,
    Conventions,
    First,
    Operands,
    Outer,
    Remove,
    Strictness,
)
from frame.technique.judge import Judge, Judgement, Verdict
from frame.technique.planning import plan_of

SET = [Operands.BOTH, Operands.ONE]
"""With which numbers on the frame."""


def share_or_all(share: int, proof: int) -> pytest.MarkDecorator:
    counts = [pytest.param(share), pytest.param(proof, marks=pytest.mark.proof)]
    return pytest.mark.parametrize("count", counts)


class Play:
    """A calculation before the judge, with a log of the strokes."""

    def __init__(
        self,
        calculation: Calculation,
        conventions: Conventions,
        strictness: Strictness = Strictness.BEADS,
    ) -> None:
        self.calculation, self.conventions = calculation, conventions
        self.judge = Judge.of(plan_of(calculation, conventions), strictness)
        self.strokes: list[Stroke] = []

    @property
    def frame(self) -> Frame:
        return self.judge.frame

    def __str__(self) -> str:
        schools = self.conventions
        strokes = " ".join(map(stroke_text, self.strokes))
        return (
            f"{self.calculation} (carry {schools.carry}, remove {schools.remove}, layout "
            f"{schools.layout}, outer {schools.outer}, first {schools.first}): {strokes or '.'} on "
            f"{self.frame} (ones: rod {self.frame.units + 1})"
        )

    def make(self, stroke: Stroke) -> Verdict:
        """A stroke that must not be refused."""
        verdict = self.judge.judge(stroke)
        assert verdict.is_right and verdict.kept, f"{stroke_text(stroke)} refused: {self}"
        assert verdict.slip is None, f"{stroke_text(stroke)} is {verdict.slip}: {self}"
        self.strokes.append(stroke)
        self.judge = self.judge.after(verdict)
        return verdict

    def check_finished(self) -> None:
        assert self.judge.finished, f"not finished: {self}"
        assert self.judge.omission() is None, f"{self.judge.omission()}: {self}"

    def to_the_end(self, strokes: Iterator[Stroke], shown: int) -> None:
        """A hand that must come to the end, where the frame shows this number in ones of its lowest
        rod."""
        for stroke in strokes:
            self.make(stroke)
        self.check_finished()
        assert self.frame == with_number(self.frame, shown), f"not {shown}: {self}"


def decimals(*numbers: int) -> tuple[Decimal, ...]:
    return tuple(map(Decimal, numbers))


def number(rng: random.Random, most: int) -> int:
    """A number of up to so many digits; noughts, fives and nines are common."""
    figures = rng.choice(["0123456789", "0123456789", "0059", "1234", "0001", "99998"])
    text = rng.choice("123456789") + "".join(rng.choices(figures, k=rng.randint(1, most) - 1))
    return int(text)


def school(rng: random.Random, **places: object) -> Conventions:
    return Conventions(rng.choice(list(Carry)), rng.choice(list(Remove)), **places)  # type: ignore[arg-type]


# Sums


def terms_above_zero(rng: random.Random) -> list[int]:
    """Two or three numbers, added and taken away, that never go below zero."""
    terms = [number(rng, 4)]
    for _ in range(rng.randint(1, 2)):
        term = number(rng, 4)
        terms.append(term if sum(terms) < term or rng.random() < 0.5 else -term)
    return terms


def terms_below_zero(rng: random.Random) -> list[int]:
    """Numbers of which one goes below zero, and others perhaps back again."""
    terms = [number(rng, 3) * rng.choice((1, 1, -1))]
    while len(terms) < 5 and (sum(terms) >= 0 or rng.random() < 0.8):
        terms.append(number(rng, 3) * (-1 if sum(terms) >= 0 else rng.choice((1, 1, -1))))
    return terms


def check_sum(rng: random.Random, terms: Sequence[int]) -> None:
    play = Play(Sum(decimals(*terms)), school(rng))
    for stroke in column_worked(rng, Sight(rng, play.frame), terms):
        play.make(stroke)
    play.check_finished()
    owed = int(play.frame.digits) - sum(terms)
    is_owed = str(owed).strip("0") == "1" and owed >= -sum(terms)
    assert is_owed if sum(terms) < 0 else not owed, f"{owed} too many: {play}"


@share_or_all(400, 20_000)
def test_a_number_may_be_worked_in_any_order(count: int) -> None:
    rng = random.Random(61)
    for _ in range(count):
        check_sum(rng, terms_above_zero(rng))


@share_or_all(400, 20_000)
def test_below_zero_digits_go_from_the_highest_and_their_rods_in_any_order(count: int) -> None:
    rng, ends_below = random.Random(62), 0
    for _ in range(count):
        terms = terms_below_zero(rng)
        check_sum(rng, terms)
        ends_below += sum(terms) < 0
    assert count / 10 < ends_below < 9 * count / 10


# Quotients


def divided(rng: random.Random) -> tuple[int, int]:
    """A dividend and a divisor; every third leaves nothing over."""
    divisor = number(rng, 3)
    rest = rng.choice([0, rng.randrange(divisor), rng.randrange(divisor)])
    return max(divisor * number(rng, 3) + rest, 1), divisor


def operands_of_quotient(
    dividend: int, divisor: int, layout: Operands, frame: Frame
) -> list[tuple[str, int]]:
    """The dividend, and the divisor where it is set, each with the rod of its first digit."""
    at_right = (str(dividend), len(str(dividend)) - len(str(divisor)) - 2)
    return [at_right, *([(str(divisor), frame.highest)] if layout is Operands.BOTH else [])]


def placed(frame: Frame, digits: str, rod: int) -> int:
    """Digits from a rod on, as a number in ones of the frame's lowest rod."""
    return int(digits) * 10 ** (rod - len(digits) + 1 - frame.lowest)


@pytest.mark.parametrize("layout", SET)
@share_or_all(100, 5000)
def test_a_quotient_may_be_found_by_any_trials(count: int, layout: Operands) -> None:
    rng = random.Random(63)
    for _ in range(count):
        dividend, divisor = divided(rng)
        play = Play(Quotient(*decimals(dividend, divisor)), school(rng, layout=layout))
        sight, frame = Sight(rng, play.frame), play.frame
        operands = operands_of_quotient(dividend, divisor, layout, frame)
        division = Division(rng, sight, str(divisor), operands[0][1] + 2, wavers=True)
        quotient, rest = map(str, divmod(dividend, divisor))
        shown = placed(frame, quotient, len(quotient) - 1)
        shown += placed(frame, rest, len(rest) - len(str(divisor)) - 2)
        shown += sum(placed(frame, *operand) for operand in operands[1:])
        play.to_the_end(chain(set_numbers(rng, sight, operands), division.work(0)), shown)


# Products

ORDERS = list(product(Outer, First))


def unset_lines(a: int, b: int, outer: Outer, first: First) -> list[Written]:
    return unset_products(str(a), str(b), outer is Outer.MULTIPLIER, first is First.HIGHEST)


def operands_of_product(
    middle: int, other: int, layout: Operands, overwrites: bool, frame: Frame
) -> list[tuple[str, int]]:
    """The number in the middle, and the other where it is set, each with the rod of its first
    digit."""
    found = [(str(middle), middle_rod(str(middle), str(other), overwrites))]
    return [*found, *([(str(other), frame.highest)] if layout is Operands.BOTH else [])]


def product_of(middle: int, other: int, outer: Outer) -> Product:
    return Product(
        *decimals(*((middle, other) if outer is Outer.MULTIPLICAND else (other, middle)))
    )


@pytest.mark.parametrize(("our_outer", "our_first"), ORDERS)
@pytest.mark.parametrize(("outer", "first"), ORDERS)
@share_or_all(20, 5000)
def test_products_go_by_any_of_four_orders_where_nothing_is_set(
    count: int, outer: Outer, first: First, our_outer: Outer, our_first: First
) -> None:
    rng = random.Random(f"{outer} {first} {our_outer} {our_first}")
    for _ in range(count):
        a, b = number(rng, 3), number(rng, 3)
        ours = school(rng, layout=Operands.NONE, outer=our_outer, first=our_first)
        play = Play(Product(*decimals(a, b)), ours)
        strokes = lines_worked(rng, Sight(rng, play.frame), unset_lines(a, b, outer, first))
        play.to_the_end(strokes, placed(play.frame, str(a * b), len(str(a * b)) - 1))


def check_set_product(
    rng: random.Random, conventions: Conventions, from_highest: bool, overwrites: bool
) -> None:
    middle, other = number(rng, 3), number(rng, 3)
    play = Play(product_of(middle, other, conventions.outer), conventions)
    frame, sight = play.frame, Sight(rng, play.frame)
    operands = operands_of_product(middle, other, conventions.layout, overwrites, frame)
    lines = set_products(str(middle), str(other), from_highest, overwrites)
    result = str(middle * other)
    shown = placed(frame, result, len(result) - 1)
    shown += sum(placed(frame, *operand) for operand in operands[1:])
    strokes = chain(set_numbers(rng, sight, operands), lines_worked(rng, sight, lines))
    play.to_the_end(strokes, shown)


@pytest.mark.parametrize(("layout", "outer", "first"), list(product(SET, Outer, First)))
@share_or_all(30, 5000)
def test_the_other_numbers_digits_go_from_either_end_on_the_same_rods(
    count: int, layout: Operands, outer: Outer, first: First
) -> None:
    rng = random.Random(f"{layout} {outer} {first}")
    for _ in range(count):
        conventions = school(rng, layout=layout, outer=outer)
        check_set_product(rng, conventions, first is First.HIGHEST, overwrites=False)


@pytest.mark.parametrize(("layout", "outer"), list(product(SET, Outer)))
@share_or_all(30, 5000)
def test_the_last_product_may_overwrite_its_digit_by_that_convention(
    count: int, layout: Operands, outer: Outer
) -> None:
    rng = random.Random(f"{layout} {outer} overwriting")
    for _ in range(count):
        conventions = school(rng, layout=layout, outer=outer, first=First.LOWEST)
        check_set_product(rng, conventions, from_highest=False, overwrites=True)


# All kinds of work, beside the beads that are lawful


class Beside(Play):
    """A calculation before the judge, beside the beads that are lawful."""

    def __init__(
        self, calculation: Calculation, conventions: Conventions, strictness: Strictness
    ) -> None:
        super().__init__(calculation, conventions, strictness)
        self.lawful = self.begin()

    def begin(self) -> Lawful:
        numbers, layout = list(map(int, self.calculation.numbers)), self.conventions.layout
        match self.calculation:
            case Sum():
                return column(self.frame, numbers)
            case Quotient():
                operands = operands_of_quotient(*numbers, layout, self.frame)
                return DividedBy(numbers[1], operands[0][1] + 2).begin(self.frame, operands)
        if layout is Operands.NONE:
            return multiplied(self.frame, [], [unset_lines(*numbers, *order) for order in ORDERS])
        turn = 1 if self.conventions.outer is Outer.MULTIPLICAND else -1
        middle, other = numbers[::turn]
        overwrites = self.conventions.first is First.LOWEST
        operands = operands_of_product(middle, other, layout, overwrites, self.frame)
        ends = [False] if overwrites else [True, False]
        orders = [set_products(str(middle), str(other), end, overwrites) for end in ends]
        return multiplied(self.frame, operands, orders)

    def make(self, stroke: Stroke) -> Verdict:
        verdict = super().make(stroke)
        for move in in_bead_order(self.lawful.frame, stroke):
            self.lawful = self.lawful.after(move)
        return verdict


def in_bead_order(frame: Frame, stroke: Stroke) -> Stroke:
    return stroke if frame.can(stroke[0]) else stroke[::-1]


def a_sum(rng: random.Random) -> tuple[Calculation, Conventions]:
    return Sum(decimals(*terms_above_zero(rng))), school(rng)


def a_sum_below_zero(rng: random.Random) -> tuple[Calculation, Conventions]:
    return Sum(decimals(*terms_below_zero(rng))), school(rng)


def a_quotient(rng: random.Random) -> tuple[Calculation, Conventions]:
    return Quotient(*decimals(*divided(rng))), school(rng, layout=rng.choice(SET))


def a_product(rng: random.Random) -> tuple[Calculation, Conventions]:
    conventions = school(
        rng, layout=rng.choice(list(Operands)), outer=rng.choice(list(Outer)),
        first=rng.choice(list(First)),
    )  # fmt: skip
    return Product(*decimals(number(rng, 3), number(rng, 3))), conventions


Kind = Callable[[random.Random], tuple[Calculation, Conventions]]
KINDS = [a_sum, a_sum_below_zero, a_quotient, a_product]


def wandering(seed: int, kind: Kind, count: int) -> Iterator[Beside]:
    """So many states of hands that make any lawful bead, every one of which must be accepted."""
    rng = random.Random(seed)
    while True:
        play = Beside(*kind(rng), Strictness.BEADS)
        for _, move in wander(rng, play.lawful):
            if rng.random() < 0.2:
                yield play
                count -= 1
                if not count:
                    return
            play.make((move,))
        assert play.judge.finished, f"not finished: {play}"


@pytest.mark.parametrize("kind", KINDS)
@share_or_all(100, 5000)
def test_no_bead_of_what_comes_next_is_taken_before_this_is_done(kind: Kind, count: int) -> None:
    tried = 0
    for play in wandering(67, kind, count):
        for move in play.lawful.too_early:
            verdict = play.judge.judge((move,))
            assert verdict.judgement is Judgement.WRONG, f"{move} taken too early: {play}"
            assert verdict.slip is not None and not verdict.kept, f"{move}: {play}"
            tried += 1
    assert tried > count, tried


@pytest.mark.parametrize("kind", KINDS)
@share_or_all(20, 2000)
def test_a_bead_is_taken_where_some_hand_may_move_it_and_nowhere_else(
    kind: Kind, count: int
) -> None:
    for play in wandering(68, kind, count):
        for move in every_move(play.frame):
            verdict = play.judge.judge((move,))
            wanted = play.lawful.allows(move)
            assert verdict.is_right is wanted, f"{move} is {verdict.judgement}: {play}"
            assert (verdict.slip is None) is wanted, f"{move} is {verdict.slip}: {play}"
            if wanted and play.lawful.is_of_trial(move):
                assert verdict.judgement is Judgement.RIGHT, f"{move} of a trial: {play}"


@pytest.mark.parametrize("kind", KINDS)
@share_or_all(15, 1000)
def test_out_of_turn_is_put_back_where_the_order_is_asked(kind: Kind, count: int) -> None:
    rng, put_back = random.Random(69), 0
    for _ in range(count):
        play = Beside(*kind(rng), Strictness.ORDER)
        for stroke in play.judge.progress.plan.strokes:
            for move in rng.sample(play.lawful.beads, min(len(play.lawful.beads), 3)):
                put_back += check_in_turn(play, stroke, move)
            assert play.make(stroke).judgement is Judgement.RIGHT, f"{stroke}: {play}"
        play.check_finished()
    assert put_back > count


def check_in_turn(play: Beside, stroke: Stroke, move: BeadMove) -> bool:
    """A lawful bead of the convention's next stroke is right, and so is one of any trial digit;
    another is put back. Whether it was."""
    verdict = play.judge.judge((move,))
    if play.lawful.is_of_trial(move) or any(is_of(one, move) for one in stroke):
        assert verdict.judgement is Judgement.RIGHT and verdict.kept, f"{move}: {play}"
        return False
    assert verdict.judgement is Judgement.OTHER_ORDER, f"{move} is {verdict.judgement}: {play}"
    assert not verdict.kept and verdict.slip is None, f"{move} stays: {play}"
    assert play.judge.after(verdict) == play.judge, f"{move} is not put back: {play}"
    return True


def is_of(whole: BeadMove, move: BeadMove) -> bool:
    """Whether a bead is one of those of a move."""
    is_same_deck = (whole.rod, whole.is_heaven) == (move.rod, move.is_heaven)
    return is_same_deck and 0 < move.change / whole.change <= 1


def test_the_plans_own_strokes_of_a_root_are_right_where_the_order_is_asked() -> None:
    rng = random.Random(70)
    for _ in range(100):
        play = Play(Root(Decimal(number(rng, 6))), school(rng), Strictness.ORDER)
        for stroke in play.judge.progress.plan.strokes:
            assert play.make(stroke).judgement is Judgement.RIGHT, f"{stroke}: {play}"
        play.check_finished()


@share_or_all(200, 5000)
def test_orders_of_products_are_not_mixed_after_the_first(count: int) -> None:
    """Some products by one order, then one that another order has: refused, unless the beads so far
    may be those of that order too."""
    rng, refused = random.Random(71), 0
    for _ in range(count):
        a, b = 10 + number(rng, 3), 10 + number(rng, 3)
        conventions = school(rng, layout=Operands.NONE, outer=rng.choice(list(Outer)))
        play = Beside(Product(*decimals(a, b)), conventions, Strictness.BEADS)
        ours, theirs = (
            [line for line in unset_lines(a, b, *order) if int(line.digits)]
            for order in rng.sample(ORDERS, 2)
        )
        done = ours[: rng.randint(1, len(ours))]
        for stroke in lines_worked(rng, Sight(rng, play.frame), done):
            play.make(stroke)
        for line in theirs:
            refused += line not in done and check_refused(rng, play, line)
    assert refused > count / 2, refused


def check_refused(rng: random.Random, play: Beside, line: Written) -> bool:
    """Whether the first bead of a product is none of the products that may be next."""
    (move, *_) = next(lines_worked(rng, Sight(rng, play.frame), [line]))
    if not play.frame.can(move) or play.lawful.allows(move):
        return False
    verdict = play.judge.judge((move,))
    assert verdict.judgement is Judgement.WRONG, f"{move} begins {line.digits}: {play}"
    assert not verdict.kept, f"{move} stays: {play}"
    return True
