"""A sheet is called sum by sum; what has no sums can't be."""

from decimal import Decimal

import pytest
from shipped import the_words

from frame.language.printed import printed_parts
from frame.language.speech import Clips
from frame.practice.cues import CallPace, CueKind, read_out, sum_cues
from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asks
from frame.resources import ASSETS
from frame.sheets.called import GAPS, CalledSheet, can_be_called
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.expression import parse_calculation
from frame.technique.reading import plain

WORDS = the_words()
CLIPS = Clips(ASSETS / "voice" / "en")
WITHOUT_SUMS = {Kind.READ, Kind.SET, Kind.FRAME}
RECIPES = [
    Recipe(kind=kind, count=8, digits=2, grade="kyu-6" if kind is Kind.PAPER else "")
    for kind in Kind
]


def called(*texts):
    tasks = tuple(Exercise(Asks.SUM, parse_calculation(text), rods=13) for text in texts)
    recipe = Recipe(kind=Kind.COLUMNS, count=len(tasks))
    return CalledSheet.of(Sheet(recipe, (Section(Way.BEADS, tasks),)))


def type_in(sheet, text):
    for sign in text:
        sheet.typed.type(sign)


@pytest.mark.parametrize("recipe", RECIPES, ids=lambda recipe: recipe.kind)
def test_every_kind_of_sheet_with_sums_can_be_called_and_is_spoken_whole(recipe):
    sheet = sheet_of(recipe)
    assert can_be_called(sheet) is (recipe.kind not in WITHOUT_SUMS)
    if not can_be_called(sheet):
        return
    for number, task in enumerate(sheet.tasks, 1):
        for gap in GAPS.values():
            cues = sum_cues(task.sum, number, WORDS, CLIPS, CallPace(gap=gap))
            said = [cue for cue in cues if cue.kind is CueKind.NUMBER]
            assert len(said) == len(printed_parts(task.sum, WORDS))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("38 + 47 - 5", ["thirty-eight", "plus forty-seven", "minus five"]),
        ("3 + 10", ["three", "plus ten"]),
        ("37 x 432", ["thirty-seven", "times four hundred thirty-two"]),
        ("0.5 x 4", ["zero point five", "times four"]),
        ("3588 / 46", ["three thousand five hundred eighty-eight", "divided by forty-six"]),
        ("sqrt 1764", ["the square root of one thousand seven hundred sixty-four"]),
        ("-5 x (-3)", ["minus five", "times minus three"]),
    ],
)
def test_a_sum_is_read_out_part_by_part(text, said):
    calculation = parse_calculation(text)
    assert [one.lower().rstrip(".") for one in read_out(calculation, WORDS)] == said


def test_a_call_of_a_sum_says_its_number_and_asks_at_the_end():
    cues = sum_cues(parse_calculation("38 + 47"), 12, WORDS, CLIPS, CallPace(gap=1.5))
    assert [cue.kind for cue in cues] == [
        CueKind.OPENING, CueKind.NUMBER, CueKind.NUMBER, CueKind.CLOSING
    ]  # fmt: skip
    number, asks = CLIPS.pieces("Number twelve."), CLIPS.pieces("What is the answer?")
    assert tuple(clip for _, clip in cues[0].clips) == number
    assert tuple(clip for _, clip in cues[-1].clips) == asks
    assert cues[2].start - cues[1].end == 36_000


def test_a_slower_pace_is_slower():
    gaps = list(GAPS.values())
    assert gaps == sorted(gaps, reverse=True)
    assert len(set(gaps)) == len(gaps)


def test_an_answer_stands_until_something_else_is_typed():
    sheet = called("38 + 47", "8 + 7")
    assert sheet.is_right is None and not sheet.enter()
    type_in(sheet, "84")
    assert sheet.is_right is None
    assert sheet.enter()
    assert sheet.is_right is False and not sheet.is_seen
    sheet.typed.erase()
    assert sheet.is_right is None
    type_in(sheet, "5")
    assert sheet.enter()
    assert sheet.is_right and sheet.is_seen


def test_what_is_left_over_is_asked_for_too():
    sheet = called("17 / 5")
    type_in(sheet, "3")
    assert not sheet.enter()
    type_in(sheet, "2")
    assert sheet.enter()
    assert sheet.is_right


def test_an_answer_is_seen_where_it_was_asked_for_alone():
    sheet = called("38 + 47", "8 + 7")
    sheet.look()
    assert sheet.is_seen and sheet.is_right is None
    sheet.typed.step(1)
    assert (sheet.number, sheet.is_seen) == (2, False)
    sheet.typed.step(-1)
    assert (sheet.number, sheet.is_seen) == (1, True)


def test_there_is_nothing_before_the_first_and_after_the_last():
    sheet = called("1 + 1", "2 + 2", "3 + 3")
    for number, before, after in ((1, False, True), (2, True, True), (3, True, False)):
        assert (sheet.number, sheet.can_step(-1), sheet.can_step(1)) == (number, before, after)
        assert plain(sheet.task.sum.result) == str(Decimal(2 * number))
        sheet.typed.step(1)
    assert sheet.count == 3
