"""Sheets that were left half marked are found as they were; a text that holds none holds none."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.learner.sheets_left import codes_left, sheet_left, sheets_with
from frame.sheets.half_marked import HalfMarked
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.typed_in import TypedIn

SHEET = sheet_of(Recipe(kind=Kind.QUOTIENTS, digits=2, count=6, facts=("remainder",)))
COUNT = len(SHEET.tasks)
CODES = ("2400-42C8-0HDC", "2600-42C0-097N")
KEYS = st.lists(st.sampled_from([*"0123456789-.<", "enter", "before", "after"]), max_size=40)
WRONG = st.sets(st.integers(1, COUNT))


def half(keys, wrong=(), is_quick=False):
    typed = TypedIn(SHEET)
    for key in keys:
        match key:
            case "enter":
                typed.enter()
            case "before" | "after":
                typed.step(-1 if key == "before" else 1)
            case "<":
                typed.erase()
            case _:
                typed.type(key)
    return HalfMarked(typed, set(wrong), is_quick)


def seen(one):
    typed = one.typed
    rights = [typed.is_right(at) for at in range(COUNT)]
    return typed.at, typed.answers, rights, typed.given, one.wrong, one.is_quick


@given(KEYS, WRONG, st.booleans())
def test_each_is_found_as_it_was(keys, wrong, is_quick):
    left = half(keys, wrong, is_quick)
    text = sheets_with(sheets_with("", CODES[1], half("1")), CODES[0], left)
    found = sheet_left(text, CODES[0], SHEET)
    if left.is_begun:
        assert found is not None and seen(found) == seen(left)
        assert codes_left(text) == [CODES[1], CODES[0]]
    else:
        assert found is None and codes_left(text) == [CODES[1]]


def test_one_that_is_done_or_typed_on_takes_its_new_place():
    text = sheets_with(sheets_with("", CODES[0], half("1")), CODES[1], half("2"))
    text = sheets_with(text, CODES[0], half("34"))
    assert codes_left(text) == [CODES[1], CODES[0]]
    assert codes_left(sheets_with(text, CODES[1], None)) == [CODES[0]]


@given(st.text() | st.builds(json.dumps, st.recursive(st.none() | st.integers(), st.lists)))
def test_any_other_text_holds_none(text):
    assert codes_left(text) == [] and sheet_left(text, CODES[0], SHEET) is None
    assert codes_left(sheets_with(text, CODES[0], half("1"))) == [CODES[0]]


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("texts", [[COUNT, 0, "1"]]), ("texts", [[-1, 0, "1"]]), ("texts", [[0, 2, "1"]]),
        ("texts", [[0, 0, "x"]]), ("texts", [[0, 0, "1-"]]), ("texts", [[0, 0, 1]]),
        ("texts", [[0, 0, "1.2.3"]]), ("texts", [[0, 0, "1" * 60]]), ("texts", [0]),
        ("texts", None), ("at", COUNT), ("at", "0"), ("given", [COUNT]), ("given", 1),
        ("wrong", [0]), ("wrong", [COUNT + 1]), ("wrong", [None]),
    ],
)  # fmt: skip
def test_what_no_version_wrote_is_no_sheet(name, value):
    kept = json.loads(sheets_with("", CODES[0], half("12")))
    assert sheet_left(json.dumps(kept), CODES[0], SHEET) is not None
    kept[CODES[0]][name] = value
    assert sheet_left(json.dumps(kept), CODES[0], SHEET) is None
