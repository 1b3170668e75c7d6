"""Figures read from a real store: those of a plain count over the log, on the days of the place."""

import os
import time
from collections import defaultdict
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
import reported
from kept import added, begun

from frame.course.attempts import Attempt, Origin
from frame.learner.learners import new_id
from frame.learner.rows import Record
from frame.learner.settings import Settings
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of
from frame.practice.log import Entry, Happening, Log
from frame.practice.rungs import Asked, Rung
from frame.report.figures import Lessons
from frame.report.reading import read_report
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.habits import Habit

NOW = datetime(2026, 5, 4, 16, 0, tzinfo=UTC)
LESSONS = Lessons(0, 0, 90)
USUAL = Settings()


@pytest.fixture
def store():
    with closing(Store(None)) as store:
        yield store


@pytest.fixture
def in_place():
    """Sets where the computer stands."""
    if not hasattr(time, "tzset"):
        pytest.skip("the system has no such zones")
    before = os.environ.get("TZ")

    def put(zone):
        os.environ["TZ"] = zone
        time.tzset()

    yield put
    if before is None:
        del os.environ["TZ"]
    else:
        os.environ["TZ"] = before
    time.tzset()


def read(store, learner, now=NOW):
    return read_report(store, learner, USUAL, LESSONS, now)


def keep(store, learner, attempts, origin=Origin.SET):
    """Keep attempts, each with its time."""
    sitting = begun(store, learner, attempts[0][1])
    for number, (attempt, at) in enumerate(attempts, 1):
        record = Record(new_id(), number, attempt, origin)
        store.record(sitting, [record], learner, attempt.lesson, None, at)


def attempt(text="4 + 3", right=True, log=None, answers=(), ended=True, looks=0, **how):
    exercise = Exercise(Kind.SUM, parse_sum(text), rods=4, **how)
    numbers = tuple(map(Decimal, answers))
    return Attempt("x", exercise, right, True, 0, (), looks, answers=numbers, log=log, ended=ended)


def lasting(seconds):
    """A log of one stroke that was right, done after so many seconds."""
    moved = Entry(Happening.STROKE, 500, (BeadMove(0, 1),), kept=True)
    return Log(entries=(moved, Entry(Happening.DONE, round(1000 * seconds))))


def ago(**since):
    return NOW - timedelta(**since)


def test_an_empty_record_gives_an_empty_report(store):
    report = read(store, added(store, "Whale"))
    assert report.is_early and (report.known, report.learning, report.fault) == ((), (), None)
    assert report.tally == (0, 0) and report.week.minutes == report.week_before.minutes == 0


@pytest.mark.parametrize("pupil", reported.PUPILS[1:4], ids=lambda one: one.name)
def test_the_figures_are_those_of_a_plain_count_over_the_record(tmp_path, pupil):
    reported.fill(tmp_path / "simulated.sqlite", (pupil,), NOW)
    with closing(Store(tmp_path / "simulated.sqlite")) as store:
        (learner,) = store.learners()
        past, report = store.past(learner), read(store, learner)
    assert report.tally == (sum(one.right and one.unaided for one in past), pupil.exercises)
    seen = defaultdict(lambda: defaultdict(list))
    for one in past:
        if one.asked == "shown" and one.rung in ("alone", "pale"):
            is_right = one.right and one.unaided
            seen[family_of(one.facts)][local_day(one.at)].append(is_right)
    counted = {
        family: [right for day in sorted(days) for right in days[day][-10:]][-20:]
        for family, days in seen.items()
    }
    told = {one.family: one.tally for one in (*report.known, *report.learning)}
    assert told == {family: (sum(some), len(some)) for family, some in counted.items()}
    known = {family for family, some in counted.items() if len(some) == 20 and sum(some) >= 18}
    assert {one.family for one in report.known} == known
    for week, days in ((report.week, range(7)), (report.week_before, range(7, 14))):
        at = [one for one in past if (report.day - local_day(one.at)).days in days]
        assert week.tally == (sum(one.right and one.unaided for one in at), len(at))
        seconds = sum(one.log.entries[-1].ms / 1000 for one in at if one.log.entries)
        assert abs(week.minutes - seconds / 60) < 1


def local_day(at):
    return datetime.fromisoformat(at).astimezone().date()


