"""The README tells the truth: its examples are run, its tables and links looked up."""

import ast
import io
import json
import re
import shlex
import struct
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pygame
import pytest
from each import each_row
from shipped import the_course, the_words
from told_attempt import TOLD

from frame.cli import main
from frame.course.agenda import Task, read_agenda
from frame.course.attempts import Origin
from frame.course.loader import ASKED, COVERS, LESSON_KEYS, PRACTISE_KEYS, RUNGS, STEP_KEYS
from frame.learner.table import Row, write_table
from frame.measuring.window import WindowFigures, measure_window
from frame.practice.exercises import Kind
from frame.practice.flashing import FlashSetting
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.technique.facts import ALL_FACTS
from frame.technique.habits import Habit
from frame.technique.slips import Slip

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
COMMANDS = ("explain", "judge", "slip", "lessons", "picture", "measure", "sheet", "mark")
NOT_RUN = ("board", "code", "merge", "backup", "restore", "export", "report", "class", "give")
"""Commands without an example: the first opens the window, the others are about what is kept."""
PICTURE_WIDTH = 960
MOST_BYTES = 3_000_000
MOST_WORDS = 2_500
"""Before the reference."""

ELSEWHERE = "..."
"""Stands in an example for lines, or for the rest of a list, that the README leaves out."""

CONSTANTS = {
    "F11": ["F11"], "F2": ["F2"],
    "Esc": ["ESCAPE"], "F5": ["F5"], "Tab": ["TAB"], "Space": ["SPACE"],
    "Enter": ["RETURN", "KP_ENTER"], "Left": ["LEFT"], "Right": ["RIGHT"], "Up": ["UP"],
    "Down": ["DOWN"], "1": ["1"], "2": ["2"], "3": ["3"], "4": ["4"], "5": ["5"], "Z": ["z"],
    "Y": ["y"], "Delete": ["DELETE"], "0 to 9": ["0", "KP0", "KP1"], "Backspace": ["BACKSPACE"],
    "Page Down": ["PAGEDOWN"], "Page Up": ["PAGEUP"], "Home": ["HOME"], "End": ["END"],
    **{letter: [letter.lower()] for letter in "ABEFGHILMNOPRSTVW"},
    "minus": ["MINUS", "KP_MINUS"], "point": ["PERIOD", "KP_PERIOD"], "comma": ["COMMA"],
}  # fmt: skip
"""The pygame constants behind the names of keys."""


class Fence(NamedTuple):
    """A block of code, with the comment on the line before it."""

    comment: str
    language: str
    text: str


class Example(NamedTuple):
    """A command line of the README and the output it shows."""

    command: str
    output: str
    figures_differ: bool

    @property
    def answers_json(self) -> bool:
        return "--json" in self.command or self.command.endswith(" -")


def fences() -> Iterator[Fence]:
    pattern = r"^(?:<!-- ([^\n]*) -->\n)?```(\w+)\n(.*?)^```$"
    for match in re.finditer(pattern, README, re.MULTILINE | re.DOTALL):
        yield Fence(match[1] or "", match[2], match[3])


def examples() -> Iterator[Example]:
    for fence in fences():
        if fence.language == "console":
            for part in fence.text.split("$ ")[1:]:
                command, _, output = part.partition("\n")
                yield Example(command, output, fence.comment == "figures differ")


def table(head: str) -> list[list[str]]:
    """The rows of the table whose head line begins so, each as its cells."""
    lines = README[README.index(f"| {head} |") :].splitlines()
    rows = [line.strip("|").split("|") for line in lines[2 : lines.index("")]]
    return [[cell.strip() for cell in row] for row in rows]


def ids(text: str) -> list[str]:
    """What stands between backticks."""
    return re.findall(r"`([^`]+)`", text)


def prose() -> str:
    """The README without its blocks of code."""
    return re.sub(r"^```.*?^```$", "", README, flags=re.MULTILINE | re.DOTALL)


EXAMPLES = list(examples())


