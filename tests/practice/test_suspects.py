"""What is behind answers, from planted habits; and that nothing is made out of nothing."""

from decimal import Decimal
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.practice.answers import possible_answers
from frame.practice.separating import gain
from frame.practice.suspects import (
    HALF_LIFE_DAYS,
    HALF_LIFE_ITEMS,
    Given,
    explanation,
    shown_by,
    weigh,
)
from frame.technique.calculation import Sum
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit


def told(text, answer, **ago):
    return Given(parse_calculation(text), Decimal(answer), **ago)


def always(habits, texts):
    """The answers of who has these habits always."""
    return [
        told(text, answer_by(parse_calculation(text), USUAL, Choosing(habits)).number)
        for text in texts
    ]


COLUMNS = ("63 - 36 + 23", "35 + 69 - 28", "40 + 83 - 28", "57 + 68", "94 - 37", "86 + 47 - 52")


@given(st.lists(st.integers(-99, 99).filter(bool), min_size=2, max_size=3), st.integers(-200, 300))
@settings(max_examples=25)
def test_chances_add_up_and_an_answer_without_habits_shows_none(terms, answer):
    calculation = Sum(tuple(map(Decimal, terms)))
    weighed = weigh([Given(calculation, Decimal(answer))])
    assert sum(weighed.suspects.values()) + weighed.unknown == pytest.approx(1)
    if answer == calculation.result:
        assert weighed.named == ()
    for site, chance in explanation(Given(calculation, Decimal(answer)), weighed):
        assert 0 < chance <= 1 and site.habit in shown_by(calculation, USUAL)


@pytest.mark.parametrize("habit", [
    Habit.CARRY_FORGOTTEN, Habit.BORROW_FORGOTTEN, Habit.CARRIED_WITHOUT_PARTNER,
    Habit.BORROWED_WITHOUT_PARTNER, Habit.WRONG_PARTNER, Habit.ADDED_FOR_TAKEN,
])  # fmt: skip
def test_who_always_does_it_is_found_within_six_columns(habit):
    assert weigh(always({habit}, COLUMNS)).named == (habit,)


def test_a_pair_is_found_as_a_pair():
    pair = {Habit.CARRY_FORGOTTEN, Habit.BORROWED_WITHOUT_PARTNER}
    assert set(weigh(always(pair, COLUMNS * 2)).named) == pair


def test_right_answers_name_nobody_and_make_it_likely_that_nothing_is_wrong():
    texts = [told(text, parse_calculation(text).result) for text in COLUMNS]
    weighed = weigh(texts)
    assert weighed.named == () and weighed.faultless > weigh([]).faultless


def test_right_answers_of_work_that_is_not_modelled_count_as_right():
    roots = [told(f"sqrt {side * side}", side) for side in (12, 35, 99)]
    assert weigh(roots).faultless > weigh([]).faultless


def test_wrong_answers_of_no_kind_are_unknown():
    texts = [told(text, parse_calculation(text).result + 34) for text in COLUMNS]
    assert weigh(texts).unknown > 0.9


@pytest.mark.parametrize(
    "ago", [{"items_ago": 20 * HALF_LIFE_ITEMS}, {"days_ago": 20 * HALF_LIFE_DAYS}]
)
def test_what_was_long_ago_says_nothing_any_more(ago):
    old = [one._replace(**ago) for one in always({Habit.CARRY_FORGOTTEN}, COLUMNS)]
    assert weigh(old).named == ()
    assert weigh(old).faultless == pytest.approx(weigh([]).faultless, abs=0.01)


def test_a_frame_that_is_not_cleared_is_found_where_the_answer_before_is_known():
    befores, givens = [None], []
    for text in COLUMNS:
        result = parse_calculation(text).result
        givens.append(told(text, result + (befores[-1] or 0), before=befores[-1]))
        befores.append(givens[-1].answer)
    assert weigh(givens).named == (Habit.NOT_CLEARED,)
    assert weigh([one._replace(before=None) for one in givens]).named == ()
    site, chance = explanation(givens[-1], weigh(givens))[0]
    assert site.habit is Habit.NOT_CLEARED and chance > 0.9


def test_who_would_answer_otherwise_is_not_suspected():
    texts = ("86 + 47", "95 + 32", "63 + 71", "38 + 47", "57 + 24", "29 + 36") * 3
    first_rod_lost = [told(text, str(parse_calculation(text).result)[1:]) for text in texts]
    weighed = weigh(first_rod_lost)
    assert weighed.named == () and weighed.unknown > 0.9
    assert sum(weighed.suspects.values()) + weighed.unknown == pytest.approx(1)


def test_signatures_that_are_the_same_are_not_told_apart_from_one_answer():
    weighed = weigh([told("12 - 15", 7)])
    assert weighed.named == ()
    either = Habit.BORROW_FORGOTTEN, Habit.NEGATIVE_READ_AS_SHOWN
    assert min(map(weighed.chance, either)) > 0.1


def test_the_most_telling_exercise_is_one_in_which_suspects_differ():
    weighed = weigh([told("12 - 15", 7)])
    columns = [parse_calculation(text) for text in ("1 + 1", "20 + 30", "14 - 6", "2 + 2")]
    bits = {str(one): gain(weighed, one) for one in columns}
    assert max(bits, key=bits.__getitem__) == "14 - 6" and bits["1 + 1"] < bits["14 - 6"]


def test_what_habits_lead_to_is_at_most_certain_and_the_whole_habit_comes_first():
    random = Random(1)
    for _ in range(50):
        column = Sum(tuple(Decimal(random.randint(10, 99)) for _ in range(3)))
        runs = possible_answers(column, USUAL, frozenset({Habit.CARRY_FORGOTTEN}))
        assert 0 < sum(run.chance for run in runs) <= 1 + 1e-9
        whole = answer_by(column, USUAL, Choosing({Habit.CARRY_FORGOTTEN}))
        assert runs[0].number == whole.number and runs[0].used == whole.sites
