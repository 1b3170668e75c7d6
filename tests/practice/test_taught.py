"""Columns made digit by digit need what was asked for and nothing untaught, at the first try."""

from itertools import accumulate
from random import Random

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of
from frame.practice.numbers import any_calculation, can_need
from frame.practice.sizes import Size, rods_for
from frame.practice.taught import taught_column, taught_number
from frame.technique.expression import Sum
from frame.technique.facts import (
    ADD_AND_TAKE,
    ALL_FACTS,
    PLACES,
    PROCEDURES,
    calculation_facts,
    number_facts,
)
from frame.technique.planning import plan_of

WORKED = (*ADD_AND_TAKE, "ripple-add", "ripple-sub")
ALL = (*WORKED, *(fact for fact in ALL_FACTS if fact.startswith("set-")))
SIZES = st.builds(
    Size,
    digits=st.integers(1, 14),
    first=st.sampled_from([0, 1, 3, 14]),
    terms=st.integers(2, 15),
    exact=st.booleans(),
)


@given(SIZES, st.integers(0, 2), st.sampled_from(WORKED),
       st.frozensets(st.sampled_from(ALL), max_size=8), st.integers(0, 10_000))  # fmt: skip
def test_a_column_needs_its_fact_and_nothing_untaught(size, room, wanted, untaught, seed):
    rods, random = max(size.digits, size.first) + room, Random(seed)
    known = frozenset(ALL) - untaught | {wanted}
    tries = (taught_column(wanted, size, rods, known, random) for _ in range(20))
    column = next(filter(None, tries), None)
    if column is None:
        return
    facts = Exercise(Kind.SUM, Sum(column), rods=rods).facts
    assert wanted in facts
    assert facts <= known
    assert len(column) == size.terms
    assert all(0 <= total < 10**rods for total in accumulate(column))
    lengths = [len(str(abs(term))) for term in column]
    most = [size.first or size.digits, *[size.digits] * (size.terms - 1)]
    is_long_enough = [length == end if size.exact else length <= end
                      for length, end in zip(lengths, most, strict=True)]  # fmt: skip
    assert all(is_long_enough)


@each_row("fact", WORKED)
def test_a_column_is_found_for_every_fact(fact):
    size = Size(3, terms=3, exact=True)
    random = Random(fact)
    drawn = [taught_column(fact, size, 5, frozenset(ALL_FACTS), random) for _ in range(20)]
    assert any(drawn)
    assert len(set(drawn)) > 2


def test_the_fact_is_needed_anywhere_in_a_long_column():
    """Not always in the first number after the first, nor always on the highest rod."""
    random, size, places = Random(3), Size(4, terms=6, exact=True), set()
    for _ in range(200):
        column = taught_column("add-ten-five-7", size, 6, frozenset(ALL_FACTS), random)
        steps = plan_of(Sum(column)).steps if column else ()
        first = next((s for s in steps if s.change == 7 and s.technique == "ten-five"), None)
        places |= {(first.operation.row, first.rod)} if first else set()
    assert len({row for row, _ in places}) == 5
    assert len({rod for _, rod in places}) >= 4


@given(SIZES, st.sampled_from(["read", "set", "clear"]), st.integers(0, 10_000), st.data())
def test_a_number_has_known_digits_and_the_one_that_is_wanted(size, verb, seed, data):
    known = data.draw(st.frozensets(st.sampled_from([f"{verb}-digit-{d}" for d in range(1, 10)]),
                                    min_size=1))  # fmt: skip
    places = data.draw(st.integers(min(size.first or size.digits, 4) - 1 if size.exact else 0, 3))
    known |= {f"{verb}-{place}" for place in PLACES[:places]}
    digits = [fact for fact in known if "digit" in fact]
    wanted = "clear" if verb == "clear" else data.draw(st.sampled_from(sorted(digits)))
    number = taught_number(verb, wanted, size, known, Random(seed))
    length = len(str(number))
    most = size.first or size.digits
    assert length == most if size.exact else length <= most
    if verb != "clear":
        assert wanted in number_facts(verb, number) <= known


def test_without_a_known_digit_there_is_no_number():
    assert taught_number("set", "set-tens", Size(2), frozenset({"set-tens"}), Random(1)) is None
    nought = frozenset({"set-digit-0"})
    assert taught_number("set", "set-digit-0", Size(2), nought, Random(1)) is None


@pytest.mark.parametrize("digits", [1, 2, 3])
@pytest.mark.parametrize("by", [1, 2, 3])
@pytest.mark.parametrize("terms", [2, 4])
def test_a_procedure_that_numbers_of_a_size_cannot_need_is_known_beforehand(digits, by, terms):
    """What is said not to be needed never is, and all else is found."""
    random, size = Random(4), Size(digits, terms=terms, by=by, exact=True)
    needed = {family: set() for family in Family}
    # What makes a digit larger is needed where one was tried too small.
    facts = [fact for fact in PROCEDURES if fact != "revise-up"]
    for fact in facts:
        family = family_of([fact])
        rods = rods_for(family, size)
        may_need = can_need(fact, size)
        for _ in range(1000 if may_need else 80):
            calculation = any_calculation(fact, size, random)
            found = calculation_facts(calculation, plan_of(calculation, rods=rods))
            needed[family] |= {one for one in found if family_of([one]) is family}
            if may_need and fact in needed[family]:
                break
    for fact in facts:
        assert (fact in needed[family_of([fact])]) is can_need(fact, size), fact
