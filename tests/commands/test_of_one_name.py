"""Two children of one name: wherever a name is taken, the first letters of an id behind it tell
which is meant, and the refusal says so."""

import json
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from kept import added, two_otters_and_a_seal

from frame.cli import main
from frame.learner.learners import Learner
from frame.learner.nickname import MOST_SIGNS
from frame.learner.store import Store

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
CODE = "2400-42C8-0HDC"


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    with closing(Store(path)) as store:
        two_otters_and_a_seal(store)
        yield store


def commands(name: str, folder: Path) -> list[list[str]]:
    """Every command that takes a name, with this one."""
    (folder / "list.csv").write_text(f"{name}\nSeal\n")
    (folder / "answers.csv").write_text(f"{name},1\nSeal,2\n")
    return [
        ["give", "lesson", "five-add-1", "--to", f"Seal,{name}"],
        ["give", "--list", "--to", name],
        ["mark", CODE, "--wrong", "1", "--name", name, "--keep"],
        ["mark", CODE, str(folder / "answers.csv"), "--keep"],
        ["class", str(folder / "list.csv")],
        ["report", name],
        ["backup", name, str(folder / "of-one.sqlite")],
        ["export", name, str(folder / "of-one.csv")],
    ]


def test_what_a_refusal_says_is_what_works(store: Store, asked: Ask, tmp_path: Path) -> None:
    otters = [one for one in store.learners() if one.nickname == "Otter"]
    for command in commands("Otter", tmp_path):
        error = asked(*command, status=2)["error"]
        for otter in otters:
            assert f"Otter#{otter.id[:4]}" in error["found"], command
    for command in commands(f"otter#{otters[1].id[:4].upper()}", tmp_path):
        assert main(command) == 0, command
    assert store.count_attempts(otters[0]) == 0 < store.count_attempts(otters[1])
    assert not store.assigned(otters[0]) and store.assigned(otters[1])


def test_a_sheet_is_for_what_is_due_of_the_one_who_is_meant(
    store: Store, asked: Ask, tmp_path: Path
) -> None:
    file = str(tmp_path / "sheet.pdf")
    (first, _) = [one for one in store.learners() if one.nickname == "Otter"]
    several = asked("sheet", file, "--due", "Otter", status=2)["error"]
    alone = asked("sheet", file, "--due", f"Otter#{first.id[:6]}", status=2)["error"]
    assert "Otter#" in several["found"]
    assert "is due" in alone["expected"]


def test_one_child_by_two_names_in_a_table_is_told_and_nothing_is_kept(
    store: Store, asked: Ask, tmp_path: Path
) -> None:
    first = next(one for one in store.learners() if one.nickname == "Otter")
    file = tmp_path / "answers.csv"
    file.write_text(f"Seal,1\nOtter#{first.id[:4]},1\notter#{first.id[:6]},2\n")
    error = asked("mark", CODE, str(file), "--keep", status=2)["error"]
    assert error["found"] == "Otter twice"
    assert not any(map(store.count_attempts, store.learners()))


LONG = "Harbourmaster of the quay"
"""A sign more than is kept of a name."""


@pytest.fixture
def long_names(store: Store) -> list[Learner]:
    """Two whose names have as many signs as are kept."""
    return [added(store, LONG[:MOST_SIGNS]) for _ in range(2)]


def test_of_a_long_name_in_a_list_the_letters_behind_it_are_not_lost(
    store: Store, long_names: list[Learner], tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "class.csv"
    first, second = (one.id[:6] for one in long_names)
    file.write_text(f"name\n{LONG[:MOST_SIGNS]}#{second}\nSeal\n")
    assert main(["class", str(file), "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    ids = {one["id"] for one in json.loads(out)["children"]}
    assert long_names[1].id in ids and long_names[0].id not in ids and len(ids) == 2
    file.write_text(f"{LONG}#{first}\n")
    assert main(["class", str(file), "--json"]) == 0
    out, err = capsys.readouterr()
    assert "longer than 24 signs" in err and f"#{first[:2]}" not in err
    assert [one["id"] for one in json.loads(out)["children"]] == [long_names[0].id]


def test_whoever_was_taken_in_by_a_longer_name_is_found_by_it(store: Store, asked: Ask) -> None:
    named = added(store, LONG[:MOST_SIGNS])
    assert asked("report", LONG)["id"] == named.id
    assert asked("report", f"{LONG}#{named.id[:6]}")["id"] == named.id


def test_letters_that_no_id_begins_with_are_told(store: Store, asked: Ask) -> None:
    for name in ("Otter#zz", "Crab#", "#zz"):
        assert "Otter, Seal" in asked("report", name, status=2)["error"]["found"]


def test_a_name_with_the_sign_in_it_is_that_name(store: Store, asked: Ask) -> None:
    named = added(store, "Seal#1")
    assert asked("report", "seal#1")["id"] == named.id
