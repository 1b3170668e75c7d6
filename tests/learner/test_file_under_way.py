"""What happens to the learners' file between two starts, or under an open window."""

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from kept import NOW, added, begun
from processes import running
from rights import without_rights

from frame.learner.keeper import Keeper
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble

"""A user without rights, whom a process of the system's own may become for a while."""


@pytest.fixture
def path():
    """Where a file with an otter lies, and its good copy; any user could come there."""
    with TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        path = Path(folder) / "bead-frame" / "learners.sqlite"
        with closing(Store(path)) as store:
            begun(store, added(store, "Otter"))
        yield path


def names(store):
    return [one.nickname for one in store.learners()]


@pytest.mark.parametrize("left", [None, b""], ids=["gone", "empty"])
def test_a_file_that_is_gone_comes_back_from_its_good_copy(path, left):
    path.unlink()
    if left is not None:
        path.write_bytes(left)
    with closing(Store(path)) as store:
        assert names(store) == ["Otter"]
        assert (store.saved.learners, store.saved.aside) == (1, None)
        added(store, "Seal")
    with closing(Store(path)) as store:
        assert names(store) == ["Otter", "Seal"] and store.saved is None
    assert sorted(one.name for one in path.parent.iterdir()) == ["learners.good", path.name]


@pytest.mark.parametrize("left", [None, b""], ids=["gone", "empty"])
def test_a_journal_that_was_left_over_is_not_played_back_into_what_comes_from_the_good_copy(
    path, left
):
    journal = path.with_name(f"{path.name}-journal")
    with closing(sqlite3.connect(path, isolation_level=None)) as writer:
        writer.execute("PRAGMA cache_size = 1")  # So that what is written over is on disk at once.
        writer.execute("BEGIN")
        writer.execute("UPDATE learner SET nickname = 'Crab'")
        writer.execute("CREATE TABLE crates AS SELECT randomblob(99999) AS lamp")
        kept = journal.read_bytes()
        assert len(kept) > 4096
        writer.execute("ROLLBACK")
    with closing(Store(path)) as store:
        store.rename(Learner(store.learners()[0].id, "Heron", "heron"), NOW)
    path.unlink()
    if left is not None:
        path.write_bytes(left)
    journal.write_bytes(kept)
    with closing(Store(path)) as store:
        assert names(store) == ["Heron"]
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert not journal.exists() and path.with_name("learners.unreadable-1-journal").exists()


@pytest.mark.parametrize("good", [None, b"", b"rubbish"], ids=["none", "empty", "damaged"])
def test_without_a_good_copy_a_file_that_is_gone_is_a_new_one(path, good):
    path.unlink()
    path.with_suffix(".good").unlink()
    if good is not None:
        path.with_suffix(".good").write_bytes(good)
    with closing(Store(path)) as store:
        assert names(store) == []


def test_what_another_window_put_in_its_place_is_written_to(path):
    with closing(Store(path)) as first:
        added(first, "Heron")
        content = bytearray(path.read_bytes())
        content[20:60] = bytes(40)
        path.write_bytes(content)
        with closing(Store(path)) as second:
            assert second.saved is not None
            added(first, "Seal")
            assert sorted(names(second)) == ["Heron", "Otter", "Seal"]
    with closing(Store(path)) as store:
        assert sorted(names(store)) == ["Heron", "Otter", "Seal"]


of_an_open_file = pytest.mark.skipif(
    sys.platform == "win32", reason="no file that is open can be removed there"
)


@of_an_open_file
@pytest.mark.parametrize("has_good_copy", [True, False])
def test_a_file_that_is_removed_meanwhile_is_put_back_with_all_that_it_held(path, has_good_copy):
    keeper = Keeper(Store(path))
    keeper.write(lambda store: added(store, "Heron"))
    path.unlink()
    if not has_good_copy:
        path.with_suffix(".good").unlink()
    keeper.write(lambda store: added(store, "Seal"))
    assert not keeper.is_unsaved and path.stat().st_mode & 0o077 == 0
    keeper.store.close()
    assert sorted(one.name for one in path.parent.iterdir()) == ["learners.good", path.name]
    with closing(Store(path)) as store:
        assert names(store) == ["Otter", "Heron", "Seal"] and store.saved is None


@of_an_open_file
def test_a_file_that_is_removed_meanwhile_is_read_as_before(path):
    with closing(Store(path)) as store:
        path.unlink()
        assert names(store) == ["Otter"]


