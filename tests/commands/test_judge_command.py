"""`judge`, through the command line's one door."""

from collections.abc import Callable
from typing import Any

import pytest

from frame.cli import main

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
Streamed = Callable[[str, bytes], list[Any]]


def test_judge_answers_the_documented_shape(asked: Ask) -> None:
    answer = asked("judge", "4 + 3", "0:+4 0:+5 0:-2")
    assert list(answer) == ["moves", "finished", "reading"]
    assert [list(move) for move in answer["moves"]] == [["move", "verdict", "slip", "says"]] * 3
    assert [move["verdict"] for move in answer["moves"]] == ["right"] * 3
    assert [move["slip"] for move in answer["moves"]] == [None] * 3
    assert answer["moves"][-1]["says"] == "Yes. Five in, two out."
    assert (answer["finished"], answer["reading"]) == (True, "7")


def test_a_pinch_is_one_entry(asked: Ask) -> None:
    answer = asked("judge", "8 + 0", "0:+5&0:+3")
    assert [m["move"] for m in answer["moves"]] == ["0:+5&0:+3"]
    assert answer["finished"]


def test_a_wrong_move_is_not_kept(asked: Ask) -> None:
    answer = asked("judge", "4 + 3", "0:+4 0:+5 0:-3 0:-2")
    assert [m["verdict"] for m in answer["moves"]] == ["right", "right", "wrong", "right"]
    assert answer["moves"][2]["slip"] == "wrong-partner"
    assert answer["finished"]


@pytest.mark.parametrize(("move", "slip"), [("20:+1", "wrong-rod"), ("0:+3", "counted-past")])
def test_a_move_that_cannot_be_is_wrong_and_no_error(asked: Ask, move: str, slip: str) -> None:
    answer = asked("judge", "4 + 3", f"0:+4 {move}")
    assert (answer["moves"][1]["verdict"], answer["moves"][1]["slip"]) == ("wrong", slip)
    assert answer["reading"] == "4"


def test_another_order_is_its_own_verdict(asked: Ask) -> None:
    log = "0:+3&0:+5 1:+1 0:-3"
    kept = asked("judge", "8 + 7", log)
    assert [m["verdict"] for m in kept["moves"]] == ["right", "other order", "right"]
    assert kept["finished"]
    school = asked("judge", "8 + 7", log, "--carry", "first", "--strict", "order")
    assert [m["verdict"] for m in school["moves"]] == ["right"] * 3


def test_strict_answer_asks_for_the_answer_alone(asked: Ask) -> None:
    answer = asked("judge", "4 + 3", "0:+5 0:+2", "--strict", "answer")
    assert (answer["finished"], answer["reading"]) == (True, "7")


def test_what_a_log_leaves_out_shows_on_its_last_move(asked: Ask) -> None:
    answer = asked("judge", "8 + 7", "0:+3&0:+5 0:-3")
    last = answer["moves"][-1]
    assert (last["verdict"], last["slip"]) == ("right", "carry-forgotten")
    assert last["says"].startswith("The ten goes in, too.")
    assert (answer["finished"], answer["reading"]) == (False, "5")


def test_the_reading_knows_what_is_borrowed(asked: Ask) -> None:
    log = "1:+1 1:-1 0:+5"
    answer = asked("judge", "0 - 95 + 118", log)
    assert [m["verdict"] for m in answer["moves"]] == ["right"] * 3
    assert answer["reading"] == "-95"


def test_moves_may_stand_apart_and_begin_with_a_minus(asked: Ask) -> None:
    answer = asked("judge", "0.5 + 0.1", "-1:+5", "-1:+1")
    assert [m["move"] for m in answer["moves"]] == ["-1:+5", "-1:+1"]
    assert (answer["finished"], answer["reading"]) == (True, "0.6")


def test_an_empty_log_is_not_finished(asked: Ask) -> None:
    answer = asked("judge", "4 + 3", "")
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
    asked: Ask, log: str, where: str, found: str, expected: str
) -> None:
    error = asked("judge", "4 + 3", log, status=2)["error"]
    assert (error["where"], error["found"]) == (where, found)
    assert expected in error["expected"]


def test_judge_in_words_names_verdicts_and_slips(capsys: Capture) -> None:
    assert main(["judge", "4 + 3", "0:+4 0:+5 0:-3"]) == 0
    out = capsys.readouterr().out
    assert "wrong-partner  Partners of five: 3 and 2. Next: two ones down." in out
    assert out.endswith("Not finished. The frame reads 9.\n")


def test_judge_streams_sum_tab_moves(streamed: Streamed) -> None:
    lines = b"4 + 3\t0:+4 0:+5 0:-2\n4 + 3\n4 + 3\t0:+4 xx\n1 + 1\t\n"
    *answers, status = streamed("judge", lines)
    assert answers[0]["finished"]
    assert answers[1]["error"]["found"] == "no tab"
    assert answers[2]["error"]["where"] == "line 3, move 2"
    assert answers[3]["moves"] == []
    assert status == 1
