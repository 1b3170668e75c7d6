"""A file that can't be taken in is told of, and nothing is other than before."""

import os
import sqlite3
import sys
from contextlib import closing, contextmanager
from random import Random

import pytest
from computers import TRIED, Computers, rows_of
from kept import NOW, added, begun, timed
from rights import without_rights

from frame.learner.backups import back_up
from frame.learner.merging import Merged, merge
from frame.learner.other_file import Held, look_into
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble


@pytest.fixture
def two(tmp_path):
    """Two computers: on one an otter, on the other a seal and a gull who did much."""
    computers = Computers(tmp_path, 2)
    added(computers.stores[0], "Otter")
    there = computers.stores[1]
    for name in ("Seal", "Gull"):
        learner = added(there, name)
        tried = timed(*[(TRIED, 1.0)] * 300)
        there.record(begun(there, learner), tried, learner, "beads-1", None, NOW)
    there.close()
    yield computers.stores[0], computers.paths[1]
    computers.stores[0].close()


def refused(here, path):
    """How it is refused; neither file is other than before, and nothing is left beside them."""
    before = here.path.read_bytes(), path.read_bytes() if path.is_file() else None
    beside = sorted(here.path.parent.iterdir()), sorted(path.parent.iterdir())
    with pytest.raises(StoreError) as caught:
        merge(here, path, NOW)
    assert (here.path.read_bytes(), path.read_bytes() if path.is_file() else None) == before
    assert (sorted(here.path.parent.iterdir()), sorted(path.parent.iterdir())) == beside
    return caught.value


def sql(path, *statements):
    with closing(sqlite3.connect(path)) as file, file:
        for statement in statements:
            file.execute(statement)


FOREIGN = {
    "nothing": lambda path: path.write_bytes(b""),
    "text": lambda path: path.write_bytes(b"crates and lamps\n" * 1000),
    "zeros": lambda path: path.write_bytes(bytes(20_000)),
    "our words": lambda path: path.write_bytes(b"CREATE TABLE learner (id TEXT)" * 500),
    "other database": lambda path: sql(path, "CREATE TABLE boats (name TEXT)"),
    "other learners": lambda path: sql(path, "CREATE TABLE learner (name TEXT)"),
    "folder": lambda path: path.mkdir(),
}


@pytest.mark.parametrize("kind", FOREIGN)
def test_what_is_no_file_of_the_tool_is_refused(two, tmp_path, kind):
    path = tmp_path / "other" / "odd.sqlite"
    path.parent.mkdir()
    FOREIGN[kind](path)
    error = refused(two[0], path)
    assert (error.where, error.trouble) == (path, Trouble.FOREIGN)


def test_a_file_that_is_none_of_ours_is_not_read_to_its_end(tmp_path):
    """Words of ours at the end would make it one that is damaged."""
    end, path = b"CREATE TABLE learner (id TEXT)", tmp_path / "odd.sqlite"
    sql(path, "CREATE TABLE boats (name TEXT)")
    path.write_bytes(path.read_bytes() + end)
    assert look_into(path) is None
    path.write_bytes(bytes(9_000_000) + end)
    assert look_into(path) == Held(None)
    with path.open("wb") as file:
        file.seek(1 << 29)
        file.write(end)
    assert look_into(path) is None


def test_a_file_that_is_no_longer_there_is_missing(two, tmp_path):
    error = refused(two[0], tmp_path / "gone.sqlite")
    assert (error.where, error.trouble) == (tmp_path / "gone.sqlite", Trouble.MISSING)


@pytest.mark.parametrize("size", [20, 100, 4000, 10_000])
def test_a_file_of_which_nothing_is_left_to_read_is_damaged_and_not_foreign(two, size):
    here, path = two
    path.write_bytes(path.read_bytes()[:size])
    error = refused(here, path)
    assert (error.where, error.trouble) == (path, Trouble.DAMAGED)


def test_a_backup_without_its_end_is_damaged_and_not_foreign(two, tmp_path):
    """What tells of the tables lies at its end."""
    here, _ = two
    path = tmp_path / "other" / "backup.sqlite"
    path.parent.mkdir()
    back_up(here, path)
    path.write_bytes(path.read_bytes()[:50_000])
    assert refused(here, path).trouble is Trouble.DAMAGED


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with a name here")
def test_a_pipe_is_not_waited_for(two, tmp_path):
    (tmp_path / "other").mkdir()
    path = tmp_path / "other" / "pipe"
    os.mkfifo(path)
    assert refused(two[0], path).trouble is Trouble.FOREIGN


def test_a_file_of_a_newer_version_is_refused(two):
    here, path = two
    sql(path, "PRAGMA user_version = 99")
    error = refused(here, path)
    assert (error.where, error.trouble, error.found) == (path, Trouble.NEWER, "99")


def test_while_a_file_is_held_it_is_refused_whichever_it_is(two):
    here, path = two
    for held in (path, here.path):
        with closing(sqlite3.connect(held, isolation_level=None)) as holder:
            holder.execute("BEGIN EXCLUSIVE")
            error = refused(here, path)
        assert (error.where, error.trouble) == (held, Trouble.HELD)
    assert merge(here, path, NOW).learners == 2


