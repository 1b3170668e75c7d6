"""The keys that the help of a command tells are those that it prints with --json, no more and no
fewer."""

import re
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import fields
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from kept import added, store_in
from reports import FULL
from shipped import the_words
from told_attempt import TOLD, WHOSE

from frame.cli import main
from frame.commands.measure import figures_shape
from frame.commands.opening import saved_shape
from frame.commands.report import shape
from frame.learner.class_kept import Member, keep_class
from frame.learner.on_paper import keep_marked
from frame.learner.salvage import Saved
from frame.learner.statements import statement_of
from frame.learner.store import Store
from frame.measuring.call import CallFigures
from frame.measuring.flash import FlashFigures
from frame.measuring.technique import Figures, Speed
from frame.measuring.window import WindowFigures
from frame.practice.families import Family
from frame.report.told import page_of
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.marking import Answer, mark, mark_wrong
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

Ask = Callable[..., Any]
HEAD = "keys of --json"
DEEPEST = 12
"""A line further in than this goes on with what is said of the keys above it."""
OPEN = {
    "report": {"says"},
    "class": {"due"},
    "export": {"verb.display", "object.definition.name"},
}
"""What holds names of families, of parts and of languages, in place of keys."""
WITHOUT = {"board", "code"}


def told(text: str) -> Iterator[str]:
    """The keys that a help tells, each behind those that hold it."""
    within: list[list[str]] = [[""]]
    _, _, listed = text.partition(HEAD)
    for line in listed.splitlines()[1:]:
        words = line.lstrip()
        indent = len(line) - len(words)
        if not indent or indent > DEEPEST:
            continue
        depth = indent // 2
        names = re.split(r" {2,}", words)[0].split(", ")
        del within[depth:]
        within.append([f"{above}.{name}".strip(".") for above in within[-1] for name in names])
        yield from within[-1]


def printed(value: Any, is_open: set[str], above: str = "") -> Iterator[str]:
    """The keys of a JSON value, each behind those that hold it; of an address its end."""
    if isinstance(value, list):
        for one in value:
            yield from printed(one, is_open, above)
    elif isinstance(value, dict) and above not in is_open:
        for key, one in value.items():
            path = f"{above}.{key.rpartition('/')[2]}".strip(".")
            yield path
            yield from printed(one, is_open, path)


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """A class of three of the harbour, two of whom worked on paper; Crab forgets carries."""
    now = datetime.now(UTC) - timedelta(days=8)
    sheet = make(recipe_for(facts_of(Family.ADD_TEN)))
    less = [Answer(task.sum.result - 10) for task in sheet.tasks]
    with closing(store_in(path.parent)) as store:
        crab, heron, seal = (added(store, name) for name in ("Crab", "Heron", "Seal"))
        keep_marked(store, crab, mark_wrong(sheet, []), USUAL, now - timedelta(days=1))
        keep_marked(store, crab, mark(sheet, less), USUAL, now)
        keep_marked(store, heron, mark_wrong(sheet, []), USUAL, now)
        keep_class(store, [Member(one, "nets") for one in (crab, heron, seal)])
        yield store


def of_sums(ask: Ask) -> dict[str, list[Any]]:
    """What the commands say that need nobody."""
    wrong = Path("wrong.yaml")
    wrong.write_text("lesson: lamps\n", encoding="utf-8")
    return {
        "explain": [ask("explain", "3876 / 68")],
        "judge": [ask("judge", "4 + 3", "0:+4 0:+3")],
        "slip": [ask("slip", "12 - 15", "7")],
        "lessons": [ask("lessons"), ask("lessons", "--check", "wrong.yaml", status=1)],
        "picture": [ask("picture", "38 + 47", "strip.png")],
        "sheet": [ask("sheet", "columns", "nets.pdf", "--rows", "3", "--seed", "7")],
    }


def of_marks(ask: Ask, code: str) -> list[Any]:
    """A class marked: a line with too few answers, and none of them likely by chance."""
    Path("answers.csv").write_text("Seal, 1, 2\n", encoding="utf-8")
    return [ask("mark", code, "answers.csv", "--keep")]


def of_learners(ask: Ask) -> dict[str, list[Any]]:
    """What the commands say that are about who is here."""
    saved = saved_shape(Saved(1, 2, Path("learners.unreadable-1")))
    given = [
        ask("give", "due", "--group", "nets"),
        ask("give", "--list"),
        ask("give", "due", "--group", "nets", "--take-back"),
    ]
    return {
        "backup": [ask("backup", "all.sqlite"), saved],
        "merge": [ask("merge", "all.sqlite"), saved],
        "restore": [ask("restore", "all.sqlite"), saved],
        "export": [ask("export", "Crab", "crab.csv"), *of_statements()],
        "report": [
            ask("report", "Crab", "--html", "crab.html"),
            shape(FULL, page_of(FULL, "Crab", the_words())),
            ask("report", "--class", "."),
        ],
        "class": [ask("class")],
        "give": given,
    }


def of_statements() -> list[Any]:
    """What is sent to a record store of a sum, and of one to be rounded."""
    return [statement_of(one, WHOSE) for one in (TOLD, TOLD._replace(exercise="1 / 3", places=2))]


def of_window() -> list[Any]:
    """Figures that nobody measured."""
    named = dict.fromkeys((one.name for one in fields(WindowFigures)), 1.0)
    flash = FlashFigures(4, 15, 133.3, 0.1, 0.2, 0.1, 8.0, 0, None, "plain")
    window: Any = WindowFigures(**{**named, "size": (1, 1), "flash": (flash, flash)})  # type: ignore[arg-type]
    speeds = (Speed(*[1] * len(fields(Speed))),)
    call = CallFigures(*[1] * len(fields(CallFigures)))
    return [figures_shape(Figures(speeds, 1.0, 1.0, 1.0), window, call)]


def test_the_keys_told_are_those_printed(
    store: Store,
    asked: Ask,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    shapes = of_sums(asked) | of_learners(asked) | {"measure": of_window()}
    shapes["mark"] = of_marks(asked, shapes["sheet"][0]["code"])
    main(["--help"])
    commands = set(re.findall(r"^    (\w+) ", capsys.readouterr().out, re.MULTILINE))
    assert set(shapes) == commands - WITHOUT
    for command, shown in shapes.items():
        main([command, "--help"])
        keys = set(printed(shown, OPEN.get(command, set())))
        assert set(told(capsys.readouterr().out)) == keys, command


@pytest.mark.parametrize("command", sorted(WITHOUT))
def test_a_command_without_json_tells_no_keys(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    main([command, "--help"])
    assert HEAD not in capsys.readouterr().out


def test_keys_within_others_are_told_behind_them() -> None:
    text = f"{HEAD}:\n  a, b    both\n    c     within\n              each\n  d\nwith --x:\n  e\n"
    assert list(told(text)) == ["a", "b", "a.c", "b.c", "d", "e"]
