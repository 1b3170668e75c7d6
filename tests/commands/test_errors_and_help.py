"""Wrong use, help, streams that break: what a command line must take without a traceback."""

import io
import json
import os
import shlex
import subprocess
import sys
import tracemalloc
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


@pytest.mark.parametrize(
    ("arguments", "nearest"),
    [
        (["sheet", "columsn", "x.pdf"], ["columns"]),
        (["sheet", "columns", "x.pdf", "--family", "add-tne"], ["add-ten"]),
        (["sheet", "products", "x.pdf", "--lesson", "ten-add-1"], ["columns"]),
        (["mark", "2400-43M8-RGNM", "--wrong", "1"], ["2400-43M8-GRNM"]),
        (["judge", "3 + 4", "0:+55"], ["0:+5"]),
        (["mark", "2400-42D0", "--wrong", "1"], None),
        (["explain", "3 + x"], None),
    ],
    ids=str,
)
def test_what_may_have_been_meant_has_a_key_of_its_own(
    asked: Ask, arguments: list[str], nearest: list[str] | None
) -> None:
    error = asked(*arguments, status=2)["error"]
    assert error.get("nearest") == nearest
    assert list(error) == ["where", "found", "expected", *(["nearest"] if nearest else [])]
    assert all(one in error["expected"] for one in nearest or ())


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
        ["merge"],
        ["merge", "no/such/file.sqlite"],
        ["merge", "."],
        ["merge", "a" * 5000],
        ["restore", "a", "b"],
        ["backup"],
        ["backup", "a", "b", "c"],
        ["export"],
        ["export", "a.csv"],
        ["export", "a", "b", "c"],
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


ODD = "ne\x1b[31mts\x9b\u202e\n\udcff"
"""A name that would colour the terminal, turn its text round and begin a line; its last byte is no
letter."""


