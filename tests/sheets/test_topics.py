"""What a sheet is for, and how large its tasks are: checked by drawing tasks."""

from dataclasses import replace
from random import Random

import pytest
from each import each_row

from frame.course.course import index
from frame.practice.drawing import Request, draw_one
from frame.practice.families import Family
from frame.practice.items import ITEMS, items_of_facts
from frame.resources import LESSONS
from frame.sheets.enough import fitted, recipe_for
from frame.sheets.making import make
from frame.sheets.recipe import Kind, Recipe, Version
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


COURSE = index(LESSONS, None)
TAUGHT = [one for one in COURSE.lessons if one.new]
FEW = {
    "beads-1": 4,  # The digits from 1 to 4, and neither tens nor sums yet.
    "beads-2": 5,
    "beads-3": 9,
    "beads-4": 10,
    "roots-1": 8,  # The roots from 2 to 9: how another digit is found comes with the next lesson.
}
"""Lessons by which so few tasks of a kind are taught that they have to come again, and why."""


def is_repeated(sheet):
    return len({task.sum for task in sheet.tasks}) < len(sheet.tasks)


@each_row("lesson", TAUGHT[::5])
def test_no_task_comes_twice_on_the_sheet_of_a_lesson_while_others_are_taught(lesson):
    check_lesson(lesson, seeds=(1,))


@pytest.mark.proof
@each_row("lesson", TAUGHT)
def test_no_task_comes_twice_on_the_sheet_of_any_lesson_while_others_are_taught(lesson):
    check_lesson(lesson, seeds=(1, 2))


def check_lesson(lesson, seeds):
    recipe = recipe_for([fact for fact in ALL_FACTS if fact in lesson.new])
    so_far = {fact for one in TAUGHT[: TAUGHT.index(lesson) + 1] for fact in one.new}
    for seed in seeds:
        for version in Version:
            tasks = make(replace(recipe, seed=seed, version=version)).tasks
            assert len({task.sum for task in tasks}) == min(
                FEW.get(lesson.id, len(tasks)), len(tasks)
            )
            assert all(task.facts <= so_far for task in tasks)
            new = sum(not task.facts.isdisjoint(lesson.new) for task in tasks)
            assert lesson.id in FEW or 3 * new >= len(tasks)


ASKED_FOR = [one for one in ALL_FACTS if one not in ("clear", "revise-up")]


@each_row("fact", ASKED_FOR[::5])
def test_no_task_comes_twice_on_the_sheet_of_a_fact_while_others_are_taught(fact):
    check_fact(fact)


@pytest.mark.proof
@each_row("fact", ASKED_FOR)
def test_no_task_comes_twice_on_the_sheet_of_any_fact_while_others_are_taught(fact):
    check_fact(fact)


def check_fact(fact):
    sheet = make(recipe_for((fact,)))
    lesson = next(one.id for one in TAUGHT if fact in one.new)
    is_of_digits = "-digit-" in fact and fact != "set-digit-0"
    assert is_repeated(sheet) == (is_of_digits or lesson == "roots-1")
    assert any(fact in task.facts for task in sheet.tasks)


def test_of_many_facts_those_with_few_tasks_leave_their_turns_to_others():
    facts = tuple(fact for fact in ALL_FACTS if fact.startswith(("add-five-", "sub-five-")))
    tasks = make(Recipe(kind=Kind.COLUMNS, count=20, facts=facts)).tasks
    assert len({task.sum for task in tasks}) == 20  # All there are of one digit.


def test_digits_that_are_asked_for_are_kept_and_facts_from_before_join():
    recipe = fitted(Kind.COLUMNS, ("add-five-1",), {"digits": 1, "count": 10})
    assert recipe.digits == 1
    assert recipe.facts == tuple(f"add-five-{number}" for number in range(1, 5))
    assert not is_repeated(make(recipe))


def test_facts_with_tasks_enough_are_alone_and_as_short_as_can_be():
    recipe = fitted(Kind.COLUMNS, ("add-five-3",), {"count": 3})
    assert (recipe.digits, recipe.facts) == (1, ("add-five-3",))
    assert not is_repeated(make(recipe))


def test_partners_come_from_lessons_before():
    recipe = fitted(Kind.PARTNERS, ("add-ten-8", "add-ten-9"), {"count": 4})
    assert {str(task) for task in make(recipe).tasks} > {"10 - 8", "10 - 9"}
    assert not is_repeated(make(recipe))
