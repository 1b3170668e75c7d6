"""`give`: who is named has it to do, a mistake is told with the nearest right thing, and then
nobody has it."""

from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from kept import NOW, added, store_in

from frame.cli import main
from frame.learner.assigned import Work, set_text
from frame.learner.class_kept import Member, keep_class
from frame.learner.learners import Learner
from frame.learner.on_paper import keep_marked
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.practice.choices import Choices
from frame.practice.families import Family
from frame.practice.kept_choices import set_to
from frame.practice.rungs import Asked
from frame.printing.slips import Slip
from frame.sheets.code import code_of, recipe_of
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.marking import mark_wrong
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

Ask = Callable[..., Any]
Capture = pytest.CaptureFixture[str]
NAMES = ("Crab", "Otter", "Seal")
SIX = code_of(Recipe(kind=Kind.COLUMNS, count=6, digits=2))


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """Three learners, two of them in the class, in a group each."""
    with closing(store_in(path.parent)) as store:
        crab, otter, seal = (added(store, name) for name in NAMES)
        for learner in (crab, otter, seal):
            store.place(learner, ["five-add-1"], NOW)
        keep_class(store, [Member(crab, "nets"), Member(otter, "Boats")])
        yield store


def todo(store: Store) -> dict[str, list[tuple[Work, str]]]:
    return {
        learner.nickname: [(one.work, one.text) for one in given if one.done is None]
        for learner in store.learners()
        if (given := store.assigned(learner))
    }


def worked_on_paper(store: Store, learner: Learner, family: Family = Family.ADD_TEN) -> None:
    sheet = make(recipe_for(facts_of(family)))
    marked = mark_wrong(sheet, (1, 2, 3))
    keep_marked(store, learner, marked, USUAL, datetime(2025, 5, 4, tzinfo=UTC))


def test_the_learners_named_have_it_to_do(store: Store, asked: Ask) -> None:
    shape = asked("give", "lesson", "five-add-1", "--to", "otter, Seal")
    assert shape == {
        "work": "lesson", "text": "five-add-1", "to": ["Otter", "Seal"], "had": [],
        "none_due": [], "sheets": [], "instead": [], "slips": None,
    }  # fmt: skip
    lesson = [(Work.LESSON, "five-add-1")]
    assert todo(store) == {"Otter": lesson, "Seal": lesson}
    again = asked("give", "lesson", "five-add-1", "--to", "Seal,Crab")
    assert (again["to"], again["had"]) == (["Crab"], ["Seal"])


@pytest.mark.parametrize(
    ("whom", "names"),
    [
        (("--group", "NETS"), ["Crab"]),
        (("--group", "boats"), ["Otter"]),
        (("--all",), ["Crab", "Otter"]),
    ],
)
def test_a_group_and_all_are_those_of_the_class(
    store: Store, asked: Ask, whom: tuple[str, ...], names: list[str]
) -> None:
    assert asked("give", "due", *whom)["to"] == names


def test_without_a_class_all_are_all(store: Store, asked: Ask) -> None:
    keep_class(store, [])
    assert asked("give", "due", "--all")["to"] == list(NAMES)


FIVE = set_text(set_to(Choices().choose(family=Family.ADD_FIVE)))


@pytest.mark.parametrize(
    ("work", "text"),
    [
        (("due",), ""),
        (("set", "add-five"), FIVE),
        (("set", "called"), set_text(set_to(Choices(Asked.CALLED)))),
        (("sheet", SIX.lower().replace("-", "")), SIX),
    ],
)
def test_what_is_kept_is_what_the_window_gives(
    store: Store, asked: Ask, work: tuple[str, ...], text: str
) -> None:
    asked("give", *work, "--to", "Crab")
    assert todo(store) == {"Crab": [(Work(work[0]), text)]}


