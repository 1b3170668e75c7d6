"""The words file: its forms, its errors, and that code and file name the same keys."""

import ast
from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import cache
from itertools import product
from pathlib import Path

import pytest
from shipped import the_words

from frame.course.agenda import Task
from frame.course.plays import Play
from frame.language.catalogue import UnknownKey, Words, WordsError, load_words
from frame.language.lines import Line
from frame.language.wording import Listener
from frame.learner.class_list import Wrong
from frame.learner.trouble import Trouble
from frame.practice.choices import Sight
from frame.practice.families import Family
from frame.practice.figures import Level
from frame.practice.needs import Reason as Need
from frame.practice.rungs import Rung
from frame.practice.why import Reason
from frame.report.told import HELPS, About
from frame.resources import ASSETS
from frame.screens.board.acts import Deed
from frame.screens.grown.screen import Part
from frame.sheets.called import GAPS
from frame.sheets.choices import KINDS
from frame.sheets.code import Expected as ExpectedOfCode
from frame.sheets.grades import CELLS, How
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Part as SheetPart
from frame.sheets.runs import published_runs
from frame.sheets.sheet import Way
from frame.technique.expression import Expected
from frame.technique.fingers import Finger
from frame.technique.habits import Habit
from frame.technique.operation import Act
from frame.technique.reasons import Why
from frame.technique.slips import Slip

ROOT = Path(__file__).resolve().parents[2]
WORDS = the_words()

