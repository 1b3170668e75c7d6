"""The scheduler of the `fsrs` package behind our interface; only where it is installed."""

import pytest
from fsrs_memory import FsrsMemory

from frame.practice.schedule import DAY, Recall

pytest.importorskip("fsrs")
FSRS = FsrsMemory()


def after(*recalls):
    trace, at = None, 1000 * DAY
    for recall in recalls:
        trace = FSRS.counted(trace, recall, at)
        at = trace.due
    return trace


def gap(*recalls):
    trace = after(*recalls)
    return (trace.due - trace.at) / DAY


def test_gaps_grow_up_to_sixty_days_and_a_miss_makes_them_short():
    # fsrs 6.3.2 by itself, all Good: gaps of 2, 11, 46, then more than 60 days.
    assert [gap(*[Recall.RIGHT] * rights) for rights in range(1, 5)] == [2, 11, 46, 60]
    assert gap(Recall.RIGHT, Recall.RIGHT, Recall.MISSED) <= 2


def test_there_is_no_fuzz():
    assert len({gap(*[Recall.RIGHT] * 3) for _ in range(20)}) == 1


def test_an_hour_earlier_than_yesterday_is_a_day_later():
    trace = after(Recall.RIGHT)
    late = FSRS.counted(trace, Recall.RIGHT, trace.at + DAY)
    early = FSRS.counted(trace, Recall.RIGHT, trace.at + DAY - 3600)
    assert late.strength == early.strength


def test_chances_fall_to_what_is_retained_when_due():
    trace = after(Recall.RIGHT, Recall.RIGHT)
    assert FSRS.chance(trace, 0) == 1
    assert FSRS.chance(trace, trace.strength[0] * DAY) == pytest.approx(0.9)
