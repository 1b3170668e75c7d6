"""Each step names the facts that it needs, and every fact is needed by some step."""

import random
from decimal import Decimal
from itertools import product

from frame.technique.addition import plan_on, plan_sum
from frame.technique.beads import Frame
from frame.technique.expression import parse_sum
from frame.technique.facts import ADD_AND_TAKE, ALL_FACTS, number_facts, plan_facts, step_facts


def needed(digits: str, change: int) -> frozenset[str]:
    (step,) = plan_on(Frame(digits, len(digits) - 1), Decimal(change)).steps
    return step_facts(step)


def test_the_180_one_rod_facts_need_each_of_the_52_ids() -> None:
    found: set[str] = set()
    for digit, number, sign in product(range(10), range(1, 10), (1, -1)):
        found |= needed(f"02{digit}", sign * number)
    assert found == set(ADD_AND_TAKE)
    assert len(ADD_AND_TAKE) == 52


def test_a_step_needs_the_fact_of_the_rod_where_its_carry_lands() -> None:
    assert needed("038", 7) == {"add-ten-7", "add-direct-1"}
    assert needed("048", 7) == {"add-ten-7", "add-five-1"}
    assert needed("099", 1) == {"add-ten-1", "ripple-add", "add-direct-1"}
    assert needed("499", 1) == {"add-ten-1", "ripple-add", "add-five-1"}
    assert needed("012", -7) == {"sub-ten-five-7", "sub-direct-1"}
    assert needed("052", -8) == {"sub-ten-8", "sub-five-1"}
    assert needed("100", -1) == {"sub-ten-1", "ripple-sub", "sub-direct-1"}
    assert needed("500", -1) == {"sub-ten-1", "ripple-sub", "sub-five-1"}


def test_plans_need_only_known_facts() -> None:
    rng = random.Random(31)
    for _ in range(200):
        numbers = [Decimal(rng.randint(-9999, 9999)) for _ in range(5)]
        assert plan_facts(plan_sum(numbers)) <= set(ALL_FACTS)


def test_a_number_set_needs_its_digits_and_places() -> None:
    plan = plan_sum(parse_sum("302 + 7").terms)
    digits = {"set-digit-3", "set-digit-0", "set-digit-2"}
    assert plan_facts(plan) == digits | {"set-tens", "set-hundreds", "add-direct-7"}
    assert number_facts("read", Decimal(302)) == {
        "read-digit-3",
        "read-digit-0",
        "read-digit-2",
        "read-tens",
        "read-hundreds",
    }
