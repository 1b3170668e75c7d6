"""How hard a task is: never less hard for more work of the same sort."""

import tomllib
from decimal import Decimal
from itertools import pairwise

import pytest
from each import each_row
from hypothesis import assume, given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.sheets.difficulty import WEIGHTS, difficulty, profile
from frame.technique.addition import plan_on
from frame.technique.beads import Frame
from frame.technique.calculation import Product, Quotient, Root, Sum
from frame.technique.conventions import USUAL, Carry, Conventions, Remove
from frame.technique.operation import Act
from frame.technique.plan import Technique

EASIEST_FIRST = (Technique.DIRECT, Technique.FIVE, Technique.TEN, Technique.TEN_FIVE)
SCHOOLS = (USUAL, Conventions(carry=Carry.FIRST, remove=Remove.PINCH))


def column(*numbers):
    return Exercise(Kind.SUM, Sum(tuple(map(Decimal, numbers))), rods=20)


def cell(shown, change):
    """A digit that is set with a 1 before it, and another that is added or taken."""
    return column(10 + shown, change)


def technique_of(shown, change):
    (step,) = plan_on(Frame(f"1{shown}", 1), Decimal(change)).steps
    return step.technique


CHANGES = [change for change in range(-9, 10) if change]
ADDED = st.integers(1, 99_999)


@each_row("change", CHANGES)
@each_row("school", SCHOOLS)
def test_a_digit_is_the_harder_the_more_partners_it_needs(change, school):
    extra = {technique: [] for technique in EASIEST_FIRST}
    for shown in range(10):
        work = difficulty(cell(shown, change), school) - difficulty(column(10 + shown), school)
        extra[technique_of(shown, change)].append(work)
    found = [some for some in extra.values() if some]
    assert sum(map(len, found)) == 10
    for easier, harder in pairwise(found):
        assert max(easier) <= min(harder)


@given(st.lists(st.integers(-9999, 9999).filter(bool), min_size=1, max_size=6), st.integers())
@pytest.mark.parametrize("school", SCHOOLS)
def test_one_more_number_never_makes_it_easier(school, numbers, more):
    more = more % 9999 + 1
    for term in (more, -more):
        longer = difficulty(column(*numbers, term), school)
        assert longer > difficulty(column(*numbers), school)


@given(ADDED, st.integers(1, 999), st.integers(1, 9), st.booleans())
def test_a_longer_number_never_makes_it_easier(first, last, digit, takes):
    longer = int(f"{digit}{last}")
    assume(not takes or longer <= first)
    sign = -1 if takes else 1
    assert difficulty(column(first, sign * longer)) >= difficulty(column(first, sign * last))


@given(st.integers(0, 4), st.integers(1, 9))
def test_a_longer_ripple_never_makes_it_easier(nines, digit):
    def over(many):
        """The same rods, the lowest of them full."""
        return column(int("1" + "8" * (5 - many) + "9" * many + "9"), digit)

    assert profile(over(nines + 1)).ripples == profile(over(nines)).ripples + 1
    assert difficulty(over(nines + 1)) >= difficulty(over(nines))


@given(st.integers(0, 4), st.integers(1, 9))
def test_a_longer_run_of_borrowing_never_makes_it_easier(noughts, digit):
    def over(many):
        return column(int("2" + "1" * (5 - many) + "0" * many + "0"), -digit)

    one, more = (
        difficulty(task) - difficulty(column(*task.sum.terms[:1]))
        for task in (over(noughts), over(noughts + 1))
    )
    assert profile(over(noughts + 1)).ripples == profile(over(noughts)).ripples + 1
    assert more >= one


@given(st.integers(1, 9), st.integers(2, 9999))
def test_a_longer_number_to_read_or_set_is_harder(digit, number):
    for kind in (Kind.READ, Kind.SET):
        short, long = (
            Exercise(kind, Sum((Decimal(value),)), rods=6)
            for value in (number, int(f"{digit}{number}"))
        )
        assert difficulty(long) > difficulty(short)


@given(st.integers(2, 999), st.integers(2, 99), st.integers(1, 9))
def test_a_multiplier_with_a_digit_more_is_harder(some, by, digit):
    shorter, longer = (
        Exercise(Kind.SUM, Product(Decimal(some), Decimal(one)), rods=20)
        for one in (by, int(f"{by}{digit}"))
    )
    assert difficulty(longer) > difficulty(shorter)


def test_a_profile_says_what_happens():
    found = profile(column(38, 47))
    assert [found.steps(one) for one in Technique] == [2, 1, 1, 0, 0]
    assert (found.lines(Act.SET), found.lines(Act.ADD), found.ripples) == (1, 1, 0)
    assert (found.rods, found.signs, found.zeros) == (2, 0, 0)
    assert profile(column(45, 8)).landings == 1
    assert profile(column(95, 8)).ripples == 1
    assert profile(column(50, -3, 4, 205)).signs == 2
    assert profile(column(50, -3, 4, 205)).zeros == 1
    assert profile(column(3, -5)).steps(Technique.BORROW) == 1


def test_a_trial_that_is_revised_is_counted():
    easy, hard = (
        Exercise(Kind.SUM, Quotient(Decimal(some), Decimal(by)), rods=20)
        for some, by in ((44, 11), (114, 19))
    )
    assert profile(easy).lines(Act.REVISE_DOWN) == 0
    assert profile(hard).lines(Act.REVISE_DOWN) > 0
    assert difficulty(hard) > difficulty(easy)
    assert profile(Exercise(Kind.SUM, Root(Decimal(225)), rods=20)).lines(Act.ROOT) == 2


def test_the_hand_turns_back_where_it_goes_to_the_left():
    assert profile(column(11, 11)).turns == 1
    assert profile(column(1, 1)).turns == 0
    assert profile(column(9, 1)).turns == 1
    carried_first = Conventions(carry=Carry.FIRST)
    assert profile(column(19, 1, 1), carried_first).turns == 1


def test_every_weight_has_its_reason_and_lowers_nothing():
    tables = tomllib.loads(WEIGHTS.read_text("utf-8"))
    rows = [row for table in tables.values() for row in table.values()]
    assert all(row["weight"] >= 0 and row["why"] for row in rows)
    assert all(row["weight"] * 4 == int(row["weight"] * 4) for row in rows)
    assert set(tables["technique"]) == set(Technique)
    assert set(tables["act"]) <= set(Act)
