"""A backup holds all that is kept, or all of one learner and nothing else; none is half there."""

import os
import sqlite3
import stat
import sys
from contextlib import closing
from datetime import timedelta

import pytest
from computers import RUN, SHARED, TRIED, rows_of
from kept import NOW, added, begun, timed

from frame.course.attempts import Position
from frame.learner.backups import BackedUp, back_up
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.learner.merging import Merged, merge
from frame.learner.settings import Settings
from frame.learner.store import LessonState, Store, StoreError
from frame.learner.trouble import Trouble


def done(store, learner, count):
    sitting, state = begun(store, learner), LessonState(1, Position(count), True)
    store.record(sitting, timed(*[(TRIED, 1.0)] * count), learner, "beads-1", state, NOW)
    store.record_flash(new_id(), sitting, RUN, NOW)
    store.keep_tapping(new_id(), sitting, 0.5, NOW)


@pytest.fixture
def store(tmp_path):
    """An otter under two ids, who did three exercises, and a seal, who did two; one is gone."""
    with closing(Store(tmp_path / "here" / "learners.sqlite")) as store:
        otter, again, seal, fox = (
            added(store, name) for name in ("Otter", "Otter 2", "Seal", "Fox")
        )
        store.join(otter, again, NOW)
        store.remove_learner(fox, NOW)
        for learner, count in ((otter, 1), (again, 2), (seal, 2)):
            done(store, learner, count)
            one, gone = (KeptSet(new_id(), f"{name} {count}", {}) for name in ("Quay", "Pier"))
            store.keep_set(learner, one, NOW)
            store.keep_set(learner, gone, NOW)
            store.remove_set(gone, NOW)
        store.set_code("2580")
        store.save_settings(otter, Settings(free_rods=7), NOW + timedelta(seconds=1))
        yield store


@pytest.fixture
def path(tmp_path):
    folder = tmp_path / "documents"
    folder.mkdir(mode=0o755)
    return folder / "backup.sqlite"


def test_a_backup_of_all_is_all_there_is(store, path):
    assert back_up(store, path) == BackedUp(learners=2, attempts=5)
    assert rows_of(path) == rows_of(store.path)
    with closing(Store(path)) as copy:
        assert copy.is_code("2580")
    assert merge(store, path, NOW) == Merged()


def test_a_backup_of_one_learner_holds_all_of_them_and_nothing_else(store, path, tmp_path):
    otter, seal = store.learners()
    assert back_up(store, path, otter) == BackedUp(learners=1, attempts=3)
    content = path.read_bytes()
    assert b"Seal" not in content and b"Quay 2" in content and b"Pier" not in content
    assert content.count(b"Quay") == 2 and seal.id.encode() not in content
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("SELECT * FROM computer").fetchall() == []
    with closing(Store(tmp_path / "there" / "learners.sqlite")) as there:
        assert merge(there, path, NOW) == Merged(learners=1, attempts=3, is_new=True)
        assert there.learners() == (otter,)
        for ask in (
            Store.settings, Store.lessons, Store.tries, Store.flash_runs, Store.tappings,
            Store.kept_sets, Store.ids_of,
        ):  # fmt: skip
            assert ask(there, otter) == ask(store, otter)
        assert len(there.kept_sets(otter)) == 2 and not there.has_code()
    assert merge(store, path, NOW) == Merged()


def test_who_was_brought_back_comes_back_elsewhere_by_their_own_backup(store, path, tmp_path):
    otter = store.learners()[0]
    old = tmp_path / "old.sqlite"
    back_up(store, old)
    with closing(Store(tmp_path / "there" / "learners.sqlite")) as there:
        merge(there, old, NOW)
        store.remove_learner(otter, NOW)
        merge(there, store.path, NOW)
        assert otter not in there.learners()
        merge(store, old, NOW, bring_back=True)
        back_up(store, path, otter)
        merge(there, path, NOW)
        assert otter in there.learners() and rows_of(there.path) == rows_of(store.path)


def test_what_is_restored_is_what_was_backed_up(store, path):
    before = rows_of(store.path)
    back_up(store, path)
    for learner in store.learners():
        store.remove_learner(learner, NOW)
    assert len(merge(store, path, NOW, bring_back=True).back) == 2
    after = rows_of(store.path)
    assert {name: after[name] for name in SHARED if name != "gone"} == {
        name: before[name] for name in SHARED if name != "gone"
    }


@pytest.mark.skipif(sys.platform == "win32", reason="on Windows a user's folder is their own")
def test_no_other_user_can_read_it_and_the_folder_stays_as_it_was(store, path):
    back_up(store, path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o755


def left(path):
    return [one.name for one in path.parent.iterdir()]


@pytest.mark.parametrize("one", [False, True])
def test_nothing_is_written_over(store, path, one):
    path.write_bytes(b"crates")
    with pytest.raises(StoreError) as caught:
        back_up(store, path, store.learners()[0] if one else None)
    assert (caught.value.trouble, caught.value.where) == (Trouble.TAKEN, path)
    assert path.read_bytes() == b"crates" and left(path) == [path.name]


@pytest.mark.parametrize("one", [False, True])
@pytest.mark.parametrize("place", ["none/b.sqlite", "in-the-way/b.sqlite", "w" * 300])
def test_a_place_where_nothing_can_be_written_is_told(store, path, place, one):
    (path.parent / "in-the-way").write_bytes(b"")
    there = path.parent / place
    with pytest.raises(StoreError) as caught:
        back_up(store, there, store.learners()[0] if one else None)
    assert caught.value.where == there
    assert left(path) == ["in-the-way"]


@pytest.mark.parametrize("one", [False, True])
def test_a_file_that_is_held_is_told_and_nothing_is_left(store, path, one):
    learner = store.learners()[0] if one else None
    with closing(sqlite3.connect(store.path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreError) as caught:
            back_up(store, path, learner)
    assert (caught.value.trouble, caught.value.where) == (Trouble.HELD, store.path)
    assert left(path) == []
    assert back_up(store, path, learner).learners


@pytest.mark.skipif(sys.platform == "win32", reason="limits of processes are POSIX")
@pytest.mark.parametrize("one", [False, True])
@pytest.mark.parametrize("pages", [0, 1, 9, 25])
def test_a_full_disk_leaves_nothing_half_done(store, path, one, pages):
    import resource

    learner = store.learners()[0] if one else None
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096 * pages + 1, usual[1]))
    try:
        with pytest.raises(StoreError) as caught:
            back_up(store, path, learner)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)
    assert (caught.value.trouble, caught.value.where) == (Trouble.FULL, path)
    assert left(path) == []


def test_what_was_left_half_done_by_a_killed_process_does_not_matter(store, path):
    path.with_name(f"{path.name}.part-{os.getpid()}").write_bytes(b"half")
    back_up(store, path)
    assert left(path) == [path.name]
