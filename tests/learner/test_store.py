"""The store keeps every step, refuses what it does not know, and never writes over a file."""

import sqlite3
import subprocess
import sys
from datetime import UTC, datetime
from decimal import Decimal

import pytest

from frame.course.attempts import Attempt, Place
from frame.learner.settings import Age, Settings, Volume, settings_from, settings_to
from frame.learner.store import LessonState, Store, StoreError
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import Sum

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
SUM = Exercise(Kind.SUM, Sum((Decimal(3), Decimal(4))), rods=1)


@pytest.fixture
def store(tmp_path):
    opened = Store(tmp_path / "data" / "learners.sqlite")
    yield opened
    opened.close()


def test_what_was_kept_is_there_in_a_new_process(store):
    otter = store.add_learner("Otter", "otter", NOW)
    sitting = store.begin_sitting(otter, NOW)
    attempt = Attempt("five-add-1", SUM, False, True, 1, ("wrong-count",))
    state = LessonState(7, Place(3, 2, 0, 1), False)
    store.record(sitting, {attempt: 4.5}, otter, "five-add-1", state, NOW)

    again = Store(store.path)
    assert again.learners() == (otter,)
    assert again.lessons(otter) == {"five-add-1": state}
    assert again.attempts(otter) == (("five-add-1", "3 + 4", True, False),)
    again.close()


def test_a_lesson_once_done_stays_done(store):
    seal = store.add_learner("Seal", "seal", NOW)
    sitting = store.begin_sitting(seal, NOW)
    store.record(sitting, {}, seal, "beads-1", LessonState(1, Place(9), True), NOW)
    store.record(sitting, {}, seal, "beads-1", LessonState(2, Place(1), False), NOW)
    assert store.lessons(seal)["beads-1"] == LessonState(2, Place(1), True)


def test_removing_a_learner_leaves_no_trace_in_the_file(store):
    heron = store.add_learner("Heron-by-the-quay", "heron", NOW)
    sitting = store.begin_sitting(heron, NOW)
    store.record(sitting, {}, heron, "beads-1", LessonState(1, Place(1), False), NOW)
    store.remove_learner(heron)
    assert store.learners() == ()
    rows = sqlite3.connect(store.path)
    for table in ("learner", "sitting", "attempt", "lesson"):
        assert rows.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
    rows.close()
    assert b"Heron-by-the-quay" not in store.path.read_bytes()


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
    assert caught.value.is_newer and caught.value.found == "99"
    assert path.read_bytes() == before


def test_a_place_that_cannot_be_written_is_a_store_error(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError):
        Store(tmp_path / "file" / "learners.sqlite")


def test_settings_round_trip_and_take_defaults_for_what_is_unknown():
    changed = Settings(age=Age.YOUNG, volume=Volume.OFF, free_rods=27, left_handed=True)
    assert settings_from(settings_to(changed)) == changed
    odd = {"age": "99", "free_rods": 400, "left_handed": "yes", "marks_every": True, "new": 1}
    assert settings_from(odd) == Settings()


KILLED = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from frame.course.attempts import Place
from frame.learner.store import LessonState, Store
now = datetime(2026, 5, 4, tzinfo=UTC)
store = Store(Path(sys.argv[1]))
crab = store.add_learner("Crab", "crab", now)
sitting = store.begin_sitting(crab, now)
for step in range(1, 10_000):
    store.record(sitting, {}, crab, "beads-1", LessonState(1, Place(step), False), now)
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
    assert store.lessons(crab)["beads-1"].place.step >= acknowledged > 0
    store.close()
