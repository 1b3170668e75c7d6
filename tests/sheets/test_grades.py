"""The table of grades: its rows beside a copy that was typed in by itself, and what it refuses."""

from pathlib import Path

import pytest
from each import each_row

from frame.practice.rungs import Asked
from frame.sheets.grades import Columns, DigitsAre, How, grade, grades, load_grades
from frame.sheets.recipe import Part
from frame.sheets.runs import load_runs, published_runs
from frame.sheets.sheet import Way
from frame.sheets.table import TableError

TRUTH = Path(__file__).parents[1] / "truth" / "grades.txt"
SOURCES = {
    "Nisshuren beads": ("Nisshuren", "April 2002", "shuzan.jp/kentei/shuzan"),
    "Nisshuren mental": ("Nisshuren", "shuzan.jp/kentei/anzan"),
    "Nisshuren dan": ("Nisshuren", "2003", "shuzan.jp/kentei/dani"),
    "Zenshuren": ("Zenshuren", "Japanese Wikipedia"),
}


def typed_rows():
    lines = [line for line in TRUTH.read_text("utf-8").splitlines() if not line.startswith("#")]
    return {cells[0]: cells[1:] for line in lines if (cells := [*filter(None, split(line))])}


def split(line):
    return [cell.strip() for cell in line.split("  ")]


def between(digits):
    return f"{digits.least}" if digits.least == digits.most else f"{digits.least}-{digits.most}"


def as_typed(row):
    """A row of the table as the copy has it."""
    doubts = {doubt.cell for doubt in row.uncertain if doubt.how is How.OURS}
    enough = f"{row.pass_marks or 'each'}/{row.full_marks}"
    parts = [
        " & ".join(section_text(one, row, doubts) for one in row.sections if one.part is part)
        or "-"
        for part in (Part.COLUMNS, Part.PRODUCTS, Part.QUOTIENTS)
    ]
    return [str(row.minutes), enough, *parts]


def section_text(section, row, doubts):
    is_marked = f"{section.part}.marks" not in doubts
    text = f"{section.count}x{section.marks}" if is_marked else f"{section.count} each?"
    text += f" in {section.minutes}, {section.pass_marks}" if section.minutes else ""
    one_of = [stretch_text(one, section.part, row, doubts) for one in section.stretches]
    if len(one_of) > 1:
        counts = [stretch.count for stretch in section.stretches]
        one_of = [f"{count} of {what}" for count, what in zip(counts, one_of, strict=True)]
    return f"{text}: {', '.join(one_of)}"


def stretch_text(stretch, part, row, doubts):
    is_ours = row.digits_are is DigitsAre.OURS
    if not isinstance(stretch, Columns):
        halves = f" ({between(stretch.first)}, {between(stretch.second)})"
        return "ours" if is_ours else f"{stretch.digits}{halves * (f'{part}.split' not in doubts)}"
    rows = f"{stretch.rows}r {stretch.characters}ch ({between(stretch.digits)})"
    some = "some" if f"{part}.below_zero" in doubts else stretch.below_zero
    below = f" {some} below" if stretch.below_zero else ""
    return ("ours" if is_ours else rows) + " +/-" * stretch.minus + below


@each_row("name", [*dict.fromkeys((*typed_rows(), *grades()))])
def test_a_row_is_as_it_was_typed_in_beside(name):
    *typed, source = typed_rows()[name]
    assert as_typed(grade(name)) == typed
    assert all(word in grade(name).source for word in SOURCES[source])


# Of the second association digits are published for several kyu together: Japanese Wikipedia.
FROM_15, FROM_9, AT_9, FROM_8, FROM_3 = (range(low, high + 1) for low, high in (
    (10, 15), (4, 9), (9, 9), (4, 8), (1, 3),
))  # fmt: skip
DAN = (0,)
RANGES = {
    Part.COLUMNS: {FROM_15: (1, 2), FROM_9: (2, 5), FROM_3: (2, 9), DAN: (5, 11)},
    Part.PRODUCTS: {AT_9: (3, 3), FROM_8: (4, 7), FROM_3: (7, 10), DAN: (11, 12)},
    Part.QUOTIENTS: {FROM_8: (3, 6), FROM_3: (6, 9), DAN: (10, 11)},
}


@each_row("name", [one for one in grades() if one.startswith(("second-kyu", "second-dan"))])
def test_digits_of_ours_are_within_what_is_published_for_several_grades(name):
    level = 0 if name.endswith("dan") else int(name.rpartition("-")[2])
    for section in grade(name).sections:
        ranges = RANGES[section.part].items()
        (least, most), *others = [bounds for levels, bounds in ranges if level in levels]
        assert not others
        for stretch in section.stretches:
            digits = stretch.digits if section.part is Part.COLUMNS else (stretch.digits,)
            assert least <= min(digits) <= max(digits) <= most


