"""The store keeps every step, refuses what it does not know, and never writes over a file."""

import sqlite3
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest
from kept import COME, added, begun, timed

from frame.course.attempts import Attempt, Position
from frame.learner.learners import Chosen, new_id
from frame.learner.rows import FlashRow
from frame.learner.store import LessonState, Store, StoreError
from frame.learner.trouble import Trouble
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.ladder import Try
from frame.practice.outcomes import Outcome
from frame.practice.pace import Tapping
from frame.practice.rungs import Asked, Rung
from frame.technique.expression import Sum

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
SUM = Exercise(Kind.SUM, Sum((Decimal(3), Decimal(4))), rods=1)
FLASHED = Exercise(
    Kind.SUM, Sum((Decimal(9), Decimal(9))), Rung.NUMBER, 2, asked=Asked.FLASHED, pace=0.5, own=True
)
RUN = FlashRow(
    digits=2, count=3, interval=0.5, minus=True, path="beam-of-the-harbour-light", refresh=None,
    sd_ms=0.05, worst_ms=0.4, drift_ms=-0.1, missed=1, stopped=False, counts=True,
    items=((0.0, 0.0), (500.0, None), (1000.0, 999.5)),
)  # fmt: skip


@pytest.fixture
def store(tmp_path):
    opened = Store(tmp_path / "data" / "learners.sqlite")
    yield opened
    opened.close()


def test_what_was_kept_is_there_in_a_new_process(store):
    otter = added(store, "Otter", "otter")
    sitting = begun(store, otter)
    attempt = Attempt("five-add-1", SUM, False, True, 1, ("wrong-count",))
    state = LessonState(7, Position(3, 2, 0, 1), False)
    store.record(sitting, timed((attempt, 4.5)), otter, "five-add-1", state, NOW)

    again = Store(store.path)
    assert again.learners() == (otter,)
    assert again.lessons(otter) == {"five-add-1": state}
    assert again.attempts(otter) == (("five-add-1", "3 + 4", True, False),)
    again.close()


def test_a_new_name_and_picture_are_kept_and_all_else_stays(store):
    otter, seal = added(store, "Otter", "otter"), added(store, "Seal", "seal")
    sitting = begun(store, otter)
    attempt = Attempt("five-add-1", SUM, False, True, 1, ("wrong-count",))
    store.record(sitting, timed((attempt, 4.5)), otter, "five-add-1", None, NOW)
    settings = store.settings(otter)
    for _ in range(2):
        store.rename(replace(otter, nickname="שרה 🦦", picture="owl-checks"), NOW)
        assert store.learners() == (replace(otter, nickname="שרה 🦦", picture="owl-checks"), seal)
    assert store.settings(otter) == settings and len(store.attempts(otter)) == 1


def test_nobody_comes_by_a_new_name_for_somebody_who_was_removed(store):
    otter = added(store, "Otter", "otter")
    store.remove_learner(otter, NOW)
    store.rename(replace(otter, nickname="Ann"), NOW)
    assert store.learners() == ()


def test_a_lesson_once_done_stays_done(store):
    seal = added(store, "Seal", "seal")
    sitting = begun(store, seal)
    store.record(sitting, [], seal, "beads-1", LessonState(1, Position(9), True), NOW)
    store.record(sitting, [], seal, "beads-1", LessonState(2, Position(1), False), NOW)
    assert store.lessons(seal)["beads-1"] == LessonState(2, Position(1), True)


def test_a_lesson_may_be_done_and_not_mastered_and_once_mastered_stays_so(store):
    seal = added(store, "Seal", "seal")
    sitting = begun(store, seal)
    kept = []
    for done, mastered in [(False, False), (True, False), (True, True), (True, False)]:
        state = LessonState(1, Position(9), done, mastered)
        store.record(sitting, [], seal, "beads-1", state, NOW)
        kept.append((store.lessons(seal)["beads-1"].done, store.lessons(seal)["beads-1"].mastered))
    assert kept == [(False, False), (True, False), (True, True), (True, True)]


def keep(store, learner, *attempts):
    """Attempts kept one by one, each a second slower than the one before; the sitting's id."""
    sitting = begun(store, learner)
    state = LessonState(1, Position(1), False)
    for number, attempt in enumerate(attempts):
        store.record(sitting, timed((attempt, 2.0 + number)), learner, attempt.lesson, state, NOW)
    return sitting


def test_a_set_practised_beside_any_lesson_has_no_place(store):
    otter = added(store, "Otter", "otter")
    sitting = begun(store, otter)
    attempt = Attempt("practice", SUM, True, True, 0, ())
    store.record(sitting, timed((attempt, 3.0), (attempt, 4.0)), otter, "practice", None, NOW)
    assert len(store.tries(otter)) == 2
    assert store.lessons(otter) == {}


