"""What can't be written waits, in its order, and is written once when it can be."""

import os
import sqlite3
import stat
import sys
from contextlib import closing

import pytest
from kept import AROUND, NOW, added, begun

from frame.learner.keeper import Keeper
from frame.learner.learners import Learner
from frame.learner.settings import Settings
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble


class Refusing:
    """Writes that note their name, and fail for as long as they are told to."""

    def __init__(self):
        self.trouble = None
        self.done = []

    def write(self, name):
        def write(store):
            if self.trouble is not None:
                raise StoreError(None, "no", self.trouble)
            self.done.append(name)

        return write


@pytest.fixture
def keeper():
    keeper = Keeper(Store(None))
    yield keeper
    keeper.store.close()


def test_what_waits_is_written_in_its_order_and_once(keeper):
    writes = Refusing()
    keeper.write(writes.write("a"))
    writes.trouble = Trouble.FULL
    for name in "bcd":
        keeper.write(writes.write(name))
    assert keeper.is_unsaved and keeper.trouble.trouble is Trouble.FULL
    writes.trouble = None
    keeper.write(writes.write("e"))
    keeper.send()
    assert writes.done == list("abcde")
    assert not keeper.is_unsaved and keeper.trouble is None


def test_of_what_has_a_name_only_the_last_is_written_at_its_first_place(keeper):
    writes = Refusing()
    writes.trouble = Trouble.HELD
    keeper.write(writes.write("first"), "look")
    keeper.write(writes.write("between"))
    keeper.write(writes.write("last"), "look")
    writes.trouble = None
    keeper.send()
    assert writes.done == ["last", "between"]


def test_what_belongs_to_somebody_removed_meanwhile_does_not_hold_up_the_rest(tmp_path):
    path = tmp_path / "learners.sqlite"
    with closing(Store(path)) as here, closing(Store(path)) as there:
        otter, seal = added(here, "Otter"), added(here, "Seal")
        sitting = begun(here, otter)
        there.remove_learner(otter, NOW)
        keeper = Keeper(here)
        keeper.write(lambda store: store.begin_sitting("other", otter, AROUND, NOW))
        keeper.write(lambda store: store.record(sitting, [], otter, "beads-1", None, NOW))
        keeper.write(lambda store: store.begin_sitting("third", seal, AROUND, NOW))
        assert not keeper.is_unsaved
        assert there.learners() == (seal,)


def test_a_write_made_twice_changes_nothing(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as store:
        otter = Learner.new("Otter", "otter")
        for _ in range(2):
            store.add_learner(otter, Settings(), NOW)
            store.begin_sitting("sitting", otter, AROUND, NOW)
        assert store.learners() == (otter,)


def test_what_cannot_be_read_is_told_and_something_else_is_used(tmp_path):
    path = tmp_path / "learners.sqlite"
    with closing(Store(path)) as store:
        added(store, "Otter")
        keeper = Keeper(store)
        with closing(sqlite3.connect(path, isolation_level=None)) as holder:
            holder.execute("BEGIN EXCLUSIVE")
            assert keeper.read(Store.learners, ()) == ()
            assert keeper.trouble.trouble is Trouble.HELD
            assert not keeper.is_unsaved
        assert len(keeper.read(Store.learners, ())) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="on Windows a user's folder is their own")
def test_no_other_user_of_the_computer_can_read_it(tmp_path):
    folder = tmp_path / "bead-frame"
    folder.mkdir(mode=0o755)
    path = folder / "learners.sqlite"
    path.touch(mode=0o644)
    os.chmod(path, 0o644)
    for _ in range(2):
        store = Store(path)
        added(store, "Otter")
        store.close()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert {stat.S_IMODE(one.stat().st_mode) for one in folder.iterdir()} == {0o600}
    assert {one.name for one in folder.iterdir()} == {"learners.sqlite", "learners.good"}


def test_removing_takes_along_what_lies_beside(tmp_path):
    path = tmp_path / "learners.sqlite"
    store = Store(path)
    heron = added(store, "Heron-by-the-quay")
    seal = added(store, "Seal")
    store.close()
    content = bytearray(path.read_bytes())
    content[4096:4200] = bytes(104)
    path.write_bytes(content)
    store = Store(path)
    assert store.saved is not None and store.saved.aside.exists()
    assert set(store.learners()) == {heron, seal}
    store.remove_learner(heron, NOW)
    store.close()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["learners.good", "learners.sqlite"]
    for one in tmp_path.iterdir():
        assert b"Heron-by-the-quay" not in one.read_bytes()
    with closing(Store(path.with_suffix(".good"))) as copy:
        assert copy.learners() == (seal,)
