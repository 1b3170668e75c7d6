"""Every fact has a family, and an exercise the hardest of those it needs."""

from itertools import groupby

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from shipped import the_course

from frame.practice.families import Family, family_of
from frame.practice.rungs import Rung
from frame.technique.facts import ALL_FACTS

FACTS = st.frozensets(st.sampled_from(ALL_FACTS), min_size=1, max_size=6)
HARDNESS = list(Family).index


@each_row(
    ("facts", "family"),
    [
        (["read-digit-0", "read-tens"], Family.READ),
        (["set-digit-7", "set-tens"], Family.SET),
        (["clear"], Family.SET),
        (["set-digit-4", "add-direct-5"], Family.ADD_DIRECT),
        (["sub-direct-9", "add-direct-9"], Family.SUB_DIRECT),
        (["set-digit-4", "add-five-3", "sub-direct-1"], Family.ADD_FIVE),
        (["add-five-4", "sub-five-4"], Family.SUB_FIVE),
        (["add-ten-9", "add-direct-1", "sub-five-1"], Family.ADD_TEN),
        (["sub-ten-1", "add-ten-1"], Family.SUB_TEN),
        (["add-ten-five-6", "add-ten-4", "sub-ten-4"], Family.ADD_TEN_FIVE),
        (["sub-ten-five-9", "sub-five-1"], Family.SUB_TEN_FIVE),
        (["add-ten-5", "add-direct-1", "ripple-add"], Family.COLUMNS),
        (["ripple-sub", "sub-ten-five-6"], Family.COLUMNS),
        (["place-product", "add-ten-9", "ripple-add"], Family.MULTIPLY),
        (["signs", "multiply-2", "skip-zero"], Family.MULTIPLY),
        (["divide-1", "place-quotient-far", "sub-five-1"], Family.DIVIDE),
        (["remainder", "signs"], Family.DIVIDE),
        (["unit-rod", "multiply-2", "place-product"], Family.DECIMALS),
        (["round", "divide-2", "revise-down"], Family.DECIMALS),
        (["decimals", "add-direct-3"], Family.DECIMALS),
        (["below-zero", "sub-ten-3", "ripple-sub"], Family.BELOW_ZERO),
        (["give-back", "decimals"], Family.BELOW_ZERO),
        (["root", "remainder", "unit-rod", "round"], Family.ROOT),
        (["halve"], Family.ROOT),
        ([], Family.READ),
    ],
)
def test_the_hardest_family_names_the_exercise(facts, family):
    assert family_of(facts) is family


def test_every_family_has_facts_and_every_fact_a_family():
    assert {family_of([fact]) for fact in ALL_FACTS} == set(Family)


@given(FACTS, FACTS)
def test_more_facts_are_never_easier(some, more):
    families = [family_of(some), family_of(more)]
    assert family_of(some | more) is max(families, key=HARDNESS)


NO_FACTS = ["", "add", "add-ten", "add-five-9", "mul-3", "ripple-mul", "multiply", "multiply-4",
            "divide-3", "below", "root-digit-1"]  # fmt: skip


@pytest.mark.parametrize("fact", NO_FACTS)
def test_what_is_no_fact_is_an_error(fact):
    with pytest.raises(ValueError, match="is no fact"):
        family_of(["add-five-3", fact])


KINDS = ["direct", "five", "ten", "ten-five", "columns", "multiply", "divide", "decimals",
         "below-zero", "root"]  # fmt: skip
"""The families of sums in their order; whether adding or taking away comes first is not asked."""


def test_the_course_teaches_easier_families_first():
    """What the procedures need later, such as signs, may come between; sums come one by one."""
    new = [fact for lesson in the_course().lessons for fact in lesson.new]
    kinds = [kind for kind, _ in groupby(map(kind_of, new)) if kind not in ("read", "set")]
    taught = list(dict.fromkeys(kinds))
    assert taught == KINDS[: len(taught)]
    of_sums = [kind for kind, _ in groupby(kind for kind in kinds if kind in KINDS[:5])]
    assert of_sums == KINDS[:5]


def kind_of(fact):
    return family_of([fact]).value.removeprefix("add-").removeprefix("sub-")


def test_the_families_of_columns_and_those_with_room_from_the_first():
    procedures = {Family.MULTIPLY, Family.DIVIDE, Family.DECIMALS, Family.BELOW_ZERO, Family.ROOT}
    assert {family for family in Family if not family.grows} == procedures
    no_columns = {Family.MULTIPLY, Family.DIVIDE, Family.ROOT}
    assert {family for family in Family if not family.is_of_columns} == no_columns
    assert {family for family in Family if not family.is_of_sums} == {Family.READ, Family.SET}


def test_what_is_read_is_seen_and_what_is_set_has_no_answer():
    tops = {family: family.top for family in Family if family.top is not Rung.NUMBER}
    assert tops == {Family.READ: Rung.ALONE, Family.SET: Rung.COVERED}
