"""`explain`, through the command line's one door."""

from collections.abc import Callable
from typing import Any

import pytest

from frame.cli import main
from frame.technique.beads import MOST_RODS, BeadMove, Frame

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]
Streamed = Callable[[str, bytes], list[Any]]

USUAL = {
    "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest",
}  # fmt: skip


def test_explain_answers_the_documented_shape(asked: Ask) -> None:
    """Every key of the documented example."""

    def move(rod: int, beads: int, finger: str, together: bool = False) -> dict[str, Any]:
        return {"rod": rod, "beads": beads, "finger": finger, "together": together}

    def step(
        operation: str, rod: int, technique: str, rule: str, reading: str, *moves: dict[str, Any]
    ) -> dict[str, Any]:
        return {
            "operation": operation, "rod": rod, "digit": int(rule[1]), "technique": technique,
            "ripple": 0, "reading": reading, "frame": reading.zfill(13), "units": 12,
            "moves": list(moves), "rules": [rule], "reasons": [],
        }  # fmt: skip

    assert asked("explain", "38 + 47") == {
        "expression": "38 + 47",
        "conventions": USUAL,
        "reading": "85",
        "remainder": None,
        "steps": [
            step("set 38", 1, "direct", "+3", "30", move(1, 3, "thumb")),
            step("set 38", 0, "direct", "+8", "38", move(0, 3, "thumb", True), move(0, 5, "index")),
            step("+47", 1, "five", "+4 = +5 −1", "78", move(1, 5, "index"), move(1, -1, "index")),
            step("+47", 0, "ten", "+7 = −3 +10", "85", move(0, -3, "index"), move(1, 1, "thumb")),
        ],
    }


def test_explain_tells_the_rule_of_a_carry_through_the_five(asked: Ask) -> None:
    assert asked("explain", "45 + 5")["steps"][-1]["rules"] == ["+5 = −5 +10", "+1 = +5 −4"]
    assert asked("explain", "54 - 5")["steps"][-1]["rules"] == ["−5 = −10 +5", "−1 = −5 +4"]


def told(answer: Any) -> list[tuple[str, str, list[str]]]:
    """Of each step its operation, its reading and its moves in notation."""
    return [
        (s["operation"], s["reading"], [str(BeadMove(m["rod"], m["beads"])) for m in s["moves"]])
        for s in answer["steps"]
    ]


# The moves: Heffelfinger and Flom 2004, read through a secondary summary, for 45.7 + 4.5 (units
# -5, tens... C-5, B-9, A+1) and 22.3 - 2.8 (A-1, B+9, C+2). The order within is Kojima's.
def test_explain_ripples_a_carry_through_nine(asked: Ask) -> None:
    answer = asked("explain", "45.7 + 4.5")
    assert answer["reading"] == "50.2"
    last = answer["steps"][-1]
    assert last["ripple"] == 1
    assert last["units"] == 9
    assert told(answer)[-1] == ("+4.5", "50.2", ["-1:-5", "0:-4", "0:-5", "1:+5", "1:-4"])


def test_explain_ripples_a_borrow_over_nought(asked: Ask) -> None:
    answer = asked("explain", "22.3 - 2.8")
    assert answer["reading"] == "19.5"
    assert told(answer)[-1] == (
        "-2.8", "19.5", ["1:-1", "0:+4", "0:+5", "-1:+5", "-1:-3"],
    )  # fmt: skip


# Heffelfinger and Flom 2004, read through a secondary summary.
def test_explain_goes_below_zero_and_comes_back(asked: Ask) -> None:
    answer = asked("explain", "0 - 95 + 118")
    assert answer["reading"] == "23"
    steps = told(answer)
    assert steps[0] == ("borrow 100", "0", [])
    assert steps[2][1] == "-95"
    assert answer["steps"][2]["frame"] == "0000000000005"
    assert steps[-1] == ("return 100", "23", ["2:-1"])
    assert answer["steps"][0]["technique"] == "borrow"


# From memory: 23 - 61 is worked as 123 - 61 = 62, so -38.
def test_explain_reads_a_result_below_zero(asked: Ask) -> None:
    answer = asked("explain", "23 - 61")
    assert answer["reading"] == "-38"
    assert answer["steps"][-1]["frame"].endswith("62")


# Worked out by hand: a borrowed 10 would show 5 for both -5 and, after -95, -100.
def test_explain_raises_a_borrow_that_is_outgrown(asked: Ask) -> None:
    answer = asked("explain", "0 - 5 - 95")
    assert answer["reading"] == "-100"
    assert [name for name, _, _ in told(answer)] == [
        "borrow 10", "-5", "borrow 1000", "-95", "-95",
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["38 + 47", "99999 + 4", "22.3 - 2.8", "23 - 61", "-5 + 8"])
@pytest.mark.parametrize("carry", ["last", "first"])
@pytest.mark.parametrize("remove", ["run", "pinch"])
def test_the_moves_make_the_frames(asked: Ask, text: str, carry: str, remove: str) -> None:
    answer = asked("explain", text, "--carry", carry, "--remove", remove)
    assert answer["conventions"] == {**USUAL, "carry": carry, "remove": remove}
    units = answer["steps"][0]["units"]
    frame = Frame.cleared(13, units)
    for step in answer["steps"]:
        frame = frame.apply_all(tuple(BeadMove(m["rod"], m["beads"]) for m in step["moves"]))
        assert (step["frame"], step["units"]) == (frame.digits, units)


def test_rods_are_as_many_as_asked(asked: Ask) -> None:
    answer = asked("explain", "38 + 47", "--rods", "3")
    assert answer["steps"][-1]["frame"] == "085"
    assert answer["steps"][-1]["units"] == 2


@pytest.mark.parametrize("number", ["1234567890123456789012345678901", "9" * 31])
def test_the_longest_numbers_are_exact(asked: Ask, number: str) -> None:
    answer = asked("explain", f"{number} - 1")
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
def test_a_leading_minus_stands_as_it_is(asked: Ask, text: str) -> None:
    assert asked("explain", text)["expression"] == "-5 + 8"


def test_explain_streams_one_object_a_line(streamed: Streamed) -> None:
    lines = "3 + 9\n\n3 & 4\r\n\xff\n−5 + 8\n2 - 1".encode().replace(b"\xc3\xbf", b"\xff")
    *answers, status = streamed("explain", lines)
    assert [a.get("reading") for a in answers] == ["12", None, None, None, "3", "1"]
    assert answers[1]["error"]["where"].startswith("line 2")
    assert answers[2]["error"]["found"] == "'&'"
    assert status == 1


def test_a_clean_stream_is_done(streamed: Streamed) -> None:
    assert streamed("explain", b"1 + 2\n")[-1] == 0


@pytest.mark.parametrize("digits", range(32, MOST_RODS + 1))
@pytest.mark.parametrize(
    "form", ["1 + {}", "{} - 1", "{} x 1", "{} / 1", "sqrt {}", "7 - {}", "0.{} + 1"]
)
def test_the_longest_numbers_are_explained_or_refused_in_words(
    form: str, digits: int, capsys: Capture
) -> None:
    text = form.format("1" + "0" * (digits - 2) + "4")
    status, output = main(["explain", text]), capsys.readouterr()
    assert (status == 0 and output.out) or (status == 2 and output.err)
    if form == "1 + {}":
        assert (status == 0) is (digits <= MOST_RODS)
