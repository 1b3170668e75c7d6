"""`backup`, `restore` and `merge`: what goes out and comes in, what is said and what is refused."""

import json
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from kept import added, tried_by_three

from frame.cli import main
from frame.course.attempts import Attempt
from frame.learner.learners import Learner
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import parse_sum

NOW = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """The same open in a window: two otters and a seal, with three exercises each."""
    with closing(Store(path)) as store:
        tried_by_three(store, TRIED, NOW)
        store.set_code("2580")
        yield store


def said(capsys: Capture) -> str:
    out, err = capsys.readouterr()
    assert err == "" and out.count("\n") == 1
    return out


def test_a_backup_of_all_is_taken_in_on_another_computer_and_counts_once(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, asked: Ask, capsys: Capture
) -> None:
    file = str(tmp_path / "all.sqlite")
    assert asked("backup", file) == {"file": file, "learners": 3, "attempts": 9}
    monkeypatch.setattr("frame.screens.start.data_folder", lambda: tmp_path / "elsewhere")
    everything = {
        "file": file, "learners": 3, "attempts": 9, "removed": 0, "back": 0, "left_out": 0,
        "changed": True, "whole": True,
    }  # fmt: skip
    assert asked("merge", file) == everything
    nothing = {**everything, "learners": 0, "attempts": 0, "changed": False}
    assert asked("merge", file) == asked("restore", file) == nothing
    assert main(["merge", file]) == 0
    assert "Nothing" in said(capsys)
    with closing(Store(tmp_path / "elsewhere" / "learners.sqlite")) as other:
        assert other.learners() == store.learners()
        assert not other.has_code()


def test_who_was_deleted_comes_back_by_restore_and_not_by_merge(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    file = str(tmp_path / "seal.sqlite")
    assert main(["backup", "seal", file]) == 0
    assert said(capsys) == "Backed up: learners 1, exercises 3.\n"
    (seal,) = (one for one in store.learners() if one.nickname == "Seal")
    store.remove_learner(seal, NOW)
    assert asked("merge", file)["left_out"] == 1
    assert main(["merge", file]) == 0
    assert "left out: Seal, exercises 3." in said(capsys)
    assert seal not in store.learners()
    assert main(["restore", file]) == 0
    assert "Brought back: Seal, exercises 3." in said(capsys)
    assert seal in store.learners() and len(store.attempts(seal)) == 3


def test_of_several_learners_of_a_name_one_is_named_by_an_id(
    store: Store, tmp_path: Path, asked: Ask
) -> None:
    file = tmp_path / "otter.sqlite"
    found = asked("backup", "Otter", str(file), status=2)["error"]["found"]
    otters = [one for one in store.learners() if one.nickname == "Otter"]
    for otter in otters:
        assert otter.picture in found and otter.id[:4] in found
    assert found.count("2026-05-04") == 2 and not file.exists()
    second = otters[1]
    assert asked("backup", "Otter", str(file), "--id", second.id[:8].upper())["attempts"] == 3
    with closing(Store(file)) as copy:
        assert copy.learners() == (second,)


def test_ids_that_begin_alike_are_told_until_they_differ(
    store: Store, tmp_path: Path, asked: Ask
) -> None:
    for last in "ab":
        store.add_learner(Learner(f"1234567{last}", "Crab", "crab"), store.computer(), NOW)
    found = asked("backup", "Crab", str(tmp_path / "x"), status=2)["error"]["found"]
    assert "Crab#1234567a" in found and "Crab#1234567b" in found


@pytest.mark.parametrize("arguments", [("Whale",), ("Seal", "--id", "zz"), ("--id", "zz")])
def test_a_learner_who_is_not_here_is_refused(
    store: Store, tmp_path: Path, asked: Ask, arguments: tuple[str, ...]
) -> None:
    name, *others = arguments if arguments[0] != "--id" else ("", *arguments)
    file = str(tmp_path / "none.sqlite")
    error = asked("backup", *filter(None, [name]), file, *others, status=2)["error"]
    assert "Otter, Seal" in error["found"]
    assert not Path(file).exists()


def test_places_that_cannot_be_written_are_refused(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    taken = tmp_path / "taken.sqlite"
    taken.write_text("crates")
    for file in (taken, tmp_path / "none" / "x.sqlite", tmp_path):
        assert asked("backup", str(file), status=2)["error"]["where"] == str(file)
        assert main(["backup", str(file)]) == 2
        out, err = capsys.readouterr()
        assert out == "" and err.startswith(f"bead-frame: {file}: found ")
    assert taken.read_text() == "crates"


@pytest.mark.skipif(sys.platform == "win32", reason="limits of processes are POSIX")
def test_where_there_is_no_room_is_told(
    store: Store, path: Path, tmp_path: Path, capsys: Capture
) -> None:
    import resource

    there, elsewhere = tmp_path / "there.sqlite", tmp_path / "elsewhere.sqlite"
    assert main(["backup", str(elsewhere)]) == 0
    capsys.readouterr()
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, usual[1]))
    try:
        for asked, status, full in ((["backup", there], 2, there), (["merge", elsewhere], 1, path)):
            assert main([str(one) for one in asked]) == status
            out, err = capsys.readouterr()
            assert out == "" and err.startswith(f"bead-frame: {full}: found no room left there")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


