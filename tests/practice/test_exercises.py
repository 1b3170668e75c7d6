"""Exercises need what they were drawn for, and nothing that was not taught."""

from dataclasses import replace
from decimal import Decimal
from itertools import accumulate
from random import Random

import pytest
from each import each_row
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.practice.columns import rods_needed
from frame.practice.drawing import ExerciseError, Request, draw, drawable
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.ladder import USUAL_RULES
from frame.practice.rungs import Asked, Rung
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.facts import ALL_FACTS
from frame.technique.reading import read

UNTAUGHT_TENS = frozenset(f for f in ALL_FACTS if "ten" not in f or "tens" in f) - {
    "ripple-add", "ripple-sub",
}  # fmt: skip


def sums(facts, mix=(), known=frozenset(ALL_FACTS), **more):
    return Request(
        facts=tuple(facts), mix=tuple(mix), known=frozenset(known), **{"count": 8, **more}
    )


@settings(max_examples=20)
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


@each_row("rung", Rung)
@each_row("text", ["4 + 3", "38 + 47 - 5", "99 + 1", "100 - 3", "12 - 4 + 9", "1.5 + 2.25"])
def test_a_plan_goes_from_the_start_over_each_total_to_the_result(text, rung):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods=4)
    plan = plan_for(exercise, USUAL)
    totals = [0, *accumulate(exercise.sum.terms)]
    frames = [plan.start]
    for line in plan.lines:
        moves = [move for stroke in line.strokes for move in stroke]
        frames.append(frames[-1].apply_all(tuple(moves)))
    assert [read(frame) for frame in frames] == totals[rung.is_led :]
    assert frames[-1] == plan.end and read(plan.end) == exercise.sum.result
    terms = range(len(exercise.sum.terms))
    assert [line.operation.row for line in plan.lines] == list(terms[rung.is_led :])


@pytest.mark.parametrize("number", ["7", "57", "4.5", "0.25"])
def test_a_number_is_read_set_or_cleared_on_a_frame_that_reads_it(number):
    read_, set_, clear = (
        Exercise(kind, parse_calculation(number), rods=4)
        for kind in (Kind.READ, Kind.SET, Kind.CLEAR)
    )
    assert read(read_.read_frame) == read_.number == Decimal(number)
    assert plan_for(read_, USUAL) is None
    setting, clearing = plan_for(set_, USUAL), plan_for(clear, USUAL)
    assert (read(setting.start), read(setting.end)) == (0, Decimal(number))
    assert (clearing.start, clearing.end) == (setting.end, setting.start)


# Columns without facts


@given(
    st.integers(0, 10_000), st.integers(1, 14), st.integers(2, 15), st.booleans(),
    st.sampled_from([Asked.CALLED, Asked.FLASHED]),
)  # fmt: skip
def test_columns_without_facts_have_the_digits_asked_for_and_fit_their_rods(
    seed, digits, terms, minus, asked
):
    request = sums(
        (), known=frozenset(), count=2, digits=digits, terms=terms, minus=minus,
        rods=rods_needed(digits, terms), asked=asked, rung=Rung.NUMBER,
    )  # fmt: skip
    for exercise in draw(request, Random(seed)):
        column = exercise.sum.terms
        assert len(column) == terms
        assert {len(str(abs(term))) for term in column} == {digits}
        assert all(total >= 0 for total in accumulate(column))
        assert max(accumulate(column)) < 10**exercise.rods
        assert minus or min(column) > 0
        assert read(plan_for(exercise, USUAL).end) == exercise.sum.result


def test_with_minus_some_numbers_are_taken_away():
    request = sums((), count=30, digits=2, terms=10, minus=True, rods=3, asked=Asked.CALLED)
    less = [term < 0 for one in draw(request, Random(1)) for term in one.sum.terms]
    assert 0.1 < sum(less) / len(less) < 0.4


