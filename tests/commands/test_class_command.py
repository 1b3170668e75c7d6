"""`class`: who needs somebody, and groups; from the record of those who are there."""

import errno
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from kept import added, store_in

from frame.cli import main
from frame.learner import new_file
from frame.learner.on_paper import keep_marked
from frame.learner.store import Store
from frame.practice.families import Family
from frame.practice.needs import MUCH
from frame.sheets.code import recipe_of
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.marking import Answer, mark, mark_wrong
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
TENS = recipe_for(facts_of(Family.ADD_TEN))
FIVES = recipe_for(facts_of(Family.SUB_FIVE))
NAMES = ("Crab", "Heron", "Otter", "Seal")


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """Four who worked on paper a week ago: two one thing and two another, of whom one forgets
    carries; nothing since."""
    now = datetime.now(UTC) - timedelta(days=8)
    with closing(store_in(path.parent)) as store:
        for name, recipe in zip(NAMES, (TENS, FIVES, TENS, FIVES), strict=True):
            child, sheet = added(store, name), make(recipe)
            marked = mark_wrong(sheet, [])
            if name == "Crab":
                less = [Answer(task.sum.result - 10) for task in sheet.tasks]
                marked = mark(sheet, less)
                keep_marked(store, child, mark_wrong(sheet, []), USUAL, now - timedelta(days=1))
            keep_marked(store, child, marked, USUAL, now)
        yield store


def test_who_has_a_fault_needs_somebody_first(store: Store, asked: Ask) -> None:
    shape = asked("class")
    first, *others = shape["children"]
    assert first["name"] == "Crab" and first["reasons"][0] == "fault"
    assert first["faults"] == ["carry-forgotten"]
    due = [min(one["due"], MUCH) for one in others]  # More than much is no greater need.
    assert due == sorted(due, reverse=True)
    assert shape["faults"] == [{"fault": "carry-forgotten", "children": ["Crab"]}]
    nothing = {"days": 0, "minutes": 0, "right_at_once": 0, "of": 0, "on_paper": 0}
    assert all(one["week"] == nothing for one in others)


def test_who_worked_on_paper_this_week_did_not_practise_little(
    store: Store, asked: Ask, capsys: Capture
) -> None:
    child, now = store.learners()[-1], datetime.now(UTC)
    for days in (1, 2):
        keep_marked(store, child, mark_wrong(make(TENS), []), USUAL, now - timedelta(days=days))
    count = 2 * len(make(TENS).tasks)
    seal = next(one for one in asked("class")["children"] if one["name"] == "Seal")
    assert seal["week"]["on_paper"] == seal["week"]["of"] == count and seal["week"]["days"] == 0
    assert "away" not in seal["reasons"]
    assert main(["class"]) == 0
    assert f"on paper, {count} of {count}" in capsys.readouterr().out


def test_those_who_need_the_same_are_in_one_group_with_a_sheet_of_it(
    store: Store, tmp_path: Path, asked: Ask
) -> None:
    folder = tmp_path / "tomorrow"
    folder.mkdir()
    shape = asked("class", "--groups", "2", "--sheets", str(folder))
    groups = {tuple(sorted(one["children"])): one for one in shape["groups"]}
    assert set(groups) == {("Crab", "Otter"), ("Heron", "Seal")}
    for one in groups.values():
        assert Path(one["file"]).read_bytes().startswith(b"%PDF-")
        assert list(recipe_of(one["code"]).facts) == one["facts"]
    assert "sub-five-1" in groups["Heron", "Seal"]["facts"]


def test_who_needs_nothing_is_in_no_group_and_told(
    store: Store, asked: Ask, capsys: Capture
) -> None:
    for name in ("Puffin", "Eider"):
        added(store, name)
    shape = asked("class", "--groups", "2")
    assert shape["others"] == ["Eider", "Puffin"]
    assert sorted(name for one in shape["groups"] for name in one["children"]) == list(NAMES)
    assert main(["class"]) == 0
    assert "Need nothing of their own now: Eider, Puffin" in capsys.readouterr().out


