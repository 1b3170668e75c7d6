"""What is typed is what counts, wherever one goes meanwhile, and costs a key a sign and Enter."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.sheets.marking import MOST_DIGITS, Answer, answer_of
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.sheets.typed_in import Field, TypedIn
from frame.technique.expression import parse_calculation
from frame.technique.reading import plain

TEXTS = ("38 + 47", "12 - 5", "17 / 5", "5 - 8", "8 + 7")
RIGHT = ("85", "7", "3 r 2", "-3", "15")


def sheet_of(*texts):
    tasks = tuple(Exercise(Kind.SUM, parse_calculation(text), rods=13) for text in texts)
    return Sheet(Recipe(kind=SheetKind.COLUMNS, count=len(tasks)), (Section(Way.BEADS, tasks),))


@pytest.fixture
def typed():
    return TypedIn(sheet_of(*TEXTS))


def type_in(typed, signs):
    for sign in signs:
        typed.type(sign)


def give(typed, text):
    """Type an answer as it is written on paper; whether there is a task more."""
    number, _, rest = text.partition(" r ")
    type_in(typed, number)
    goes_on = typed.enter()
    if rest:
        type_in(typed, rest)
        goes_on = typed.enter()
    return goes_on


def test_each_is_given_by_its_signs_and_enter(typed):
    assert [give(typed, one) for one in RIGHT] == [True, True, True, True, False]
    assert list(typed.answers) == [answer_of(one) for one in RIGHT]
    assert all(typed.is_right(at) for at in range(len(RIGHT)))


def test_enter_alone_is_no_answer(typed):
    for _ in TEXTS:
        typed.enter()
    assert typed.answers == (None,) * len(TEXTS)
    assert [typed.is_right(at) for at in range(len(TEXTS))] == [False] * len(TEXTS)


def test_what_is_left_over_has_a_field_where_something_is(typed):
    fields = []
    for _ in TEXTS:
        fields.append(typed.has_rest)
        typed.enter()
    assert fields == [False, False, True, False, False]
    typed.go(2)
    type_in(typed, "3")
    typed.enter()
    assert (typed.at, typed.into) == (2, Field.REST)
    typed.erase()
    assert (typed.into, typed.text(Field.NUMBER)) == (Field.NUMBER, ""), "from empty to before"


def test_nothing_is_marked_before_it_is_given_nor_while_it_is_mended(typed):
    type_in(typed, "85")
    assert typed.is_right(0) is None
    typed.enter()
    assert typed.is_right(0)
    typed.step(-1)
    assert typed.is_right(0)
    typed.erase()
    assert typed.is_right(0) is None
    typed.step(1)
    assert typed.is_right(0) is False and typed.answers[0] == Answer(Decimal(8))


def test_after_mending_comes_what_is_not_given_yet(typed):
    give(typed, "84")
    give(typed, "7")
    typed.go(0)
    typed.erase()
    give(typed, "5")
    assert typed.at == 2 and typed.is_right(0)


def test_arrows_stay_among_the_tasks_and_skip_what_is_empty(typed):
    typed.step(-1)
    assert typed.at == 0
    typed.step(1)
    assert typed.is_right(0) is None
    for _ in range(9):
        typed.step(1)
    assert typed.at == len(TEXTS) - 1


@given(st.decimals(-(10**9), 10**9, allow_nan=False, places=2))
def test_every_number_can_be_typed(number):
    typed = TypedIn(sheet_of("1 + 1"))
    type_in(typed, plain(number))
    assert typed.answers == (Answer(number),)


@given(st.text("0123456789.-<", max_size=40))
def test_whatever_is_typed_is_a_number_or_none(signs):
    typed = TypedIn(sheet_of("1 + 1"))
    for sign in signs:
        if sign == "<":
            typed.erase()
        else:
            typed.type(sign)
    (answer,) = typed.answers
    text = typed.text(Field.NUMBER)
    assert (answer is None) == (not any(map(str.isdigit, text)))
    assert text.count(".") <= 1 and text.count("-") <= 1 and "-" not in text[1:]
    assert sum(map(str.isdigit, text)) <= MOST_DIGITS


def test_a_minus_typed_twice_is_none(typed):
    type_in(typed, "5-")
    assert typed.text(Field.NUMBER) == "-5"
    typed.type("-")
    assert typed.text(Field.NUMBER) == "5"
