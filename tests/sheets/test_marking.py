"""What is marked right is what plain arithmetic says; what was behind is weighed as elsewhere."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shipped import the_words

from frame.language.habits import off_by_text
from frame.practice.exercises import Exercise, Kind
from frame.sheets.marking import Answer, answer_of, is_right, mark, mark_wrong
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.expression import parse_calculation
from frame.technique.habits import Habit
from frame.technique.reading import NumberError

WORDS = the_words()
TEXTS = ("38 + 47", "12 - 5", "17 / 5", "37 x 12", "5 - 8", "sqrt 20", "8 + 7", "26 + 38")
RIGHT = ("85", "7", "3 r 2", "444", "-3", "4 4", "15", "64")


def sheet_of(*texts, marks=0, pass_marks=0):
    tasks = tuple(Exercise(Kind.SUM, parse_calculation(text), rods=13) for text in texts)
    recipe = Recipe(kind=SheetKind.COLUMNS, count=len(tasks))
    return Sheet(recipe, (Section(Way.BEADS, tasks, marks),), pass_marks=pass_marks)


SHEET = sheet_of(*TEXTS, marks=5, pass_marks=30)


@pytest.mark.parametrize(
    ("text", "number", "rest"),
    [
        ("85", 85, None), (" 85 ", 85, None), ("1,234,567", 1234567, None), ("−5", -5, None),
        ("3 r 2", 3, 2), ("3r2", 3, 2), ("3 2", 3, 2), ("-3 R -2", -3, -2), ("0.25", "0.25", None),
        ("1’234", 1234, None), ("12\u202f345", 12345, None),
    ],
)  # fmt: skip
def test_an_answer_is_read_as_it_is_written(text, number, rest):
    assert answer_of(text) == (Decimal(number), None if rest is None else Decimal(rest))


@pytest.mark.parametrize("text", ["", "   "])
def test_nothing_is_no_answer(text):
    assert answer_of(text) is None


@pytest.mark.parametrize("text", ["x", "3 r", "1 2 3", "--5", "12,34", "3 r 2 r 1", "1.2.3"])
def test_what_is_no_number_is_refused(text):
    with pytest.raises(NumberError):
        answer_of(text)


@given(st.integers(-(10**12), 10**12))
def test_thousands_may_be_grouped(number):
    assert answer_of(f"{number:,}") == answer_of(str(number)) == (Decimal(number), None)


def test_all_right_is_all_marks():
    marked = mark(SHEET, [answer_of(one) for one in RIGHT])
    assert (marked.points, marked.most, marked.wrong) == (40, 40, ())
    assert marked.is_passed


@given(st.lists(st.booleans(), min_size=len(TEXTS), max_size=len(TEXTS)))
def test_each_wrong_one_costs_its_marks(rights):
    answers = [
        answer_of(text) if right else Answer(Decimal(1000 + at))
        for at, (text, right) in enumerate(zip(RIGHT, rights, strict=True))
    ]
    marked = mark(SHEET, answers)
    assert [one.is_right for one in marked.marks] == rights
    assert marked.points == 5 * sum(rights) and marked.most == 40
    assert marked.is_passed == (5 * sum(rights) >= 30)
    wrong = [at for at, right in enumerate(rights, 1) if not right]
    quick = mark_wrong(SHEET, wrong)
    assert quick.points == marked.points
    assert [one.number for one in quick.wrong] == wrong == [one.number for one in marked.wrong]


def test_what_is_left_over_must_be_right_too():
    (task,) = sheet_of("17 / 5").tasks
    assert is_right(task, Answer(Decimal(3), Decimal(2)))
    assert not is_right(task, Answer(Decimal(3))) and not is_right(task, Answer(Decimal(3), 1))
    (even,) = sheet_of("15 / 5").tasks
    assert is_right(even, Answer(Decimal(3))) and is_right(even, Answer(Decimal(3), Decimal(0)))


def test_answers_that_lack_are_not_right():
    marked = mark(SHEET, [answer_of("85")])
    assert [one.is_right for one in marked.marks] == [True] + [False] * 7
    assert all(one.answer is None and one.behind is None for one in marked.marks[1:])


def test_a_carry_left_out_again_and_again_is_found():
    sheet = sheet_of("38 + 47", "26 + 38", "57 + 24", "49 + 36", "68 + 19")
    marked = mark(sheet, [answer_of(one) for one in ("75", "54", "71", "75", "77")])
    assert not any(one.is_right for one in marked.marks)
    assert marked.marks[-1].behind.site.habit is Habit.CARRY_FORGOTTEN


def test_without_marks_each_task_counts_one():
    marked = mark(sheet_of("8 + 7", "1 + 1"), [answer_of("15"), answer_of("3")])
    assert (marked.points, marked.most, marked.is_passed) == (1, 2, None)


LONG = sheet_of("5263 + 3482 - 1745")
"""It comes to 7000."""


@pytest.mark.parametrize(
    ("written", "off_by"),
    [
        ("6000", -1000), ("7010", 10), ("7000.5", "0.5"), ("-7000", None), ("6900", -100),
        ("7000", None), ("7110", None), ("6990", -10), ("9000", 2000), ("", None),
    ],
)  # fmt: skip
def test_of_a_long_number_what_it_is_off_by_is_told_where_it_is_one_digit(written, off_by):
    (one,) = mark(LONG, [answer_of(written)]).marks
    assert one.off_by == (None if off_by is None else Decimal(off_by))


def test_what_it_is_off_by_in_words():
    assert off_by_text(Decimal(30), WORDS) == "30 too much."
    assert off_by_text(Decimal(-100), WORDS) == "100 too little."
    assert off_by_text(None, WORDS) == ""


def test_what_a_short_number_is_off_by_is_not_told():
    assert all(one.off_by is None for one in mark(SHEET, [Answer(Decimal(10))]).marks)
