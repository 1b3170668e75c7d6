"""Sums, orders of carries and negative results that stand in print."""

from decimal import Decimal
from itertools import groupby

import pytest
from each import each_row
from truth_tables import rows

from frame.technique.addition import plan_sum
from frame.technique.expression import parse_sum
from frame.technique.plan import Plan, Step
from frame.technique.reading import read


def planned(expression: str) -> Plan:
    return plan_sum(parse_sum(expression).terms)


def changes_by_rod(step: Step) -> str:
    """What each rod gains, rods in the order in which the hand comes to them."""
    groups = groupby(step.moves, key=lambda move: move.rod)
    return " ".join(f"{rod}:{sum(move.change for move in moves):+d}" for rod, moves in groups)


@each_row(("expression", "result", "source"), rows("examples.txt", 3))
def test_result_of_a_published_sum(expression: str, result: str, source: str) -> None:
    plan = planned(expression)
    owed = plan.steps[-1].owed
    assert plan.result == Decimal(result), source
    assert read(plan.end, owed) == Decimal(result), source
    assert parse_sum(expression).result == Decimal(result), source


@pytest.mark.parametrize(("expression", "rod", "order", "reading", "source"), rows("orders.txt", 5))
def test_order_of_the_rods_of_one_step(
    expression: str, rod: str, order: str, reading: str, source: str
) -> None:
    plan = planned(expression)
    last_number = plan.steps[-1].operation
    ((step, frame),) = [
        (s, f) for s, f in plan.frames() if s.operation == last_number and s.rod == int(rod)
    ]
    assert changes_by_rod(step) == order, source
    assert read(frame) == Decimal(reading), source


@pytest.mark.parametrize(("expression", "shown", "owed", "source"), rows("negatives.txt", 4))
def test_way_through_a_result_below_zero(
    expression: str, shown: str, owed: str, source: str
) -> None:
    plan = planned(expression)
    after = {str(step.operation): read(frame) for step, frame in plan.frames()}
    assert ", ".join(f"{name} = {value}" for name, value in after.items()) == shown, source
    last = plan.steps[-1].owed
    assert (0 if last is None else 10**last) == int(owed), source
