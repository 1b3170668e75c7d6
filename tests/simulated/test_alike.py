"""Versions A, B and C of sheets are equally hard by what plans tell; no learner was asked."""

from dataclasses import replace

import pytest
from alike import CASES, SAME_TASKS, all_compared, compared
from each import each_row

from frame.sheets.likeness import NEAR, likeness
from frame.sheets.making import make
from frame.sheets.recipe import Kind, Recipe, Version

SLOW = ("columns, 15 of 14, minus", "columns, 10 of 5", "columns, 5 of 3, 40", "quotients, 3 by 2")
QUICK = [case for case in CASES if case not in SLOW]


@pytest.mark.parametrize("case", QUICK)
def test_versions_need_each_rule_as_often_and_are_as_hard(case):
    for other in compared((case, 1)):
        assert other.rules == 0
        assert max(other.mean, other.spread) <= NEAR


def test_few_columns_of_long_numbers_are_as_hard_too():
    recipe = Recipe(kind=Kind.COLUMNS, count=4, rows=8, digits=7, minus=True)
    first, *others = (make(replace(recipe, version=one)).tasks for one in Version)
    assert all(likeness(first, other).is_equal for other in others)
    assert len({task.sum for tasks in (first, *others) for task in tasks}) == 3 * recipe.count


@each_row("case", [case for case in QUICK if case not in SAME_TASKS])
def test_versions_share_no_task(case):
    sheets = [make(replace(CASES[case], version=one)).tasks for one in Version]
    every = [task.sum for tasks in sheets for task in tasks]
    assert len(set(every)) == len(every)


@pytest.mark.parametrize(
    "recipe",
    [
        CASES["partners"],
        Recipe(kind=Kind.SET, digits=1),
        Recipe(kind=Kind.COLUMNS, minus=True),
        Recipe(kind=Kind.PRODUCTS, count=40, facts=("place-product",)),
    ],
)
def test_where_there_are_no_others_the_same_come_in_another_order(recipe):
    first, *others = ([str(task) for task in make(replace(recipe, version=one)).tasks]
                      for one in Version)  # fmt: skip
    for other in others:
        assert other != first
        assert sorted(other) == sorted(first)


@pytest.mark.proof
def test_over_a_thousand_seeds_versions_are_as_hard():
    for case, pairs in all_compared(1000).items():
        assert max(one.mean for one in pairs) <= NEAR
        assert all(one.is_equal for one in pairs)
        assert case in SAME_TASKS or not any(one.shared for one in pairs)
