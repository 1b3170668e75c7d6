"""Wrong use, help, streams that break: what a command line must take without a traceback."""

import io
import json
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from frame.cli import main

ROOT = Path(__file__).resolve().parents[2]

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]


@pytest.mark.parametrize(
    ("text", "found", "expected"),
    [
        ("3 × 4 + 5", "'+'", "one product"),
        ("3 / 4 / 5", "'/'", "one product"),
        ("3 +", "the end", "a number"),
        ("", "the end", "a number"),
        ("3 + x", "'x'", "a number"),
        ("1.2.3", "'1.2.3'", "a number"),
        ("1" * 40, "a number of 40 digits", "fits the rods"),
        ("1" * 6000, "a number of 6000 digits", "fits the rods"),
        ("9" * 35 + "+1", "36 rods", "fits the rods"),
        ("1 + " * 9000, "36000 characters", "at most"),
        ("\ud800", "'\\ud800'", "a number"),
    ],
)
def test_a_sum_that_is_none_is_an_error(
    asked: Ask, capsys: Capture, text: str, found: str, expected: str
) -> None:
    error = asked("explain", text, status=2)["error"]
    assert list(error) == ["where", "found", "expected"]
    assert found in error["found"]
    assert expected in error["expected"]
    assert main(["explain", text]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bead-frame: ") and "; expected " in err
    assert "Traceback" not in err


def test_work_that_does_not_fit_the_rods_is_an_error(asked: Ask) -> None:
    error = asked("explain", "38 + 470", "--rods", "2", status=2)["error"]
    assert "3 rods" in error["found"]


@pytest.mark.parametrize(
    "arguments",
    [
        ["nothing"],
        ["explain"],
        ["explain", "5", "--carry", "never"],
        ["explain", "5", "--rods", "0"],
        ["explain", "5", "--rods", "36"],
        ["explain", "5", "--rods", "-3"],
        ["explain", "5", "--rods", "9" * 5000],
        ["explain", "5", "6"],
        ["explain", "5", "--strange"],
        ["judge", "5"],
        ["judge", "5", "0:+5", "--strict", "very"],
        ["judge", "-", "0:+5"],
        ["lessons", "--check"],
        ["lessons", "--check", "no/such/file.yaml"],
        ["lessons", "--check", "."],
        ["lessons", "--check", "a" * 5000],
        ["board"],
        ["board", "no/such/file.yaml"],
        ["board", "."],
        ["board", "a" * 5000],
        ["board", "a.yaml", "b.yaml"],
        ["picture", "5"],
        ["picture", "5", "x.gif"],
        ["picture", "5", "x.png", "--size", "1x1"],
        ["picture", "5", "x.png", "--size", "big"],
        ["picture", "5 + 6", "x.png", "--size", "200x100"],
        ["picture", "5", "x.png", "--theme", "plaid"],
        ["picture", "5", "no/such/folder/x.png"],
        ["code"],
        ["code", "1234"],
    ],
)
def test_wrong_use_is_refused_without_a_traceback(
    asked: Ask, capsys: Capture, arguments: list[str]
) -> None:
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bead-frame: ") and err.count("\n") == 1
    assert set(asked(*arguments, status=2)["error"]) == {"where", "found", "expected"}


@pytest.mark.parametrize(
    "command", ["explain", "judge", "lessons", "picture", "board", "measure", "code"]
)
def test_help_teaches(capsys: Capture, command: str) -> None:
    assert main([command, "--help"]) == 0
    assert f"bead-frame {command}" in capsys.readouterr().out
    assert main(["--help"]) == 0
    assert command in capsys.readouterr().out


def test_every_example_in_the_help_works(
    capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:

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


def test_no_screen_is_said_in_one_line_that_names_what_works(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = pytest.importorskip("frame.screens.start")
    from frame.app import NoScreen

    def run(words: object, agenda: object = None) -> None:
        raise NoScreen

    monkeypatch.setattr(start, "run", run)
    assert main([]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1
    for command in ("explain", "judge", "lessons", "picture", "board", "measure", "code"):
        assert command in err
