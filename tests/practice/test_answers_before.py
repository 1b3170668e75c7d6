"""The answers that are minded, each with the one before it that may stand on the frame still."""

from decimal import Decimal

import pytest

from frame.practice.behind import Done, behind, givens_of
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.habits import Habit

COLUMNS = ("63 - 36 + 23", "35 + 69 - 28", "40 + 83 - 28", "57 + 68", "94 - 37", "86 + 47 - 52")


def uncleared(seconds):
    """Columns worked so many seconds apart, each on the answer before."""
    shown, done = Decimal(0), []
    for at, text in enumerate(COLUMNS):
        calculation = parse_calculation(text)
        shown += calculation.result
        done.append(Done(at * seconds, calculation, shown))
    return done


@pytest.mark.parametrize(("seconds", "stands"), [(20.0, True), (600.0, True), (700.0, False)])
def test_what_was_answered_within_ten_minutes_may_stand_there(seconds, stands):
    done = uncleared(seconds)
    earlier = [None, *(one.answer for one in done[:-1])]
    befores = [one.before for one in givens_of(done, done[-1].at)]
    assert befores == (earlier if stands else [None] * len(done))


def test_a_frame_not_cleared_is_told_with_how_often_and_since_when():
    done = uncleared(20.0)
    (told,) = behind(done, done[-1].at, USUAL).told
    assert (told.habit, told.times, told.of, told.since) == (Habit.NOT_CLEARED, 5, 5, 20.0)
    assert told.last == uncleared(20.0)[-1]
    assert behind(uncleared(700.0), 3500.0, USUAL).told == ()