# Nisshuren's dan pages since 2003; Japanese Wikipedia on Zenshuren, beads and mental.
RANKS = {
    "dan": "pre-1 90 1 100 pre-2 110 2 120 pre-3 130 3 140 4 160 5 180"
    " 6 200 7 220 8 240 9 260 10 290",
    "second-dan": "pre-1 80 1 100 pre-2 110 2 120 pre-3 130 3 140 pre-4 150 4 160 pre-5 170 5 180"
    " pre-6 190 6 200 7 220 8 240 9 260 10 280",
    "second-mental-dan": "pre-1 70 1 80 pre-2 85 2 90 pre-3 95 3 100 pre-4 105 4 110 pre-5 115"
    " 5 120 pre-6 125 6 130 7 140 8 150 9 170 10 190",
}  # fmt: skip
RANKS["mental-dan"] = RANKS["dan"]


def test_ranks_of_a_dan_are_as_published_and_no_kyu_has_any():
    texts = {
        name: " ".join(f"{one.name} {one.marks}" for one in row.ranks)
        for name, row in grades().items()
    }
    assert {name: text for name, text in texts.items() if text} == RANKS


def doubts_of(name):
    return {(doubt.cell, doubt.how) for doubt in grade(name).uncertain}


def test_what_is_not_exactly_given_is_marked_as_such():
    assert ("quotients.digits", How.CONFLICT) in doubts_of("kyu-3")
    for name in ("kyu-7", "kyu-8", "kyu-9", "kyu-10"):
        assert ("pass_marks", How.DOUBTFUL) in doubts_of(name)
    for name in ("kyu-4", "kyu-5", "kyu-6"):
        assert {"products.split", "quotients.split"} <= {cell for cell, _ in doubts_of(name)}
    for name in ("kyu-1", "kyu-2", "mental-dan"):
        cells = {cell for cell, how in doubts_of(name) if how is not How.OURS}
        assert grade(name).digits_are is DigitsAre.GIVEN and not cells


def test_digits_that_are_ours_are_said_to_be_ours_in_every_section():
    for row in grades().values():
        ours = {doubt.cell for doubt in row.uncertain if doubt.how is How.OURS}
        digits = {one.part for one in row.sections if f"{one.part}.digits" in ours}
        splits = {one.part for one in row.sections if f"{one.part}.split" in ours}
        if row.digits_are is DigitsAre.OURS:
            assert digits | splits == {one.part for one in row.sections}, row.id
        else:
            assert not digits, row.id


def test_where_no_source_speaks_of_taking_away_the_row_says_so():
    for row in grades().values():
        stretches = [stretch for section in row.sections for stretch in section.stretches]
        if not any(isinstance(one, Columns) and one.minus for one in stretches):
            silent = "columns.minus" in {doubt.cell for doubt in row.uncertain}
            plus_alone = row.id.startswith("mental-kyu") and row.id[-1] in "2347890"
            assert silent != plus_alone, row.id


def test_a_paper_that_is_shared_is_the_same_in_all_but_the_marks():
    one, other = grade("kyu-9"), grade("kyu-10")
    assert one.sections == other.sections and other.paper == "kyu-9"
    assert (one.pass_marks, other.pass_marks) == (140, 100)


def test_no_association_is_named_but_as_a_source():
    assert {row.body for row in grades().values()} == {"first association", "second association"}
    assert {row.way for row in grades().values()} == {Way.BEADS, Way.MIND}


GOOD = """
[examination.beads]
body = "first association"
way = "beads"
source = "a page, 2002"

[grade.kyu-3]
examination = "beads"
digits_are = "given"
minutes = 30
pass_marks = 60
sections = [
  { part = "columns", marks = 10, tasks = [
    { count = 4, rows = 5, digits = [1, 2], characters = 8 },
  ] },
  { part = "products", marks = 5, tasks = [
    { count = 8, digits = 5, first = [3, 4], second = [1, 2] },
  ] },
]
uncertain = [{ cell = "pass_marks", how = "ours", note = "none is given" }]

[grade.kyu-4]
paper = "kyu-3"
pass_marks = 50

[grade.dan]
examination = "beads"
digits_are = "ours"
minutes = 10
ranks = "first"
sections = [
  { part = "quotients", marks = 5, minutes = 10, pass_marks = 20, tasks = [
    { count = 9, digits = 4 },
  ] },
]

[ranks.first]
pre-1 = 20
1 = 30
"""


def loaded(text, folder):
    path = folder / "grades.toml"
    path.write_text(text, "utf-8")
    return load_grades(path)


