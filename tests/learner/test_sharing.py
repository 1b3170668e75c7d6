"""A folder that several computers share: nothing is lost and nothing counts twice, whoever writes
when, and whatever else lies there or goes wrong with it."""

import shutil
import sqlite3
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from computers import Computers, rows_of
from hypothesis import given, settings
from hypothesis import strategies as st
from kept import NOW, added
from processes import running
from test_merging import HISTORIES, lived

from frame.learner.assigned import Assigned, Work
from frame.learner.backups import back_up
from frame.learner.merging import merge
from frame.learner.sharing import LeftAside, own_name, share
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble

EXAMPLES = [4, pytest.param(150, marks=pytest.mark.proof)]
ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "drive").mkdir()
    return tmp_path / "drive"


@pytest.fixture
def two(tmp_path):
    """Two computers, with an otter on one and a seal on the other."""
    with closing(Computers(tmp_path / "computers", 2)) as computers:
        for store, name in zip(computers.stores, ("Otter", "Seal"), strict=True):
            added(store, name)
        yield computers.stores


def names(store):
    return sorted(one.nickname for one in store.learners())


def files(folder):
    return sorted(one.name for one in folder.iterdir())


def opened(path, folder):
    """What is sealed in a file of the folder."""
    plain = folder / "plain.sqlite"
    plain.write_bytes(path.read_bytes()[:-32])
    return closing(sqlite3.connect(plain))


def once(store, folder):
    return share(store, folder, None, NOW)


@pytest.mark.parametrize("examples", EXAMPLES)
def test_after_each_was_twice_at_the_folder_all_hold_the_same(examples):
    @given(history=HISTORIES, order=st.permutations((0, 1, 2)))
    @settings(max_examples=examples)
    def hold_the_same(history, order):
        with TemporaryDirectory() as place, closing(lived(Path(place), history)) as computers:
            folder = Path(place) / "drive"
            folder.mkdir()
            for here in (*order, *order):
                once(computers.stores[here], folder)
            assert rows_of(computers.paths[0]) == rows_of(computers.paths[1])
            assert rows_of(computers.paths[1]) == rows_of(computers.paths[2])

    hold_the_same()


def test_what_a_tutor_gives_comes_to_the_child_and_comes_back_done(two, folder):
    tutor, home = two
    otter = tutor.learners()[0]
    tutor.assign([(otter, Assigned("1", NOW, Work.DUE))])
    once(tutor, folder)
    assert once(home, folder).is_new
    home.tick_off(otter, Work.DUE, "", NOW)
    once(home, folder)
    once(tutor, folder)
    assert [one.done for one in tutor.assigned(otter)] == [NOW]


def test_each_writes_one_file_and_nothing_when_nothing_is_new(two, folder):
    here, there = two
    first = once(here, folder)
    assert (first.computers, first.is_new, files(folder)) == (0, False, [own_name(here)])
    once(there, folder)
    done = share(here, folder, first.written, NOW)
    assert done.computers == 1 and done.is_new and len(files(folder)) == 2
    before = [(one.stat().st_mtime_ns, one.read_bytes()) for one in sorted(folder.iterdir())]
    again = share(here, folder, done.written, NOW)
    assert not again.is_new and again.written == done.written
    assert before == [
        (one.stat().st_mtime_ns, one.read_bytes()) for one in sorted(folder.iterdir())
    ]


def test_a_file_that_did_not_change_is_not_read_again(two, folder, monkeypatch):
    here, there = two
    once(there, folder)
    once(here, folder)

    def refuse(*_):
        raise AssertionError("read again")

    with monkeypatch.context() as reading:
        reading.setattr("frame.learner.sharing.merge", refuse)
        assert not once(here, folder).is_new
    added(there, "Heron")
    once(there, folder)
    once(here, folder)
    assert "Heron" in names(here)


def test_nothing_of_the_computers_own_is_in_the_folder(two, folder, tmp_path):
    here, _ = two
    here.set_code("2580")
    here.share_in(folder)
    once(here, folder)
    with opened(folder / own_name(here), tmp_path) as file:
        assert file.execute("SELECT count(*) FROM computer").fetchone() == (0,)
        assert file.execute("SELECT count(*) FROM learner").fetchone() == (1,)
    assert str(folder).encode() not in (folder / own_name(here)).read_bytes()


