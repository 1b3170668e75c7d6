"""What each step of a plan asks of memory."""

from collections import Counter

import pytest

from frame.practice.items import CELLS, ITEMS, PRODUCTS, Cell, Factors, worked_in
from frame.technique.expression import parse_calculation
from frame.technique.facts import ADD_AND_TAKE, plan_facts
from frame.technique.planning import plan_of


def worked(text: str) -> list[tuple[str, str]]:
    plan = plan_of(parse_calculation(text))
    return [(str(one.cell or ""), str(one.factors or "")) for one in worked_in(plan)]


def test_there_are_ninety_additions_ninety_subtractions_and_the_table() -> None:
    assert Counter(cell.change > 0 for cell in CELLS) == {True: 90, False: 90}
    assert len(PRODUCTS) == 36
    assert len(set(ITEMS)) == len(ITEMS)


def test_cells_fall_to_the_four_families_as_a_trained_hand_works_them() -> None:
    # Counted over all cases of one rod: 35 direct, 10 by five, 35 by ten, 10 by both.
    for operation in ("add", "sub"):
        sign = 1 if operation == "add" else -1
        facts = [cell.fact for cell in CELLS if cell.change * sign > 0]
        families = Counter(fact.removeprefix(f"{operation}-").rpartition("-")[0] for fact in facts)
        assert families == {"direct": 35, "five": 10, "ten": 35, "ten-five": 10}
    assert {cell.fact for cell in CELLS} == set(ADD_AND_TAKE)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("4 + 3", [("", ""), ("4+3", "")]),
        ("38 + 47", [("", ""), ("", ""), ("3+4", ""), ("8+7", "")]),
        ("52 - 7", [("", ""), ("", ""), ("2-7", "")]),
    ],
)
def test_what_is_asked_step_by_step(text: str, asked: list[tuple[str, str]]) -> None:
    assert worked(text) == asked


def test_a_product_is_told_once_with_the_cells_of_its_digits() -> None:
    asked = [one for one in worked("67 x 8") if any(one)]
    assert [factors for _, factors in asked if factors] == ["7x8", "6x8"]
    assert all(cell for cell, _ in asked)


def test_to_multiply_by_one_is_nothing_to_remember() -> None:
    assert not any(factors for _, factors in worked("11 x 7"))


@pytest.mark.parametrize("text", ["38 + 47 - 29", "406 x 78", "2961 / 47", "5 - 8", "sqrt 1369"])
def test_the_cells_are_cases_of_what_the_plan_needs(text: str) -> None:
    plan = plan_of(parse_calculation(text))
    asked = {one.cell.fact for one in worked_in(plan) if one.cell}
    assert asked
    assert asked <= plan_facts(plan)


def test_names_tell_a_cell_and_a_product() -> None:
    assert str(Cell(7, -2)) == "7-2"
    assert str(Factors(6, 7)) == "6x7"
