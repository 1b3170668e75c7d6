"""Flashed numbers without a clock: settings, the ladder, columns, schedules, reports."""

from decimal import Decimal
from itertools import accumulate, groupby, pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.flashing import (
    COUNT,
    DIGITS,
    INTERVAL,
    LEVELS,
    FlashReport,
    FlashSetting,
    ItemTime,
    Schedule,
)

settings = st.builds(
    FlashSetting,
    st.integers(*DIGITS),
    st.integers(*COUNT),
    st.floats(*INTERVAL),
    st.booleans(),
)
contest = FlashSetting.of_total(3, 15, 2.0)


@pytest.mark.parametrize(
    "wrong",
    [(0, 5, 1.0), (7, 5, 1.0), (3, 1, 1.0), (3, 31, 1.0), (3, 5, 0.079), (3, 5, 5.01)],
)
def test_settings_out_of_range_are_refused(wrong):
    with pytest.raises(ValueError, match="is not from"):
        FlashSetting(*wrong)


@given(settings)
def test_a_setting_is_known_by_its_total(setting):
    again = FlashSetting.of_total(3, setting.count, 2 * setting.count)
    assert again.interval == 2
    assert setting.total == pytest.approx(setting.count * setting.interval)


@given(settings, st.integers())
def test_columns(setting, seed):
    column = setting.column(Random(seed))
    assert len(column) == setting.count
    assert all(len(str(abs(number))) == setting.digits for number in column)
    assert all(so_far >= 0 for so_far in accumulate(column))
    assert any(number < 0 for number in column) == setting.minus


def test_every_number_can_come_and_neighbours_may_be_equal():
    setting = FlashSetting(1, 30, 1.0)
    columns = [setting.column(Random(seed)) for seed in range(40)]
    drawn = [number for column in columns for number in column]
    counts = [drawn.count(Decimal(digit)) for digit in range(1, 10)]
    # 1200 drawings of nine: 133 each, give or take four standard deviations of 10.9.
    assert all(90 <= count <= 177 for count in counts), counts
    assert any(one == other for column in columns for one, other in pairwise(column))


def test_the_ladder_climbs_evenly():
    assert [level.number for level in LEVELS] == list(range(1, len(LEVELS) + 1))
    rungs = [level.setting for level in LEVELS]
    assert (rungs[0].digits, rungs[0].count, rungs[0].total) == (1, 3, 6.0)
    assert sorted(rungs, key=lambda rung: rung.digits) == rungs
    for _, group in groupby(rungs, key=lambda rung: rung.digits):
        for easier, harder in pairwise(group):
            assert harder.count >= easier.count
            assert harder.interval <= easier.interval * (1 + 1e-9)
            assert (harder.count, -harder.interval) > (easier.count, -easier.interval)
            assert harder.interval / easier.interval >= 0.65
    totals = [rung.total for rung in rungs if (rung.digits, rung.count) == (3, 15)]
    assert {15.0, 3.0, 2.0, 1.5} <= {round(total, 9) for total in totals}


@pytest.mark.parametrize(
    # 15 numbers in 2 s: 133.3 ms are 8 frames of 60 Hz and 10 of 75 Hz, and between two else.
    ("refresh", "frames"),
    [(60.0, 8), (75.0, 10), (50.0, 7), (144.0, 19), (59.94, 8)],
)
def test_an_interval_is_whole_frames(refresh, frames):
    schedule = Schedule.of(contest, refresh)
    assert schedule.frames == frames
    assert schedule.interval == pytest.approx(frames / refresh)
    assert schedule.onsets[14] == pytest.approx(14 * frames / refresh)
    assert schedule.lead == pytest.approx(0.5 / refresh)


def test_without_a_refresh_nothing_is_rounded():
    schedule = Schedule.of(contest)
    assert (schedule.interval, schedule.frames, schedule.lead) == (contest.interval, None, 0)
    assert schedule.onsets == tuple(number * 2 / 15 for number in range(15))


@given(settings, st.floats(30, 500))
def test_rounding_is_within_half_a_frame(setting, refresh):
    schedule = Schedule.of(setting, refresh)
    assert schedule.frames >= 1
    assert abs(schedule.interval - setting.interval) <= 0.5 / refresh + 1e-9
    assert schedule.pause(1.0) * refresh == pytest.approx(round(schedule.pause(1.0) * refresh))
    assert 1.0 <= schedule.pause(1.0) + 1e-9 <= 1.0 + 1 / refresh + 2e-9