@of_an_open_file
def test_who_deletes_the_folder_meanwhile_has_deleted_everything_and_nothing_is_silent(path):
    keeper = Keeper(Store(path))
    keeper.write(lambda store: added(store, "Heron"))
    shutil.rmtree(path.parent)
    keeper.write(lambda store: added(store, "Seal"))
    assert keeper.is_unsaved and keeper.trouble.where == path
    with pytest.raises(StoreError):
        keeper.store.learners()
    keeper.store.close()
    assert not path.parent.exists()


@pytest.mark.skipif(sys.platform == "win32", reason="modes of files are for POSIX alone")
def test_a_file_that_becomes_writable_is_written(path):
    with without_rights(path.parent, path):
        path.chmod(0o400)
        path.parent.chmod(0o500)
        keeper = Keeper(Store(path))
        keeper.write(lambda store: added(store, "Seal"))
        assert keeper.trouble.trouble is Trouble.CLOSED
        keeper.send()
        assert keeper.is_unsaved and names(keeper.store) == ["Otter"]
        path.parent.chmod(0o700)
        path.chmod(0o600)
        for _ in range(2):  # What was read in between has opened it as it was.
            keeper.send()
        assert not keeper.is_unsaved and names(keeper.store) == ["Otter", "Seal"]
        keeper.store.close()


def test_closing_does_not_wait_for_who_holds_the_file_and_the_good_copy_stays(path):
    store = Store(path)
    added(store, "Seal")
    good = path.with_suffix(".good").read_bytes()
    with closing(sqlite3.connect(path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        store.close()
    assert path.with_suffix(".good").read_bytes() == good
    assert sorted(one.name for one in path.parent.iterdir()) == ["learners.good", path.name]


def test_the_good_copy_of_another_file_is_set_aside_and_goes_with_who_is_removed(path):
    other = path.with_name("backup.sqlite")
    with closing(Store(other)) as store:
        fox = added(store, "Fox")
    with closing(Store(path)) as store:
        other.replace(path)
        added(store, "Seal")
        assert names(store) == ["Fox", "Seal"]
    aside = path.with_suffix(".other-1")
    with closing(Store(aside)) as copy:
        assert names(copy) == ["Otter"]
    aside.with_suffix(".good").unlink(missing_ok=True)
    with closing(Store(path)) as store:
        store.remove_learner(fox, NOW)
    assert not aside.exists()


@pytest.fixture
def ended():
    """The number of a process that is there no more."""
    process = subprocess.Popen([sys.executable, "-c", ""])
    process.wait()
    return process.pid


def test_who_is_removed_goes_from_all_that_is_written_beside_the_file_and_from_nothing_else(
    path, ended
):
    own = os.getpid()
    goes = [
        "learners.unreadable-1", "learners.unreadable-12-journal", "learners.other-2",
        f"learners.fresh-{ended}", f"learners.saved-{own}-journal", f"learners.read-{ended}",
        f"learners.merging-{ended}/other.sqlite",
    ]  # fmt: skip
    stays = [
        "learners.before-2026.sqlite", "learners.other-school", "learners.unreadable-1.txt",
        "learners.merging-2 backups/all.sqlite", f"pupils.fresh-{ended}", "learnersXother-1",
    ]  # fmt: skip
    for name in (*goes, *stays):
        there = path.parent / name
        there.parent.mkdir(exist_ok=True)
        there.write_bytes(b"crates")
    with closing(Store(path)) as store:
        store.remove_learner(store.learners()[0], NOW)
    assert [name for name in goes if (path.parent / name).exists()] == []
    assert [name for name in stays if not (path.parent / name).exists()] == []


@pytest.mark.skipif(sys.platform == "win32", reason="what is in use can't be removed there")
def test_what_another_process_is_at_is_left_to_it(path):
    with running(sys.executable, "-c", "input()") as other, closing(Store(path)) as store:
        under_way = path.with_name(f"learners.merging-{other.pid}")
        under_way.mkdir()
        store.remove_learner(store.learners()[0], NOW)
        with store.copies.workplace():
            assert under_way.exists()


def test_folders_on_the_way_to_the_file_are_made(tmp_path):
    with closing(Store(tmp_path / "quay" / "shed" / "learners.sqlite")) as store:
        added(store, "Seal")
    assert (tmp_path / "quay" / "shed" / "learners.good").exists()


def test_what_is_kept_in_memory_is_in_no_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with closing(Store(None)) as store:
        added(store, "Seal")
        assert names(store) == ["Seal"] and store.saved is None
    assert not list(tmp_path.iterdir())
