"""What numbers tell of a calculation without a plan is what its plan needs."""

from decimal import Decimal
from random import Random

import pytest
from each import each_row

from frame.practice.numbers import any_calculation
from frame.practice.sizes import Size
from frame.technique.expression import Calculation, Root, Sum, parse_calculation
from frame.technique.facts import PROCEDURES, calculation_facts
from frame.technique.foretold import FORETOLD, foretold
from frame.technique.planning import plan_of

SEEDS = [0, 1, *(pytest.param(seed, marks=pytest.mark.proof) for seed in range(2, 40))]


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_foretold_is_what_the_plan_needs(seed: int) -> None:
    random, needed = Random(seed), set[str]()
    for _ in range(24):
        for fact in PROCEDURES:
            size = Size(
                digits=random.choice((1, 2, 2, 3, 5, 14)),
                terms=random.randint(2, 5),
                by=random.randint(1, 4),
                places=random.randint(0, 6),
                exact=random.random() < 0.5,
            )
            work = any_calculation(fact, size, random)
            needed |= agreed(work)
        radicand = Decimal(random.randrange(1, 10 ** random.randint(1, 9)))
        needed |= agreed(Root(radicand, random.choice((None, 1))))
    assert needed == FORETOLD


def agreed(work: Calculation) -> frozenset[str]:
    """What is foretold of some work, which is what its plan needs."""
    facts = calculation_facts(work, plan_of(work)) & FORETOLD
    assert foretold(work) == facts, str(work)
    return facts


WORK = {
    "3588 / 46": {"divide-2", "revise-down"},
    "3600 / 40": {"divide-2"},
    "43 / 6": {"divide-1", "remainder"},
    "352.25 / 46": {"divide-2", "revise-down", "unit-rod", "remainder"},
    "86.41 / 21": {"divide-2", "unit-rod", "remainder"},
    "sqrt 49": set(),
    "sqrt 400": set(),
    "sqrt 144": {"halve", "root-digit"},
    "sqrt 1764": {"halve", "root-digit"},
    "sqrt 12300": {"halve", "root-digit", "remainder"},
    "sqrt 50": {"halve", "remainder"},
    "3 - 4": {"below-zero"},
    "3 - 4 + 2": {"below-zero", "give-back"},
    "(-12) x 30": {"signs", "multiply-2", "skip-zero"},
    "0.5 x 4": {"unit-rod"},
}
"""Worked by hand on paper, by the rules in the planners' docstrings."""


@each_row(("text", "told"), WORK.items())
def test_what_is_foretold_of_some_work(text: str, told: set[str]) -> None:
    work = parse_calculation(text)
    assert foretold(work) == told
    if not isinstance(work, Sum):
        assert told <= calculation_facts(work, plan_of(work))