@pytest.mark.skipif(not shutil.which("pdftotext"), reason="needs Debian's poppler-utils")
def test_each_page_of_a_groups_sheet_bears_its_number_and_names(
    store: Store, tmp_path: Path, asked: Ask
) -> None:
    shape = asked("class", "--groups", "2", "--sheets", str(tmp_path))
    for number, one in enumerate(shape["groups"], 1):
        run = ["pdftotext", one["file"], "-"]
        text = subprocess.run(run, capture_output=True, text=True, check=True).stdout
        assert text.count(f"Group {number}: {', '.join(one['children'])}") == 2, "with its key"


def test_a_list_says_who_the_class_is(store: Store, tmp_path: Path, asked: Ask) -> None:
    file = tmp_path / "class.csv"
    file.write_text("name;group\nOtter;quay\nSeal;quay\n", encoding="utf-8")
    assert {one["name"] for one in asked("class", str(file))["children"]} == {"Otter", "Seal"}


def test_it_is_told_in_words(store: Store, capsys: Capture) -> None:
    assert main(["class", "--groups", "1"]) == 0
    out, err = capsys.readouterr()
    assert err == "" and "Group 1: Crab, Heron, Otter, Seal" in out
    assert "carry left out: Crab" in out and "carry left out, 1 of 4" in out
    assert "Adding, partner of ten" in out and "add-ten" not in out


def test_what_is_wrong_in_a_list_is_told_and_the_rest_is_taken(
    store: Store, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "class.csv"
    file.write_text("Otter\nSeal\nOtter\n", encoding="utf-8")
    assert main(["class", str(file)]) == 0
    out, err = capsys.readouterr()
    assert "class.csv" in err and "Seal" in out


def test_where_one_sheet_has_no_place_none_is_written(
    store: Store, tmp_path: Path, capsys: Capture
) -> None:
    taken = tmp_path / "group-2.pdf"
    taken.write_text("nets")
    assert main(["class", "--groups", "2", "--sheets", str(tmp_path)]) == 2
    assert "group-2.pdf" in capsys.readouterr().err
    assert taken.read_text() == "nets" and not (tmp_path / "group-1.pdf").exists()


def test_where_the_disk_is_full_by_the_second_sheet_the_first_does_not_stay(
    store: Store, tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = new_file.make_private_file

    def full_by_then(path: Path) -> None:
        if path.name.startswith("group-2"):
            raise OSError(errno.ENOSPC, "full")
        write(path)

    monkeypatch.setattr(new_file, "make_private_file", full_by_then)
    assert main(["class", "--groups", "2", "--sheets", str(tmp_path)]) == 2
    assert "no room left" in capsys.readouterr().err
    assert list(tmp_path.glob("group-*")) == []


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["away.csv"], "a list of names"),
        (["--groups", "0"], "from 1 to"),
        (["--sheets", "away"], "away"),
    ],
    ids=str,
)
def test_what_cannot_be_is_told(
    arguments: list[str], said: str, store: Store, capsys: Capture
) -> None:
    assert main(["class", *arguments]) == 2
    assert said in capsys.readouterr().err


NO_TEXT = "a file that is no text"


@pytest.mark.parametrize(
    ("held", "said"),
    [
        (b"", "no name in it"),
        (b"\n  \n;;\n", "no name in it"),
        (b"name;group\n", "no name in it"),
        (b"%PDF-1.3\n%plain\n", NO_TEXT),
        (b"%PDF-1.3\n%\xe9\xeb\xf1\n", NO_TEXT),
        ("Bär\n".encode("latin-1"), NO_TEXT),
        ("Otter\n".encode("utf-16"), NO_TEXT),
    ],
    ids=repr,
)
def test_what_is_no_list_is_told(
    held: bytes, said: str, store: Store, tmp_path: Path, capsys: Capture
) -> None:
    (file := tmp_path / "class.csv").write_bytes(held)
    for arguments in (["class", str(file)], ["mark", "2400-42C8-0HDC", str(file)]):
        assert main(arguments) == 2
        out, err = capsys.readouterr()
        told = said if arguments[0] == "class" or said == NO_TEXT else "no line with a name"
        assert out == "" and told in err and "codec" not in err


def test_a_name_that_nobody_has_is_told_with_the_nearest(
    store: Store, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "class.csv"
    file.write_text("Otterr\n", encoding="utf-8")
    assert main(["class", str(file)]) == 2
    assert "Otter" in capsys.readouterr().err
