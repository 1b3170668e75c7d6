"""What is told to be impossible is never found; what is possible on one rod is told to be."""

from dataclasses import replace
from random import Random

import pytest
from each import each_row
from hypothesis import example, given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.practice.possible import column_can_need, number_can_need
from frame.practice.sizes import Size
from frame.practice.taught import taught_column, taught_number
from frame.technique.expression import Sum
from frame.technique.facts import ADD_AND_TAKE, ALL_FACTS, READ_AND_SET, number_facts

EVERYTHING = frozenset(ALL_FACTS)
WORKED = (*ADD_AND_TAKE, "ripple-add", "ripple-sub")
SIZES = st.builds(
    Size,
    digits=st.integers(1, 4),
    first=st.sampled_from([0, 1, 3]),
    terms=st.sampled_from([2, 3, 4, 9, 15]),
    exact=st.booleans(),
)
FEW = st.frozensets(st.sampled_from([*READ_AND_SET, *WORKED]), max_size=40)


@given(SIZES, st.integers(1, 5), st.sampled_from(WORKED), FEW, st.integers(0, 10_000))
@example(Size(1, terms=2), 1, "add-direct-3", frozenset(WORKED) - {"add-direct-1"}, 1)
def test_a_column_that_is_found_was_possible(size, rods, wanted, untaught, seed):
    known, random = EVERYTHING - untaught | {wanted}, Random(seed)
    tries = (taught_column(wanted, size, rods, known, random) for _ in range(30))
    if any(tries):
        assert column_can_need(wanted, size, rods, known)


@given(SIZES, st.integers(0, 2), st.sampled_from([*READ_AND_SET, "clear"]), FEW,
       st.integers(0, 10_000))  # fmt: skip
def test_a_number_that_is_found_was_possible_and_the_possible_is_found(
    size, room, wanted, untaught, seed
):
    rods = (size.first or size.digits) + room
    known, random, verb = EVERYTHING - untaught | {wanted}, Random(seed), wanted.partition("-")[0]
    numbers = (taught_number(verb, wanted, size, known, random) for _ in range(400))
    found = (one for one in numbers if one is not None and len(str(one)) <= rods)
    needs = ({"clear"} if verb == "clear" else number_facts(verb, one) for one in found)
    is_found = any(wanted in facts and facts <= known for facts in needs)
    assert is_found is number_can_need(verb, wanted, size, rods, known)


@each_row("fact", WORKED)
def test_each_fact_needs_the_rods_it_goes_to(fact):
    """A carry needs a rod above, one that runs on needs two. One taken of a first number that has
    one digit finds nothing to borrow."""
    rods = 3 if fact.startswith("ripple") else 2 if "-ten" in fact else 1
    for many in range(1, 4):
        size = Size(many, terms=2)
        is_nine = fact == "add-direct-9" and many == 1
        assert column_can_need(fact, size, many, EVERYTHING) is (many >= rods and not is_nine)
    if fact.startswith("sub-ten"):
        assert not column_can_need(fact, Size(1, terms=2), 2, EVERYTHING)
        assert column_can_need(fact, Size(1, terms=3), 2, EVERYTHING)


SUMS_ON_ONE_ROD = [
    # 1 + 1 + 6 + 1 is 9; of four numbers none but 1, 2, 5 and 6 can be added directly.
    (3, "add-direct-7", True), (3, "add-direct-3", True), (4, "add-direct-3", False),
    (4, "add-direct-7", False), (4, "add-direct-6", True), (4, "add-direct-2", True),
]  # fmt: skip


@pytest.mark.parametrize(("terms", "fact", "is_possible"), SUMS_ON_ONE_ROD)
def test_a_rod_is_soon_full_where_all_is_added_directly(terms, fact, is_possible):
    direct = {f"add-direct-{number}" for number in range(1, 10)}
    known = frozenset(direct | set(READ_AND_SET))
    assert column_can_need(fact, Size(1, terms=terms), 1, known) is is_possible


def test_nothing_unknown_is_possible():
    size = Size(3, terms=3)
    for fact in WORKED:
        assert not column_can_need(fact, size, 4, EVERYTHING - {fact})
    landing = {"add-direct-1", "add-five-1"}
    assert not column_can_need("add-ten-3", size, 4, EVERYTHING - landing)
    assert not column_can_need("add-five-3", replace(size, exact=True), 2, EVERYTHING)
    assert not column_can_need("add-five-3", size, 4, EVERYTHING - set(READ_AND_SET))


def test_what_is_possible_on_one_rod_is_found():
    """A single rod has no neighbours: there nothing is left open."""
    random = Random(5)
    for terms in (2, 3, 4):
        for fact in ADD_AND_TAKE:
            size = Size(1, terms=terms)
            tries = (taught_column(fact, size, 1, EVERYTHING, random) for _ in range(600))
            column = next(filter(None, tries), None)
            assert (column is not None) is column_can_need(fact, size, 1, EVERYTHING)
            assert column is None or fact in Exercise(Kind.SUM, Sum(column)).facts
