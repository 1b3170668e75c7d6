"""Work whose frame must be read below zero, and work that is no column."""

from decimal import Decimal

import pytest
from each import each_row

from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Rung
from frame.practice.touches import WRONG_ANSWER
from frame.practice.work import Work
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import Quotient, parse_calculation
from frame.technique.reading import read
from frame.technique.slips import Slip


def begin(text, rung, rods):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods)
    return Work.begin(exercise, USUAL, Strictness.BEADS)


# Below zero the frame shows what is missing to the borrowed 1, and must be read


BELOW = [
    # column, what the frame shows at the end, what that means
    ("38 - 50", 88, -12),
    ("38 - 50 - 7", 81, -19),
    ("3 - 4", 9, -1),
    ("0 - 250", 750, -250),
    ("1.5 - 2", Decimal("9.5"), Decimal("-0.5")),
]


def worked(text, rung=Rung.ALONE):
    """The work of a column with every bead moved as it should be."""
    work = begin(text, rung, 5)
    for stroke in work.plan.strokes:
        assert not work.finished
        work.touch(stroke)
    if work.is_silent:
        work.say_done()
    return work


@each_row("rung", [Rung.ALONE, Rung.PALE, Rung.TRACES])
@each_row("text, shown, meant", BELOW)
def test_a_frame_below_zero_is_read_and_may_be_read_again(text, shown, meant, rung):
    work = worked(text, rung)
    assert read(work.frame) == shown
    assert work.asks and not work.finished
    assert not work.answer(Decimal(shown))
    assert work.slips == [Slip.NEGATIVE_READ_AS_SHOWN] and not work.finished
    assert not work.answer(-Decimal(shown))
    assert work.slips[1:] == [WRONG_ANSWER]
    assert work.answer(Decimal(meant))
    assert work.finished and work.right and not work.unaided


@pytest.mark.parametrize("text, shown, meant", BELOW)
def test_a_frame_below_zero_read_rightly_at_once_is_unaided(text, shown, meant):
    work = worked(text)
    assert work.answer(Decimal(meant)) and work.outcome is Outcome.RIGHT and work.unaided


@pytest.mark.parametrize("rung", [Rung.COVERED, Rung.NUMBER])
@pytest.mark.parametrize("text, shown, meant", BELOW)
def test_a_frame_that_is_only_imagined_is_read_once(text, shown, meant, rung):
    work, right = worked(text, rung), worked(text, rung)
    assert work.asks and not work.answer(Decimal(shown))
    assert work.finished and work.slips == [Slip.NEGATIVE_READ_AS_SHOWN]
    assert work.outcome is Outcome.PICTURE_LOST
    assert right.answer(Decimal(meant)) and right.unaided


@pytest.mark.parametrize("text", ["38 - 50 + 20", "3 - 4 + 1"])
def test_a_column_that_comes_back_needs_no_reading(text):
    work = worked(text)
    assert work.finished and work.right and not work.asks
    assert read(work.frame) == work.exercise.sum.result


@pytest.mark.parametrize("rung", [Rung.FOLLOW, Rung.FINISH])
def test_where_the_tool_leads_nothing_is_read(rung):
    work = begin("38 - 50", rung, 5)
    while work.play():
        pass
    while work.next_stroke:
        work.touch(work.next_stroke)
    assert work.finished and work.right and read(work.frame) == 88


# Products, quotients and roots


def answered(work):
    """Every number given that is asked for, as it should be."""
    while work.asks and not work.finished:
        asked = work.exercise.sum.remainder if work.asks_rest else work.exercise.sum.result
        assert work.answer(asked)


@each_row("rung", Rung)
@each_row("text", ["12 x 34", "43 / 6", "3588 / 46", "sqrt 1764", "sqrt 20"])
def test_other_work_is_begun_and_done_at_every_rung(text, rung):
    work = begin(text, rung, 13)
    assert work.term is None
    assert (read(work.frame) != 0) is work.exercise.shows_start
    while work.is_playing:
        work.play()
    while work.next_stroke:
        work.touch(work.next_stroke)
    if work.is_silent:
        work.say_done()
    assert work.asks is work.exercise.is_answered
    answered(work)
    assert work.finished and work.unaided
    assert work.frame == work.plan.end


@each_row("rung", [Rung.WATCH, Rung.FOLLOW, Rung.FINISH, Rung.ALONE, Rung.TRACES])
@each_row("text", ["3 / 7", "0 x 5", "sqrt 0"])
def test_work_in_which_no_bead_moves_comes_to_its_end(text, rung):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, 13)
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    for _ in range(9):
        if work.finished or work.asks:
            break
        work.touch(work.next_stroke)
    answered(work)
    assert work.finished and work.right


# What is left over


def divided(rung):
    """43 / 6, worked as it should be: 7, and 1 is left over."""
    work = begin("43 / 6", rung, 13)
    while work.next_stroke:
        work.touch(work.next_stroke)
    if work.is_silent:
        work.say_done()
    assert work.asks and not work.finished
    return work


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.PALE, Rung.TRACES])
def test_what_is_left_over_is_asked_for_where_the_answer_stands_and_may_be_given_again(rung):
    work, right = divided(rung), divided(rung)
    assert work.asks_rest and not work.answer(Decimal(7))
    assert work.slips == [WRONG_ANSWER] and not work.finished
    assert work.answer(Decimal(1)) and work.finished and work.right and not work.unaided
    assert right.answer(Decimal(1)) and right.unaided


@pytest.mark.parametrize("rung", [Rung.COVERED, Rung.NUMBER])
@pytest.mark.parametrize("answer, rest, outcome", [
    (7, 1, Outcome.RIGHT), (7, 2, Outcome.PICTURE_LOST), (8, 1, Outcome.PICTURE_LOST),
])  # fmt: skip
def test_of_a_frame_that_is_only_imagined_both_are_asked_for_and_told_of_at_the_end(
    answer, rest, outcome, rung
):
    work = divided(rung)
    assert not work.asks_rest
    work.answer(Decimal(answer))
    assert work.asks_rest and not work.finished and not work.slips
    assert work.answer(Decimal(rest)) is (outcome is Outcome.RIGHT)
    assert work.finished and work.outcome is outcome
    assert (work.given, work.given_rest) == (answer, rest)


@pytest.mark.parametrize("rung", [Rung.WATCH, Rung.FOLLOW, Rung.FINISH])
def test_where_the_tool_leads_nothing_left_over_is_asked_for(rung):
    work = begin("43 / 6", rung, 13)
    while work.is_playing:
        work.play()
    while work.next_stroke:
        work.touch(work.next_stroke)
    assert work.finished and work.right


NOTHING_OVER = [*map(parse_calculation, ("42 / 6", "sqrt 16", "42 x 6", "43 + 6")),
                Quotient(Decimal(43), Decimal(6), places=1)]  # fmt: skip


@pytest.mark.parametrize("calculation", NOTHING_OVER, ids=str)
def test_where_nothing_is_left_over_or_the_answer_is_rounded_it_is_not_asked_for(calculation):
    work = Work.begin(Exercise(Kind.SUM, calculation, rods=13), USUAL, Strictness.BEADS)
    while work.next_stroke:
        work.touch(work.next_stroke)
    assert work.finished and work.right
