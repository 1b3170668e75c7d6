"""What a paper says of its grade is what the table says, on the whole and on each part."""

import pytest
from each import each_row
from printed_sheets import sums
from shipped import the_words

from frame.printing.of_grades import grade_name, marks_of, measures_line, ranks_of
from frame.printing.titles import notes_of
from frame.sheets.grades import grade, grades
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Part, Recipe
from frame.sheets.sheet import Sheet

WORDS = the_words()
NAMES = tuple(grades())


def sheet(name: str, part: Part = Part.WHOLE) -> Sheet:
    return sheet_of(Recipe(kind=Kind.PAPER, grade=name, part=part))


@pytest.mark.parametrize(
    ("name", "told"),
    (
        ("kyu-8", "kyu 8"),
        ("dan", "dan"),
        ("mental-dan", "mental dan"),
        ("second-kyu-15", "kyu 15, second association"),
        ("second-mental-kyu-3", "mental kyu 3, second association"),
    ),
)
def test_a_grade_is_called_as_in_the_trade(name: str, told: str) -> None:
    assert grade_name(name, WORDS) == told


@pytest.mark.parametrize(
    ("name", "part", "told"),
    (
        ("kyu-6", Part.WHOLE, "30 minutes  ·  300 marks  ·  210 to pass"),
        (
            "kyu-6",
            Part.PRODUCTS,
            "100 marks  ·  the whole paper: 30 minutes, 300 marks, 210 to pass",
        ),
        (
            "mental-kyu-4",
            Part.WHOLE,
            "Without a frame  ·  12 minutes  ·  500 marks  ·  400 to pass",
        ),
        ("second-kyu-8", Part.WHOLE, "21 minutes  ·  450 marks  ·  100 to pass in each part"),
        ("second-kyu-8", Part.QUOTIENTS, "7 minutes  ·  150 marks  ·  100 to pass"),
        ("mental-dan", Part.COLUMNS, "Without a frame  ·  4 minutes  ·  300 marks  ·  90 to pass"),
        (
            "second-kyu-8",
            Part.WARM_UP,
            "50 marks  ·  the whole paper: 21 minutes, 450 marks, 100 to pass in each part",
        ),
    ),
)
def test_what_a_paper_takes_is_told(name: str, part: Part, told: str) -> None:
    assert measures_line(sheet(name, part), WORDS) == told


@each_row("name", NAMES)
def test_every_paper_tells_its_minutes_and_what_is_enough(name: str) -> None:
    one, made = grade(name), sheet(name)
    told = measures_line(made, WORDS)
    assert f"{one.minutes} minutes" in told
    assert f"{one.full_marks} marks" in told
    if one.pass_marks:
        assert f"{one.pass_marks} to pass" in told
        return
    for row, section in zip(one.sections, made.sections, strict=True):
        note = marks_of(section, WORDS)
        assert f"{row.pass_marks} to pass" in note
        assert f"{row.minutes} minutes" in note
        assert f"{row.full_marks} marks" in note
        assert f"{row.marks} marks each" in note


@each_row("name", NAMES)
@each_row("part", Part)
def test_what_is_uncertain_of_what_stands_on_it_stands_on_it(name: str, part: Part) -> None:
    one = grade(name)
    if part not in one.parts:
        return
    (told,) = notes_of(Recipe(kind=Kind.PAPER, grade=name, part=part), WORDS)
    assert told.startswith("This paper is for practice. It is no examination.")
    whole = part in (Part.WHOLE, Part.WARM_UP)
    here = [doubt for doubt in one.uncertain if whole or doubt.cell.partition(".")[0] == part]
    others = {doubt.note for doubt in one.uncertain if doubt.cell.partition(".")[1]}
    assert all(doubt.note in told for doubt in here)
    assert not any(note in told for note in others - {doubt.note for doubt in here})


def test_a_section_that_the_paper_lacks_is_no_choice_of_ours() -> None:
    (told,) = notes_of(Recipe(kind=Kind.PAPER, grade="second-kyu-3"), WORDS)
    assert "Not all of it – two more events" in told


def test_a_dan_has_ranks_on_the_whole_and_on_each_part() -> None:
    for part in (Part.WHOLE, Part.COLUMNS):
        ranks = ranks_of(Recipe(kind=Kind.PAPER, grade="second-mental-dan", part=part))
        assert ranks[0] == ("pre-1", 70)
        assert ranks[-1] == ("10", 190)
    assert ranks_of(Recipe(kind=Kind.PAPER, grade="dan", part=Part.WARM_UP)) == ()
    assert ranks_of(Recipe(kind=Kind.PAPER, grade="kyu-1")) == ()


def test_other_sheets_say_nothing_of_grades() -> None:
    other = Recipe(kind=Kind.COLUMNS)
    assert measures_line(Sheet(other, (sums(2, 2, 1),)), WORDS) == ""
    assert notes_of(other, WORDS) == ()
    assert ranks_of(other) == ()
