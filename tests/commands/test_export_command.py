"""`export`: for whom, what is said and what is refused."""

import csv
import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from kept import added, begun, timed, tried_by_three

from frame.cli import main
from frame.course.attempts import Attempt
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import parse_sum

NOW = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("-5 + 8"), rods=2), True, True, 0, ())

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
WAYS = [((), ".csv"), (("--xapi",), ".jsonl")]
"""To write it, and how a file ends that is written so."""


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """The same open in a window: two otters and a seal, with three exercises each."""
    with closing(Store(path)) as store:
        tried_by_three(store, TRIED, NOW)
        yield store


def seal_of(store: Store) -> str:
    """The id of the seal."""
    (seal,) = (one.id for one in store.learners() if one.nickname == "Seal")
    return seal


def test_a_table_is_written_and_told(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    one, other = tmp_path / "one.csv", tmp_path / "other.csv"
    assert main(["export", "seal", str(one)]) == 0
    assert capsys.readouterr() == ("Exported: exercises 3.\n", "")
    shape = {"file": str(other), "learner": seal_of(store), "attempts": 3}
    assert asked("export", "Seal", str(other)) == shape
    assert one.read_bytes() == other.read_bytes()
    with one.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["exercise"] for row in rows] == ["'−5 + 8"] * 3


def test_statements_are_written_and_told(store: Store, tmp_path: Path, asked: Ask) -> None:
    file = tmp_path / "seal.jsonl"
    shape = {"file": str(file), "learner": seal_of(store), "attempts": 3}
    assert asked("export", "Seal", str(file), "--xapi") == shape
    statements = [json.loads(line) for line in file.read_text("utf-8").splitlines()]
    assert [one["actor"]["account"]["name"] for one in statements] == [seal_of(store)] * 3


@pytest.mark.parametrize(("options", "ending"), WAYS)
def test_of_several_learners_of_a_name_one_is_named_by_an_id(
    store: Store, tmp_path: Path, asked: Ask, options: tuple[str, ...], ending: str
) -> None:
    file = tmp_path / f"otter{ending}"
    found = asked("export", "Otter", str(file), *options, status=2)["error"]["found"]
    otters = [one for one in store.learners() if one.nickname == "Otter"]
    assert all(one.id[:4] in found for one in otters) and not file.exists()
    for name in (["Otter"], []):
        shape = asked("export", *name, str(file), *options, "--id", otters[1].id[:8].upper())
        assert shape["learner"] == otters[1].id and shape["attempts"] == 3
        file.unlink()


NAMES = (
    *(
        "Zoë",
        "Łódź",
        "Μαρία",
        "Мария",
        "מרים",
        "مريم",
        "मारिया",
        "นกนางนวล",
        "海獭",
        "ゆき",
        "수달",
        "🦦",
    ),
    *("=1+1", "@quay", '"a", b'),
)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("options", "ending"), WAYS)
def test_a_learner_is_found_by_a_name_in_any_script_and_the_name_stays_here(
    path: Path, tmp_path: Path, asked: Ask, name: str, options: tuple[str, ...], ending: str
) -> None:
    with closing(Store(path)) as store:
        learner = added(store, name)
        added(store, "Seal")
        tried = timed((TRIED, 1.0))
        store.record(begun(store, learner), tried, learner, "beads-1", None, NOW)
    file = tmp_path / f"{name}{ending}".replace('"', "'")
    assert asked("export", name, str(file), *options)["attempts"] == 1
    content = file.read_text("utf-8-sig")
    assert name not in content and json.dumps(name)[1:-1] not in content


@pytest.mark.parametrize("arguments", [("Whale",), ("Seal", "--id", "zz"), ("--id", "zz")])
def test_a_learner_who_is_not_here_is_refused(
    store: Store, tmp_path: Path, asked: Ask, arguments: tuple[str, ...]
) -> None:
    file = tmp_path / "none.csv"
    name = [one for one in arguments[:1] if one != "--id"]
    error = asked("export", *name, str(file), *arguments[len(name) :], status=2)["error"]
    assert "Otter, Seal" in error["found"] and not file.exists()