def test_who_is_deleted_on_one_goes_from_the_others_and_stays_so(two, folder):
    here, there = two
    for store in (*two, *two):
        once(store, folder)
    here.remove_learner(next(one for one in here.learners() if one.nickname == "Seal"), NOW)
    for store in (here, there, here):
        once(store, folder)
    assert names(here) == names(there) == ["Otter"]
    for file in folder.iterdir():
        assert b"Seal" not in file.read_bytes()


@pytest.mark.parametrize("share_kept", [0.0, 0.3, 0.9, 0.999])
def test_a_file_that_is_torn_is_left_aside_and_taken_once_it_is_whole(two, folder, share_kept):
    here, there = two
    once(there, folder)
    path = folder / own_name(there)
    whole = path.read_bytes()
    path.write_bytes(whole[: round(share_kept * len(whole))])
    done = once(here, folder)
    assert [one.name for one in done.left] == [path.name] and not done.is_new
    assert names(here) == ["Otter"] and (folder / own_name(here)).exists()
    path.write_bytes(whole)
    done = once(here, folder)
    assert not done.left and names(here) == ["Otter", "Seal"]


@pytest.mark.parametrize("at", [0, 100, 4096, 9000, -1])
def test_of_a_damaged_file_nothing_is_taken(two, folder, at):
    here, there = two
    once(there, folder)
    path = folder / own_name(there)
    spoilt = bytearray(path.read_bytes())
    spoilt[at] ^= 1
    path.write_bytes(spoilt)
    before = rows_of(here.path)
    assert len(once(here, folder).left) == 1
    assert rows_of(here.path) == before


def test_what_else_lies_there_is_not_touched(two, folder):
    here, _ = two
    foreign = {
        "crabs.txt": b"claws",
        "all.sqlite": b"SQLite format 3",
        "bead-frame-0.shared": b"",
        f"bead-frame-{'0' * 32}.shared": b"not one of ours",
        f"{own_name(here)}.part-1": b"half",
    }
    for name, held in foreign.items():
        (folder / name).write_bytes(held)
    (folder / f"bead-frame-{'1' * 32}.shared").mkdir()
    done = once(here, folder)
    assert {one.name[11:12] for one in done.left} == {"0", "1"}
    assert {name: (folder / name).read_bytes() for name in foreign} == foreign
    assert names(here) == ["Otter"] and (folder / own_name(here)).is_file()


def test_a_file_of_a_newer_version_is_left_aside(two, folder, tmp_path):
    here, there = two
    once(there, folder)
    path = folder / own_name(there)
    with opened(path, tmp_path) as file:
        file.execute("PRAGMA user_version = 99")
    whole = (tmp_path / "plain.sqlite").read_bytes()
    path.write_bytes(whole + sha256(whole).digest())
    assert once(here, folder).left == (LeftAside(path.name, Trouble.NEWER),)


def test_a_drive_that_is_away_is_told_and_nothing_is_made_in_its_place(two, tmp_path):
    here, _ = two
    away = tmp_path / "away"
    with pytest.raises(StoreError) as found:
        once(here, away)
    assert found.value.trouble is Trouble.MISSING and found.value.where == away
    assert not away.exists()
    away.mkdir()
    once(here, away)
    assert files(away) == [own_name(here)]


def test_where_nothing_can_be_written_what_others_have_still_comes(two, folder, monkeypatch):
    here, there = two
    once(there, folder)

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as closed:
        closed.setattr("frame.learner.sharing._seal", refuse)
        with pytest.raises(StoreError) as found:
            once(here, folder)
    assert found.value.where == folder and found.value.trouble is Trouble.CLOSED
    assert names(here) == ["Otter", "Seal"] and files(folder) == [own_name(there)]


