"""What is told of an exercise that was written down as a text alone: the truth, or nothing."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.learner.answered import Answered, answered, calculation_of
from frame.learner.rows import NOT_NOTED, Past
from frame.practice.exercises import Exercise, Kind
from frame.practice.log import Log
from frame.practice.rungs import Asked, Rung
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.expression import parse_calculation
from frame.technique.reading import NumberError, plain

DONE = Past(
    at="2026-05-04T09:30:00+00:00", sitting="s", number=1, id="a", lesson="quay-1",
    exercise="38 + 47", kind="sum", rung="alone", asked="shown", origin="set", outcome="right",
    rods=15, helps=0, looks=0, digits=2, terms=2, seconds=4.5, pace=0.0, own=False, right=True,
    unaided=True, ended=True, places=None, facts=frozenset(), slips=(), answers=(), log=Log(),
)  # fmt: skip

NUMBERS = st.builds(
    lambda number, places: Decimal(number).scaleb(-places),
    st.integers(-9999, 9999),
    st.integers(0, 2),
)
FACTORS = NUMBERS.filter(bool)
PLACES = st.none() | st.integers(0, 3)
CALCULATIONS = st.one_of(
    st.builds(Sum, st.lists(NUMBERS, min_size=1, max_size=4).map(tuple)),
    st.builds(Product, FACTORS, FACTORS, PLACES),
    st.builds(Quotient, NUMBERS, FACTORS, PLACES),
    st.builds(Root, NUMBERS.map(abs), PLACES),
)


def of(calculation: Calculation, **facts: object) -> Past | None:
    """The attempt at a sum as it is written; None where the frame is too small for it."""
    exercise = Exercise(Kind.SUM, calculation, rods=30)
    try:
        return DONE._replace(
            exercise=str(exercise), facts=exercise.facts, places=calculation.places
        )._replace(**facts)
    except NumberError:
        return None


@given(CALCULATIONS)
def test_what_is_right_is_told_as_it_is(calculation: Calculation) -> None:
    past = of(calculation)
    if past is None:
        return
    told = answered(past)
    assert (told.right, told.rest) == (calculation.result, calculation.remainder)
    assert calculation_of(past) == calculation


@given(CALCULATIONS)
def test_of_what_is_old_it_is_told_or_not_at_all(calculation: Calculation) -> None:
    """Not where it was rounded; nor a quotient or a root that may have been cut off before a 0."""
    past = of(calculation, places=NOT_NOTED)
    if past is None:
        return
    told = answered(past)
    has_zero = "0" in plain(calculation.result).partition(".")[2]
    may_be_cut = has_zero and isinstance(calculation, Quotient | Root)
    if told.right is None:
        assert told.rest is None and (may_be_cut or calculation.places is not None)
    else:
        assert told.right == calculation.result
        assert (told.rest or 0) == (calculation.remainder or 0)
    assert parse_calculation(told.printed) == parse_calculation(past.exercise)


@pytest.mark.parametrize(
    "calculation",
    [
        Quotient(Decimal("133.8"), Decimal(2000), 0),
        Quotient(Decimal("95.19"), Decimal("23.75"), 0),
        Quotient(Decimal(10), Decimal(4), 0),
        Quotient(Decimal(7), Decimal(4), 2),
        Product(Decimal("1.01"), Decimal("1.01"), 1),
        Root(Decimal("4.0804"), 0),
    ],
)
def test_of_what_is_old_and_was_rounded_down_no_other_number_is_told_to_be_right(
    calculation: Calculation,
) -> None:
    past = of(calculation, places=NOT_NOTED)
    assert past and answered(past).right is None


@pytest.mark.parametrize(
    ("text", "facts", "answers", "given"),
    [
        ("38 + 47", {}, ("75", "85"), ("85",)),
        ("38 + 47", {}, (), ()),
        ("38 + 47", {"ended": False}, ("75",), ()),
        ("17 / 5", {"rung": "number only"}, ("3", "1"), ("3", "1")),
        ("17 / 5", {"rung": "number only"}, ("2", "3", "2"), ("3", "2")),
        ("17 / 5", {"asked": "called"}, ("3", "1"), ("3", "1")),
        ("17 / 5", {"own": True}, ("4", "1"), ("4", "1")),
        ("17 / 5", {}, ("1", "2"), ("3", "2")),
        ("-17 / 5", {}, ("3", "-3", "1", "-2"), ("-3", "-2")),
        ("17 / 5", {"rung": "follow"}, (), ()),
    ],
)  # fmt: skip
def test_what_was_given_in_the_end_is_the_answer_and_then_what_is_left_over(
    text: str, facts: dict[str, object], answers: tuple[str, ...], given: tuple[str, ...]
) -> None:
    past = of(parse_calculation(text), answers=answers, **facts)
    assert past and answered(past).given == given


def test_of_a_result_that_was_rounded_the_last_answer_is_told() -> None:
    past = of(Quotient(Decimal(10), Decimal(3), 2), answers=("3.3", "3.33"))
    assert past and answered(past) == Answered("10 ÷ 3", Decimal("3.33"), None, ("3.33",))
    old = past._replace(places=NOT_NOTED)
    assert answered(old) == Answered("10 ÷ 3", given=("3.33",))


def test_no_sum_was_rounded() -> None:
    assert answered(DONE._replace(places=2)).right is None


@pytest.mark.parametrize("facts", [{"exercise": "two boats"}, {"kind": "nets"}, {"rung": "high"}])
def test_what_no_version_wrote_is_left_as_it_is(facts: dict[str, str]) -> None:
    past = DONE._replace(answers=("85",), **facts)
    assert answered(past) == Answered(past.exercise)


@pytest.mark.parametrize(
    ("kind", "right"), [("read", Decimal(38)), ("set", Decimal(38)), ("clear", Decimal(0))]
)
def test_a_cleared_frame_reads_nothing(kind: str, right: Decimal) -> None:
    assert answered(DONE._replace(exercise="38", kind=kind)).right == right


def test_every_way_of_asking_is_known() -> None:
    for rung in Rung:
        for asked in Asked:
            assert answered(DONE._replace(rung=rung, asked=asked)).right == 85