@pytest.mark.parametrize(
    ("zone", "at", "day"),
    [
        ("UTC", "2026-05-04T23:59:00+00:00", date(2026, 5, 4)),
        ("Pacific/Auckland", "2026-05-04T23:59:00+00:00", date(2026, 5, 5)),
        ("Pacific/Honolulu", "2026-05-04T05:00:00+00:00", date(2026, 5, 3)),
        ("Europe/Berlin", "2026-03-28T22:59:00+00:00", date(2026, 3, 28)),
        ("Europe/Berlin", "2026-03-29T22:01:00+00:00", date(2026, 3, 30)),  # Summer time began.
    ],
)
def test_days_are_those_of_the_place(store, in_place, zone, at, day):
    in_place(zone)
    at, learner = datetime.fromisoformat(at), added(store, "Crab")
    keep(store, learner, [(attempt(log=lasting(60)), at)])
    for since in range(8):
        noon = datetime.combine(day + timedelta(days=since), datetime.min.time()).astimezone()
        report = read(store, learner, (noon + timedelta(hours=12)).astimezone(UTC))
        assert (report.week.tally.of, report.week.minutes) == ((1, 1) if since < 7 else (0, 0))
        assert report.learning[0].last == day
    assert report.week_before.tally.of == report.week_before.minutes == 1


def test_times_that_no_clock_told_do_no_harm(store, in_place):
    learner = added(store, "Crab")
    for zone in ("Pacific/Honolulu", "Pacific/Auckland"):
        in_place(zone)
        for at in (datetime.min, datetime.max):
            keep(store, learner, [(attempt(log=lasting(60)), at.replace(tzinfo=UTC))])
    report = read(store, learner)
    assert report.tally == (4, 4) and report.week.tally == (0, 0) and report.week.minutes == 0


def test_what_was_left_counts_for_time_alone(store):
    learner = added(store, "Crab")
    keep(store, learner, [(attempt(log=lasting(50), ended=False), ago(hours=1))] * 3)
    report = read(store, learner)
    assert report.tally == (0, 0) and report.week.minutes == 2  # 150 s, to the even number.


def test_where_beads_are_hidden_a_look_is_not_right_at_once(store):
    learner = added(store, "Crab")
    some = [attempt(rung=Rung.TRACES, looks=looks) for looks in (0, 1, 0)]
    keep(store, learner, [(one, ago(hours=1)) for one in some])
    report = read(store, learner)
    assert report.unseen == (2, 3) and report.tally == (2, 3)


def test_the_level_of_called_numbers_is_that_on_a_frame_of_ones_own(store):
    called = {"asked": Asked.CALLED, "rung": Rung.NUMBER, "pace": 3.0}
    on_screen, by_own = added(store, "Crab"), added(store, "Heron")
    for learner, own in ((on_screen, False), (by_own, True)):
        one = attempt("4 + 3 + 1", answers=(8,), own=own, **called)
        keep(store, learner, [(one, ago(hours=9)), *[(one, ago(hours=1))] * 9])
    assert read(store, on_screen).called.level is None
    assert read(store, by_own).called.level.number == 2
    assert read(store, by_own).called.tally == (10, 10) and read(store, by_own).flashed is None


def slip(habit, rod=0):
    """A log with a slip of this kind on a rod."""
    entry = Entry(Happening.STROKE, 900, (BeadMove(rod, 1),), slip=habit.value)
    return Log(entries=(entry, Entry(Happening.DONE, 4000)))


