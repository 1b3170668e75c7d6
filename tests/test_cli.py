"""The command line, through its one door."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from frame.cli import main
from frame.technique.beads import BeadMove, Frame
from frame.technique.facts import ALL_FACTS

ROOT = Path(__file__).resolve().parents[1]

Capture = pytest.CaptureFixture[str]


def asked(capsys: Capture, *arguments: str, status: int = 0) -> Any:
    """The JSON that a command answers."""
    assert main([*arguments, "--json"]) == status
    out, err = capsys.readouterr()
    assert err == ""
    return json.loads(out)


def streamed(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, command: str, lines: bytes
) -> list[Any]:
    """The JSON objects that a command streams, and its exit status last."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(lines)))
    status = main([command, "-"])
    out, err = capsys.readouterr()
    assert err == ""
    return [*map(json.loads, out.splitlines()), status]


# --- explain


def test_explain_answers_the_documented_shape(capsys: Capture) -> None:
    """Every key of the documented example."""

    def move(rod: int, beads: int, finger: str, together: bool = False) -> dict[str, Any]:
        return {"rod": rod, "beads": beads, "finger": finger, "together": together}

    def step(
        operation: str, rod: int, digit: int, technique: str, reading: str, *moves: dict[str, Any]
    ) -> dict[str, Any]:
        return {
            "operation": operation, "rod": rod, "digit": digit, "technique": technique,
            "ripple": 0, "reading": reading, "frame": reading.zfill(13), "units": 12,
            "moves": list(moves),
        }  # fmt: skip

    assert asked(capsys, "explain", "38 + 47") == {
        "expression": "38 + 47",
        "conventions": {"carry": "last", "remove": "run"},
        "reading": "85",
        "remainder": None,
        "steps": [
            step("set 38", 1, 3, "direct", "30", move(1, 3, "thumb")),
            step("set 38", 0, 8, "direct", "38", move(0, 3, "thumb", True), move(0, 5, "index")),
            step("+47", 1, 4, "five", "78", move(1, 5, "index"), move(1, -1, "index")),
            step("+47", 0, 7, "ten", "85", move(0, -3, "index"), move(1, 1, "thumb")),
        ],
    }


def told(answer: Any) -> list[tuple[str, str, list[str]]]:
    """Of each step its operation, its reading and its moves in notation."""
    return [
        (s["operation"], s["reading"], [str(BeadMove(m["rod"], m["beads"])) for m in s["moves"]])
        for s in answer["steps"]
    ]


# The moves: Heffelfinger and Flom 2004, read through a secondary summary, for 45.7 + 4.5 (units
# -5, tens... C-5, B-9, A+1) and 22.3 - 2.8 (A-1, B+9, C+2). The order within is Kojima's.
def test_explain_ripples_a_carry_through_nine(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "45.7 + 4.5")
    assert answer["reading"] == "50.2"
    last = answer["steps"][-1]
    assert last["ripple"] == 1
    assert last["units"] == 11
    assert told(answer)[-1] == ("+4.5", "50.2", ["-1:-5", "0:-4", "0:-5", "1:+5", "1:-4"])


def test_explain_ripples_a_borrow_over_nought(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "22.3 - 2.8")
    assert answer["reading"] == "19.5"
    assert told(answer)[-1] == (
        "-2.8", "19.5", ["1:-1", "0:+4", "0:+5", "-1:+5", "-1:-3"],
    )  # fmt: skip


# Heffelfinger and Flom 2004, read through a secondary summary.
def test_explain_goes_below_zero_and_comes_back(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "0 - 95 + 118")
    assert answer["reading"] == "23"
    steps = told(answer)
    assert steps[0] == ("borrow 100", "0", [])
    assert steps[2][1] == "-95"
    assert answer["steps"][2]["frame"] == "0000000000005"
    assert steps[-1] == ("return 100", "23", ["2:-1"])
    assert answer["steps"][0]["technique"] == "borrow"


# Reincke, read through a secondary summary: 23 - 61 is worked as 123 - 61 = 62, so -38.
def test_explain_reads_a_result_below_zero(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "23 - 61")
    assert answer["reading"] == "-38"
    assert answer["steps"][-1]["frame"].endswith("62")


