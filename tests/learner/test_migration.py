"""A file of an earlier version is brought up to date with all that it holds, or left as it was.

The files in `stores` are as the versions with schema 1 to 5 wrote them.
"""

import json
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from threading import Barrier

import pytest
from kept import begun, timed

from frame.course.attempts import Attempt, Position
from frame.learner.learners import Learner, new_id
from frame.learner.rows import FlashRow
from frame.learner.schema import SCHEMA
from frame.learner.settings import OF_COMPUTER, Age, Look, ScreenShape, Settings, settings_to
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.ladder import Try
from frame.practice.rungs import Rung
from frame.technique.conventions import Carry
from frame.technique.expression import parse_sum

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
LATER = datetime(2026, 12, 1, 9, 30, tzinfo=UTC)
STORES = Path(__file__).with_name("stores")
SCRIPTS = {1: "first.sql", 2: "second.sql", 3: "third.sql", 4: "fourth.sql", 5: "fifth.sql"}
TABLES = ("learner", "sitting", "attempt", "lesson", "flash_run")
RUN = FlashRow(
    digits=1, count=2, interval=1.0, minus=False, path="plain", refresh=60.0, sd_ms=0.1,
    worst_ms=0.2, drift_ms=0.0, missed=0, stopped=False, counts=True, items=((0.0, 0.1),),
)  # fmt: skip


def write(path, script):
    with closing(sqlite3.connect(path)) as rows:
        rows.executescript(script)


def ask(path, question):
    with closing(sqlite3.connect(path)) as rows:
        return rows.execute(question).fetchall()


def old_file(folder, version, name="learners.sqlite"):
    path = folder / name
    write(path, (STORES / SCRIPTS[version]).read_text("utf-8"))
    return path


def contents(path):
    """All rows of all tables, each a mapping of its columns, by table."""
    with closing(sqlite3.connect(path)) as database:
        database.row_factory = sqlite3.Row
        names = [name for (name,) in database.execute("SELECT name FROM sqlite_master")]
        return {
            name: [dict(row) for row in database.execute(f"SELECT * FROM {name} ORDER BY rowid")]
            for name in names
            if name in (*TABLES, "computer")
        }


@pytest.fixture(params=SCRIPTS)
def old(tmp_path, request):
    """A file of each earlier version."""
    return old_file(tmp_path, request.param)


@pytest.fixture
def store(old):
    """The same brought up to date."""
    with closing(Store(old)) as opened:
        yield opened


@pytest.fixture
def first(tmp_path):
    with closing(Store(old_file(tmp_path, 1))) as opened:
        yield opened


@pytest.fixture
def second(tmp_path):
    with closing(Store(old_file(tmp_path, 2))) as opened:
        yield opened


def test_the_old_files_are_of_every_version_before_this():
    assert list(SCRIPTS) == list(range(1, SCHEMA))


def test_every_value_is_still_there(old):
    before = contents(old)
    Store(old).close()
    after = contents(old)
    for table, rows in before.items():
        assert len(after[table]) == len(rows)
        for was, now in zip(rows, after[table], strict=True):
            settings = json.loads(was.pop("settings", "{}"))
            kept = json.loads(now.get("settings", "{}"))
            assert kept == {name: settings[name] for name in settings if name not in OF_COMPUTER}
            assert {name: now[name] for name in was} == was


def test_what_the_first_version_knew_is_read_as_before(first):
    (otter,) = first.learners()
    assert otter == Learner("l1", "Otter", "otter")
    assert first.settings(otter) == Settings(left_handed=True)
    assert first.lessons(otter) == {"five-add-1": LessonState(7, Position(3, 2, 0, 1), True, True)}
    assert first.attempts(otter) == (
        ("five-add-1", "4 + 3", True, True), ("five-add-5", "4 + 1", False, False),
    )  # fmt: skip
    facts = [frozenset({"set-digit-4", f"add-five-{number}"}) for number in (3, 1)]
    assert first.tries(otter) == (
        Try(Family.ADD_FIVE, 1, Rung.ALONE, True, 0, 4.5, facts[0], digits=1, terms=2),
        Try(Family.ADD_FIVE, 1, Rung.COVERED, False, 0, 9.0, facts[1], digits=1, terms=2),
    )
    assert ask(first.path, "SELECT DISTINCT outcome FROM attempt") == [(None,)]


def test_old_attempts_get_the_size_of_their_exercise_where_it_can_be_read(second):
    otter, seal, _ = second.learners()
    texts = [text for _, text, _, _ in second.attempts(otter)]
    sizes = [(one.digits, one.terms, one.pace) for one in second.tries(otter)]
    assert dict(zip(texts, sizes, strict=True)) == {
        "7": (1, 1, 0.0),
        "4 + 3": (1, 2, 0.0),
        "38 + 47 - 5": (2, 3, 0.0),
        "37 x 432": (3, 0, 0.0),
        "sqrt 1764": (4, 0, 0.0),
        "0.25 + 13.5": (3, 2, 0.0),
        "12 + 34 + 56": (2, 3, 1.5),
        "two boats and a crab": (0, 0, 0.0),
    }
    assert [(one.digits, one.terms, one.pace) for one in second.tries(seal)] == [(1, 2, 0.5)]


