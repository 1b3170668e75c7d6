"""A file of an earlier version is brought up to date with all that it holds, or left as it was."""

import sqlite3
from datetime import UTC, datetime

import pytest

from frame.course.attempts import Attempt, Place
from frame.learner.rows import FlashRow
from frame.learner.settings import Settings
from frame.learner.store import Learner, LessonState, Store, StoreError
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.ladder import Try
from frame.practice.rungs import Rung
from frame.technique.expression import parse_sum

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)

# As version 0.1.0 of this program wrote it.
FIRST = """
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL);
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT);
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL);
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, PRIMARY KEY (learner, lesson));
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
PRAGMA user_version = 1;
INSERT INTO learner VALUES ('l1', 'Otter', 'otter', '{"left_handed": true}', '2026-05-01');
INSERT INTO sitting VALUES ('s1', 'l1', '2026-05-01T09:00:00+00:00', NULL);
INSERT INTO attempt VALUES ('a1', 's1', '2026-05-01T09:01:00+00:00', 'five-add-1', '4 + 3', 'sum',
    'alone', 1, '["add-five-3", "set-digit-4"]', 1, 1, 0, '[]', 4.5);
INSERT INTO attempt VALUES ('a2', 's1', '2026-05-01T09:02:00+00:00', 'five-add-5', '4 + 1', 'sum',
    'covered', 1, '["add-five-1", "set-digit-4"]', 0, 0, 1, '["wrong-answer"]', 9.0);
INSERT INTO lesson VALUES ('l1', 'five-add-1', 7, 3, 2, 0, 1, '2026-05-01T09:02:00+00:00');
"""
OTTER = Learner("l1", "Otter", "otter")


def write(path, script):
    rows = sqlite3.connect(path)
    rows.executescript(script)
    rows.close()


def ask(path, question):
    rows = sqlite3.connect(path)
    found = rows.execute(question).fetchall()
    rows.close()
    return found


@pytest.fixture
def old(tmp_path):
    write(tmp_path / "learners.sqlite", FIRST)
    return tmp_path / "learners.sqlite"


@pytest.fixture
def store(old):
    opened = Store(old)
    yield opened
    opened.close()


def test_everything_is_still_there(store):
    assert store.learners() == (OTTER,)
    assert store.settings(OTTER) == Settings(left_handed=True)
    assert store.lessons(OTTER) == {"five-add-1": LessonState(7, Place(3, 2, 0, 1), True)}
    assert store.attempts(OTTER) == (
        ("five-add-1", "4 + 3", True, True), ("five-add-5", "4 + 1", False, False),
    )  # fmt: skip


def test_the_ladder_sees_old_attempts_as_shown_and_without_looks(store):
    facts = [frozenset({"set-digit-4", f"add-five-{number}"}) for number in (3, 1)]
    assert store.tries(OTTER) == (
        Try(Family.ADD_FIVE, 1, Rung.ALONE, True, 0, 4.5, facts[0]),
        Try(Family.ADD_FIVE, 1, Rung.COVERED, False, 0, 9.0, facts[1]),
    )


def test_how_an_old_attempt_ended_stays_unknown(store):
    assert ask(store.path, "SELECT DISTINCT outcome FROM attempt") == [(None,)]


def test_old_and_new_stand_side_by_side_and_go_together(store):
    exercise = Exercise(Kind.SUM, parse_sum("3 + 4"))
    sitting = store.begin_sitting(OTTER, NOW)
    attempt = Attempt("five-add-1", exercise, True, True, 0, (), looks=1)
    state = LessonState(7, Place(4), True)
    store.record(sitting, [(attempt, 3.0)], OTTER, "five-add-1", state, NOW)
    run = FlashRow(1, 2, 1.0, False, "plain", 60.0, 0.1, 0.2, 0.0, 0, False, True, ((0.0, 0.1),))
    store.record_flash(sitting, run, NOW)
    assert [one.looks for one in store.tries(OTTER)] == [0, 0, 1]
    store.remove_learner(OTTER)
    for table in ("learner", "sitting", "attempt", "lesson", "flash_run"):
        assert ask(store.path, f"SELECT count(*) FROM {table}") == [(0,)]


def test_a_file_brought_up_to_date_has_the_layout_of_a_new_one(store, tmp_path):
    new = Store(tmp_path / "new.sqlite")
    new.close()
    layout = "SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name"
    assert ask(store.path, layout) == ask(new.path, layout)
    assert ask(store.path, "PRAGMA user_version") == ask(new.path, "PRAGMA user_version") == [(2,)]


def test_it_happens_once(store):
    before = store.path.read_bytes()
    Store(store.path).close()
    assert store.path.read_bytes() == before


def test_a_file_that_cannot_be_brought_up_to_date_is_left_as_it_was(old):
    """Half of the new layout is there already, so the other half must not come alone."""
    write(old, "CREATE TABLE flash_run (id TEXT)")
    before = ask(old, "SELECT sql FROM sqlite_master"), ask(old, "SELECT * FROM attempt")
    with pytest.raises(StoreError) as caught:
        Store(old)
    assert not caught.value.is_newer
    assert (ask(old, "SELECT sql FROM sqlite_master"), ask(old, "SELECT * FROM attempt")) == before
    assert ask(old, "PRAGMA user_version") == [(1,)]
    assert [path.name for path in old.parent.iterdir()] == [old.name]
