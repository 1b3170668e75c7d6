"""No table is left out of what copies, joins or saves learners' files."""

import sqlite3
from contextlib import closing

import pytest
from computers import RUN, TRIED
from kept import NOW, added, begun, timed

from frame.course.attempts import Position
from frame.learner.assigned import Assigned, Work
from frame.learner.backups import back_up
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.learner.merging import merge
from frame.learner.papers import PaperTaken
from frame.learner.schema import TABLES
from frame.learner.store import LessonState, Store

OF_COMPUTER = {"computer"}
"""What stays on its computer."""
MADE_ANEW = {"folded"}


@pytest.fixture
def path(tmp_path):
    """A file with a row in each table, of a child under two ids who was deleted and came back."""
    path = tmp_path / "here" / "learners.sqlite"
    with closing(Store(path)) as store:
        store.set_code("4711")
        otter, again = added(store, "Otter"), added(store, "Otter 2")
        store.join(otter, again, NOW)
        sitting, state = begun(store, otter), LessonState(1, Position(1), done=True)
        store.record(sitting, timed((TRIED, 1.0)), otter, "beads-1", state, NOW)
        store.record_flash(new_id(), sitting, RUN, NOW)
        store.keep_tapping(new_id(), sitting, 0.5, NOW)
        store.keep_set(otter, KeptSet(new_id(), "Quay", {}), NOW)
        store.keep_paper(PaperTaken(sitting, NOW, "1000", 7, 10))
        store.assign([(otter, Assigned(new_id(), NOW, Work.DUE))])
        backup = tmp_path / "backup.sqlite"
        back_up(store, backup)
        store.remove_learner(otter, NOW)
        merge(store, backup, NOW, bring_back=True)
    return path


def filled(path):
    """The tables that have rows."""
    with closing(sqlite3.connect(path)) as file:
        return {
            name
            for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            if file.execute(f"SELECT count(*) FROM {name}").fetchone()[0]
        }


def test_all_tables_of_a_file_are_known_and_have_a_row_here(path):
    with closing(sqlite3.connect(path)) as file:
        names = {
            name for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        }
    assert names - MADE_ANEW == set(TABLES)
    assert filled(path) == set(TABLES)


def test_what_is_kept_of_one_learner_is_in_a_backup_of_theirs(path, tmp_path):
    backup = tmp_path / "otter.sqlite"
    with closing(Store(path)) as store:
        back_up(store, backup, store.learners()[0])
    assert filled(backup) == set(TABLES) - OF_COMPUTER


def test_another_file_is_taken_in_with_all_that_it_shares(path, tmp_path):
    there = tmp_path / "there" / "learners.sqlite"
    with closing(Store(there)) as store:
        merge(store, path, NOW)
    assert filled(there) == set(TABLES) - OF_COMPUTER


def test_of_a_damaged_file_all_is_saved(path):
    path.with_suffix(".good").unlink()
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    Store(path).close()
    assert filled(path) == set(TABLES)


@pytest.mark.parametrize("owner", ["learner", "sitting"])
def test_nothing_is_saved_that_belongs_to_nobody(path, owner):
    """Whoever can't be read gets no name; what was done in a sitting that can't be read goes."""
    path.with_suffix(".good").unlink()
    with closing(sqlite3.connect(path)) as file, file:
        file.execute(f"DELETE FROM {owner}")
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    Store(path).close()
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA foreign_key_check").fetchall() == []
    assert ("learner" in filled(path)) and ("attempt" in filled(path)) is (owner == "learner")
