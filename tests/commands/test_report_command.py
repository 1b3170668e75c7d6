"""`report`: text, JSON and page of one learner, and what is refused."""

import json
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from kept import added, begun, store_in, timed, two_otters_and_a_seal

from frame.cli import main
from frame.course.attempts import Attempt
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import parse_sum

NOW = datetime.now(UTC)
RIGHT = Attempt("x", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())
MENDED = Attempt("x", Exercise(Kind.SUM, parse_sum("8 + 7"), rods=2), False, True, 0, ())

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """The same with two otters and a seal, who did twenty-four sums on two days."""
    with closing(store_in(path.parent)) as store:
        for learner in two_otters_and_a_seal(store, NOW):
            for ago in (1, 2):
                day = NOW - timedelta(days=ago)
                tried = timed(*[(RIGHT, 60.0)] * 10, *[(MENDED, 30.0)] * 2)
                store.record(begun(store, learner, day), tried, learner, "x", None, day)
        yield store


def test_the_figures_are_told_as_json_with_counts_that_are_numbers(
    store: Store, asked: Ask
) -> None:
    told = asked("report", "Seal")
    assert told["learner"] == "Seal" and told["day"] == str(NOW.astimezone().date())
    assert told["exercises"] == {"right_at_once": 20, "of": 24}
    assert (told["week"]["minutes"], told["week"]["of"]) == (22, 24)
    assert (told["week_before"]["minutes"], told["week_before"]["of"]) == (0, 0)
    (known,) = told["known"]
    assert (known["family"], known["right_at_once"], known["of"]) == ("add-five", 20, 20)
    (learning,) = told["learning"]
    assert (learning["family"], learning["of"], learning["too_early"]) == ("add-ten", 4, True)
    assert told["lessons"]["done"] == 0 and told["lessons"]["next"] == "beads-1"
    assert told["fault"] is None and told["too_early"] is False
    assert told["beads_hidden"] is told["called"] is told["flashed"] is None


def test_the_text_has_every_part_and_the_counts(store: Store, capsys: Capture) -> None:
    assert main(["report", "Seal"]) == 0
    out, err = capsys.readouterr()
    text = out.replace("\u00a0", " ")
    assert err == "" and text.startswith("How Seal is getting on\n")
    lines = [line.split("  ") for line in text.splitlines()]
    assert ["", "Adding, partner of five: 3 + 4", "20 of 20"] in lines
    assert ["", "Adding, partner of ten: 8 + 4", "0 of 4", "too few to tell"] in lines
    assert "22 min" in text and "To do at home" in text


def test_the_page_goes_to_a_new_file_and_no_other_is_touched(
    store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    file = tmp_path / "seal.html"
    assert main(["report", "Seal", "--html", str(file)]) == 0
    assert capsys.readouterr().out == f"Written: {file}\n"
    page = file.read_text(encoding="utf-8")
    assert "Seal" in page and page.startswith("<!DOCTYPE html>")
    error = asked("report", "Seal", "--html", str(file), status=2)["error"]
    assert error["where"] == str(file) and str(tmp_path / "seal-2.html") in error["expected"]
    assert file.read_text(encoding="utf-8") == page
    for place in (tmp_path / "none" / "x.html", tmp_path):
        assert asked("report", "Seal", "--html", str(place), status=2)["error"]["where"] == str(
            place
        )
    other = tmp_path / "other.html"
    assert asked("report", "Seal", "--html", str(other))["file"] == str(other)


def test_of_several_of_a_name_one_is_named_by_an_id(store: Store, asked: Ask) -> None:
    found = asked("report", "Otter", status=2)["error"]["found"]
    otters = [one for one in store.learners() if one.nickname == "Otter"]
    assert all(one.id[:4] in found for one in otters)
    assert asked("report", "Otter", "--id", otters[1].id[:8])["id"] == otters[1].id
    assert asked("report", "--id", otters[0].id)["id"] == otters[0].id


def test_who_is_here_alone_need_not_be_named(path: Path, asked: Ask) -> None:
    with closing(Store(path)) as store:
        assert asked("report", status=2)["error"]["found"] == "no learner yet"
        added(store, "Crab")
        assert asked("report")["learner"] == "Crab"
        added(store, "Fox")
    assert "Crab" in asked("report", status=2)["error"]["found"]


def test_who_or_what_is_not_there_is_refused(store: Store, path: Path, asked: Ask) -> None:
    assert "Otter, Seal" in asked("report", "Whale", status=2)["error"]["found"]
    for empty in (
        ["report", ""],
        ["report", "Seal", "--id", " "],
        ["report", "Seal", "--html", ""],
    ):
        assert "empty" in asked(*empty, status=2)["error"]["found"]


def test_without_a_learners_file_it_is_said_that_there_is_none(path: Path, asked: Ask) -> None:
    error = asked("report", "Seal", status=2)["error"]
    assert error["where"] == str(path) and not path.exists()


def test_a_file_that_cannot_be_used_is_told_of(path: Path, capsys: Capture) -> None:
    path.parent.mkdir()
    path.mkdir()
    assert main(["report", "Seal", "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["error"]["where"] == str(path)


def test_a_name_that_would_move_the_cursor_is_spelt_out(path: Path, capsys: Capture) -> None:
    with closing(Store(path)) as store:
        added(store, "Ot\x1b[2Jter")
    assert main(["report"]) == 0
    assert "\x1b" not in capsys.readouterr().out


def test_a_class_has_a_page_for_each_child(
    path: Path, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    folder = tmp_path / "parents"
    folder.mkdir()
    with closing(Store(path)) as store:
        for name in ("Otter", "Otter", "Fähre/2"):
            added(store, name)
    files = [Path(one) for one in asked("report", "--class", str(folder))["files"]]
    assert [one.name for one in files] == [
        "report-Otter.pdf", "report-Otter-2.pdf", "report-Fähre-2.pdf"
    ]  # fmt: skip
    assert all(one.read_bytes().startswith(b"%PDF-") for one in files)
    assert main(["report", "--class", str(tmp_path / "away")]) == 2
    assert "away" in capsys.readouterr().err