@pytest.mark.parametrize(
    ("unaided", "right", "is_right"),
    [(True, True, True), (False, True, False), (True, False, False), (False, False, False)],
)
def test_the_ladder_sees_every_attempt_oldest_first(store, unaided, right, is_right):
    otter, seal = (added(store, name, "cat") for name in ("Otter", "Seal"))
    one = Attempt("five-add-5", SUM.at(Rung.PALE), unaided, right, 0, (), looks=2)
    two = Attempt("ten-add-5", FLASHED, unaided, right, 0, (), outcome=Outcome.WRONG_ANSWER)
    keep(store, otter, one, two)
    keep(store, seal, two)
    assert store.tries(otter) == (
        Try(Family.ADD_FIVE, 1, Rung.PALE, is_right, 2, 2.0, SUM.facts, digits=1, terms=2),
        Try(
            Family.ADD_TEN,
            2,
            Rung.NUMBER,
            is_right,
            0,
            3.0,
            FLASHED.facts,
            Asked.FLASHED,
            own=True,
            digits=1,
            terms=2,
            pace=0.5,
        ),
    )
    assert len(store.tries(seal)) == 1


def test_how_an_exercise_was_asked_and_ended_is_kept(store):
    otter = added(store, "Otter", "otter")
    lost = Attempt("ten-add-5", FLASHED, False, False, 0, (), 3, Outcome.PICTURE_LOST)
    keep(store, otter, lost)
    rows = sqlite3.connect(store.path)
    kept = rows.execute("SELECT looks, outcome, asked, pace, own, digits, terms FROM attempt")
    assert kept.fetchall() == [(3, "picture lost", "flashed", 0.5, 1, 1, 2)]
    rows.close()


@pytest.mark.parametrize(
    ("column", "value"),
    [("rung", "in a dream"), ("asked", "sung"), ("facts", '["mul-direct-7"]'), ("facts", "x")],
)
def test_what_a_newer_version_wrote_is_left_out(store, column, value):
    otter = added(store, "Otter", "otter")
    keep(store, otter, *[Attempt("five-add-1", SUM, True, True, 0, ())] * 3)
    rows = sqlite3.connect(store.path)
    with rows:
        rows.execute(f"UPDATE attempt SET {column} = ? WHERE rowid = 2", (value,))
    rows.close()
    assert [one.seconds for one in store.tries(otter)] == [2.0, 4.0]
    assert len(store.attempts(otter)) == 3


def test_flashed_runs_are_kept_as_they_were(store):
    otter, seal = (added(store, name, "cat") for name in ("Otter", "Seal"))
    steady = replace(RUN, refresh=59.94, minus=False, stopped=True, counts=False, items=())
    for learner, runs in ((otter, (RUN, steady, RUN)), (seal, (steady,))):
        sitting = begun(store, learner)
        for run in runs:
            store.record_flash(new_id(), sitting, run, NOW + timedelta(seconds=next(COME)))
    assert store.flash_runs(otter) == (RUN, steady, RUN)
    assert store.flash_runs(seal) == (steady,)


def test_a_flashed_run_of_no_sitting_is_refused(store):
    with pytest.raises(StoreError):
        store.record_flash(new_id(), "nobody's", RUN, NOW)


def test_tappings_are_kept_in_the_order_of_their_times_once_each(store):
    otter, seal = (added(store, name, "cat") for name in ("Otter", "Seal"))
    sitting, days = begun(store, otter), [NOW + timedelta(days=day) for day in range(3)]
    for day, pace in ((2, 0.5), (0, None), (1, 0.75)):
        for _ in range(2):
            store.keep_tapping(f"day {day}", sitting, pace, days[day])
    paces = zip(days, (None, 0.75, 0.5), strict=True)
    assert store.tappings(otter) == tuple(Tapping(at.timestamp(), pace) for at, pace in paces)
    assert store.tappings(seal) == ()
    with pytest.raises(StoreError):
        store.keep_tapping("other", "nobody's", 0.5, NOW)


@pytest.mark.parametrize(
    ("column", "value"),
    [("pace", -1.0), ("pace", 0.0), ("pace", 1e9), ("pace", "quick"), ("at", "noon"), ("at", b"")],
)
def test_a_tapping_that_nobody_can_have_written_is_left_out(store, column, value):
    otter = added(store, "Otter", "otter")
    store.keep_tapping("one", begun(store, otter), 0.5, NOW)
    store.keep_tapping("other", begun(store, otter), 0.75, NOW)
    rows = sqlite3.connect(store.path)
    with rows:
        rows.execute(f"UPDATE tapping SET {column} = ? WHERE id = 'one'", (value,))
    rows.close()
    assert store.tappings(otter) == (Tapping(NOW.timestamp(), 0.75),)