# Worked out by hand: a borrowed 10 would show 5 for both -5 and, after -95, -100.
def test_explain_raises_a_borrow_that_is_outgrown(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "0 - 5 - 95")
    assert answer["reading"] == "-100"
    assert [name for name, _, _ in told(answer)] == [
        "borrow 10", "-5", "borrow 1000", "-95", "-95",
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["38 + 47", "99999 + 4", "22.3 - 2.8", "23 - 61", "-5 + 8"])
@pytest.mark.parametrize("carry", ["last", "first"])
@pytest.mark.parametrize("remove", ["run", "pinch"])
def test_the_moves_make_the_frames(capsys: Capture, text: str, carry: str, remove: str) -> None:
    answer = asked(capsys, "explain", text, "--carry", carry, "--remove", remove)
    assert answer["conventions"] == {"carry": carry, "remove": remove}
    units = answer["steps"][0]["units"]
    frame = Frame.cleared(13, units)
    for step in answer["steps"]:
        frame = frame.apply_all(tuple(BeadMove(m["rod"], m["beads"]) for m in step["moves"]))
        assert (step["frame"], step["units"]) == (frame.digits, units)


def test_rods_are_as_many_as_asked(capsys: Capture) -> None:
    answer = asked(capsys, "explain", "38 + 47", "--rods", "3")
    assert answer["steps"][-1]["frame"] == "085"
    assert answer["steps"][-1]["units"] == 2


@pytest.mark.parametrize("number", ["1234567890123456789012345678901", "9" * 31])
def test_the_longest_numbers_are_exact(capsys: Capture, number: str) -> None:
    answer = asked(capsys, "explain", f"{number} - 1")
    assert answer["expression"] == f"{number} - 1"
    assert answer["reading"] == number[:-1] + str(int(number[-1]) - 1)
    assert answer["steps"][0]["operation"] == f"set {number}"


