"""Plans of random and of small sums against a second model of a hand, and against exact sums."""

import random
from decimal import Decimal, localcontext
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_hand import Hand, Worked

from frame.technique.addition import plan_sum
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import Carry, Conventions, Remove
from frame.technique.plan import Plan, Step, Technique
from frame.technique.reading import EXACT, read

KINDS = {
    "D": Technique.DIRECT,
    "F": Technique.FIVE,
    "T": Technique.TEN,
    "TF": Technique.TEN_FIVE,
    "B": Technique.BORROW,
}
CONVENTIONS = [Conventions(carry, remove) for carry, remove in product(Carry, Remove)]


def exact_sum(terms: list[Decimal]) -> Decimal:
    with localcontext(EXACT):
        return sum(terms, Decimal(0))


def scaled(number: Decimal, places: int) -> int:
    with localcontext(EXACT):
        return int(number.scaleb(places))


def reference(terms: list[Decimal], places: int, conventions: Conventions) -> Hand:
    hand = Hand(conventions.carry is Carry.FIRST, conventions.remove is Remove.PINCH)
    for term in terms:
        hand.work(scaled(term, places))
    return hand


def described(step: Step, places: int) -> tuple[object, ...]:
    strokes = [
        tuple(sorted((move.rod + places, move.change) for move in stroke))
        for stroke in step.strokes
    ]
    owed = None if step.owed is None else step.owed + places
    return step.rod + places, step.change, step.technique, step.ripple, strokes, owed


def expected(worked: Worked) -> tuple[object, ...]:
    kind = KINDS[worked.kind]
    return worked.place, worked.change, kind, worked.ripple, worked.strokes, worked.debt


def check(terms: list[Decimal], places: int, conventions: Conventions) -> None:
    """Moves and order of every step, reading after every step, and the result."""
    plan = plan_sum(terms, conventions)
    hand = reference(terms, places, conventions)
    text = " ".join(map(str, terms))
    assert [described(step, places) for step in plan.steps] == list(map(expected, hand.done)), text
    shown = [scaled(read(frame), places) for _, frame in plan.frames()]
    assert shown == [worked.shown for worked in hand.done], text
    assert plan.result == exact_sum(terms), text
    check_values(plan, places)


def check_values(plan: Plan, places: int) -> None:
    """After each step the frame, less what is owed, reads the exact partial value."""
    value = 0
    for step, frame in plan.frames():
        if step.technique is not Technique.BORROW and not str(step.operation).startswith("return"):
            value += step.change * 10 ** (step.rod + places)
        assert scaled(read(frame, step.owed), places) == value


def random_terms(rng: random.Random, most_terms: int, most_digits: int) -> list[int]:
    """Terms of any length; some small ones, nines and zeros, so that carries run far."""
    terms = []
    for _ in range(rng.randint(1, most_terms)):
        digits = rng.randint(1, most_digits)
        figures = rng.choice(["0123456789", "0123456789", "09", "459", "0001", "5"])
        number = int("".join(rng.choices(figures, k=digits)))
        terms.append(rng.choice([1, 1, -1]) * number)
    return terms


def check_random(seed: int, count: int) -> None:
    rng = random.Random(seed)
    for _ in range(count):
        places = rng.choice([0, 0, 1, 2, 6])
        terms = random_terms(rng, 15, rng.choice([1, 2, 4, 14]))
        exact = [Decimal(term).scaleb(-places) for term in terms]
        used = max((-int(t.normalize().as_tuple().exponent) for t in exact), default=0)
        check(exact, max(used, 0), rng.choice(CONVENTIONS))


def test_random_columns_match_the_second_hand() -> None:
    check_random(seed=1, count=1000)


@pytest.mark.proof
def test_many_random_columns_match_the_second_hand() -> None:
    check_random(seed=2, count=100_000)


@given(
    st.lists(st.integers(-(10**14) + 1, 10**14 - 1), min_size=1, max_size=15),
    st.sampled_from(CONVENTIONS),
)
def test_columns_of_fourteen_digits(numbers: list[int], conventions: Conventions) -> None:
    check([Decimal(number) for number in numbers], 0, conventions)


@pytest.mark.parametrize("conventions", CONVENTIONS, ids=str)
def test_columns_as_wide_as_the_widest_frame(conventions: Conventions) -> None:
    rng = random.Random(3)
    for places in (0, 1, 15, 29, 30):
        whole = MOST_RODS - 1 - places
        numbers = [rng.randrange(10 ** (MOST_RODS - 1)) for _ in range(3)]
        terms = [Decimal(number).scaleb(-places, EXACT) for number in numbers]
        plan = plan_sum(terms, conventions, rods=MOST_RODS)
        assert len(plan.start.digits) == MOST_RODS
        assert plan.start.highest == whole
        assert plan.result == exact_sum(terms)
        assert read(plan.end) == plan.result
    check([Decimal(10) ** 30 - 1, Decimal(1), Decimal(-5)], 0, conventions)


def replay(a: int, b: int, conventions: Conventions) -> None:
    """Every move is legal where it is made, and the end reads the sum."""
    plan = plan_sum([Decimal(a), Decimal(b)], conventions, at_least=1)
    frame = plan.start
    for stroke in plan.strokes:
        for move in stroke:
            assert frame.can(move), f"{a} {b}: {move} on {frame}"
            frame = frame.apply(move)
    owed = plan.steps[-1].owed if plan.steps else None
    assert int(frame.digits) - (0 if owed is None else 10**owed) == a + b, f"{a} {b}"
    assert plan.result == a + b


def test_a_share_of_the_sums_to_999() -> None:
    rng = random.Random(4)
    for _ in range(4000):
        a, b = rng.randrange(1000), rng.randrange(-999, 1000)
        replay(a, b, rng.choice(CONVENTIONS))


@pytest.mark.proof
@pytest.mark.parametrize("conventions", [CONVENTIONS[0], CONVENTIONS[-1]], ids=str)
def test_every_sum_and_difference_to_999(conventions: Conventions) -> None:
    for a in range(1000):
        for b in range(-999, 1000):
            replay(a, b, conventions)


def test_order_of_a_carry_is_all_that_the_schools_differ_in() -> None:
    rng = random.Random(5)
    for _ in range(300):
        terms = [Decimal(t) for t in random_terms(rng, 8, 8)]
        plans = [plan_sum(terms, conventions) for conventions in CONVENTIONS]
        for steps in zip(*(plan.steps for plan in plans), strict=True):
            assert len({tuple(sorted(step.moves)) for step in steps}) == 1
            assert len({step._replace(strokes=()) for step in steps}) == 1