def test_every_exercise_of_a_request_is_asked_as_it_says():
    request = sums(
        (), count=3, digits=2, terms=3, rods=3, asked=Asked.CALLED, pace=1.5, by_place=True,
        own=True, rung=Rung.NUMBER,
    )  # fmt: skip
    for one in draw(request, Random(2)):
        assert (one.asked, one.pace, one.by_place, one.own, one.rung) == (
            Asked.CALLED, 1.5, True, True, Rung.NUMBER,
        )  # fmt: skip


# Probes


def probed(share, **more):
    rules = replace(USUAL_RULES, probe_every=share)
    request = sums(
        ["add-direct-1", "add-direct-2"], count=300, rung=Rung.PALE, probe=Rung.ALONE, rules=rules,
        **more,
    )  # fmt: skip
    return [one.rung for one in draw(request, Random(3))]


def test_now_and_then_an_exercise_is_a_probe_at_the_rung_below():
    rungs = probed(10)
    assert set(rungs) == {Rung.PALE, Rung.ALONE}
    assert 300 * 0.05 < rungs.count(Rung.ALONE) < 300 * 0.17
    assert set(probed(1)) == {Rung.ALONE}


def test_a_probe_is_an_exercise_like_the_others():
    request = sums(["add-five-4"], known=UNTAUGHT_TENS, count=40, rung=Rung.TRACES, probe=Rung.PALE)
    for one in draw(request, Random(4)):
        assert "add-five-4" in one.facts
        assert one.facts <= UNTAUGHT_TENS


def test_without_a_probe_there_is_none():
    drawn = draw(sums(["add-direct-1"], count=100, rung=Rung.PALE), Random(5))
    assert {one.rung for one in drawn} == {Rung.PALE}


# What a request can draw


@settings(max_examples=12)
@given(st.integers(0, 200), st.integers(1, 3))
def test_what_is_said_to_be_drawable_is_drawn_and_the_rest_cannot_be(seed, rods):
    wanted = ["add-five-3", "add-ten-9", "add-direct-9", "ripple-add"]
    request = sums(wanted, count=8, digits=max(1, rods - 1), rods=rods)
    can = drawable(request, Random(seed))
    assert set(can) <= set(wanted)
    assert "ripple-add" not in can or rods > 1
    assert "add-five-3" in can
    assert ("add-ten-9" in can) is (rods > 1)
    assert draw(replace(request, facts=can), Random(seed))


# What an exercise is


ASKED = [
    # kind, rung, asked, own; by the answer alone, silent, answered
    (Kind.SUM, Rung.ALONE, Asked.SHOWN, False, (False, False, False)),
    (Kind.SUM, Rung.TRACES, Asked.SHOWN, False, (False, False, False)),
    (Kind.SUM, Rung.COVERED, Asked.SHOWN, False, (False, True, True)),
    (Kind.SUM, Rung.NUMBER, Asked.SHOWN, False, (True, True, True)),
    (Kind.SUM, Rung.ALONE, Asked.CALLED, False, (True, True, True)),
    (Kind.SUM, Rung.ALONE, Asked.FLASHED, False, (True, True, True)),
    (Kind.SUM, Rung.ALONE, Asked.SHOWN, True, (True, True, True)),
    (Kind.SET, Rung.COVERED, Asked.SHOWN, False, (False, True, False)),
    (Kind.CLEAR, Rung.NUMBER, Asked.SHOWN, False, (False, True, False)),
    (Kind.READ, Rung.ALONE, Asked.SHOWN, False, (False, False, True)),
    (Kind.READ, Rung.COVERED, Asked.SHOWN, False, (False, False, True)),
]


@pytest.mark.parametrize("kind, rung, asked, own, what", ASKED)
def test_whether_beads_are_judged_and_a_number_is_given(kind, rung, asked, own, what):
    text = "34 + 23" if kind is Kind.SUM else "57"
    one = Exercise(kind, parse_calculation(text), rung, 2, asked=asked, own=own)
    assert (one.by_answer, one.is_silent, one.is_answered) == what
