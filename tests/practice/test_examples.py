"""Each item has an exercise that asks for it, by the model's own account."""

import pytest
from each import each_row

from frame.practice.examples import LEAST_RODS, example_of
from frame.practice.exercises import Kind, plan_for
from frame.practice.items import CELLS, ITEMS, PRODUCTS, items_of_plan
from frame.technique.conventions import USUAL, Carry, Conventions, First, Operands, Outer, Remove
from frame.technique.facts import number_facts

MOST_STROKES = 40
SCHOOLS = [
    *(Conventions(layout=layout) for layout in Operands),
    Conventions(Carry.FIRST, Remove.PINCH, outer=Outer.MULTIPLIER, first=First.LOWEST),
]


def asked_by(item):
    exercise = example_of(item)
    plan = plan_for(exercise, USUAL)
    facts = exercise.facts
    if exercise.kind is Kind.SET:
        facts |= number_facts("read", exercise.number)
    return items_of_plan(plan, facts)


@each_row("item", ITEMS)
def test_an_example_asks_for_its_item(item):
    assert item in asked_by(item)
    plan = plan_for(example_of(item), USUAL)
    assert 0 < len(plan.strokes) <= MOST_STROKES
    assert len(plan.start.digits) >= LEAST_RODS


@pytest.mark.parametrize("school", SCHOOLS)
def test_it_can_be_played_as_any_school_works_it(school):
    for item in ITEMS:
        plan = plan_for(example_of(item, school), school)
        assert 0 < len(plan.strokes) <= MOST_STROKES, item


@each_row("cell", CELLS)
def test_the_example_of_a_cell_is_the_sum_itself(cell):
    first, second = example_of(str(cell)).sum.terms
    assert (first % 10, second) == cell
    assert first + second >= 0


@each_row("factors", PRODUCTS)
def test_the_example_of_a_product_is_the_product_itself(factors):
    assert example_of(str(factors)).sum.numbers == factors


def test_what_is_no_item_has_none():
    with pytest.raises((KeyError, ValueError)):
        example_of("4*3")
