"""A file to take elsewhere is there when it is whole, and takes no other one's place."""

import errno
import os
import sqlite3
from pathlib import Path

import pytest

from frame.learner.new_file import new_file
from frame.learner.trouble import StoreError, Trouble


def no_links(*_):
    raise OSError(errno.EPERM, "no links here")


@pytest.fixture(params=["links", "no links"])
def path(request, tmp_path, monkeypatch):
    """A place on a file system with links, and on one without."""
    if request.param == "no links":
        monkeypatch.setattr(os, "link", no_links)
    return tmp_path / "backup.sqlite"


def left(path):
    return {one.name: one.read_bytes() for one in path.parent.iterdir()}


def test_it_is_there_whole_and_nothing_else_is(path):
    with new_file(path) as fresh:
        fresh.write_bytes(b"lamps")
        assert not path.exists()
    assert left(path) == {path.name: b"lamps"}
    assert path.stat().st_nlink == 1


def test_of_two_at_once_the_first_stays_and_the_second_is_refused(path):
    with pytest.raises(StoreError) as caught, new_file(path) as fresh:
        fresh.write_bytes(b"lamps")
        path.write_bytes(b"crates")
    assert (caught.value.trouble, caught.value.where) == (Trouble.TAKEN, path)
    assert left(path) == {path.name: b"crates"}


def test_where_it_cannot_have_its_name_nothing_is_there(path, monkeypatch):
    def fails(*_):
        raise OSError(errno.EIO, "broken")

    monkeypatch.setattr(os, "link", no_links)
    monkeypatch.setattr(Path, "replace", fails)
    with pytest.raises(StoreError) as caught, new_file(path) as fresh:
        fresh.write_bytes(b"lamps")
    assert (caught.value.trouble, caught.value.where) == (Trouble.OTHER, path)
    assert left(path) == {}


def test_what_sqlite_leaves_beside_it_goes(path):
    with pytest.raises(StoreError), new_file(path) as fresh:
        fresh.with_name(f"{fresh.name}-journal").write_bytes(b"half")
        raise sqlite3.OperationalError("disk I/O error")
    assert left(path) == {}
