"""The pace of a hand, by tapping lit beads: honest, hard to disturb, and seldom asked for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.observed import USUAL_PACE
from frame.practice.pace import (
    AFTER,
    APART,
    FEWEST,
    GOOD_FOR,
    LAST,
    PAUSE,
    WHOLE,
    Tapping,
    is_due,
    is_enough,
    pace_at,
    pace_of,
)
from frame.practice.schedule import DAY

NOW = 1_800_000_000.0
SECONDS = st.floats(0.05, 60)
TAPS = st.lists(SECONDS, min_size=FEWEST, max_size=60)
QUICK = st.lists(st.floats(0.2, 1.0), min_size=FEWEST, max_size=60)
TIMES = st.floats(0, NOW)
TAPPINGS = st.lists(st.tuples(TIMES, st.none() | st.floats(0.1, PAUSE)), max_size=8).map(
    lambda some: [Tapping(*one) for one in sorted(some, key=lambda one: one[0])]
)


@given(st.lists(SECONDS, max_size=FEWEST - 1))
def test_too_few_taps_tell_nothing(taps):
    assert pace_of(taps) is None


@given(TAPS)
def test_it_is_one_of_a_hand_that_did_not_pause(taps):
    pace = pace_of(taps)
    assert min(min(taps), PAUSE) <= pace <= min(max(taps), PAUSE)


@given(TAPS, st.data())
def test_who_is_slower_anywhere_is_never_told_to_be_quicker(taps, data):
    slower = [one + data.draw(st.floats(0, 5)) for one in taps]
    assert pace_of(slower) >= pace_of(taps)


@given(QUICK, st.data())
def test_pauses_among_fewer_than_half_of_the_last_taps_move_it_within_the_others(taps, data):
    last = min(len(taps), LAST)
    places = st.sets(st.integers(1, last), max_size=(last - 1) // 2)
    paused = data.draw(places)
    with_pauses = list(taps)
    for place in paused:
        with_pauses[-place] = data.draw(st.floats(10, 10_000))
    others = [taps[-place] for place in range(1, last + 1) if place not in paused]
    assert min(others) <= pace_of(with_pauses) <= max(others)


@given(TAPS, st.lists(SECONDS, max_size=20))
def test_the_first_taps_of_many_are_forgotten(taps, before):
    whole = (taps * LAST)[-LAST:]
    assert pace_of([*before, *whole]) == pace_of(whole)


@given(QUICK, st.floats(0, 10_000))
def test_half_a_minute_of_taps_is_enough_and_a_pause_takes_little_of_it(taps, pause):
    assert is_enough(taps) == (sum(taps) >= WHOLE)
    if sum(taps) < WHOLE - PAUSE:
        assert not is_enough([*taps, pause])


@given(TAPPINGS, TIMES)
def test_the_pace_that_held_is_the_last_one_that_was_taken_before(tappings, at):
    taken = [one for one in tappings if one.pace is not None and one.at <= at]
    assert pace_at(tappings, at) == (taken[-1].pace if taken else USUAL_PACE)


@given(TAPPINGS, st.floats(0.1, PAUSE), TIMES)
def test_a_later_pace_changes_nothing_before_it(tappings, pace, at):
    later = [*tappings, Tapping(NOW + 1, pace)]
    assert pace_at(later, at) == pace_at(tappings, at)
    assert pace_at(later, NOW + 1) == pace


@pytest.mark.parametrize(
    ("attempts", "tappings", "may"),
    [
        (AFTER, [], True),
        (AFTER - 1, [], False),
        (0, [], False),
        (AFTER, [(6.9, None)], False),
        (AFTER, [(7, None)], True),
        (AFTER, [(59.9, 0.5)], False),
        (AFTER, [(60, 0.5)], True),
        (AFTER, [(70, 0.5), (3, None)], False),
        (AFTER, [(70, 0.5), (8, None)], True),
        (AFTER, [(30, 0.5), (8, None)], False),
        (AFTER, [(30, None), (20, None), (10, None)], True),
        (5000, [(1, 0.4)], False),
    ],
)
def test_it_may_be_offered_now_and_then(attempts, tappings, may):
    """Days ago, and the pace that came of it."""
    kept = [Tapping(NOW - days * DAY, pace) for days, pace in tappings]
    assert is_due(kept, attempts, NOW) is may


@given(TAPPINGS, st.integers(0, 300))
def test_right_after_it_was_offered_or_done_it_is_not_offered(tappings, attempts):
    for pace, wait in ((None, APART), (0.5, GOOD_FOR)):
        kept = [*tappings, Tapping(NOW, pace)]
        assert not is_due(kept, attempts, NOW + wait - 1)
