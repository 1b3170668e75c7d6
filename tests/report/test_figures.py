"""The figures of a report: counted anew in another way, and at every border."""

from collections import defaultdict
from datetime import date, timedelta
from random import Random

import pytest

from frame.practice.families import Family
from frame.practice.log import Entry, Happening, Log
from frame.practice.tally import Tally
from frame.report.figures import (
    EARLY,
    Exercised,
    Found,
    Kind,
    Lessons,
    Manner,
    Spent,
    report_of,
    seconds_at_work,
)

TODAY = date(2026, 3, 1)
LESSONS = Found(Lessons(3, 0, 85))


def days_ago(days):
    return TODAY - timedelta(days=days)


def done(*right, days=(1, 0), family=Family.ADD_FIVE, manner=Manner.SEEN, **came):
    """Exercises with these results, spread over some days."""
    at = [days[number * len(days) // len(right)] for number in range(len(right))]
    return [
        Exercised(days_ago(day), family, manner, bool(one), **came)
        for day, one in zip(at, right, strict=True)
    ]


def report(exercises, spent=(), found=LESSONS):
    return report_of(exercises, spent, found, TODAY)


def families(kinds):
    return [one.family for one in kinds]


@pytest.mark.parametrize(
    ("right", "of", "days", "is_known"),
    [
        (20, 20, (1, 0), True),
        (18, 20, (1, 0), True),
        (17, 20, (1, 0), False),
        (19, 19, (1, 0), False),
        (200, 200, (0,), False),
        (40, 40, (300, 200), True),
    ],
)
def test_eighteen_of_the_last_twenty_on_two_days_are_known(right, of, days, is_known):
    found = report(done(*[1] * right, *[0] * (of - right), days=days))
    assert families(found.known) == [Family.ADD_FIVE] * is_known
    assert families(found.learning) == [Family.ADD_FIVE] * (not is_known)


def test_only_the_last_twenty_count_and_of_a_day_the_last_ten():
    assert report(done(*[0] * 50, *[1] * 20, days=range(7, 0, -1))).known[0].tally == Tally(20, 20)
    assert report(done(*[1] * 50, *[0] * 20, days=range(7, 0, -1))).learning[0].tally == (0, 20)
    two_days = [
        *done(*[1] * 9, *[0] * 30, *[1] * 10, days=(4,)),
        *done(*[0] * 90, *[1] * 10, days=(0,)),
    ]
    (kind,) = report(two_days).known
    assert (kind.tally, kind.days, kind.last) == (Tally(20, 20), 2, TODAY)
    (kind,) = report(done(*[1] * 90, days=(3,))).learning
    assert (kind.tally, kind.days) == (Tally(10, 10), 1)


@pytest.mark.parametrize("manner", [Manner.LED, Manner.UNSEEN, Manner.CALLED, Manner.FLASHED])
def test_what_is_worked_otherwise_than_on_a_frame_in_sight_makes_no_kind_known(manner):
    found = report(done(*[1] * 30, manner=manner))
    is_begun = manner is Manner.LED
    assert found.known == ()
    assert found.learning == ((Kind(Family.ADD_FIVE, Tally(0, 0)),) if is_begun else ())
    assert found.unseen == (Tally(20, 20) if manner is Manner.UNSEEN else None)
    assert (found.called is not None) == (manner is Manner.CALLED)
    assert (found.flashed is not None) == (manner is Manner.FLASHED)
    assert found.tally.of == (0 if manner is Manner.LED else 30)


def test_what_was_known_from_the_start_stands_until_exercises_tell_otherwise():
    found = Found(Lessons(0, 9, 90, found=frozenset({Family.ADD_FIVE})))
    tasks = done(1, 1, 1, 0, is_placing=True)
    assert report(tasks, found=found).known[0].is_found
    assert report(tasks).known == report(tasks).learning == ()
    assert report([], found=found).known == ()
    poor = report([*tasks, *done(0, 0, 1)], found=found)
    assert families(poor.learning) == [Family.ADD_FIVE]
    sure = report([*tasks, *done(*[1] * 20)], found=found)
    assert families(sure.known) == [Family.ADD_FIVE] and not sure.known[0].is_found


def test_what_placement_asked_for_and_was_new_is_not_said_to_be_learned():
    assert report(done(0, 0, family=Family.ROOT, is_placing=True)).learning == ()


def test_a_week_is_the_day_and_the_six_before_and_the_other_the_seven_before_that():
    for ago in range(-1, 16):
        found = report(
            done(1, 0, days=(ago,)), [Spent(days_ago(ago), 90.0), Spent(days_ago(ago), 30.0)]
        )
        now, before = found.week, found.week_before
        assert (now.minutes, now.tally) == ((2, Tally(1, 2)) if 0 <= ago <= 6 else (0, Tally(0, 0)))
        is_before = 7 <= ago <= 13
        assert (before.minutes, before.tally) == ((2, Tally(1, 2)) if is_before else (0, (0, 0)))
    assert (now.first, now.last) == (date(2026, 2, 23), TODAY)
    assert (before.first, before.last) == (date(2026, 2, 16), date(2026, 2, 22))


@pytest.mark.parametrize(
    ("seconds", "minutes"), [(0, 0), (1, 1), (29, 1), (89, 1), (91, 2), (3600, 60)]
)
def test_minutes_are_rounded_and_a_little_is_not_nothing(seconds, minutes):
    assert report([], [Spent(TODAY, float(seconds))]).week.minutes == minutes


@pytest.mark.parametrize(("count", "is_early"), [(0, True), (EARLY - 1, True), (EARLY, False)])
def test_with_few_exercises_it_is_too_early(count, is_early):
    assert report(done(*[1] * count)).is_early is is_early


def on_paper(*right, **how):
    return done(*right, is_on_paper=True, **how)


def test_of_paper_it_is_told_how_much_was_right_and_of_what_least_was_lately():
    some = [
        *on_paper(*[0] * 30, days=(61,), family=Family.SUB_TEN),
        *on_paper(0, 0, 0, 1, days=(60,), family=Family.ADD_TEN),
        *on_paper(0, 0, *[1] * 9, family=Family.ADD_FIVE),
    ]
    found = report([*some, *done(0, 0, 0, 0, family=Family.READ)]).on_paper
    assert found.tally == (10, 45)
    assert (found.hardest, found.of_hardest) == (Family.ADD_TEN, (1, 4))
    assert report(done(0, 1)).on_paper is None


def test_one_on_paper_that_was_not_right_makes_no_kind_the_hardest():
    assert report(on_paper(0, 1, 1)).on_paper.hardest is None
    assert report(on_paper(0, 0, 1)).on_paper.hardest is Family.ADD_FIVE


@pytest.mark.parametrize("manner", Manner)
@pytest.mark.parametrize(("finished", "known"), [(0, 0), (1, 0), (0, 1)])
def test_paper_is_all_where_no_lesson_was_done_nor_known_and_no_other_exercise_was(
    manner, finished, known
):
    found = Found(Lessons(finished, known, 85))
    alone = report_of(on_paper(1, 1), (), found, TODAY).on_paper
    with_other = report_of(on_paper(1, 1) + done(1, manner=manner), (), found, TODAY).on_paper
    assert alone.is_all is (not finished and not known)
    assert not with_other.is_all


def test_what_is_in_work_is_what_was_practised_last_and_of_several_the_hardest():
    older = done(0, 0, days=(2,), family=Family.SUB_TEN)
    newer = [
        one
        for family in (Family.ADD_TEN, Family.SUB_FIVE, Family.ADD_FIVE)
        for one in done(0, days=(1,), family=family)
    ]
    assert report([*older, *newer]).in_work.family is Family.ADD_TEN
    assert report([]).in_work is None


def test_the_figures_of_any_record_are_those_of_a_plain_count():
    random = Random(3)
    for size in (0, 5, 60, 900):
        exercises = sorted(
            Exercised(
                days_ago(random.randrange(40)), random.choice(list(Family)[2:6]),
                random.choice(list(Manner)), random.random() < 0.93, random.random() < 0.02,
            )
            for _ in range(size)
        )  # fmt: skip
        found = report(exercises)
        plain = defaultdict(list)
        for one in exercises:
            if one.manner == "seen":
                plain[one.family].append(one)
        for kind in (*found.known, *found.learning):
            days = defaultdict(list)
            for one in plain[kind.family]:
                days[one.day].append(one)
            last = [one for day in sorted(days) for one in days[day][-10:]][-20:]
            assert kind.tally == (sum(one.is_right for one in last), len(last))
            good = len(last) == 20 and sum(one.is_right for one in last) >= 18
            assert (kind in found.known) == good
            assert not good or len({one.day for one in last}) > 1
        alone = [one for one in exercises if one.manner != "led"]
        assert found.tally == (sum(one.is_right for one in alone), len(alone))
        last_week = [one for one in alone if (TODAY - one.day).days < 7]
        assert found.week.tally == (sum(one.is_right for one in last_week), len(last_week))


def log(*entries):
    return Log(entries=tuple(Entry(what, round(1000 * seconds)) for seconds, what in entries))


@pytest.mark.parametrize(
    ("entries", "seconds"),
    [
        ([], 0.0),
        ([(4, Happening.STROKE), (9, Happening.DONE)], 9.0),
        ([(59, Happening.STROKE), (119, Happening.DONE)], 119.0),
        ([(61, Happening.STROKE), (4000, Happening.DONE)], 120.0),
        ([(4, Happening.STROKE), (5, Happening.AWAY), (45, Happening.BACK), (47, Happening.DONE)],
         7.0),
        ([(5, Happening.AWAY), (6, Happening.CALLED), (20, Happening.BACK), (21, Happening.DONE)],
         6.0),
    ],
)  # fmt: skip
def test_of_a_pause_a_minute_counts_and_nothing_while_another_window_was_in_use(entries, seconds):
    assert seconds_at_work(log(*entries)) == seconds
