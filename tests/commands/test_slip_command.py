"""`slip` as a user meets it: a table, JSON, lines of standard input, and refusals."""

from collections.abc import Callable
from typing import Any

import pytest

from frame.cli import main
from frame.technique.habits import Habit

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
Streamed = Callable[[str, bytes], list[Any]]
KEYS = ["expression", "answer", "right", "reading", "slips", "unknown"]


def test_a_fault_is_told_with_its_chance(asked: Ask) -> None:
    told = asked("slip", "503 x 2", "106")
    assert list(told) == KEYS
    assert (told["expression"], told["answer"], told["right"]) == ("503 x 2", "106", "1006")
    [slip] = told["slips"]
    assert list(slip) == ["name", "rod", "probability", "says"]
    assert slip["name"] == Habit.ZERO_NOT_SKIPPED and slip["probability"] >= 0.9
    assert told["unknown"] < 0.1


@pytest.mark.parametrize("answer", ["-3", "\u22123", "-3.0"])
def test_a_right_answer_has_no_fault(asked: Ask, capsys: Capture, answer: str) -> None:
    told = asked("slip", "12 - 15", answer)
    assert (told["answer"], told["slips"], told["unknown"]) == ("-3", [], 0.0)
    assert main(["slip", "12 - 15", answer]) == 0
    assert capsys.readouterr().out == "That is right: \u22123.\n"


@pytest.mark.parametrize(
    ("text", "places", "right"),
    [("7 / 3", 2, "2.33"), ("sqrt 2", 2, "1.41"), ("7 / 8", 0, "1"), ("2.25 x 1.11", 3, "2.498")],
)  # Worked by hand: 7 / 3 = 2.333..., 7 / 8 = 0.875, 2.25 x 1.11 = 2.4975; the root from memory.
def test_right_is_what_is_right_to_the_decimals_asked(
    asked: Ask, text: str, places: int, right: str
) -> None:
    told = asked("slip", text, right, "--places", str(places))
    assert (told["right"], told["slips"]) == (right, [])


def test_a_chance_is_cut_so_that_what_is_not_enough_does_not_look_it(
    asked: Ask, capsys: Capture
) -> None:
    chance = asked("slip", "3 + 4", "8")["slips"][0]["probability"]
    assert 0.895 <= chance < 0.9, "what would be rounded up to enough"
    assert main(["slip", "3 + 4", "8"]) == 0
    out = capsys.readouterr().out
    assert "89%" in out and "90%" not in out and "Most likely" not in out


def test_what_fits_nothing_is_unknown(asked: Ask) -> None:
    told = asked("slip", "38 + 47", "1234567")
    assert told["slips"] == [] and told["unknown"] > 0.8


@pytest.mark.parametrize(
    "text", ["sqrt 15129", "1000 / 8", "0.25 x 40", "-5 + 8", "9" * 34 + " + 1", "0 x 5", "7"]
)
def test_every_calculation_has_an_answer_to_it(asked: Ask, text: str) -> None:
    assert 0 <= asked("slip", text, "7")["unknown"] <= 1


def test_lines_are_answered_in_order_and_refused_ones_in_their_place(streamed: Streamed) -> None:
    lines = b"38 + 47\t75\nno tab\n8 + 7\tx\n14 - 6\t18\n"
    *told, status = streamed("slip", lines)
    assert status == 1
    assert [list(one) for one in told] == [KEYS, ["error"], ["error"], KEYS]
    assert told[2]["error"]["where"] == "line 3, the answer"
    names = [told[at]["slips"][0]["name"] for at in (0, 3)]
    assert names == ["carry-forgotten", "borrow-forgotten"]


@pytest.mark.parametrize(
    ("arguments", "found"),
    [
        (["8 + 7"], "no answer"), (["-", "5"], "an answer beside -"),
        (["8 + 7", "five"], "'five'"), (["8 +", "5"], "the end"), (["8 + 7", ""], "''"),
    ],
)  # fmt: skip
def test_what_can_t_be_read_is_refused(capsys: Capture, arguments: list[str], found: str) -> None:
    assert main(["slip", *arguments]) == 2
    assert f"found {found}" in capsys.readouterr().err