def test_a_planted_fault_is_told_with_its_count_and_since_when(store):
    """Of fourteen times that a ten should come it is left out nine times, first five days ago."""
    learner, tries = added(store, "Otter"), []
    for number in range(14):
        is_slip = number in (2, 3, 5, 6, 8, 9, 11, 12, 13)
        log = slip(Habit.CARRY_FORGOTTEN) if is_slip else lasting(4)
        tries.append((attempt("8 + 7", right=not is_slip, log=log), ago(days=7 - number // 2)))
    keep(store, learner, tries)
    fault = read(store, learner).fault
    assert (fault.habit, fault.times, fault.of) == (Habit.CARRY_FORGOTTEN, 9, 14)
    assert fault.since == ago(days=6).astimezone().date() and not fault.in_answers
    assert read(store, learner, NOW + timedelta(days=70)).fault is None, "it is long ago"


def test_a_fault_in_answers_alone_is_told_to_be_so(store):
    learner, tries = added(store, "Otter"), []
    for number, (text, answer) in enumerate(
        [("38 + 47", 75), ("26 + 35", 51), ("57 + 18", 65)] * 3
    ):
        one = attempt(text, right=False, answers=(answer,), rung=Rung.NUMBER)
        tries.append((one, ago(days=4) + timedelta(hours=number)))
    keep(store, learner, tries)
    fault = read(store, learner).fault
    assert (fault.habit, fault.times, fault.of) == (Habit.CARRY_FORGOTTEN, 9, 9)
    assert fault.in_answers and fault.since == ago(days=4).astimezone().date()


@pytest.mark.parametrize(("days", "is_known"), [(19, True), (20, False), (60, False)])
def test_since_when_is_not_told_where_older_answers_may_show_it(store, days, is_known):
    """Three answers a day, all wrong by the same fault: of more than sixty the first ones are not
    looked at."""
    learner, tries = added(store, "Otter"), []
    for day in range(days, 0, -1):
        for hour, (text, answer) in enumerate([("38 + 47", 75), ("26 + 35", 51), ("57 + 18", 65)]):
            one = attempt(text, right=False, answers=(answer,), rung=Rung.NUMBER)
            tries.append((one, ago(days=day) + timedelta(hours=hour)))
    keep(store, learner, tries)
    fault = read(store, learner).fault
    assert fault.times == fault.of == min(60, 3 * days)
    first = ago(days=days).astimezone().date()
    assert fault.since == (first if is_known else None)


def test_what_showed_once_is_no_fault_of_anybody(store):
    learner = added(store, "Otter")
    once = attempt("22 - 6", right=False, answers=(26,), rung=Rung.NUMBER)
    keep(store, learner, [(once, ago(days=1))])
    assert read(store, learner).fault is None
    keep(store, learner, [(once, ago(hours=5))] * 2)
    assert read(store, learner).fault.habit is Habit.BORROW_FORGOTTEN


def test_who_makes_no_slip_has_no_fault(store):
    learner = added(store, "Seal")
    keep(store, learner, [(attempt("8 + 7", log=lasting(4)), ago(days=1))] * 30)
    report = read(store, learner)
    assert report.fault is None and report.looked_at == 30


def test_of_what_was_looked_at_it_is_told_how_much_was_not_right(store):
    learner = added(store, "Seal")
    given = [(attempt("8 + 7", right=one == 15, answers=(one,), rung=Rung.NUMBER), ago(days=1))
             for one in (15, 99, 31, 15)]  # fmt: skip
    slip = lasting(4).entries[0]._replace(slip="wrong-rod", kept=False)
    keep(store, learner, given)
    keep(store, learner, [
        (attempt("8 + 7", log=Log(entries=(slip, *lasting(4).entries))), ago(hours=3)),
        (attempt("8 + 7", log=lasting(4)), ago(hours=2)),
    ])  # fmt: skip
    report = read(store, learner)
    assert (report.looked_at, report.not_right) == (6, 3)


def test_what_was_kept_of_paper_is_told_as_such(store):
    learner = added(store, "Seal")
    some = [(attempt(right=right, log=Log()), ago(days=1)) for right in (True, False, False)]
    keep(store, learner, some, Origin.PAPER)
    paper = read(store, learner).on_paper
    assert (paper.tally, paper.hardest, paper.is_all) == ((1, 3), Family.ADD_FIVE, True)


def test_placement_is_no_learning_and_what_it_found_is_known(store):
    learner = added(store, "Seal")
    some = [(attempt(right=right, log=lasting(9)), ago(days=1)) for right in (True, True, False)]
    keep(store, learner, some, Origin.PLACEMENT)
    assert read(store, learner).learning == ()
    keep(store, learner, [(attempt("8 + 7"), ago(hours=2))])
    lessons = Lessons(0, 4, 90, found=frozenset({Family.ADD_FIVE}))
    report = read_report(store, learner, USUAL, lessons, NOW)
    assert [one.family for one in report.learning] == [Family.ADD_TEN]
    assert report.known == (), "two of three is too few"


def test_a_child_under_two_ids_is_one(store):
    one, other = added(store, "Otter"), added(store, "Otter")
    for learner in (one, other):
        keep(store, learner, [(attempt(log=lasting(60)), ago(hours=1))])
    store.join(one, other, NOW)
    assert read(store, one).tally == (2, 2) and read(store, one).week.minutes == 2