@pytest.mark.parametrize("command", ["export", "backup"])
def test_the_nearest_name_is_named(store: Store, tmp_path: Path, asked: Ask, command: str) -> None:
    error = asked(command, "Seel", str(tmp_path / "none.csv"), status=2)["error"]
    assert error["expected"].endswith("perhaps Seal")
    error = asked(command, "Xyz", str(tmp_path / "none.csv"), status=2)["error"]
    assert "perhaps" not in error["expected"]


@pytest.mark.parametrize("file", ["otter.csv", "Seal"])
def test_of_everybody_nothing_is_written(store: Store, asked: Ask, file: str) -> None:
    error = asked("export", file, status=2)["error"]
    assert error["found"] == "no learner" and "NAME FILE" in error["expected"]
    assert not Path(file).exists()


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("seal.jsonl", ()), ("seal.csv", ("--xapi",)), ("seal", ()), ("seal.sqlite", ()),
        (".csv", ()), ("seal.json", ("--xapi",)),
    ],
)  # fmt: skip
def test_a_file_is_called_as_what_is_in_it(
    store: Store, tmp_path: Path, asked: Ask, name: str, options: tuple[str, ...]
) -> None:
    error = asked("export", "Seal", str(tmp_path / name), *options, status=2)["error"]
    assert ".csv" in error["expected"] and ".jsonl" in error["expected"]
    assert not (tmp_path / name).exists()
    assert asked("export", "Seal", str(tmp_path / "seal.CSV"))["attempts"] == 3


def test_places_that_cannot_be_written_are_refused(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    taken = tmp_path / "taken.csv"
    taken.write_text("crates")
    for file in (taken, tmp_path / "none" / "x.csv", tmp_path, tmp_path / ("w" * 300 + ".csv")):
        assert asked("export", "Seal", str(file), status=2)["error"]["where"] == str(file)
        assert main(["export", "Seal", str(file)]) == 2
        out, err = capsys.readouterr()
        assert out == "" and err.startswith(f"bead-frame: {file}: found ")
    assert taken.read_text() == "crates"


@pytest.mark.parametrize(("options", "ending"), WAYS)
def test_where_a_name_is_taken_a_free_one_is_named(
    store: Store, tmp_path: Path, asked: Ask, options: tuple[str, ...], ending: str
) -> None:
    taken = tmp_path / f"exercises{ending}"
    taken.touch()
    for place in (tmp_path, taken):
        error = asked("export", "Seal", str(place), *options, status=2)["error"]
        assert error["expected"].endswith(f"perhaps {tmp_path / f'exercises-2{ending}'}")


def test_where_nobody_has_been_there_is_nothing_to_write(
    path: Path, tmp_path: Path, asked: Ask
) -> None:
    error = asked("export", "Seal", str(tmp_path / "x.csv"), status=2)["error"]
    assert error["where"] == str(path)
    assert not path.parent.exists() and not (tmp_path / "x.csv").exists()


def test_where_the_file_here_cannot_be_used_it_is_said_in_one_line(
    path: Path, tmp_path: Path, capsys: Capture
) -> None:
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as newer:
        newer.execute("PRAGMA user_version = 99")
    command = ["export", "Seal", str(tmp_path / "x.csv")]
    assert main(command) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1 and str(path) in err
    assert main([*command, "--json"]) == 1
    out, err = capsys.readouterr()
    assert err == "" and json.loads(out)["error"]["where"] == str(path)


def test_what_was_saved_of_the_file_here_is_told(
    store: Store, path: Path, tmp_path: Path, capsys: Capture
) -> None:
    store.close()
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    assert main(["export", "Seal", str(tmp_path / "x.csv"), "--json"]) == 0
    out, err = capsys.readouterr()
    assert json.loads(out)["saved"]["attempts"] == 9 and err.count("\n") == 1