def report(errors, refresh=None, was_stopped=False):
    """A report of a contest's run with these errors in ms; None for a number left out."""
    schedule = Schedule.of(FlashSetting(3, len(errors), 2 / 15), refresh)
    items = tuple(
        ItemTime(at, None if error is None else at + error / 1000)
        for at, error in zip(schedule.onsets, errors, strict=True)
    )
    return FlashReport(schedule, items, "plain", was_stopped)


def test_figures_of_a_run():
    told = report([1.0, -1.0, 3.0, 1.0])
    assert told.onset_sd_ms == pytest.approx(2**0.5)
    assert told.worst_ms == pytest.approx(3.0)
    assert told.drift_ms == pytest.approx(0.0)
    assert told.rate == pytest.approx(7.5)
    assert told.counts
    assert report([0.0, 0.0, 0.7]).drift_ms == pytest.approx(0.7)


@pytest.mark.parametrize(
    ("errors", "refresh", "missed"),
    [
        ([4.01, 7.9, 8.1, -9.0], None, (2,)),
        ([None, 0.0, 133.0, 0.0], None, (0, 2)),
        # A frame of 60 Hz is 16.7 ms, of 144 Hz 6.9.
        ([3.4, 7.9, 16.7, 0.0], 60.0, (2,)),
        ([1.5, 6.9, 13.9, 0.0], 144.0, (2,)),
    ],
)
def test_what_counts_as_missed(errors, refresh, missed):
    told = report(errors, refresh)
    assert told.missed == missed
    assert not told.counts


@pytest.mark.parametrize(
    ("interval", "refresh", "limit_ms"),
    [
        (5.0, None, 8.0),
        (0.4, None, 8.0),
        (0.08, None, 8.0),
        (0.08, 60.0, 8.0),
        # 0.08 s are 2.4 frames of 30 Hz: two of them, 66.7 ms.
        (0.08, 30.0, 20 / 3),
        # And 3.6 frames of 45 Hz: four of them, 88.9 ms.
        (0.08, 45.0, 8.0),
        # And 3 frames of 38 Hz, 78.9 ms.
        (0.08, 38.0, 1000 * 3 / 38 / 10),
    ],
)
def test_the_limit_of_lateness_hangs_on_the_true_pace(interval, refresh, limit_ms):
    schedule = Schedule.of(FlashSetting(1, 5, interval), refresh)
    told = FlashReport(schedule, (), "plain")
    assert told.late_after_ms == pytest.approx(limit_ms)


@given(settings, st.none() | st.floats(30, 500))
def test_no_limit_is_more_than_a_tenth_of_the_pace_or_8_ms(setting, refresh):
    schedule = Schedule.of(setting, refresh)
    assert 0 < schedule.late_after <= min(0.008, 0.1001 * schedule.interval)


@given(settings, st.none() | st.floats(30, 500), st.booleans())
def test_a_run_is_void_from_its_limit_on_whatever_the_screen(setting, refresh, is_beyond):
    schedule = Schedule.of(setting, refresh)
    late = schedule.late_after + (1e-6 if is_beyond else -1e-6)
    items = tuple(ItemTime(at, at + late) for at in schedule.onsets)
    assert FlashReport(schedule, items, "plain").counts is not is_beyond


@pytest.mark.parametrize(
    ("error_ms", "refresh", "is_in_step"),
    [
        (0.0, None, False),
        (3.3, 60.0, True),
        (-3.3, 60.0, True),
        (3.4, 60.0, False),
        (16.7, 60.0, False),
        (1.3, 144.0, True),
        (1.5, 144.0, False),
        (6.9, 144.0, False),
    ],
)
def test_what_came_with_its_own_frame(error_ms, refresh, is_in_step):
    # A fifth of a frame is 3.3 ms at 60 Hz, 1.4 at 144.
    assert Schedule.of(contest, refresh).is_in_step(error_ms / 1000) is is_in_step


def test_a_stopped_run_does_not_count_and_accuses_nobody():
    told = report([0.0, None, 0.0, None, None], was_stopped=True)
    assert told.missed == (1,)
    assert not told.counts
    assert not report([0.0, 0.0, None], was_stopped=True).counts
    empty = report([None, None], was_stopped=True)
    assert (empty.missed, empty.onset_sd_ms, empty.worst_ms, empty.drift_ms) == ((), 0, 0, 0)
    assert empty.rate == pytest.approx(7.5)