@pytest.mark.skipif(os.name != "posix", reason="names as there")
@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["lessons", "--check", f"{ODD}.yaml"], 1),
        (["board", f"{ODD}.yaml"], 1),
        (["board", f"{ODD}.txt"], 1),
        (["lessons", "--check", f"no{ODD}.yaml"], 2),
        (["board", f"no{ODD}.yaml"], 2),
        (["picture", "5", f"{ODD}.gif"], 2),
        (["picture", "5", f"no/{ODD}.png"], 2),
        (["explain", "5", ODD], 2),
        ([ODD], 2),
        (["explain", "5", "--carry", ODD], 2),
        (["judge", "5", ODD], 2),
    ],
)
def test_what_a_terminal_would_obey_is_spelt_out(
    capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    arguments: list[str], status: int,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    for ending in (".yaml", ".txt"):
        Path(ODD + ending).write_text("lesson: nets\n")
    assert main(arguments) == status
    shown = "".join(capsys.readouterr())
    assert all(line.isprintable() for line in shown.split("\n"))
    assert r"ne\x1b[31mts\x9b\u202e" in shown


@pytest.mark.skipif(os.name != "posix", reason="names as there")
def test_json_has_the_name_itself_and_nothing_unseen(
    capfd: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / f"{ODD}.yaml"
    path.write_text("lesson: nets\n")
    assert main(["lessons", "--check", str(path), "--json"]) == 1
    out, _ = capfd.readouterr()
    assert out[:-1].isprintable() and out[-1] == "\n"
    assert {one["file"] for one in json.loads(out)["problems"]} == {str(path)}


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


FULL = Path("/dev/full")


@pytest.mark.skipif(not FULL.exists(), reason="no device that is always full")
@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize("streams", [("stdout",), ("stderr",), ("stdout", "stderr")], ids=str)
@pytest.mark.parametrize("arguments", [["explain", "3 + 4"], ["explain", "3 +"], ["nothing"]])
def test_where_nothing_can_be_told_the_status_is_one_of_ours(
    arguments: list[str], streams: tuple[str, ...], unbuffered: str
) -> None:
    """Python's own, where it cannot flush at its end, is 120."""
    command = [sys.executable, "-m", "frame.cli", *arguments]
    with FULL.open("wb") as full:
        outputs = {
            "stdout": subprocess.PIPE,
            "stderr": subprocess.PIPE,
            **dict.fromkeys(streams, full),
        }
        done = subprocess.run(
            command, cwd=ROOT, env={**os.environ, "PYTHONUNBUFFERED": unbuffered}, timeout=60,
            **outputs,
        )  # fmt: skip
    assert done.returncode in (0, 1, 2)
    assert b"Traceback" not in (done.stderr or b"") and b"Exception" not in (done.stderr or b"")
    is_told = arguments[1:] == ["3 + 4"]
    assert (done.returncode == 0) == (is_told and "stdout" not in streams)


@pytest.mark.skipif(os.name != "posix", reason="streams that are closed as there")
@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
@pytest.mark.parametrize(("arguments", "status"), [("5", 0), ("3+", 2), ("-", 0)])
def test_streams_that_are_closed_change_no_status(closed: str, arguments: str, status: int) -> None:
    command = f"{shlex.quote(sys.executable)} -m frame.cli explain {arguments} {closed}"
    done = subprocess.run(
        ["sh", "-c", command], stdin=subprocess.DEVNULL, capture_output=True, cwd=ROOT, timeout=60
    )
    assert done.returncode == status
    assert b"Traceback" not in done.stdout + done.stderr


LONG = 64 * 1024


class Endless(io.RawIOBase):
    """A line of `count` blocks of a thousand digits, with a short line before it and behind."""

    def __init__(self, count: int) -> None:
        self.blocks = iter([b"3 + 4\n", *[b"1" * 1000] * count, b"\n5 + 6\n"])

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        block = next(self.blocks, b"")
        buffer[: len(block)] = block
        return len(block)


@pytest.mark.parametrize("command", ["explain", "judge"])
def test_a_line_without_an_end_is_refused_and_not_kept(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BufferedReader(Endless(20_000))))
    tracemalloc.start()
    try:
        assert main([command, "-"]) == 1
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < 5_000_000, "of twenty million bytes"
    before, long, after = map(json.loads, capsys.readouterr().out.splitlines())
    assert long == {
        "error": {
            "where": "line 2",
            "found": f"more than {LONG} bytes",
            "expected": f"a line of at most {LONG} bytes, with its end",
        }
    }
    if command == "explain":
        assert (before["reading"], after["reading"]) == ("7", "11")
    else:  # Neither has a tab.
        assert [one["error"]["where"][:7] for one in (before, after)] == ["line 1,", "line 3,"]


@pytest.mark.parametrize("length", [LONG - 1, LONG, LONG + 1, 2 * LONG, 2 * LONG + 1])
@pytest.mark.parametrize("end", [b"", b"\n"])
def test_a_line_is_long_by_its_bytes_and_end(
    streamed: Callable[[str, bytes], list[Any]], length: int, end: bytes
) -> None:
    *answers, status = streamed("explain", b"1" * (length - len(end)) + end)
    assert len(answers) == status == 1
    is_long = answers[0]["error"]["found"] == f"more than {LONG} bytes"
    assert is_long == (length > LONG or (length == LONG and not end))


def test_a_mark_of_utf_8_is_no_part_of_the_first_line(
    streamed: Callable[[str, bytes], list[Any]],
) -> None:
    *answers, status = streamed("explain", "3 + 4\n5 + 6\n".encode("utf-8-sig"))
    assert [one["reading"] for one in answers] == ["7", "11"] and status == 0


def test_an_interrupt_ends_with_130(capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    class Interrupted(io.BytesIO):
        def readline(self, size: int | None = -1, /) -> bytes:
            raise KeyboardInterrupt

    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(Interrupted()))
    assert main(["explain", "-"]) == 130
    assert capsys.readouterr().err == ""


def test_json_is_utf_8_and_text_is_shown_as_far_as_it_goes() -> None:
    plain = {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    answer = run("explain", "4 + 3", "--json", env=plain)
    assert json.loads(answer.stdout.decode("utf-8"))["steps"][1]["rules"] == ["+3 = +5 −2"]
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
