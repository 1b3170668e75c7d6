"""A calculation that is none: told in one line, with the place in it; with --json the same."""

from collections.abc import Callable
from typing import Any

import pytest

from frame.cli import english, main
from frame.commands.output import WINDOW, Place
from frame.technique.expression import Expected

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]

REFUSED = [
    ("38 + x", "column 6", "'x'", "a number, such as 47 or 4.5"),
    ("38 +", "column 5", "the end", "a number, such as 47 or 4.5"),
    ("3 x -4", "column 5", "'-'", "a number, and one below zero in brackets, such as (−4)"),
    ("12,34 + 5", "column 1", "'12,34'", "thousands stand in threes, such as 1,234,567.5"),
    ("38 47", "column 4", "'47'", "an operation: +, −, × or ÷"),
    ("3 + 4 5", "column 7", "'5'", "+ or −"),
    ("3 + 4 × 5", "column 7", "'×'", "one product, quotient or root alone"),
    ("2 * (3 + 4)", "column 8", "'+'", "one product, quotient or root alone"),
    ("-5 - (20 + 5", "column 13", "the end", "a closing bracket"),
    ("38 + 47 = 85", "column 11", "'85'", "the end"),
    ("5 / 0", "column 5", "'0'", "a divisor other than 0: nothing can be shared out among none"),
    ("sqrt -9", "column 6", "'-9'", "0 or more: no number times itself is below zero"),
]


@pytest.mark.parametrize(("text", "where", "found", "expected"), REFUSED)
def test_a_refusal_in_json(asked: Ask, text: str, where: str, found: str, expected: str) -> None:
    error = asked("explain", text, status=2)["error"]
    assert list(error) == ["where", "found", "expected"]
    assert (error["where"], error["found"]) == (where, found)
    assert expected in error["expected"]


@pytest.mark.parametrize("command", ["explain", "judge", "picture"])
@pytest.mark.parametrize(("text", "where", "found", "expected"), REFUSED)
def test_a_refusal_shows_its_place_in_what_was_typed(
    capsys: Capture, command: str, text: str, where: str, found: str, expected: str
) -> None:
    more = {"explain": [], "judge": ["0:+1"], "picture": ["no.png"]}[command]
    assert main([command, text, *more]) == 2
    out, err = capsys.readouterr()
    told, shown, caret = err.splitlines()
    assert out == ""
    assert told.startswith(f"bead-frame: {where}: found {found}; expected ") and expected in told
    assert shown == f"  {text}"
    assert caret == " " * (1 + int(where.split()[1])) + "^"


@pytest.mark.parametrize("text", ["1" * 40, "1 + " * 9000])
def test_a_refusal_without_a_place_shows_none(capsys: Capture, text: str) -> None:
    assert main(["explain", text]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_what_was_found_is_not_told_at_any_length(asked: Ask) -> None:
    error = asked("explain", "5 + " + "1." * 5000, status=2)["error"]
    assert error["where"] == "column 5"
    assert error["found"].startswith("'1.1.1.") and len(error["found"]) < WINDOW


def test_every_refusal_has_its_words() -> None:
    words = english()
    for expected in Expected:
        assert words.text(f"cli.expected.{expected}", most=1)


@pytest.mark.parametrize("length", [59, 60, 61, 200, 20_000])
def test_a_long_text_is_shown_around_the_place(length: int) -> None:
    text = "+".join(map(str, range(length)))[:length]
    for column in {1, 2, 29, 31, 58, length // 2, length - 30, length, length + 1}:
        line, caret = Place(text, column).lines("utf-8").splitlines()
        assert len(line) <= WINDOW + 8
        assert caret.strip() == "^"
        under = line[caret.index("^") :]
        assert under == "" if column > length else under[0] == text[column - 1]
        seen = line[2:].removeprefix("...").removesuffix("...")
        assert len(seen) == min(length, WINDOW) and seen in text
        assert line.startswith("  ...") == (not text.startswith(seen))
        assert line.endswith("...") == (not text.endswith(seen))


@pytest.mark.parametrize(
    ("text", "column", "encoding", "lines"),
    [
        ("3 +\n4\t5 \x1b[2J", 7, "utf-8", "  3 + 4 5 ?[2J\n        ^"),
        ("１ + 4", 1, "utf-8", "  １ + 4\n  ^"),
        ("１２ + x", 6, "utf-8", "  １２ + x\n         ^"),
        ("e\u0301 x", 4, "utf-8", "  e\u0301 x\n    ^"),
        ("−5 + a", 6, "ascii", "  \\u22125 + a\n            ^"),
        ("\ud800 x", 3, "utf-8", "  ? x\n    ^"),
    ],
)
def test_the_caret_stands_below_whatever_is_shown(
    text: str, column: int, encoding: str, lines: str
) -> None:
    assert Place(text, column).lines(encoding) == lines