def test_a_copy_that_breaks_off_leaves_the_one_before(two, folder, monkeypatch):
    here, _ = two
    once(here, folder)
    before = (folder / own_name(here)).read_bytes()
    added(here, "Gull")

    def full(fresh, target):
        target.write_bytes(fresh.read_bytes()[:1000])
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr("frame.learner.sharing._seal", full)
        with pytest.raises(StoreError) as found:
            once(here, folder)
    assert found.value.trouble is Trouble.FULL
    assert files(folder) == [own_name(here)]
    assert (folder / own_name(here)).read_bytes() == before
    once(here, folder)
    assert (folder / own_name(here)).read_bytes() != before


def test_a_file_that_changes_while_it_is_read_waits_for_the_next_time(two, folder, monkeypatch):
    here, there = two
    once(there, folder)
    path = folder / own_name(there)

    def meanwhile(source, copy):
        path.write_bytes(source.read_bytes() + bytes(4096))
        return True

    with monkeypatch.context() as reading:
        reading.setattr("frame.learner.sharing._unseal", meanwhile)
        assert once(here, folder).left == (LeftAside(path.name, Trouble.HELD),)
    assert names(here) == ["Otter"]


def test_two_computers_with_a_copy_of_one_file_write_a_file_each(two, folder, tmp_path):
    here, _ = two
    here.computer_id()
    other = tmp_path / "copied" / "learners.sqlite"
    other.parent.mkdir()
    shutil.copyfile(here.path, other)
    with closing(Store(other)) as copied:
        assert copied.computer_id() == here.computer_id()
        assert own_name(copied) != own_name(here)


def test_in_another_folder_all_is_read_anew(two, folder):
    here, there = two
    once(there, folder)
    once(here, folder)
    assert here.shared_seen()
    here.share_in(folder)
    assert here.shared_seen() == {} and here.shared_folder() == folder


def test_a_file_may_be_taken_in_by_hand_while_the_folder_is_looked_into(two, folder, tmp_path):
    """Both copy it beside the learners' file first, under a name that one process has once."""
    here, there = two
    once(there, folder)
    file = tmp_path / "backup.sqlite"
    back_up(there, file)

    def by_hand():
        with closing(Store(here.path, 5.0)) as store:
            return [merge(store, file, NOW).is_whole for _ in range(8)]

    def by_folder():
        with closing(Store(here.path, 5.0)) as store:
            return [once(store, folder).left for _ in range(8) if not store.share_in(folder)]

    with ThreadPoolExecutor(2) as threads:
        some, others = threads.submit(by_hand), threads.submit(by_folder)
        assert some.result() == [True] * 8 and others.result() == [()] * 8
    assert names(here) == ["Otter", "Seal"]


AT_ONCE = """
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from hashlib import sha256
from datetime import UTC, datetime
from pathlib import Path
from frame.learner.learners import Learner
from frame.learner.settings import Settings
from frame.learner.sharing import share
from frame.learner.store import Store

path, folder, name = sys.argv[1:]
sys.stdin.readline()
with closing(Store(Path(path), 5.0)) as store:
    for number in range(int(sys.stdin.readline())):
        now = datetime.now(UTC)
        store.add_learner(Learner.new(f"{name} {number}", "otter"), Settings(), now)
        done = share(store, Path(folder), None, now)
        assert all(one.trouble == "held" for one in done.left), done
print("done")
"""


@pytest.mark.parametrize("rounds", [6, pytest.param(60, marks=pytest.mark.proof)])
def test_two_processes_that_write_at_once_lose_nothing(tmp_path, folder, rounds):
    paths = [tmp_path / name / "learners.sqlite" for name in ("quay", "market")]
    command = [sys.executable, "-c", AT_ONCE]
    around = {"PYTHONPATH": str(ROOT)}
    with (
        running(*command, str(paths[0]), str(folder), "Otter", **around) as one,
        running(*command, str(paths[1]), str(folder), "Seal", **around) as other,
    ):
        for process in (one, other):
            process.stdin.write(f"go\n{rounds}\n")
            process.stdin.flush()
        assert [process.stdout.readline().strip() for process in (one, other)] == ["done"] * 2
    with closing(Store(paths[0])) as quay, closing(Store(paths[1])) as market:
        for store in (quay, market):
            assert once(store, folder).left == ()
        assert names(quay) == names(market) and len(names(quay)) == 2 * rounds
    assert len(files(folder)) == 2
