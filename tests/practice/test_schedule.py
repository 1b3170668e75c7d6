"""The boxes: when an item comes again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.schedule import DAY, RETAINED, FiveBoxes, Recall, Trace

BOXES = FiveBoxes()


def after(*recalls, hours=0.0):
    """The trace after these, each so many hours later than it was due."""
    trace, at = None, 0.0
    for recall in recalls:
        trace = BOXES.counted(trace, recall, at)
        at = trace.due + 3600 * hours
    return trace


def gap(trace):
    return (trace.due - trace.at) / DAY


@pytest.mark.parametrize("rights", range(1, 8))
def test_what_is_right_comes_again_after_twice_as_long(rights):
    # Leitner (1972), five boxes, each of twice the gap before; from memory.
    assert gap(after(*[Recall.RIGHT] * rights)) == (1, 2, 4, 8, 16, 16, 16)[rights - 1]


def test_a_miss_goes_to_the_first_box_and_what_is_slow_stays():
    assert gap(after(Recall.RIGHT, Recall.RIGHT, Recall.RIGHT, Recall.MISSED)) == 1
    assert gap(after(Recall.RIGHT, Recall.RIGHT, Recall.SLOW)) == 2


def test_what_came_early_was_no_test():
    trace = after(Recall.RIGHT, Recall.RIGHT, Recall.RIGHT)
    soon = BOXES.counted(trace, Recall.RIGHT, trace.at + DAY)
    late = BOXES.counted(trace, Recall.RIGHT, trace.at + 3 * DAY)
    assert (gap(soon), gap(late)) == (4, 8)


def test_who_comes_earlier_in_the_day_than_yesterday_finds_it_due():
    trace = after(Recall.RIGHT)
    assert trace.is_due(trace.at + 14 * 3600)
    assert not trace.is_due(trace.at + 3600)


@given(st.integers(1, 5), st.floats(0, 100 * DAY), st.floats(0, 100 * DAY))
def test_chances_fall_with_time_to_what_is_retained_when_due(box, one, other):
    trace = Trace(0.0, DAY, (float(box),))
    sooner, later = sorted((one, other))
    assert 0 < BOXES.chance(trace, later) <= BOXES.chance(trace, sooner) <= 1
    assert BOXES.chance(trace, DAY * BOXES.gaps[box - 1]) == pytest.approx(RETAINED)


@given(st.floats(0, 1e9), st.floats(0, 1e9), st.lists(st.floats(0, 100), max_size=3))
def test_a_trace_is_kept_as_plain_values(at, due, strength):
    trace = Trace(at, due, tuple(strength))
    assert Trace.from_plain(trace.to_plain()) == trace
