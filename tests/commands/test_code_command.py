"""`code --forget`: the grown-ups' code is forgotten, nothing else is, and what was done is said."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from frame.cli import main
from frame.learner.store import Store

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The file of a user whose folder this is."""
    monkeypatch.setattr("frame.screens.start.data_folder", lambda: tmp_path / "bead-frame")
    return tmp_path / "bead-frame" / "learners.sqlite"


def test_a_code_is_forgotten_and_nothing_else(path: Path, capsys: Capture) -> None:
    with closing(Store(path)) as store:
        otter = store.add_learner("Otter", "otter", NOW)
        store.set_code("2580")
        store.keep_plan("[]")
    assert main(["code", "--forget"]) == 0
    done = capsys.readouterr()
    with closing(Store(path)) as store:
        assert not store.has_code() and not store.is_code("2580")
        assert (store.learners(), store.kept_plan()) == ((otter,), "[]")
    assert main(["code", "--forget"]) == 0
    again = capsys.readouterr()
    assert done.out.count("\n") == again.out.count("\n") == 1
    assert done.out != again.out and done.err == again.err == ""


def test_where_nobody_has_been_nothing_is_made(path: Path, capsys: Capture) -> None:
    assert main(["code", "--forget"]) == 0
    assert capsys.readouterr().out
    assert not path.parent.exists()


def test_a_file_that_cannot_be_used_is_said_in_one_line(path: Path, capsys: Capture) -> None:
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as newer:
        newer.execute("PRAGMA user_version = 99")
    assert main(["code", "--forget"]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1
    assert str(path) in err and "99" in err
    path.unlink()
    path.mkdir()
    assert main(["code", "--forget"]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1 and str(path) in err
