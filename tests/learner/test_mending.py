"""Of a damaged file nobody comes who never was, and who was keeps what they did."""

import sqlite3
from contextlib import closing

import pytest
from computers import RUN, TRIED
from kept import NOW, added, begun, timed

from frame.course.attempts import Position
from frame.learner.ids import new_id
from frame.learner.kept_sets import KeptSet
from frame.learner.store import LessonState, Store

BADLY_DAMAGED = {"long": "0" * 33, "short": "12", "none": "", "other letters": "\ufffd" * 32}


@pytest.fixture
def path(tmp_path):
    """An otter with two sittings, three exercises in each, and a seal with one; a lesson and a set
    of each."""
    path = tmp_path / "learners.sqlite"
    with closing(Store(path)) as store:
        for name, sittings in (("Otter", 2), ("Seal", 1)):
            learner = added(store, name)
            for _ in range(sittings):
                tried, state = timed(*[(TRIED, 1.0)] * 3), LessonState(1, Position(1), done=True)
                store.record(begun(store, learner), tried, learner, "beads-1", state, NOW)
            store.keep_set(learner, KeptSet(new_id(), "Quay", {}), NOW)
    path.with_suffix(".good").unlink()
    return path


def damaged(path, *changes):
    """Values are other ones, and the file is one of which the rows are read."""
    with closing(sqlite3.connect(path)) as file, file:
        for statement, *facts in changes:
            assert file.execute(statement, facts).rowcount
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])


def found(path):
    """Of each name: how many exercises, lessons and sets."""
    with closing(Store(path)) as store:
        return sorted(
            (one.nickname, len(store.past(one)), len(store.lessons(one)), len(store.kept_sets(one)))
            for one in store.learners()
        )


def id_of(path, name):
    with closing(sqlite3.connect(path)) as file:
        return file.execute("SELECT id FROM learner WHERE nickname = ?", (name,)).fetchone()[0]


WHOLE = [("Otter", 6, 1, 1), ("Seal", 3, 1, 1)]
FIRST = "UPDATE {0} SET learner = ? WHERE rowid = (SELECT min(rowid) FROM {0} WHERE learner = ?)"
"""The first row of a child is another one's."""


@pytest.mark.parametrize("at", [0, 7, 8, 20, 30])
@pytest.mark.parametrize("letters", ["\ufffd", "\ufffd:", "z", "another"])
@pytest.mark.parametrize("table", ["sitting", "lesson", "kept_set", "learner"])
def test_an_id_with_a_damaged_letter_is_still_that_childs(path, table, letters, at):
    id = id_of(path, "Otter")
    if letters == "another":
        letters = "0" if id[at] != "0" else "1"
    text = id[:at] + letters + id[at + len(letters) :]
    if table == "learner":
        damaged(path, ("UPDATE learner SET id = ? WHERE id = ?", text, id))
    else:
        damaged(path, (FIRST.format(table), text, id))
    assert found(path) == WHOLE


@pytest.mark.parametrize("kind", BADLY_DAMAGED)
@pytest.mark.parametrize("table", ["sitting", "lesson", "kept_set"])
def test_what_cannot_be_an_id_makes_nobody(path, table, kind):
    damaged(path, (FIRST.format(table), BADLY_DAMAGED[kind], id_of(path, "Otter")))
    lost = {"sitting": (3, 1, 1), "lesson": (6, 0, 1), "kept_set": (6, 1, 0)}[table]
    assert found(path) == [("Otter", *lost), WHOLE[1]]


def test_who_cannot_be_read_and_did_something_has_it_without_a_name(path):
    damaged(path, ("DELETE FROM learner WHERE nickname = 'Otter'",))
    assert found(path) == [("?", 6, 1, 1), WHOLE[1]]


@pytest.mark.parametrize("what", ["nothing", "run", "tapping"])
def test_a_sitting_of_somebody_who_cannot_be_read_tells_of_one_where_something_was_done(path, what):
    with closing(Store(path)) as store:
        gull = added(store, "Gull")
        sitting = begun(store, gull)
        if what == "run":
            store.record_flash(new_id(), sitting, RUN, NOW)
        elif what == "tapping":
            store.keep_tapping(new_id(), sitting, 0.5, NOW)
    path.with_suffix(".good").unlink()
    damaged(path, ("DELETE FROM learner WHERE nickname = 'Gull'",))
    assert found(path) == ([] if what == "nothing" else [("?", 0, 0, 0)]) + WHOLE


def test_who_has_no_id_is_nobody_and_costs_nobody_else_anything(path):
    """A key may be nothing in SQLite, and then nothing is known not to be among the keys."""
    damaged(
        path,
        ("UPDATE learner SET id = NULL WHERE nickname = 'Otter'",),
        ("UPDATE sitting SET id = NULL WHERE learner = ? AND rowid = 1", id_of(path, "Otter")),
    )
    assert found(path) == [("?", 3, 1, 1), WHOLE[1]]