def test_what_was_done_was_mastered_too(second):
    otter, seal, crab = second.learners()
    assert second.lessons(otter) == {"five-add-1": LessonState(7, Position(3, 2, 0, 1), True, True)}
    assert second.lessons(seal) == {"mind-one-5": LessonState(9, Position(1), False, False)}
    assert second.lessons(crab) == {}
    done, mastered = ask(second.path, "SELECT done, mastered FROM lesson")[0]
    assert done == mastered


def test_the_computer_gets_the_room_of_the_first_who_had_one(second):
    """Seal's room, whole, and not that of Crab, who alone had the quick numbers."""
    room = {
        "classroom": True, "screen_diagonal": 1.4, "screen_shape": ScreenShape.OLD,
        "nearest_seat": 3.0, "farthest_seat": 9.0, "quick_flash": True,
    }  # fmt: skip
    assert set(room) == OF_COMPUTER
    assert second.computer() == Settings(**room)
    otter, seal, crab = second.learners()
    dark = Settings(left_handed=True, carry=Carry.FIRST, look=Look.DARK, **room)
    assert second.settings(otter) == dark
    assert second.settings(seal) == Settings(age=Age.YOUNG, **room)
    assert second.settings(crab) == Settings(**room)


def test_where_nobody_had_changed_anything_the_computer_has_nothing_kept(first):
    assert ask(first.path, "SELECT * FROM computer") == []
    assert first.computer() == Settings()


@pytest.mark.parametrize(
    "damaged", ["", "{", "[]", "5", '{"classroom": 7}', "{" * 9999, "[" * 99999]
)
def test_settings_that_cannot_be_read_hold_nobody_up(tmp_path, damaged):
    path = old_file(tmp_path, 2)
    with closing(sqlite3.connect(path)) as rows, rows:
        rows.execute("UPDATE learner SET settings = ? WHERE nickname = 'Seal'", (damaged,))
    with closing(Store(path)) as store:
        otter, seal, _ = store.learners()
        assert store.computer().screen_diagonal == 3.0
        assert store.settings(seal) == Settings().on(store.computer())
        assert store.settings(otter).left_handed


def test_settings_of_a_name_not_known_are_left_alone(tmp_path):
    path = old_file(tmp_path, 2)
    stored = {**settings_to(Settings()), "flag": "blue"}
    with closing(sqlite3.connect(path)) as rows, rows:
        rows.execute("UPDATE learner SET settings = ?", (json.dumps(stored),))
    Store(path).close()
    for (text,) in ask(path, "SELECT settings FROM learner"):
        assert json.loads(text)["flag"] == "blue"


def test_old_and_new_stand_side_by_side_and_go_together(store):
    exercise = Exercise(Kind.SUM, parse_sum("3 + 4"))
    learners = store.learners()
    otter, before = learners[0], len(store.tries(learners[0]))
    sitting = begun(store, otter)
    attempt = Attempt("five-add-1", exercise, True, True, 0, (), looks=5)
    state = LessonState(7, Position(4), True, True)
    store.record(sitting, timed((attempt, 3.0)), otter, "five-add-1", state, LATER)
    store.record_flash(new_id(), sitting, RUN, NOW)
    assert len(store.tries(otter)) == before + 1
    assert store.tries(otter)[-1].looks == 5
    assert RUN in store.flash_runs(otter)
    for learner in learners:
        store.remove_learner(learner, NOW)
    left = contents(store.path)
    assert [table for table in TABLES if left[table]] == []


def test_a_file_brought_up_to_date_has_the_layout_of_a_new_one(store, tmp_path):
    new = Store(tmp_path / "new.sqlite")
    new.close()
    layout = "SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name"
    assert ask(store.path, layout) == ask(new.path, layout)
    version = [(SCHEMA,)]
    assert ask(store.path, "PRAGMA user_version") == ask(new.path, "PRAGMA user_version") == version


def test_it_happens_once(store):
    before = store.path.read_bytes()
    Store(store.path).close()
    assert store.path.read_bytes() == before


def test_two_windows_opened_at_once_do_it_once(tmp_path):
    path, both = old_file(tmp_path, 2), Barrier(2)

    def open_it(_):
        both.wait(10)
        with closing(Store(path, patience=10)) as store:  # The machine may be slow.
            return store.computer()

    with ThreadPoolExecutor(2) as threads:
        one, other = threads.map(open_it, range(2))
    assert one == other != Settings()


def test_a_file_that_cannot_be_brought_up_to_date_is_kept_and_what_it_holds_is_saved(old):
    """A part of the new layout is there already, so the rest must not come alone."""
    write(old, "CREATE TABLE assigned (odd TEXT)")
    before = old.read_bytes()
    store = Store(old)
    assert store.saved.aside.read_bytes() == before
    here, there = contents(old), contents(store.saved.aside)
    for table in TABLES:
        assert [row["id" if "id" in row else "lesson"] for row in here[table]] == [
            row["id" if "id" in row else "lesson"] for row in there.get(table, ())
        ]
    assert store.saved.learners == len(store.learners()) > 0
    store.close()


@pytest.mark.parametrize("version", SCRIPTS)
def test_what_comes_from_an_older_good_copy_is_brought_up_to_date_too(tmp_path, version):
    """A file of this version is damaged before it was first closed in peace."""
    (tmp_path / "other").mkdir()
    migrated = old_file(tmp_path / "other", version)
    Store(migrated).close()
    path = tmp_path / "learners.sqlite"
    Store(path).close()
    old_file(tmp_path, version, "learners.good")
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    with closing(Store(path)) as store:
        assert store.saved is not None
    assert contents(path) == contents(migrated)
