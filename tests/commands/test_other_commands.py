"""`lessons`, `picture` and `measure`, through the command line's one door."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from frame.app import NoScreen
from frame.cli import english, main
from frame.commands.lessons import check
from frame.course.agenda import load_items
from frame.course.problems import LessonError
from frame.technique.facts import ALL_FACTS

ROOT = Path(__file__).resolve().parents[2]

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]


def test_lessons_lists_the_course(asked: Ask, capsys: Capture) -> None:
    units = asked("lessons")["units"]
    lessons = [lesson for unit in units for lesson in unit["lessons"]]
    assert [list(unit) for unit in units] == [["id", "title", "lessons"]] * len(units)
    assert set(lessons[0]) == {"id", "title", "after", "minutes", "new"}
    assert all(lesson["minutes"] > 0 for lesson in lessons)
    assert lessons[0]["after"] is None
    assert {fact for lesson in lessons for fact in lesson["new"]} <= set(ALL_FACTS)
    assert main(["lessons"]) == 0
    text = capsys.readouterr().out
    for lesson in lessons:
        assert lesson["id"] in text and f"{lesson['title']} " in text
        assert f" {lesson['minutes']}" in text


def test_a_clean_script_has_no_problems(asked: Ask) -> None:
    script = next((ROOT / "lessons").glob("*/1-*.yaml"))
    unit = script.with_name("unit.yaml")
    answer = asked("lessons", "--check", str(script), str(unit))
    assert answer == {"problems": []}


def test_problems_are_placed(asked: Ask, capsys: Capture, tmp_path: Path) -> None:
    script = tmp_path / "mine.yaml"
    script.write_text("lesson: mine\ntitle: Mine\nsteps:\n  - sum: 1 + 1\n    answer: 3\n")
    empty = tmp_path / "empty.yaml"
    empty.write_bytes(b"")
    problems = asked("lessons", "--check", str(script), str(empty), status=1)["problems"]
    places = [(Path(p["file"]).name, p["line"], p["column"]) for p in problems]
    assert places == [("mine.yaml", 4, 5), ("empty.yaml", 1, 1)]
    assert main(["lessons", "--check", str(script)]) == 1
    assert capsys.readouterr().out.startswith(f"{script}:4:5: ")


AGENDA = "board: Nets\nitems:\n  - show: 46 + 39\n  - read: 572\n"


def test_an_agenda_is_checked_as_one_and_told_by_its_keys(
    asked: Ask, capsys: Capture, tmp_path: Path
) -> None:
    agenda = tmp_path / "morning.yaml"
    agenda.write_text(AGENDA)
    assert asked("lessons", "--check", str(agenda)) == {"problems": []}
    assert main(["lessons", "--check", str(agenda)]) == 0
    assert capsys.readouterr().out == "No problems.\n"
    agenda.write_text(AGENDA.replace("46 + 39", "46 + nets").replace("read: 572", "raed: 572"))
    problems = asked("lessons", "--check", str(agenda), status=1)["problems"]
    assert [(p["line"], p["column"]) for p in problems] == [(3, 16), (4, 5)]
    assert "'raed'" in problems[1]["says"] and "show, read, call or flash" in problems[1]["says"]
    assert main(["lessons", "--check", str(agenda)]) == 1
    assert capsys.readouterr().out.startswith(f"{agenda}:3:16: found ")


def test_a_file_of_sums_is_checked_as_the_board_reads_it(
    asked: Ask, capsys: Capture, tmp_path: Path
) -> None:
    sums = tmp_path / "sums.txt"
    for text, places in (
        ("46 + 39\n\n572\n12\u202f345 x 6\n", []),
        ("46 + 39\n46 + nets\n8 / 0\n", [(2, 6), (3, 5)]),
        ("\n", [(1, 1)]),
        ("board: Nets\n", [(1, 1)]),
    ):
        sums.write_text(text, "utf-8")
        found = asked("lessons", "--check", str(sums), status=int(bool(places)))["problems"]
        assert [(one["line"], one["column"]) for one in found] == places
        try:
            load_items(sums)
        except LessonError as error:
            assert [(one.line, one.column) for one in error.problems] == places
        else:
            assert not places
    sums.write_text("8 / 0\n")
    assert main(["lessons", "--check", str(sums)]) == 1
    assert (
        capsys.readouterr().out == f"{sums}:1:5: found '8 / 0'; expected a divisor other than 0\n"
    )


def test_lessons_units_and_agendas_are_checked_side_by_side(asked: Ask, tmp_path: Path) -> None:
    unit, agenda, lesson = (tmp_path / f"{name}.yaml" for name in ("unit", "agenda", "lesson"))
    unit.write_text("unit: nets\ntitle: nets\n")
    agenda.write_text("board: Nets\nitems: []\n")
    lesson.write_text("lesson: mine\ntitle: Mine\nsteps:\n  - sum: 1 + 1\n    answer: 3\n")
    files = [str(path) for path in (unit, agenda, lesson)]
    problems = asked("lessons", "--check", *files, status=1)["problems"]
    assert [(p["file"], p["line"], p["column"]) for p in problems] == [
        (files[0], 1, 1), (files[1], 2, 8), (files[2], 4, 5),
    ]  # fmt: skip
    # Beside the unit's file lie two others.
    assert "lessons in this unit's folder: 2; expected 5" in problems[0]["says"]


def test_in_a_broken_course_its_problems_are_told_of_the_files_asked_for_first(
    capsys: Capture, tmp_path: Path
) -> None:
    """With none in these, those of the rest: nothing can be checked after a broken course."""
    course = tmp_path / "lessons"
    for unit in ("1-beads", "2-tens", "3-no-partner"):
        shutil.copytree(ROOT / "lessons" / unit, course / unit)
    one, other = (next((course / unit).glob("3-*.yaml")) for unit in ("2-tens", "3-no-partner"))
    sound = next((course / "1-beads").glob("1-*.yaml"))
    for path in (one, other):
        path.write_text(path.read_text("utf-8").replace("steps:", "stops:"), "utf-8")

    def told_of(path: Path) -> set[Path]:
        assert check([path], course, False, english()) == 1
        return {Path(line.split(":")[0]) for line in capsys.readouterr().out.splitlines()}

    assert told_of(one) == {one}
    assert told_of(other) == {other}
    assert {one, other} <= told_of(sound)


def size_of(path: Path) -> tuple[int, int]:
    """The size that a PNG file tells (PNG specification, IHDR chunk)."""
    head = path.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    return int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")


def test_a_number_is_one_frame(asked: Ask, tmp_path: Path) -> None:
    path = tmp_path / "frame.png"
    answer = asked("picture", "5072", str(path), "--size", "640x240")
    assert answer == {"file": str(path), "width": 640, "height": 240, "frames": 1}
    assert size_of(path) == (640, 240)


@pytest.mark.skipif(os.name != "posix", reason="names of bytes that are no letters")
@pytest.mark.parametrize("name", [b"n\xc3\xa4ts.png", b"n\xe4ts.png", b"n\x1b[31mts.png"])
def test_a_picture_has_the_very_name(asked: Ask, tmp_path: Path, name: bytes) -> None:
    path = tmp_path / os.fsdecode(name)
    assert asked("picture", "5", str(path))["file"] == str(path)
    assert os.listdir(os.fsencode(tmp_path)) == [name]
    assert size_of(path) == (1280, 480)


def test_where_a_folder_lies_no_picture_is_written(capsys: Capture, tmp_path: Path) -> None:
    (tmp_path / "nets.png").mkdir()
    assert main(["picture", "5", str(tmp_path / "nets.png")]) == 2
    assert capsys.readouterr().err.endswith("; expected a file that can be written\n")


@pytest.mark.parametrize(
    ("text", "options", "frames"),
    [
        ("38 + 47", [], 3),
        ("38 + 47", ["--steps"], 4),
        ("38", ["--steps"], 2),
        ("0 - 95 + 118", [], 7),
        ("0 + 0", [], 1),
        ("-5", ["--rods", "5"], 2),
    ],
)
def test_a_sum_is_a_film_strip(
    asked: Ask, tmp_path: Path, text: str, options: list[str], frames: int
) -> None:
    path = tmp_path / "strip.png"
    answer = asked("picture", text, str(path), *options)
    assert answer["frames"] == frames
    assert size_of(path) == (answer["width"], answer["height"])


def test_pictures_of_other_numbers_and_themes_differ(asked: Ask, tmp_path: Path) -> None:
    seen = set()
    for number in ("5", "6"):
        for theme in ("light", "dark", "high-contrast"):
            path = tmp_path / f"{number}-{theme}.png"
            asked("picture", number, str(path), "--theme", theme, "--size", "320x160")
            seen.add(path.read_bytes())
    assert len(seen) == 6


def test_a_strip_without_end_is_refused(asked: Ask, tmp_path: Path) -> None:
    text = " + ".join(["1"] * 300)
    error = asked("picture", text, str(tmp_path / "x.png"), status=2)["error"]
    assert "300 frames" in error["found"]


@pytest.fixture
def short_measuring(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("frame.commands.measure.SECONDS_EACH", 0.0)
    monkeypatch.setattr("frame.measuring.technique.STARTS", 1)
    for name, value in (("TOUCHES", 12), ("IDLE_SECONDS", 0.1), ("STARTS", 1), ("FLASH_RUNS", 0)):
        monkeypatch.setattr(f"frame.measuring.window.{name}", value)


@pytest.mark.usefixtures("short_measuring")
@pytest.mark.proof
def test_measure_tells_what_was_measured_and_null_for_the_rest(asked: Ask) -> None:
    answer = asked("measure")
    assert set(answer) == {
        "screen", "flash", "flash_fast", "call", "touch_ms", "start_ms", "memory_mb",
        "idle_cpu_percent", "technique",
    }  # fmt: skip
    assert answer["flash"] is answer["flash_fast"] is None
    assert answer["call"] == {"numbers": 15, "digits": 14, "jitter_samples": 0}
    assert answer["screen"]["driver"] == "dummy"
    assert 0 < answer["touch_ms"]["median"] <= answer["touch_ms"]["p99"]
    assert answer["start_ms"] > 1
    assert answer["technique"]["verdict_us"] > 0
    assert [speed["digits"] for speed in answer["technique"]["speeds"]] == [14, 28]


@pytest.mark.usefixtures("short_measuring")
def test_measure_without_a_screen(
    asked: Ask, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(words: object) -> None:
        raise NoScreen

    monkeypatch.setattr("frame.commands.measure.measure_window", none)
    monkeypatch.setattr("frame.measuring.call.NUMBERS", 2)
    answer = asked("measure")
    assert answer["screen"] is None and answer["touch_ms"] is None
    assert answer["start_ms"] > 1
    assert main(["measure"]) == 0
    assert "not measured" in capsys.readouterr().out