@cache
def measured_once() -> WindowFigures:
    """The window's figures; both examples may show the same run."""
    return measure_window(the_words())


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with only the files that the README shows; there the work is done, and no figure
    is measured for long."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PYTHONPATH", str(ROOT))  # For the programs that `measure` starts.
    monkeypatch.setattr("frame.commands.measure.SECONDS_EACH", 0.0)
    monkeypatch.setattr("frame.measuring.call.NUMBERS", 2)
    for name, value in (("TOUCHES", 6), ("IDLE_SECONDS", 0.1), ("STARTS", 1), ("FLASH_RUNS", 1)):
        monkeypatch.setattr(f"frame.measuring.window.{name}", value)
    quick = (FlashSetting(3, 2, 0.1),) * 2
    monkeypatch.setattr("frame.measuring.window.FLASHED", quick)
    for name, seconds in (("SETTLE", 0.0), ("TRIAL_SECONDS", 0.02)):
        monkeypatch.setattr(f"frame.view.presenting.{name}", seconds)
    monkeypatch.setattr("frame.commands.measure.measure_window", lambda words: measured_once())
    for fence in fences():
        if fence.comment.startswith("file: "):
            name = fence.comment.removeprefix("file: ")
            (tmp_path / name).write_text(fence.text, encoding="utf-8")
    return tmp_path


def run(command: str, monkeypatch: pytest.MonkeyPatch) -> int:
    """Do what a command line says, fed by `printf` where that stands before a bar."""
    fed, _, asked = command.rpartition(" | ")
    if fed:
        program, text = shlex.split(fed)
        assert program == "printf"
        given = text.replace("\\n", "\n").replace("\\t", "\t").encode()
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(given)))
    program, *arguments = shlex.split(asked)
    assert program == "bead-frame"
    return main(arguments)


def objects(text: str) -> Iterator[Any]:
    """The JSON values one after another in a text, `...` standing for itself."""
    text = text.replace(ELSEWHERE, json.dumps(ELSEWHERE)).strip()
    while text:
        value, end = json.JSONDecoder().raw_decode(text)
        yield value
        text = text[end:].strip()


def is_shape(shown: Any, real: Any, figures_differ: bool) -> bool:
    """Whether a real JSON value is the one shown, but for what the README leaves out."""
    if isinstance(shown, list) and isinstance(real, list):
        if shown[-1:] == [ELSEWHERE]:
            shown = shown[:-1]
            real = real[: len(shown)]
        pairs = zip(shown, real, strict=False)
        return len(shown) == len(real) and all(is_shape(a, b, figures_differ) for a, b in pairs)
    if isinstance(shown, dict) and isinstance(real, dict):
        return list(shown) == list(real) and all(
            is_shape(shown[key], real[key], figures_differ) for key in shown
        )
    if figures_differ:
        return not isinstance(shown, list | dict) and not isinstance(real, list | dict)
    return bool(shown == real)


FIGURES = re.compile(
    r"\d[\d.,]*( MB)?|not measured|\(\w+\)|(?<=; )(plain|texture|texture-vsync|usual)(?=,)"
)
"""What depends on the computer: figures, names of drivers, the way to the screen."""


def is_text(shown: str, real: str, figures_differ: bool) -> bool:
    """Whether the real lines are those shown, but for what the README leaves out."""
    if figures_differ:
        shown, real = (re.sub(r" +", " ", re.sub(FIGURES, "#", text)) for text in (shown, real))
    pattern = re.escape(shown).replace(re.escape(f"{ELSEWHERE}\n"), r"(.*\n)*?")
    return re.fullmatch(pattern, real) is not None


def _case(example: Example) -> Any:
    """An example; what starts windows to measure them takes long, and is a proof."""
    is_long = example.command.startswith("bead-frame measure")
    marks = pytest.mark.proof if is_long else ()
    return pytest.param(example, id=example.command, marks=marks)