def test_what_is_due_is_the_sheet_of_it_for_who_has_done_no_lesson(
    store: Store, asked: Ask, capsys: Capture, tmp_path: Path
) -> None:
    mole = added(store, "Mole")
    added(store, "Newt")
    worked_on_paper(store, mole)
    code = asked("sheet", str(tmp_path / "due.pdf"), "--due", "Mole")["code"]
    shape = asked("give", "due", "--to", "Crab,Mole,Newt")
    assert (shape["to"], shape["none_due"]) == (["Crab"], ["Newt"])
    assert shape["sheets"] == [{"to": "Mole", "text": code}]
    assert todo(store) == {"Crab": [(Work.DUE, "")], "Mole": [(Work.SHEET, code)]}
    assert asked("give", "due", "--to", "Mole")["had"] == ["Mole"]
    assert main(["give", "due", "--to", "Newt"]) == 0
    assert "Newt: nothing." in capsys.readouterr().out


def test_what_is_due_is_taken_back_also_where_it_is_a_sheet(
    store: Store, asked: Ask, capsys: Capture
) -> None:
    mole = added(store, "Mole")
    worked_on_paper(store, mole)
    (sheet,) = asked("give", "due", "--to", "Crab,Mole")["sheets"]
    (one,) = asked("give", "--list", "--to", "Crab,Mole")["given"]
    assert (one["work"], one["to"], one["sheets"]) == ("due", ["Crab", "Mole"], [sheet])
    assert main(["give", "--list", "--to", "Mole"]) == 0
    assert f"Its code: {sheet['text']}" in capsys.readouterr().out
    assert asked("give", "due", "--to", "Crab,Mole", "--take-back")["back"] == ["Crab", "Mole"]
    assert todo(store) == {}