def test_explain_in_words_is_a_column(capsys: Capture) -> None:
    assert main(["explain", "38 + 47"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "38 + 47 = 85"
    heads = [lines[2].index(head) for head in ("operation", "rule", "bead move", "finger")]
    worked = next(line for line in lines if line.startswith("+47"))
    assert worked[heads[1] :].startswith("+4 = +5 −1")
    assert worked[heads[2] :].startswith("Five bead down on the tens")
    assert worked[heads[3] :].startswith("index finger")
    assert lines[-1].split() == ["One", "bead", "up", "on", "the", "tens", "thumb", "85"]


@pytest.mark.parametrize("text", ["-5 + 8", "-5+8", "- 5 + 8", "−5 + 8"])
def test_a_leading_minus_stands_as_it_is(capsys: Capture, text: str) -> None:
    assert asked(capsys, "explain", text)["expression"] == "-5 + 8"


def test_explain_streams_one_object_a_line(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = "3 + 9\n\n3 × 4\r\n\xff\n−5 + 8\n2 - 1".encode().replace(b"\xc3\xbf", b"\xff")
    *answers, status = streamed(capsys, monkeypatch, "explain", lines)
    assert [a.get("reading") for a in answers] == ["12", None, None, None, "3", "1"]
    assert answers[1]["error"]["where"].startswith("line 2")
    assert answers[2]["error"]["found"] == "'×'"
    assert status == 1


def test_a_clean_stream_is_done(capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    assert streamed(capsys, monkeypatch, "explain", b"1 + 2\n")[-1] == 0


# --- judge


def test_judge_answers_the_documented_shape(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "4 + 3", "0:+4 0:+5 0:-2")
    assert list(answer) == ["moves", "finished", "reading"]
    assert [list(move) for move in answer["moves"]] == [["move", "verdict", "slip", "says"]] * 3
    assert [move["verdict"] for move in answer["moves"]] == ["right"] * 3
    assert [move["slip"] for move in answer["moves"]] == [None] * 3
    assert answer["moves"][-1]["says"] == "Yes: +5, −2 makes +3."
    assert (answer["finished"], answer["reading"]) == (True, "7")


def test_a_pinch_is_one_entry(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "8 + 0", "0:+5&0:+3")
    assert [m["move"] for m in answer["moves"]] == ["0:+5&0:+3"]
    assert answer["finished"]


def test_a_wrong_move_is_not_kept(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "4 + 3", "0:+4 0:+5 0:-3 0:-2")
    assert [m["verdict"] for m in answer["moves"]] == ["right", "right", "wrong", "right"]
    assert answer["moves"][2]["slip"] == "wrong-partner"
    assert answer["finished"]


@pytest.mark.parametrize(("move", "slip"), [("20:+1", "wrong-rod"), ("0:+3", "counted-past")])
def test_a_move_that_cannot_be_is_wrong_and_no_error(capsys: Capture, move: str, slip: str) -> None:
    answer = asked(capsys, "judge", "4 + 3", f"0:+4 {move}")
    assert (answer["moves"][1]["verdict"], answer["moves"][1]["slip"]) == ("wrong", slip)
    assert answer["reading"] == "4"


def test_another_order_is_its_own_verdict(capsys: Capture) -> None:
    log = "0:+3&0:+5 1:+1 0:-3"
    kept = asked(capsys, "judge", "8 + 7", log)
    assert [m["verdict"] for m in kept["moves"]] == ["right", "other order", "right"]
    assert kept["finished"]
    school = asked(capsys, "judge", "8 + 7", log, "--carry", "first", "--strict", "order")
    assert [m["verdict"] for m in school["moves"]] == ["right"] * 3


def test_strict_answer_asks_for_the_answer_alone(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "4 + 3", "0:+5 0:+2", "--strict", "answer")
    assert (answer["finished"], answer["reading"]) == (True, "7")


def test_what_a_log_leaves_out_shows_on_its_last_move(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "8 + 7", "0:+3&0:+5 0:-3")
    last = answer["moves"][-1]
    assert (last["verdict"], last["slip"]) == ("right", "carry-forgotten")
    assert last["says"].startswith("One ten comes in next door.")
    assert (answer["finished"], answer["reading"]) == (False, "5")


def test_the_reading_knows_what_is_borrowed(capsys: Capture) -> None:
    log = "1:+1 1:-1 0:+5"
    answer = asked(capsys, "judge", "0 - 95 + 118", log)
    assert [m["verdict"] for m in answer["moves"]] == ["right"] * 3
    assert answer["reading"] == "-95"


def test_moves_may_stand_apart_and_begin_with_a_minus(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "0.5 + 0.1", "-1:+5", "-1:+1")
    assert [m["move"] for m in answer["moves"]] == ["-1:+5", "-1:+1"]
    assert (answer["finished"], answer["reading"]) == (True, "0.6")


def test_an_empty_log_is_not_finished(capsys: Capture) -> None:
    answer = asked(capsys, "judge", "4 + 3", "")
    assert answer == {"moves": [], "finished": False, "reading": "0"}


@pytest.mark.parametrize(
    ("log", "where", "found", "expected"),
    [
        ("0:+4 0+5", "move 2", "'0+5'", "the nearest is 0:+5"),
        ("0:+6", "move 1", "'0:+6'", "the nearest is 0:+"),
        ("1:3", "move 1", "'1:3'", "the nearest is 1:"),
        ("0:+2&1:+5", "move 1", "'0:+2&1:+5'", "0:+2&0:+5"),
        ("0:+2&0:+1&0:+5", "move 1", "'0:+2&0:+1&0:+5'", "at most two moves"),
    ],
)
def test_a_text_that_is_no_move_is_an_error(
    capsys: Capture, log: str, where: str, found: str, expected: str
) -> None:
    error = asked(capsys, "judge", "4 + 3", log, status=2)["error"]
    assert (error["where"], error["found"]) == (where, found)
    assert expected in error["expected"]


def test_judge_in_words_names_verdicts_and_slips(capsys: Capture) -> None:
    assert main(["judge", "4 + 3", "0:+4 0:+5 0:-3"]) == 0
    out = capsys.readouterr().out
    assert "wrong-partner  Partners of five: 3 and 2. Next: two ones down." in out
    assert out.endswith("Not finished. The frame reads 9.\n")


def test_judge_streams_sum_tab_moves(capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = b"4 + 3\t0:+4 0:+5 0:-2\n4 + 3\n4 + 3\t0:+4 xx\n1 + 1\t\n"
    *answers, status = streamed(capsys, monkeypatch, "judge", lines)
    assert answers[0]["finished"]
    assert answers[1]["error"]["found"] == "no tab"
    assert answers[2]["error"]["where"] == "line 3, move 2"
    assert answers[3]["moves"] == []
    assert status == 1


# --- errors


@pytest.mark.parametrize(
    ("text", "found", "expected"),
    [
        ("3 × 4", "'×'", "+ or −"),
        ("3 / 4", "'/'", "+ or −"),
        ("3 +", "the end", "a number"),
        ("", "the end", "a number"),
        ("3 + x", "'x'", "+ or −"),
        ("1.2.3", "'1.2.3'", "a number"),
        ("1" * 40, "a number of 40 digits", "fits the rods"),
        ("1" * 6000, "a number of 6000 digits", "fits the rods"),
        ("9" * 31 + "+1", "32 rods", "fits the rods"),
        ("1 + " * 9000, "36000 characters", "at most"),
        ("\ud800", "'\\ud800'", "a number"),
    ],
)
def test_a_sum_that_is_none_is_an_error(
    capsys: Capture, text: str, found: str, expected: str
) -> None:
    error = asked(capsys, "explain", text, status=2)["error"]
    assert list(error) == ["where", "found", "expected"]
    assert found in error["found"]
    assert expected in error["expected"]
    assert main(["explain", text]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bead-frame: ") and "; expected " in err
    assert "Traceback" not in err


def test_work_that_does_not_fit_the_rods_is_an_error(capsys: Capture) -> None:
    error = asked(capsys, "explain", "38 + 470", "--rods", "2", status=2)["error"]
    assert "3 rods" in error["found"]


@pytest.mark.parametrize(
    "arguments",
    [
        ["nothing"],
        ["explain"],
        ["explain", "5", "--carry", "never"],
        ["explain", "5", "--rods", "0"],
        ["explain", "5", "--rods", "32"],
        ["explain", "5", "--rods", "-3"],
        ["explain", "5", "--rods", "9" * 5000],
        ["explain", "5", "6"],
        ["explain", "5", "--strange"],
        ["judge", "5"],
        ["judge", "5", "0:+5", "--strict", "very"],
        ["lessons", "--check"],
        ["lessons", "--check", "no/such/file.yaml"],
        ["lessons", "--check", "."],
        ["picture", "5"],
        ["picture", "5", "x.gif"],
        ["picture", "5", "x.png", "--size", "1x1"],
        ["picture", "5", "x.png", "--size", "big"],
        ["picture", "5", "x.png", "--theme", "plaid"],
        ["picture", "5", "no/such/folder/x.png"],
    ],
)
def test_wrong_use_is_refused_without_a_traceback(capsys: Capture, arguments: list[str]) -> None:
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bead-frame: ") and err.count("\n") == 1
    assert set(asked(capsys, *arguments, status=2)["error"]) == {"where", "found", "expected"}


@pytest.mark.parametrize("command", ["explain", "judge", "lessons", "picture", "measure"])
def test_help_teaches(capsys: Capture, command: str) -> None:
    assert main([command, "--help"]) == 0
    assert f"bead-frame {command}" in capsys.readouterr().out
    assert main(["--help"]) == 0
    assert command in capsys.readouterr().out


def test_every_example_in_the_help_works(
    capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import shlex

    monkeypatch.chdir(tmp_path)
    main(["--help"])
    shown = capsys.readouterr().out
    for command in ("explain", "judge", "picture"):
        main([command, "--help"])
        shown += capsys.readouterr().out
    examples = [
        shlex.split(line.split("   ")[0].strip())[1:]
        for line in map(str.strip, shown.splitlines())
        if line.startswith(("bead-frame explain", "bead-frame judge", "bead-frame picture"))
    ]
    assert len(examples) >= 8
    for example in examples:
        assert main(example) == 0, example


# --- the process


def run(*arguments: str, **options: Any) -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, **options.pop("env", {})}
    return subprocess.run(
        [sys.executable, "-m", "frame.cli", *arguments],
        capture_output=True, cwd=ROOT, env=environment, timeout=60, **options,
    )  # fmt: skip


def test_a_reader_that_leaves_causes_no_traceback() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    lines = b"12345 + 67890\n" * 300
    done = subprocess.run(
        [sys.executable, "-m", "frame.cli", "explain", "-"],
        input=lines, stdout=writing, stderr=subprocess.PIPE, cwd=ROOT, timeout=60,
    )  # fmt: skip
    os.close(writing)
    assert done.stderr == b""
    assert done.returncode == 1


def test_an_interrupt_ends_with_130(capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    class Interrupted(io.BytesIO):
        def __next__(self) -> bytes:
            raise KeyboardInterrupt

    monkeypatch.setattr("sys.stdin", Interrupted())
    assert main(["explain", "-"]) == 130
    assert capsys.readouterr().err == ""


def test_json_is_utf_8_and_text_is_shown_as_far_as_it_goes() -> None:
    plain = {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    answer = run("judge", "4 + 3", "0:+4 0:+5 0:-2", "--json", env=plain)
    assert json.loads(answer.stdout.decode("utf-8"))["moves"][2]["says"].endswith("−2 makes +3.")
    assert run("explain", "-5 + 8", env=plain).returncode == 0


def test_a_picture_puts_nothing_else_out(tmp_path: Path) -> None:
    done = run("picture", "5", str(tmp_path / "five.png"), "--rods", "3")
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")


# --- lessons


def test_lessons_lists_the_course(capsys: Capture) -> None:
    units = asked(capsys, "lessons")["units"]
    lessons = [lesson for unit in units for lesson in unit["lessons"]]
    assert [list(unit) for unit in units] == [["id", "title", "lessons"]] * len(units)
    assert set(lessons[0]) == {"id", "title", "after", "new"}
    assert lessons[0]["after"] is None
    assert {fact for lesson in lessons for fact in lesson["new"]} <= set(ALL_FACTS)
    assert main(["lessons"]) == 0
    text = capsys.readouterr().out
    assert all(lesson["id"] in text and lesson["title"] in text for lesson in lessons)


def test_a_clean_script_has_no_problems(capsys: Capture) -> None:
    script = next((ROOT / "lessons").glob("*/1-*.yaml"))
    unit = script.with_name("unit.yaml")
    answer = asked(capsys, "lessons", "--check", str(script), str(unit))
    assert answer == {"problems": []}


def test_problems_are_placed(capsys: Capture, tmp_path: Path) -> None:
    script = tmp_path / "mine.yaml"
    script.write_text("lesson: mine\ntitle: Mine\nsteps:\n  - sum: 1 + 1\n    answer: 3\n")
    empty = tmp_path / "empty.yaml"
    empty.write_bytes(b"")
    problems = asked(capsys, "lessons", "--check", str(script), str(empty), status=1)["problems"]
    places = [(Path(p["file"]).name, p["line"], p["column"]) for p in problems]
    assert places == [("mine.yaml", 4, 5), ("empty.yaml", 1, 1)]
    assert main(["lessons", "--check", str(script)]) == 1
    assert capsys.readouterr().out.startswith(f"{script}:4:5: ")


# --- picture


def size_of(path: Path) -> tuple[int, int]:
    """The size that a PNG file tells (PNG specification, IHDR chunk)."""
    head = path.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    return int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")


def test_a_number_is_one_frame(capsys: Capture, tmp_path: Path) -> None:
    path = tmp_path / "frame.png"
    answer = asked(capsys, "picture", "1234", str(path), "--size", "640x240")
    assert answer == {"file": str(path), "width": 640, "height": 240, "frames": 1}
    assert size_of(path) == (640, 240)


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
    capsys: Capture, tmp_path: Path, text: str, options: list[str], frames: int
) -> None:
    path = tmp_path / "strip.png"
    answer = asked(capsys, "picture", text, str(path), *options)
    assert answer["frames"] == frames
    assert size_of(path) == (answer["width"], answer["height"])


def test_pictures_of_other_numbers_and_themes_differ(capsys: Capture, tmp_path: Path) -> None:
    seen = set()
    for number in ("5", "6"):
        for theme in ("light", "dark", "high-contrast"):
            path = tmp_path / f"{number}-{theme}.png"
            asked(capsys, "picture", number, str(path), "--theme", theme, "--size", "320x160")
            seen.add(path.read_bytes())
    assert len(seen) == 6


def test_a_strip_without_end_is_refused(capsys: Capture, tmp_path: Path) -> None:
    text = " + ".join(["1"] * 300)
    error = asked(capsys, "picture", text, str(tmp_path / "x.png"), status=2)["error"]
    assert "300 frames" in error["found"]


# --- measure


def test_measure_tells_what_was_measured_and_null_for_the_rest(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("frame.commands.measure.SECONDS_EACH", 0.0)
    answer = asked(capsys, "measure")
    assert set(answer) == {
        "screen", "flash", "touch_ms", "start_ms", "memory_mb", "idle_cpu_percent", "technique",
    }  # fmt: skip
    assert answer["flash"] is None and answer["screen"] is None and answer["touch_ms"] is None
    assert answer["start_ms"] > 1
    assert answer["technique"]["verdict_us"] > 0
    assert [speed["digits"] for speed in answer["technique"]["speeds"]] == [14, 28]
    assert main(["measure"]) == 0
    assert "not measured" in capsys.readouterr().out


# --- without a screen


def test_no_screen_is_said_in_one_line_that_names_what_works(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = pytest.importorskip("frame.screens.start")
    from frame.app import NoScreen

    def run() -> None:
        raise NoScreen

    monkeypatch.setattr(start, "run", run)
    assert main([]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1
    for command in ("explain", "judge", "lessons", "picture", "measure"):
        assert command in err