@pytest.mark.parametrize("command", ["merge", "restore"])
def test_files_that_cannot_be_taken_in_are_refused(
    store: Store, path: Path, tmp_path: Path, asked: Ask, command: str
) -> None:
    text, newer = tmp_path / "text", tmp_path / "newer.sqlite"
    text.write_text("crates and lamps")
    Store(newer).close()
    with closing(sqlite3.connect(newer)) as file:
        file.execute("PRAGMA user_version = 99")
    before = path.read_bytes()
    for odd in (text, newer, tmp_path, tmp_path / "none"):
        assert asked(command, str(odd), status=2)["error"]["where"] == str(odd)
    assert "99" in asked(command, str(newer), status=2)["error"]["found"]
    assert path.read_bytes() == before


@pytest.mark.parametrize("command", ["merge", "restore", "backup"])
def test_where_the_file_here_cannot_be_used_it_is_said_in_one_line(
    path: Path, tmp_path: Path, capsys: Capture, command: str
) -> None:
    other = tmp_path / "other.sqlite"
    if command != "backup":
        Store(other).close()
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as newer:
        newer.execute("PRAGMA user_version = 99")
    assert main([command, str(other)]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1 and str(path) in err
    assert main([command, str(other), "--json"]) == 1
    out, err = capsys.readouterr()
    assert err == "" and json.loads(out)["error"]["where"] == str(path)


def test_where_nobody_has_been_there_is_nothing_to_back_up(
    path: Path, tmp_path: Path, asked: Ask
) -> None:
    assert asked("backup", str(tmp_path / "x.sqlite"), status=2)["error"]["where"] == str(path)
    assert not path.parent.exists() and not (tmp_path / "x.sqlite").exists()


@pytest.mark.parametrize("place", [".", "./", "/"])
def test_a_place_without_a_name_is_a_folder_and_no_traceback(
    store: Store, asked: Ask, place: str
) -> None:
    error = asked("backup", place, status=2)["error"]
    assert error["found"] == "a folder"
    assert asked("backup", "Seal", place, status=2)["error"] == error


def test_a_name_alone_is_no_file_of_everybody(
    store: Store, asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("Seal", "seal", "séal"):
        assert asked("backup", name, status=2)["error"]["where"] == name
    assert [one.name for one in tmp_path.iterdir()] == ["bead-frame"]


@pytest.mark.parametrize("empty", ["", " "])
@pytest.mark.parametrize(
    ("command", "what"),
    [
        (("backup", None, "all.sqlite"), "NAME"),
        (("backup", "all.sqlite", "--id", None), "--id"),
        (("backup", "Seal", None), "FILE"),
        (("merge", None), "FILE"),
        (("board", None), "FILE"),
        (("lessons", "--check", None), "--check"),
        (("picture", "3", None), "FILE.png"),
    ],
)
def test_what_is_empty_is_said_to_be_empty_and_nothing_is_done(
    store: Store, capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    empty: str, command: tuple[str | None, ...], what: str,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main([empty if one is None else one for one in command]) == 2
    out, err = capsys.readouterr()
    assert out == "" and f"argument {what}: an empty " in err
    assert [one.name for one in tmp_path.iterdir()] == ["bead-frame"]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("zoe", "Zoë"), ("ZOË", "Zoë"), ("Jose", "Jose"), ("JOSÉ", "José"), ("zo", "Zoë"),
        ("o", "Otter 1"), ("Sea", "Sea"),
    ],
)  # fmt: skip
def test_a_learner_is_found_as_the_first_screen_finds_who_is_typed(
    path: Path, tmp_path: Path, asked: Ask, typed: str, found: str
) -> None:
    with closing(Store(path)) as store:
        for name in ("Zoë", "Jose", "José", "Otter 1", "Seal", "Sea"):
            added(store, name)
    file = tmp_path / "one.sqlite"
    asked("backup", typed, str(file))
    with closing(Store(file)) as copy:
        assert [one.nickname for one in copy.learners()] == [found]


@pytest.mark.parametrize("typed", ["jose", "JOSE", "j", "se"])
def test_where_several_may_be_meant_it_is_asked_who(
    path: Path, tmp_path: Path, asked: Ask, typed: str
) -> None:
    with closing(Store(path)) as store:
        some = [added(store, name) for name in ("Jóse", "José", "Seal", "Sea Otter")]
    file = tmp_path / "one.sqlite"
    error = asked("backup", typed, str(file), status=2)["error"]
    meant = some[2:] if typed == "se" else some[:2]
    for one in some:
        assert (f"{one.nickname}, otter" in error["found"]) is (one in meant)
        assert (one.id[:4] in error["found"]) is (one in meant)
    assert not file.exists()


@pytest.mark.parametrize("command", ["merge", "restore"])
def test_a_file_that_may_have_been_meant_is_named(
    store: Store, path: Path, tmp_path: Path, asked: Ask, command: str
) -> None:
    for place, found in ((path.parent, "a folder"), (path.with_name("lerners.sqlite"), "no file")):
        error = asked(command, str(place), status=2)["error"]
        assert error["found"] == found and error["expected"].endswith("perhaps learners.sqlite")
    assert "perhaps" not in asked(command, str(tmp_path / "x"), status=2)["error"]["expected"]


def test_where_a_name_is_taken_a_free_one_is_named(
    store: Store, tmp_path: Path, asked: Ask
) -> None:
    (tmp_path / "all.sqlite").touch()
    for place in (tmp_path, tmp_path / "all.sqlite"):
        expected = asked("backup", str(place), status=2)["error"]["expected"]
        assert expected.endswith(f"perhaps {tmp_path / 'all-2.sqlite'}")


@pytest.mark.parametrize("command", ["merge", "restore"])
def test_a_backup_that_was_cut_off_is_said_to_be_damaged(
    store: Store, tmp_path: Path, asked: Ask, command: str
) -> None:
    whole, half = tmp_path / "all.sqlite", tmp_path / "half.sqlite"
    asked("backup", str(whole))
    half.write_bytes(whole.read_bytes()[:50_000])
    error = asked(command, str(half), status=2)["error"]
    assert error["where"] == str(half)
    assert "damaged" in error["found"] and "anew" in error["expected"]


@pytest.mark.parametrize("command", ["merge", "restore"])
def test_of_a_damaged_backup_what_can_be_read_is_taken_in_and_told_as_a_part(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture, command: str
) -> None:
    file = tmp_path / "all.sqlite"
    asked("backup", str(file))
    content = bytearray(file.read_bytes())
    content[content.index(b"nickname TEXT")] = 0xB3
    file.write_bytes(content)
    for learner in store.learners():
        store.remove_learner(learner, NOW)
    assert asked(command, str(file), status=1)["whole"] is False
    assert main([command, str(file)]) == 1
    assert said(capsys).startswith("It is damaged.")


@pytest.mark.parametrize("command", ["merge", "restore", "backup"])
@pytest.mark.parametrize("is_gone", [True, False])
def test_what_was_saved_of_the_file_here_is_told(
    store: Store, path: Path, tmp_path: Path, capsys: Capture, command: str, is_gone: bool
) -> None:
    other = tmp_path / "other.sqlite"
    store.close()
    if command != "backup":
        Store(other).close()
    if is_gone:
        path.unlink()
    else:
        path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    damaged = path.read_bytes() if path.exists() else b""
    assert main([command, str(other), "--json"]) == 0
    out, err = capsys.readouterr()
    saved = json.loads(out)["saved"]
    assert (saved["learners"], saved["attempts"]) == (3, 9)
    assert "learners 3, exercises 9" in err and err.count("\n") == 1
    if is_gone:
        assert saved["kept"] is None
    else:
        kept = Path(saved["kept"])
        assert kept.read_bytes() == damaged and kept.name in err
    again = tmp_path / "again.sqlite" if command == "backup" else other
    assert main([command, str(again), "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == "" and "saved" not in json.loads(out)


def test_what_was_saved_is_told_also_where_the_other_file_is_refused(
    store: Store, path: Path, tmp_path: Path, capsys: Capture
) -> None:
    store.close()
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    other = tmp_path / "crates"
    other.write_text("crates and lamps")
    assert main(["merge", str(other)]) == 2
    assert "learners 3, exercises 9" in capsys.readouterr().err