def test_removing_a_learner_leaves_no_trace_in_the_file(store):
    heron = added(store, "Heron-by-the-quay", "heron")
    slip = Attempt("five-add-1", FLASHED, False, False, 0, ("slip-on-the-gangway",))
    store.record_flash(new_id(), keep(store, heron, slip), RUN, NOW)
    store.keep_tapping(new_id(), begun(store, heron), 0.5, NOW)
    traces = [b"Heron-by-the-quay", b"slip-on-the-gangway", RUN.path.encode(), b"999.5"]
    assert all(trace in store.path.read_bytes() for trace in traces)
    store.remove_learner(heron, NOW)
    assert store.learners() == store.tries(heron) == store.flash_runs(heron) == ()
    rows = sqlite3.connect(store.path)
    tables = [name for (name,) in rows.execute("SELECT name FROM sqlite_master WHERE type='table'")]
    assert {"learner", "sitting", "attempt", "lesson", "flash_run", "tapping"} <= set(tables)
    assert rows.execute("SELECT learner FROM gone").fetchall() == [(heron.id,)]
    for table in set(tables) - {"gone"}:
        assert rows.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
    rows.close()
    assert not [trace for trace in traces if trace in store.path.read_bytes()]


@pytest.mark.parametrize("content", [b"no database at all" * 100, b"\0" * 5000])
def test_an_unreadable_file_is_moved_aside_and_kept(tmp_path, content):
    path = tmp_path / "learners.sqlite"
    path.write_bytes(content)
    store = Store(path)
    assert store.learners() == ()
    store.close()
    assert (tmp_path / "learners.unreadable-1").read_bytes() == content


def test_a_newer_file_is_refused_and_untouched(tmp_path):
    path = tmp_path / "learners.sqlite"
    newer = sqlite3.connect(path)
    newer.execute("PRAGMA user_version = 99")
    newer.close()
    before = path.read_bytes()
    with pytest.raises(StoreError) as caught:
        Store(path)
    assert caught.value.trouble is Trouble.NEWER and caught.value.found == "99"
    assert path.read_bytes() == before


def test_a_place_that_cannot_be_written_is_a_store_error(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError):
        Store(tmp_path / "file" / "learners.sqlite")


KILLED = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from frame.course.attempts import Position
from frame.learner.settings import Settings
from frame.learner.sitting import Circumstances
from frame.learner.learners import Learner, new_id
from frame.learner.store import LessonState, Store
from frame.technique.conventions import USUAL
now = datetime(2026, 5, 4, tzinfo=UTC)
store = Store(Path(sys.argv[1]))
crab = Learner.new("Crab", "crab")
store.add_learner(crab, Settings(), now)
sitting = new_id()
store.begin_sitting(sitting, crab, Circumstances(USUAL, (1280, 720), 1), now)
for step in range(1, 10_000):
    store.record(sitting, [], crab, "beads-1", LessonState(1, Position(step), False), now)
    print(step, flush=True)
"""


def test_what_was_acknowledged_survives_a_kill(tmp_path):
    path = tmp_path / "learners.sqlite"
    command = [sys.executable, "-c", KILLED, str(path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as child:
        acknowledged = [int(child.stdout.readline()) for _ in range(20)][-1]
        child.kill()
    store = Store(path)
    (crab,) = store.learners()
    assert store.lessons(crab)["beads-1"].position.step >= acknowledged > 0
    store.close()


def test_what_was_chosen_to_practise_is_kept_beside_the_settings(store):
    otter, seal = (added(store, name, "otter") for name in ("Otter", "Seal"))
    assert store.choices(otter) == {}
    store.keep_choices(otter, {"asked": "called", "called": {"digits": 3, "pace": None}}, NOW)
    store.save_settings(otter, replace(store.settings(otter), free_rods=5), NOW)
    assert store.choices(otter) == {"asked": "called", "called": {"digits": 3, "pace": None}}
    assert store.settings(otter).free_rods == 5
    store.keep_choices(otter, {"asked": "shown"}, NOW)
    assert store.choices(otter) == {"asked": "shown"}
    assert store.settings(otter).free_rods == 5
    assert store.choices(seal) == {}
    store.keep_choices(otter, {"part": "whole"}, NOW, Chosen.PAPER)
    assert store.choices(otter, Chosen.PAPER) == {"part": "whole"}
    assert store.choices(otter) == {"asked": "shown"}
    store.remove_learner(otter, NOW)
    assert store.choices(otter) == {}