@pytest.mark.parametrize("example", [_case(one) for one in EXAMPLES])
def test_the_example_gives_the_output_shown(
    example: Example,
    files: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    run(example.command, monkeypatch)
    out, err = capsys.readouterr()
    assert err == ""
    if example.answers_json:
        shown, real = list(objects(example.output)), list(objects(out))
        assert is_shape(shown, real, example.figures_differ), out
    else:
        assert is_text(example.output, out, example.figures_differ), out


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_an_example(command: str) -> None:
    """The keys of its JSON are told by its help (tests/commands/test_json_keys.py)."""
    of_command = [one for one in EXAMPLES if f"bead-frame {command}" in one.command]
    assert command == "picture" or any("--json" not in one.command for one in of_command)
    assert of_command


def test_every_command_has_a_section(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    named = re.findall(r"^    (\w+) ", capsys.readouterr().out, re.MULTILINE)
    assert set(named) == {*COMMANDS, *NOT_RUN}
    assert set(named) <= set(re.findall(r"^### (\w+)$", prose(), re.MULTILINE))


def test_the_comparison_of_examples_can_fail() -> None:
    assert is_shape({"a": [1, ELSEWHERE]}, {"a": [1, 2, 3]}, False)
    assert not is_shape({"a": [1, ELSEWHERE]}, {"a": [2, 2]}, False)
    assert not is_shape({"a": 1}, {"a": 2}, False)
    assert not is_shape({"a": 1, "b": 2}, {"a": 1}, True)
    assert is_text("one\n...\nfour\n", "one\ntwo\nthree\nfour\n", False)
    assert not is_text("one\n...\nfour\n", "one\ntwo\n", False)
    assert is_text("start 1.5 ms\n", "start  2.25 ms\n", True)
    assert not is_text("start 1.5 ms\n", "stop 2.5 ms\n", True)
    assert not is_shape({"a": {"b": 1}}, {"a": None}, True)


def test_the_lesson_shown_can_go_into_the_course(
    files: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["lessons", "--check", "my-lesson.yaml"]) == 0
    assert main(["lessons", "--check", "broken.yaml"]) == 1


def commands_in_shell() -> list[str]:
    return [fence.text.strip() for fence in fences() if fence.language in ("sh", "bat")]


def test_one_line_runs_the_tool_and_one_the_tests_on_each_system() -> None:
    assert len(commands_in_shell()) == 4
    for line in commands_in_shell():
        environment, install, work = line.replace("\\", "/").split(" && ")
        assert environment.endswith("-m venv .venv")
        extra = re.fullmatch(
            r"\.venv/\w+/python -m pip install -q -e ['\"]?\.(?:\[(\w+)\])?['\"]?", install
        )
        assert extra
        assert extra[1] is None or extra[1] in PROJECT["optional-dependencies"]
        program = r"\.venv/\w+/python -m pytest" if extra[1] == "test" else r"\.venv/\w+/bead-frame"
        assert re.fullmatch(program, work)


def test_the_programs_that_the_commands_start_are_installed_by_them() -> None:
    assert PROJECT["scripts"]["bead-frame"] == "frame.cli:program"
    tests_need = " ".join(PROJECT["optional-dependencies"]["test"])
    assert all(package in tests_need for package in ("pytest", "hypothesis", "hatchling"))


def test_the_test_command_is_marked_for_the_workshop() -> None:
    (marked,) = [fence for fence in fences() if fence.comment == "test command"]
    assert marked.language == "sh"
    assert marked.text.strip().endswith("-m pytest")


def links() -> list[str]:
    return [link for link in re.findall(r"\]\(([^)\s]+)\)", README) if "://" not in link]


def slug(heading: str) -> str:
    """The name under which a heading can be linked to."""
    return re.sub(r"[^\w -]", "", heading).strip().lower().replace(" ", "-")


@each_row("link", links())
def test_the_link_leads_somewhere(link: str) -> None:
    if link.startswith("#"):
        headings = re.findall(r"^#+ (.*)$", prose(), re.MULTILINE)
        assert link[1:] in map(slug, headings)
    else:
        assert (ROOT / link).exists()


def pictures() -> list[str]:
    return re.findall(r"!\[[^\]]*\]\(([^)\s]+)\)", README)


def test_every_picture_of_the_readme_is_shown_once_and_fits_the_page() -> None:
    files = {path.relative_to(ROOT).as_posix() for path in (ROOT / "assets/readme").iterdir()}
    kept = {name for name in files if not name.endswith((".py", "__pycache__"))}
    assert sorted(pictures()) == sorted(kept)
    widths = {pygame.image.load(str(ROOT / name)).get_width() for name in kept}
    assert widths == {PICTURE_WIDTH}


def test_the_script_renders_every_picture_and_no_other() -> None:
    script = ast.parse((ROOT / "assets/readme/make.py").read_text("utf-8"))
    (made,) = [
        [one.id for one in node.value.elts if isinstance(one, ast.Name)]
        for node in script.body
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Tuple)
        if ast.unparse(node.targets[0]) == "PICTURES"
    ]
    assert sorted(f"assets/readme/{name}.png" for name in made) == sorted(pictures())


def test_what_is_seen_first_moves_and_is_small() -> None:
    first = ROOT / pictures()[0]
    assert README.index(pictures()[0]) < README.index("\n## ")
    data = first.read_bytes()
    assert len(data) < MOST_BYTES
    at = data.index(b"acTL") + 4  # How many pictures a moving PNG has, and how often it plays.
    count, plays = struct.unpack(">II", data[at : at + 8])
    assert count > 1 and plays == 0


def test_what_a_parent_reads_is_short() -> None:
    page, _, reference = README.partition("\n# Reference\n")
    assert reference and len(page.split()) <= MOST_WORDS


def test_the_options_named_exist(capsys: pytest.CaptureFixture[str]) -> None:
    named = set(re.findall(r"--[a-z]+", README))
    for arguments in ([], *([command] for command in (*COMMANDS, *NOT_RUN))):
        main([*arguments, "--help"])
    assert named <= set(re.findall(r"--[a-z]+", capsys.readouterr().out))


def keys_named() -> set[str]:
    """The keys of the tables, without Shift and Ctrl, which are held with others."""
    heads = ("key | does", "key | on the board", "key | on the board, besides")
    names = ", ".join(row[0] for head in heads for row in table(head))
    return {name.split("+")[-1] for name in names.split(", ")}


def keys_in_code() -> set[str]:
    sources = [path.read_text("utf-8") for path in (ROOT / "frame").rglob("*.py")]
    return {name for source in sources for name in re.findall(r"pygame\.K_(\w+)", source)}


def test_the_keys_named_are_those_the_window_knows() -> None:
    assert {constant for name in keys_named() for constant in CONSTANTS[name]} == keys_in_code()


def test_the_slips_named_are_those_of_the_catalogue() -> None:
    assert [ids(row[0])[0] for row in table("id | what happened")] == list(Slip)


def test_the_faults_named_are_those_of_the_catalogue() -> None:
    assert [ids(row[0])[0] for row in table("id | what is done wrongly")] == list(Habit)


def test_the_lesson_format_is_that_of_the_loader() -> None:
    assert [ids(row[0])[0] for row in table("key | what it holds")] == list(LESSON_KEYS)
    steps = {ids(row[0])[0]: tuple(ids(row[2])) for row in table("step | what happens")}
    assert steps == {**STEP_KEYS, "practise": ()}
    within = README[README.index("Within `practise`") :]
    assert re.findall(r"^\| `(\w+)` \|", within.split("The facts:")[0], re.M) == list(PRACTISE_KEYS)
    (cover,) = [row for row in table("step | what happens") if row[0] == "`cover`"]
    assert set(ids(cover[1])) == set(COVERS)
    told = README[README.index("`rung` says") :].split("\n\n")[0]
    assert set(ids(told)) == {"rung", *RUNGS}
    told = README[README.index("`asked` says") :].split("\n\n")[0]
    assert set(ids(told)) == {"asked", "pace", *ASKED}


def test_the_facts_named_are_all_there_are() -> None:
    named: list[str] = []
    for row in table("facts | what is known"):
        for part in row[0].split(", "):
            first, *last = ids(part)
            named += ALL_FACTS[ALL_FACTS.index(first) : ALL_FACTS.index((last or [first])[0]) + 1]
    assert sorted(named) == sorted(ALL_FACTS)


def test_the_course_has_as_many_lessons_as_are_promised() -> None:
    assert f"A course of {len(the_course().lessons)} lessons" in " ".join(README.split())


def test_no_badge_and_no_picture_from_elsewhere() -> None:
    assert not re.search(r"!\[[^\]]*\]\(https?:", README)


def test_the_agenda_shown_is_sound() -> None:
    (fence,) = [fence for fence in fences() if fence.comment == "file: agenda.yaml"]
    agenda, problems = read_agenda(fence.text, "agenda.yaml")
    assert problems == () and agenda is not None
    assert {item.act for item in agenda.items} == set(Task)


def test_the_export_shown_is_what_is_written() -> None:
    shown = {fence.language: fence.text for fence in fences()}
    written = io.StringIO(newline="")
    write_table(written, [TOLD])
    assert written.getvalue().replace("\r\n", "\n") == shown["csv"]


def test_the_columns_named_are_those_of_the_table() -> None:
    named = [name for row in table("column | what stands in it") for name in ids(row[0])]
    assert sorted(named) == sorted(Row._fields)
    cells = {name: row[1] for row in table("column | what stands in it") for name in ids(row[0])}
    for name, values in (
        ("origin", Origin), ("kind", Kind), ("outcome", Outcome), ("rung", Rung), ("asked", Asked)
    ):  # fmt: skip
        assert set(ids(cells[name])) == set(values), name
