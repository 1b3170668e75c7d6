"""What a sheet is for, and how large its tasks are: checked by drawing tasks."""

from random import Random

import pytest
from each import each_row

from frame.practice.drawing import Request, draw_one
from frame.practice.families import Family
from frame.practice.items import ITEMS, items_of_facts
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.sizing import extent_of
from frame.sheets.topics import facts_of, facts_of_items, facts_showing, kind_for, kind_of
from frame.technique.facts import ALL_FACTS
from frame.technique.habits import Habit


def test_every_item_is_a_case_of_one_fact():
    for item in ITEMS:
        (fact,) = facts_of_items([item])
        assert "x" in item or item in items_of_facts([fact])


def test_facts_stand_in_their_order_and_each_once():
    assert facts_of_items(reversed(ITEMS)) == tuple(
        fact for fact in ALL_FACTS if fact in set(facts_of_items(ITEMS))
    )


@pytest.mark.parametrize(
    ("habit", "family", "has"),
    [
        (Habit.CARRY_FORGOTTEN, Family.ADD_TEN, True),
        (Habit.CARRY_FORGOTTEN, Family.SUB_TEN, False),
        (Habit.BORROW_FORGOTTEN, Family.SUB_TEN, True),
        (Habit.PARTNER_OF_FIVE_LEFT, Family.ADD_FIVE, True),
        (Habit.PARTNER_OF_FIVE_LEFT, Family.ADD_DIRECT, False),
        (Habit.ZERO_NOT_SKIPPED, Family.MULTIPLY, True),
        (Habit.REMAINDER_NOT_SMALLER, Family.DIVIDE, True),
    ],
)
def test_a_fault_shows_with_the_facts_that_lead_into_it(habit, family, has):
    """Which families: by hand, from how each fault is made."""
    assert bool(set(facts_showing(habit)) & set(facts_of(family))) == has


@each_row("fact", ALL_FACTS)
def test_in_the_usual_size_a_task_is_found_that_needs_the_fact(fact):
    kind = kind_of(fact)
    if fact in ("clear", "add-direct-9"):
        return  # The one is asked for on no paper; the other by 0 + 9 alone, or with two digits.
    extent, recipe = extent_of(kind, [fact]), Recipe(kind=kind, facts=(fact,))
    request = Request(
        facts=(fact,), known=recipe.known, count=1, terms=extent.rows, digits=extent.digits,
        by=extent.by, rods=13, places=1,
    )  # fmt: skip
    assert draw_one(request, fact, Random(1), 4000) is not None


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PAPER])
def test_without_facts_each_kind_has_a_size(kind):
    extent = extent_of(kind, ())
    assert extent.count >= 1 and extent.rows >= 1 and extent.digits >= 1


def test_of_mixed_facts_the_kind_is_that_of_most():
    assert kind_for(["add-ten-3", "multiply-1", "sub-five-2"]) is Kind.COLUMNS
    assert kind_for(["divide-1", "multiply-1", "multiply-2"]) is Kind.PRODUCTS
    assert kind_for([]) is Kind.COLUMNS