def test_a_good_table_is_read(tmp_path):
    table = loaded(GOOD, tmp_path)
    assert list(table) == ["kyu-3", "kyu-4", "dan"]
    assert table["kyu-4"].full_marks == 80 and table["kyu-4"].uncertain == ()
    assert table["kyu-3"].sections[1].stretches[0].splits == ((3, 2), (4, 1))
    assert table["dan"].sections[0].stretches[0].splits == ((1, 3), (2, 2), (3, 1))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('source = "a page, 2002"', "", "examination.beads.source is missing; expected a text"),
        ('"a page, 2002"', '" "', "examination.beads.source is ' '; expected a text"),
        ('way = "beads"', 'way = "shown "', "examination.beads.way is 'shown '; expected one of"),
        ('examination = "beads"', 'examination = "x"', "examination.x is missing; expected a t"),
        ('"given"', '"known"', "grade.kyu-3.digits_are is 'known'; expected one of given, ours"),
        ("minutes = 30", "", "grade.kyu-3.minutes is missing; expected a whole number from 1"),
        ("minutes = 30", "minutes = 0", "grade.kyu-3.minutes is 0; expected a whole number from 1"),
        ("minutes = 30", "minutes = true", "grade.kyu-3.minutes is True; expected a whole number"),
        ("minutes = 30", "minuets = 30", "grade.kyu-3.minuets unknown; expected one of paper,"),
        ("= 60", "= 81", "grade.kyu-3.pass_marks is more than all marks, 80"),
        ("pass_marks = 60", "", "grade.kyu-3.pass_marks stand either in the row or in each"),
        ("rows = 5", "rows = 3", "sections[1].tasks[1].characters do not fit; its rows have 3 to"),
        ("= [1, 2], ch", "= [2, 1], ch", "tasks[1].digits is [2, 1]; expected the least and the m"),
        ("= [1, 2], ch", "= 2, ch", "tasks[1].digits is 2; expected a list of whole numbers"),
        ("characters = 8", "characters = 8, below_zero = 1", "below_zero is more than the columns"),
        ("characters = 8", 'characters = 8, minus = "no"', "minus is 'no'; expected true or false"),
        ("first = [3, 4]", "first = [1, 2]", "sections[2].tasks[1].digits cannot be split so"),
        ('part = "products"', 'part = "whole"', "sections[2].part is 'whole'; expected one of col"),
        ('"pass_marks", how', '"minuets", how', "uncertain[1].cell is 'minuets'; expected one of"),
        ('how = "ours"', 'how = "so"', "uncertain[1].how is 'so'; expected one of ours, derived"),
        ('paper = "kyu-3"', 'paper = "kyu-5"', "grade.kyu-4.paper is 'kyu-5'; expected a grade"),
        ('paper = "kyu-3"', 'paper = "kyu-3"\nminutes = 9', "grade.kyu-4.minutes unknown; expec"),
        ("minutes = 10\nr", "minutes = 12\nr", "grade.dan.minutes are 12, and those of its sect"),
        ("pass_marks = 20", "pass_marks = 30", "grade.dan.pass_marks of the sections differ"),
        ("pass_marks = 20", "pass_marks = 46", "sections[1].pass_marks is more than all its ma"),
        ("1 = 30", "1 = 20", "ranks.first does not rise"),
        ("[ranks.first]", "[ranks.second]", "ranks.first is missing; expected a table"),
        ("minutes = 30", "minutes = ", "Invalid value (at line 10"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_its_place(old, new, told, tmp_path):
    assert old in GOOD
    with pytest.raises(TableError) as caught:
        loaded(GOOD.replace(old, new, 1), tmp_path)
    assert told in str(caught.value) and "grades.toml" in str(caught.value)


def test_a_table_that_is_not_there_is_told(tmp_path):
    with pytest.raises(TableError, match=r"nowhere\.toml"):
        load_grades(tmp_path / "nowhere.toml")


def test_published_runs_are_as_published():
    # RCC/TBS news, tenth dan: 15 numbers of three digits in 3 s, 8 of 10 right.
    flashed = published_runs()["flashed-dan-10"]
    assert (flashed.asked, flashed.counts, tuple(flashed.digits)) == (Asked.FLASHED, (15,), (3, 3))
    assert (flashed.seconds, flashed.right, flashed.tries) == (3, 8, 10)
    # Contest ranges: Shin Shuzan Yogoshu, part E; Japanese Wikibooks.
    called = {one.way: one for one in published_runs().values() if one.asked is Asked.CALLED}
    assert {way: tuple(one.digits) for way, one in called.items()} == {
        Way.BEADS: (7, 16),
        Way.MIND: (5, 16),
    }
    assert {one.counts for one in called.values()} == {(10, 15)}
    assert {one.seconds for one in called.values()} == {0}
    assert all(one.source for one in published_runs().values())


def test_a_run_of_more_right_than_tried_is_refused(tmp_path):
    path = tmp_path / "runs.toml"
    row = '[run.x]\nasked = "called"\nway = "mind"\ndigits = [1, 2]\ncounts = [3]\nsource = "s"\n'
    path.write_text(row + "tries = 2\nright = 3\n", "utf-8")
    with pytest.raises(TableError, match=r"runs\.toml: run\.x\.right is more than tries"):
        load_runs(path)