SOURCE = sorted((ROOT / "frame").rglob("*.py"))
SECTIONS = {key.split(".")[0] for key in WORDS.keys}


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All that a file of the source is made of; read when it is asked for, not by every worker."""
    return tuple(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))


def source() -> Iterator[tuple[Path, ast.AST]]:
    return ((path, node) for path in SOURCE for node in nodes(path))


def texts(paths: Iterable[Path]) -> set[str]:
    """Every text in files of the source."""
    every = (node.value for path in paths for node in nodes(path) if isinstance(node, ast.Constant))
    return {value for value in every if isinstance(value, str)}


def words_of(tmp_path: Path, text: str) -> Words:
    path = tmp_path / "xx.toml"
    path.write_text(text, encoding="utf-8")
    return load_words(path)


def asked_keys() -> dict[str, str]:
    """Every literal key that the source asks words for, with where it does."""
    found = {}
    for path, node in source():
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and node.func.attr in ("text", "line", "listed")
            and ast.unparse(node.func.value).rpartition(".")[2] == "words"
            and node.args
            and isinstance(node.args[0], ast.Constant)
            and isinstance(node.args[0].value, str)
        ):
            found[node.args[0].value] = f"{path.name}:{node.lineno}"
    return found


def test_every_key_in_the_source_is_in_the_file() -> None:
    missing = {key: at for key, at in asked_keys().items() if key not in WORDS.keys}
    assert not missing


ICONS = {path.stem.removeprefix("icon-") for path in (ASSETS / "pictures").glob("icon-*.svg")}


def constants(folder: str) -> set[str]:
    """Every text in a folder of the source, or in one within it."""
    within = ROOT / "frame"
    return texts(path for path in SOURCE if folder in path.relative_to(within).parts)


def slip_keys() -> Iterator[str]:
    """Slips, with what is told apart of them."""
    for slip in Slip:
        yield slip
        yield from (f"{slip}-{detail}" for detail in DETAILS)


DETAILS = ("none", "five", "taken", "digit", "between", "left", "right", "numbers", "half", "again")

FILLED: dict[str, Iterable[object]] = {
    "listener": Listener,
    "best": Family,
    "field": {cell.rpartition(".")[2] for cell in CELLS},
    "self.listener": Listener,
    "play": Play,
    "self.play": Play,
    "listener if names_rods(step) else Listener.YOUNG": Listener,
    "Listener.OLDER": (Listener.OLDER,),
    "way": ("up", "down"),
    "kind": ("ones", "beads", "place.whole", "place.parts"),
    "finger_of(move)": Finger,
    "_key(fault)": tuple(slip_keys()),
    "key": ("partner-of-five", "partner-of-ten", "digits", "rows", "pace"),
    "Slip.NEGATIVE_READ_AS_SHOWN": (Slip.NEGATIVE_READ_AS_SHOWN,),
    "site.habit": tuple(set(Habit) - {Habit.WRONG_PARTNER, Habit.WRONG_PARTNER_OF_FIVE}),
    "trouble": tuple(set(Trouble) - {Trouble.GONE}),
    "problem.wrong": Wrong,
    "reason.why": Why,
    "habit": Habit,
    "about": About,
    "helps": tuple(HELPS.values()),
    "why.reason": Reason,
    "operation.act": Act,
    "'first-root' if is_first else operation.act": (*Act, "first-root"),
    "section": ("written", "work"),
    "self.kind.section": ("own", "agendas", "class_files"),
    "rung.name": tuple(rung.name for rung in Rung),
    "told.name": tuple(rung.name for rung in Rung),
    "step.rung.name": tuple(rung.name for rung in Rung),
    "family": Family,
    "sight": Sight,
    "choices.beads.family": Family,
    "pace": tuple(GAPS),
    "run.id": tuple(published_runs()),
    "self.run.id": tuple(published_runs()),
    "beads.family": Family,
    "whom": ("to", "group"),
    "happened": ("to", "had", "back"),
    "shown.item.act": Task,
    "deed": Deed,
    "part": Part,
    "recipe.kind": SheetKind,
    "recipe.part": SheetPart,
    "section.way": Way,
    "level": Level,
    "error.expected": (*Expected, *ExpectedOfCode),
    "expected": ("from_input", "some_moves"),
    "found": ("moves_beside", "no_moves"),
    "name": (
        "explain",
        "judge",
        "slip",
        "lessons",
        "picture",
        "board",
        "measure",
        "code",
        "merge",
        "restore",
        "backup",
        "export",
        "report",
        "sheet",
        "mark",
        "class",
        "give",
    ),
    "topic": ("facts", "family", "lesson", "unit", "slip", "due"),
    "size": ("count", "rows", "digits", "by"),
    "choice": ("version", "leaf", "part"),
    "given": ("answers", "wrong", "name", "id"),
    "wanted": (
        *("what", "kind_of_topic", "fact", "family", "lesson", "unit", "slip", "facts_there"),
        *("other_kind", "no_minus", "no_work", "no_minus_yet"),
    ),
    "lacking": ExpectedOfCode,
    "need": Need,
    "reason": (Need.AWAY, Need.UNSURE),
    "what": KINDS,
    "how": How,
    "option[2:]": ("carry", "remove", "layout", "outer", "first", "strict"),
}
"""What the places of keys that are put together in code can be filled with, by its expression."""


def template(node: ast.JoinedStr) -> list[str]:
    """The fixed and the filled parts of an f-string by turns, fixed ones first."""
    parts = [""]
    for value in node.values:
        if isinstance(value, ast.FormattedValue):
            parts += [ast.unparse(value.value), ""]
        elif isinstance(value, ast.Constant):
            parts[-1] += str(value.value)
    return parts


def signs() -> dict[str, Iterable[object]]:
    """What a sign may be: the icons that the source of its screens names."""
    named = {
        "tool": ("board",),
        "button": ("parts", "lesson", "board", "tutor", "choosing", "grown"),
    }
    return {
        f"{what}.sign": ICONS & set().union(*map(constants, folders))
        for what, folders in named.items()
    }


def made_keys() -> tuple[set[str], list[str]]:
    """Every key that is put together, and the places of those that FILLED does not know."""
    made, unknown, filled = set[str](), list[str](), FILLED | signs()
    for path, node in source():
        if not isinstance(node, ast.JoinedStr):
            continue
        fixed, places = template(node)[::2], template(node)[1::2]
        if not places:
            continue
        if set(places) <= set(filled):
            for values in product(*(filled[place] for place in places)):
                ends = [f"{value}{end}" for value, end in zip(values, fixed[1:], strict=True)]
                made.add(fixed[0] + "".join(ends))
        elif fixed[0].partition(".")[0] in SECTIONS and "." in fixed[0]:
            unknown.append(f"{path.name}:{node.lineno}: {places}")
    return made, unknown


def test_what_fills_a_key_put_together_in_code_is_known() -> None:
    made, unknown = made_keys()
    assert unknown == []
    assert made & set(WORDS.keys)


def test_every_key_in_the_file_is_used() -> None:
    """Which words are recorded, and which not, is no use of them."""
    used = made_keys()[0] | texts(path for path in SOURCE if path.name != "spoken.py")
    assert [key for key in WORDS.keys if key not in used] == []


def test_a_plain_text_serves_as_both_forms(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = "Hello, {name}."')
    assert words.line("a.b", name="Fox") == Line("Hello, Fox.", "Hello, Fox.")


def test_a_table_of_show_and_speak_is_one_sentence(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = { show = "+{n}", speak = "plus {n}" }')
    assert words.text("a.b", n=3) == "+3"
    assert words.line("a.b", n="x") == Line("+x", "plus x")


def test_a_number_is_shown_in_digits_and_spoken_in_words() -> None:
    line = WORDS.line("lesson.it_reads", number=Decimal("-50.2"))
    assert line == Line("The frame reads −50.2.", "The frame reads minus fifty point two.")


def test_a_sentence_fills_a_place_in_both_forms(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = "Yes: {what}"')
    assert words.line("a.b", what=Line("+3.", "plus three.")) == Line(
        "Yes: +3.", "Yes: plus three."
    )


def test_an_unknown_key_names_the_nearest() -> None:
    with pytest.raises(UnknownKey, match=r"'lesson\.dne'.*'lesson\.done'"):
        WORDS.text("lesson.dne")
    with pytest.raises(KeyError):
        WORDS.listed("number.smal")


def test_a_missing_fact_is_named() -> None:
    with pytest.raises(WordsError, match=r"home\.go_on.*'title'.*given: name"):
        WORDS.text("home.go_on", name="x")


@pytest.mark.parametrize("text", ["[a", "[a]\nb = 3", "\xff".encode("latin-1").decode("latin-1")])
def test_a_bad_file_is_an_error_with_its_path(tmp_path: Path, text: str) -> None:
    with pytest.raises(WordsError, match=r"xx\.toml"):
        words_of(tmp_path, text)


def test_a_missing_file_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(WordsError, match=r"none\.toml"):
        load_words(tmp_path / "none.toml")


def test_both_forms_of_a_sentence_take_the_same_facts() -> None:
    from string import Formatter

    for key, line in WORDS.sentences.items():
        shown = {name for _, name, _, _ in Formatter().parse(line.show) if name}
        spoken = {name for _, name, _, _ in Formatter().parse(line.speak) if name}
        assert shown == spoken, key
