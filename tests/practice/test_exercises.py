"""Exercises need what they were drawn for, and nothing that was not taught."""

from decimal import Decimal
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, ExerciseError, Kind, Request, draw, plans_of
from frame.practice.rungs import Rung
from frame.technique.expression import parse_sum
from frame.technique.facts import ALL_FACTS
from frame.technique.plan import USUAL
from frame.technique.reading import read

UNTAUGHT_TENS = frozenset(f for f in ALL_FACTS if "ten" not in f or "tens" in f) - {
    "ripple-add", "ripple-sub",
}  # fmt: skip


def sums(facts, mix=(), known=frozenset(ALL_FACTS), **more):
    return Request(tuple(facts), tuple(mix), frozenset(known), **{"count": 8, **more})


@given(st.integers(0, 10_000), st.sampled_from(["add-five-3", "sub-five-1", "add-direct-7"]))
def test_every_exercise_needs_its_fact_and_nothing_untaught(seed, fact):
    for exercise in draw(sums([fact], known=UNTAUGHT_TENS), Random(seed)):
        assert fact in exercise.facts
        assert exercise.facts <= UNTAUGHT_TENS
        assert 0 <= exercise.sum.result < 10


@given(st.integers(0, 10_000))
def test_mixed_sets_take_turns(seed):
    drawn = draw(sums(["add-ten-9"], ["add-five-4"], rods=2), Random(seed))
    assert all("add-ten-9" in one.facts for one in drawn[::2])
    assert all("add-five-4" in one.facts for one in drawn[1::2])


@given(st.integers(0, 10_000))
def test_no_sum_comes_again_within_three(seed):
    drawn = draw(sums(["add-ten-9", "add-ten-8", "add-ten-7"], rods=2), Random(seed))
    texts = [str(one) for one in drawn]
    assert all(text not in texts[max(0, at - 3) : at] for at, text in enumerate(texts))


def test_the_same_seed_draws_the_same_set():
    request = sums(["ripple-add", "ripple-sub"], digits=3, rods=4)
    assert draw(request, Random(5)) == draw(request, Random(5))
    assert draw(request, Random(5)) != draw(request, Random(6))


@pytest.mark.parametrize(
    ("fact", "kind"),
    [("read-digit-3", Kind.READ), ("set-tens", Kind.SET), ("clear", Kind.CLEAR),
     ("sub-ten-2", Kind.SUM)],
)  # fmt: skip
def test_the_facts_say_what_is_asked(fact, kind):
    drawn = draw(sums([fact], digits=2, rods=2), Random(1))
    assert {one.kind for one in drawn} == {kind}


def test_a_fact_that_no_sum_can_need_is_an_error():
    with pytest.raises(ExerciseError):
        draw(sums(["add-ten-9"], rods=1), Random(1))
    with pytest.raises(ExerciseError):
        draw(sums(["add-ten-9"], known=UNTAUGHT_TENS, rods=2), Random(1))


@given(
    st.sampled_from(["4 + 3", "38 + 47 - 5", "99 + 1", "100 - 3", "12 - 4 + 9"]),
    st.sampled_from(Rung),
)
def test_plans_go_from_the_start_to_the_result(text, rung):
    exercise = Exercise(Kind.SUM, parse_sum(text), rung, rods=4)
    plans = plans_of(exercise, USUAL)
    assert plans[0].start == exercise.start
    assert read(plans[-1].end) == exercise.sum.result
    assert all(one.end == other.start for one, other in pairwise(plans))
    shown = read(exercise.start)
    assert shown == (exercise.sum.terms[0] if rung.is_led else Decimal(0))
