"""The habit behind many slips: planted in simulated hands, found where it is and nowhere else."""

from decimal import Decimal
from random import Random

import pytest

from frame.practice.bead_habits import EVERYWHERE, LEAST, Where, bead_habits, chances_of
from frame.technique.calculation import Sum
from frame.technique.conventions import USUAL
from frame.technique.habits import Habit


def hand(seed, shows, exercises=100):
    """The places that somebody came to who slips four times in five where `shows` says so, and
    hardly elsewhere."""
    random, found = Random(seed), []
    for _ in range(exercises):
        count = random.choice((2, 2, 5))
        column = Sum(tuple(Decimal(random.randint(10, 99)) for _ in range(count)))
        slips = [
            (one.site.habit, one.site.rod)
            for one in chances_of(column, USUAL, ())
            if random.random() < (0.8 if shows(one) else 0.01)
        ]
        found += chances_of(column, USUAL, slips)
    return found


PLANTED = [
    (Habit.WRONG_PARTNER, Where(digits=frozenset({4, 6}))),
    (Habit.CARRIED_WITHOUT_PARTNER, Where(digits=frozenset({7}))),
    (Habit.CARRY_FORGOTTEN, Where(is_long=True)),
    (Habit.CARRY_FORGOTTEN, Where(is_long=False)),
    (Habit.CARRY_FORGOTTEN, EVERYWHERE),
    (Habit.CARRY_FORGOTTEN, Where(rod=1)),
    (Habit.PARTNER_OF_FIVE_LEFT, Where(rod=0)),
]


@pytest.mark.parametrize(("habit", "where"), PLANTED)
def test_a_planted_habit_is_found_with_where_it_shows(habit, where):
    found = [
        bead_habits(hand(seed, lambda one: one.site.habit is habit and where.has(one)))
        for seed in range(10)
    ]
    right = [[(one.habit, one.where) for one in some] == [(habit, where)] for some in found]
    assert sum(right) >= 9


def test_who_slips_here_and_there_has_no_habit():
    assert [bead_habits(hand(seed, lambda _: False)) for seed in range(30)] == [()] * 30


@pytest.mark.parametrize("slips", range(LEAST + 1))
def test_few_slips_are_no_habit_and_enough_may_be(slips):
    column = Sum((Decimal(8), Decimal(7)))
    many = [
        chances_of(column, USUAL, [("carry-forgotten", 0)] * (at < slips)) for at in range(LEAST)
    ]
    told = bead_habits(one for some in many for one in some)
    assert [one.slips for one in told] == ([LEAST] if slips >= LEAST else [])


def test_a_slip_counts_at_its_own_rod_and_of_its_own_kind():
    column = Sum((Decimal(58), Decimal(67)))
    found = chances_of(column, USUAL, [("carry-forgotten", 1), ("wrong-way", 0)])
    made = [(one.site.habit, one.site.rod, one.site.digit) for one in found if one.is_slip]
    assert made == [(Habit.CARRY_FORGOTTEN, 1, 6)]
