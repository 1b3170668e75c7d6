"""The faulty hand against what each habit leads to, worked by hand, and against the right hand."""

from decimal import Decimal

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from truth_tables import rows

from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit
from frame.technique.reading import plain

TABLE = rows("habits.txt", 4)


@each_row(("habit", "text", "answer", "why"), TABLE)
def test_each_habit_leads_to_its_answer(habit, text, answer, why):
    text, _, before = text.partition(" after ")
    choosing = Choosing({Habit(habit)}, before=Decimal(before) if before else None)
    assert plain(answer_by(parse_calculation(text), USUAL, choosing).number) == answer
    assert {site.habit for site in choosing.sites} == {Habit(habit)}


def test_the_table_has_every_habit():
    assert {row[0] for row in TABLE} == set(Habit)


_TERMS = st.lists(st.integers(-999, 999).filter(bool), min_size=2, max_size=5)


@given(_TERMS, st.sets(st.sampled_from(list(Habit))))
def test_who_uses_no_habit_answers_right(terms, habits):
    calculation = parse_calculation(" ".join(f"{term:+d}" for term in terms).lstrip("+"))
    choosing = Choosing(habits, usual=False)
    assert answer_by(calculation, USUAL, choosing).number == calculation.result


@given(st.integers(2, 999), st.integers(2, 99), st.sets(st.sampled_from(list(Habit))))
def test_so_it_is_with_products_and_quotients(one, other, habits):
    for text in (f"{one} x {other}", f"{one * other} / {other}"):
        calculation = parse_calculation(text)
        choosing = Choosing(habits, usual=False)
        assert answer_by(calculation, USUAL, choosing).number == calculation.result


@given(_TERMS, st.sampled_from(list(Habit)))
def test_where_a_habit_has_no_site_the_answer_is_right(terms, habit):
    calculation = parse_calculation(" ".join(f"{term:+d}" for term in terms).lstrip("+"))
    choosing = Choosing({habit})
    answer = answer_by(calculation, USUAL, choosing)
    assert choosing.sites or answer.number == calculation.result


@pytest.mark.parametrize(
    ("text", "uses", "answer"),
    [
        ("100 + 200", (), "3000"), ("100 + 200", (False,), "30"), ("30 x 8", (False,), "24"),
        ("100 + 200", (False, False), "300"), ("38 + 47", (False,), "85"), ("7 - 7", (False,), "0"),
    ],
)  # fmt: skip
def test_the_unit_rod_is_misread_either_way_where_no_figure_gets_lost(text, uses, answer):
    choosing = Choosing({Habit.ROD_MISREAD}, uses)
    assert plain(answer_by(parse_calculation(text), USUAL, choosing).number) == answer
