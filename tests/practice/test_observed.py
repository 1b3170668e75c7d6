"""What a log tells of each item: by its strokes, by its answer, and how long a decision took."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.practice.observed import USUAL_PACE, Observed, evidence_of
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.technique.beads import parse_stroke
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_calculation

WRONG_ROD = parse_stroke("3:+1")


def work_on(text, rung=Rung.ALONE, rods=4):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods)
    return Work.begin(exercise, USUAL, Strictness.BEADS)


def observed(work, **more):
    facts = {
        "is_right": work.unaided, "is_led": work.exercise.rung.is_led, "is_shown": True,
        "is_ended": work.finished,
    }  # fmt: skip
    return Observed(9.0, "s", work.log, work.exercise.facts, **{**facts, **more})


def by_item(work, pace=USUAL_PACE, **more):
    return {one.item: one for one in evidence_of(observed(work, **more), pace)}


def play(work, wrong_at=(), help_at=(), seconds=1.0):
    """The whole plan, so many seconds a stroke; before the strokes at these places a wrong one, or
    help."""
    made = 0
    while not work.finished and not work.asks:
        if made in help_at:
            work.notes.ms += 300
            work.more_help()
        if made in wrong_at:
            work.notes.ms += 700
            work.touch(WRONG_ROD)
        work.notes.ms += round(1000 * seconds)
        work.touch(work.next_stroke)
        made += 1
    return work


# 38 + 47: the 3 and the 8 are set with a stroke each; then 3+4 takes two, and 8+7 two.
PLACES = {"3+4": 2, "8+7": 4}


def test_each_cell_is_right_that_went_right_at_once():
    found = by_item(play(work_on("38 + 47")))
    assert {item for item in found if "+" in item} == {"3+4", "8+7"}
    assert all(one.right and not one.guided for one in found.values())
    assert {"set-digit-3", "set-digit-8", "set-tens"} <= set(found)
    assert found["3+4"].at == 9.0 and found["3+4"].sitting == "s"


@pytest.mark.parametrize("missed", PLACES)
@pytest.mark.parametrize("how", ["wrong_at", "help_at"])
def test_a_slip_or_help_at_one_digit_says_nothing_of_the_others(missed, how):
    found = by_item(play(work_on("38 + 47"), **{how: {PLACES[missed]}}))
    assert {item: one.right for item, one in found.items()} == {
        item: item != missed for item in PLACES
    }


def test_a_decision_is_the_time_before_the_first_bead_less_that_of_the_hand():
    found = by_item(play(work_on("38 + 47"), seconds=2.0), pace=0.5)
    assert found["3+4"].decision == found["8+7"].decision == pytest.approx(1.5)
    assert by_item(play(work_on("38 + 47"), seconds=0.3), pace=0.5)["3+4"].decision == 0.0


@pytest.mark.parametrize("how", ["wrong_at", "help_at"])
def test_no_decision_is_told_of_where_something_came_between(how):
    found = by_item(play(work_on("38 + 47"), **{how: {PLACES["8+7"]}}))
    assert found["8+7"].decision is None
    assert found["3+4"].decision is not None


@pytest.mark.parametrize("more", [{"is_shown": False}, {"is_led": True}])
def test_no_decision_is_told_of_numbers_that_come_by_themselves_or_of_a_led_hand(more):
    found = by_item(play(work_on("38 + 47")), **more)
    assert found["3+4"].decision is None
    assert found["3+4"].guided is more.get("is_led", False)


def test_of_what_was_left_the_steps_that_were_done_are_told():
    work = work_on("38 + 47")
    for _ in range(PLACES["8+7"] + 1):
        work.touch(work.next_stroke)
    found = by_item(work)
    assert set(found) == {"3+4"}


def test_a_number_alone_that_is_right_tells_of_all_and_one_that_is_not_of_nothing():
    for answer, right in ((85, True), (75, False)):
        work = work_on("38 + 47", Rung.NUMBER)
        work.answer(answer)
        found = by_item(work)
        assert bool(found) is right
        assert all(one.right and one.decision is None for one in found.values())
        assert {"3+4", "8+7"} <= set(found) or not right


def test_after_a_wrong_bead_that_was_left_nothing_more_is_told():
    work = work_on("38 + 47", Rung.COVERED)
    for _ in range(PLACES["3+4"]):
        work.touch(work.next_stroke)
    work.touch(WRONG_ROD)
    while work.next_stroke and len(work.touches) < 12:
        work.touch(work.next_stroke)
    work.say_done()
    work.answer(85)
    found = by_item(work)
    assert not found["3+4"].right
    assert "8+7" not in found


def test_a_hand_of_another_order_is_told_by_its_answer():
    work = work_on("38 + 47")
    for text in ("1:+3", "0:+5&0:+3", "0:-3", "1:+1", "1:+5", "1:-1"):
        work.touch(parse_stroke(text))
    assert work.finished and work.unaided
    found = by_item(work)
    assert found["3+4"].right and found["3+4"].decision is None


def test_reading_wrongly_is_a_miss_of_what_was_to_be_read():
    work = Work.begin(Exercise(Kind.READ, parse_calculation("7"), rods=1), USUAL, Strictness.BEADS)
    work.answer(2)
    work.answer(7)
    assert {item: one.right for item, one in by_item(work).items()} == {"read-digit-7": False}


def test_products_are_told_with_the_step_that_works_them():
    found = by_item(play(work_on("67 x 8", rods=13)))
    assert found["6x8"].right and found["7x8"].right


@given(st.sampled_from(["38 + 47 - 29", "406 x 78", "2961 / 47", "64 - 38"]), st.data())
def test_whatever_is_done_no_item_is_told_twice(text, data):
    work = work_on(text, rods=15)
    places = st.sets(st.integers(0, 20), max_size=5)
    play(work, wrong_at=data.draw(places), help_at=data.draw(places))
    told = [one.item for one in evidence_of(observed(work))]
    assert len(told) == len(set(told))
    assert all(one.decision is None or one.decision >= 0 for one in evidence_of(observed(work)))