def test_what_is_due_given_again_stands_in_the_place_of_what_was(
    store: Store, asked: Ask, capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slips: list[Slip] = []
    monkeypatch.setattr("frame.commands.give.write_slips", lambda _, some, __: slips.extend(some))
    mole = added(store, "Mole")
    worked_on_paper(store, mole)
    asked("give", "due", "--to", "Mole")
    worked_on_paper(store, mole, Family.SUB_TEN)
    file = str(tmp_path / "slips.pdf")
    assert main(["give", "due", "--to", "Mole", "--slips", file]) == 0
    assert "Mole: what was due before is taken back." in capsys.readouterr().out
    ((work, code),) = todo(store)["Mole"]
    assert work is Work.SHEET and [one.code for one in slips] == [code]
    assert asked("give", "due", "--to", "Mole")["instead"] == []


def test_a_slip_of_what_is_due_has_the_code_of_its_sheet_where_something_is(
    store: Store, asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slips: list[Slip] = []
    monkeypatch.setattr("frame.commands.give.write_slips", lambda _, some, __: slips.extend(some))
    crab = next(one for one in store.learners() if one.nickname == "Crab")
    worked_on_paper(store, crab)
    code = asked("sheet", str(tmp_path / "due.pdf"), "--due", "Crab")["code"]
    asked("give", "due", "--all")
    asked("give", "--slips", str(tmp_path / "slips.pdf"), "--all")
    of_crab, of_otter = slips
    assert (of_crab.name, of_crab.code) == ("Crab", code) and of_crab.what.endswith("Its code:")
    assert (of_otter.name, of_otter.code) == ("Otter", "") and "code" not in of_otter.what


def test_a_grade_is_its_paper(store: Store, asked: Ask) -> None:
    for name in ("kyu-6", "KYU-6"):
        code = asked("give", "sheet", name, "--to", "Crab")["text"]
        assert recipe_of(code).grade == "kyu-6"


def test_it_is_listed_with_who_has_done_it(store: Store, asked: Ask, capsys: Capture) -> None:
    asked("give", "due", "--all")
    otter = next(one for one in store.learners() if one.nickname == "Otter")
    store.tick_off(otter, Work.DUE, "", NOW)
    (one,) = asked("give", "--list", "--all")["given"]
    assert (one["title"], one["to"], one["done"]) == ("Today", ["Crab"], ["Otter"])
    assert main(["give", "--list", "--to", "Seal"]) == 0
    assert "Nothing is open" in capsys.readouterr().out


def test_it_is_taken_back(store: Store, asked: Ask) -> None:
    asked("give", "due", "--all")
    shape = asked("give", "due", "--to", "Crab", "--take-back")
    assert shape == {"work": "due", "text": "", "back": ["Crab"], "slips": None}
    assert todo(store) == {"Otter": [(Work.DUE, "")]}
    assert asked("give", "due", "--to", "Seal", "--take-back")["back"] == []


def test_slips_are_written(store: Store, asked: Ask, tmp_path: Path) -> None:
    file = tmp_path / "slips.pdf"
    asked("give", "due", "--all", "--slips", str(file))
    assert file.read_bytes().startswith(b"%PDF")
    other = tmp_path / "all.pdf"
    asked("give", "--slips", str(other), "--all")
    assert other.exists()


WRONG = [
    (("lesson", "five-ad-1", "--all"), "five-add-1"),
    (("set", "add-fiv", "--all"), "add-five"),
    (("sheet", "2400-438M-GRNM", "--all"), "2400-43M8-GRNM"),
    (("sheet", "kyu-11", "--all"), "perhaps kyu-1"),
    (("due", "--to", ""), "--to: an empty text"),
    (("--list", "--group", " "), "--group: an empty text"),
    (("due", "today", "--all"), "due alone"),
    (("lesson", "--all"), "the id of a lesson"),
    (("lesson", "five-add-1", "--to", "Ottr"), "Otter"),
    (("lesson", "five-add-1", "--to", "Otter,Ottr"), "Otter"),
    (("lesson", "five-add-1", "--to", ","), "the name of a learner"),
    (("due", "--group", "net"), "nets"),
    (("due",), "one of --to"),
    (("due", "--all", "--group", "nets"), "one of --to"),
    (("--all",), "what to give"),
    (("due", "--all", "--list"), "--list alone"),
    (("--take-back", "--all"), "what to give"),
    (("due", "--all", "--slips", "slips.txt"), "a name for a PDF"),
    (("--slips", "slips.pdf", "--to", "Seal"), "has to do"),
    (("due", "--all", "--slips", "missing/slips.pdf"), "missing/slips.pdf"),
]


@pytest.mark.parametrize(("arguments", "told"), WRONG, ids=lambda one: str(one)[:40])
def test_what_is_wrong_is_told_with_what_was_meant_and_nobody_is_given_anything(
    store: Store, capsys: Capture, arguments: tuple[str, ...], told: str
) -> None:
    assert main(["give", *arguments]) == 2
    assert told in capsys.readouterr().err
    assert todo(store) == {}


def test_where_the_slips_cannot_go_nobody_is_given_anything(
    store: Store, capsys: Capture, tmp_path: Path
) -> None:
    file = tmp_path / "slips.pdf"
    file.write_text("crabs")
    assert main(["give", "due", "--all", "--slips", str(file)]) == 2
    assert "slips-2.pdf" in capsys.readouterr().err
    assert todo(store) == {} and file.read_text() == "crabs"


def test_where_nobody_was_ever_here_it_is_told(path: Path, capsys: Capture) -> None:
    assert main(["give", "due", "--all"]) == 2
    assert "no learners" in capsys.readouterr().err


def test_where_slips_have_no_room_nobody_is_given_anything(
    store: Store, capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "slips.pdf"

    def full(*_: object) -> None:
        raise StoreError(file, "", Trouble.FULL)

    monkeypatch.setattr("frame.commands.give.write_slips", full)
    assert main(["give", "due", "--all", "--slips", str(file)]) == 2
    assert "no room left" in capsys.readouterr().err
    assert todo(store) == {} and not file.exists()


def test_slips_of_what_is_given_are_of_those_who_had_it_too(
    store: Store, asked: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slips: list[Slip] = []
    monkeypatch.setattr("frame.commands.give.write_slips", lambda _, some, __: slips.extend(some))
    asked("give", "due", "--to", "Otter")
    asked("give", "lesson", "five-add-1", "--all")
    asked("give", "due", "--all", "--slips", str(tmp_path / "slips.pdf"))
    assert [one.name for one in slips] == ["Crab", "Otter"]


def test_slips_beside_taking_back_are_refused_and_nothing_is_taken_back(
    store: Store, asked: Ask, capsys: Capture, tmp_path: Path
) -> None:
    asked("give", "due", "--to", "Crab")
    file = tmp_path / "slips.pdf"
    assert main(["give", "due", "--to", "Crab", "--take-back", "--slips", str(file)]) == 2
    assert "--take-back alone" in capsys.readouterr().err
    assert todo(store) == {"Crab": [(Work.DUE, "")]} and not file.exists()