@contextmanager
def files_of_at_most(size):
    import resource

    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


@pytest.mark.skipif(sys.platform == "win32", reason="limits of processes are POSIX")
@pytest.mark.parametrize("share", [0, 0.1, 0.5, 0.8, 0.9, 0.95, 1])
def test_on_a_full_disk_nothing_comes_in_and_nothing_is_lost(two, share):
    here, path = two
    before = rows_of(here.path)
    with files_of_at_most(round(share * path.stat().st_size) + 1):
        try:
            merge(here, path, NOW)
        except StoreError as error:
            assert (error.trouble, error.where) == (Trouble.FULL, here.path)
            assert rows_of(here.path) == before
        else:
            assert share > 0.5
    merge(here, path, NOW)
    assert len(rows_of(here.path)["learner"]) == 3
    assert merge(here, path, NOW) == Merged()


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() != 0, reason="rights are given away")
def test_where_nothing_may_be_read_or_written_it_is_refused(two, tmp_path):
    here, path = two
    for folder in (tmp_path, *tmp_path.parents[:3]):
        folder.chmod(folder.stat().st_mode | 0o055)
    with without_rights(here.path, here.path.parent, path, path.parent):
        path.chmod(0)
        error = refused_there(here, path)
        assert (error.where, error.trouble) == (path, Trouble.CLOSED)
        path.chmod(0o400)
        path.parent.chmod(0o500)
        assert merge(here, path, NOW).learners == 2, "it need only be read"
        here.path.parent.chmod(0o500)
        error = refused_there(here, path)
        assert (error.where, error.trouble) == (here.path, Trouble.CLOSED)
        here.path.parent.chmod(0o700)


def refused_there(here, path):
    before = here.path.read_bytes()
    with pytest.raises(StoreError) as caught:
        merge(here, path, NOW)
    assert here.path.read_bytes() == before
    return caught.value


@pytest.mark.parametrize("place", [b"CREATE TABLE learner (", b"nickname TEXT", b"by_sitting ON"])
@pytest.mark.parametrize("at", [0, 3, 9])
def test_a_byte_that_is_no_letter_where_the_tables_are_told_of_costs_nothing(two, place, at):
    """SQLite names it as it is, and its message can't be read then."""
    here, path = two
    content, expected = bytearray(path.read_bytes()), rows_of(path)["attempt"]
    content[content.index(place) + at] = 0xB3
    path.write_bytes(content)
    assert look_into(path) in (Held(None), Held(2))
    merged = merge(here, path, NOW)
    assert (merged.learners, merged.is_whole) == (2, False)
    assert rows_of(here.path)["attempt"] == expected


def test_a_header_that_tells_of_no_text_that_there_is_does_not_matter(two):
    here, path = two
    content = bytearray(path.read_bytes())
    content[59] = 0x70  # What SQLite takes for the usual one in a file, it does not beside another.
    path.write_bytes(content)
    assert merge(here, path, NOW).learners == 2


def test_a_good_copy_of_which_nothing_can_be_read_is_made_anew(two):
    here, path = two
    good = here.path.with_suffix(".good")
    content = bytearray(path.read_bytes())
    content[content.index(b"nickname TEXT")] = 0xB3
    good.write_bytes(content)
    assert merge(here, path, NOW).is_new
    here.close()
    assert rows_of(good) == rows_of(here.path)


DAMAGED = range(8)


def ids_of_attempts(path):
    """In what was damaged a letter may be another one; each is there once all the same."""
    return sorted(dict(row)["id"] for row in rows_of(path)["attempt"])


@pytest.mark.parametrize("share", [0.6])
def test_of_a_file_that_was_cut_off_comes_in_what_can_be_read(two, share):
    here, path = two
    whole = path.read_bytes()
    path.write_bytes(whole[: round(share * len(whole))])
    merged = merge(here, path, NOW)
    assert not merged.is_whole and merged.attempts > 0
    again = merge(here, path, NOW)
    assert not again.is_new
    path.write_bytes(whole)
    rest = merge(here, path, NOW)
    assert rest.is_whole and rest.is_new
    expected = rows_of(path)
    assert rows_of(here.path)["attempt"] == expected["attempt"]


def test_damage_of_any_kind_is_refused_or_what_can_be_read_comes_in(two):
    here, path = two
    whole = path.read_bytes()
    told = set()
    for seed in DAMAGED:
        random, content = Random(seed), bytearray(whole)
        at = random.randrange(len(content))
        content[at : at + 6000] = random.randbytes(len(content[at : at + 6000]))
        path.write_bytes(content)
        before = rows_of(here.path)
        try:
            merged = merge(here, path, NOW)
        except StoreError as error:
            assert error.where == path
            assert rows_of(here.path) == before
            told.add(error.trouble)
        else:
            told.add(merged.is_whole)
        assert path.read_bytes() == content
    assert False in told, "some were damaged, and taken in all the same"
    path.write_bytes(whole)
    merge(here, path, NOW)
    assert ids_of_attempts(here.path) == ids_of_attempts(path)
