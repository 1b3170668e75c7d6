"""Supposed learners, and how answers weigh them; items drawn to find out what is known."""

from random import Random

import pytest
from each import each_row

from frame.practice.families import Family, family_of
from frame.practice.probes import narrow_probe, seconds_of, wide_probes
from frame.practice.supposed import Supposed, Syllabus
from frame.technique.facts import ALL_FACTS

GROUPS = tuple(
    tuple(fact for fact in ALL_FACTS if family_of([fact]) is family) for family in Family
)
SYLLABUS = Syllabus(GROUPS, tuple(range(len(GROUPS))))
KNOWN = frozenset(ALL_FACTS)


def mask(*families):
    return SYLLABUS.mask(fact for fact in ALL_FACTS if family_of([fact]) in families)


def test_weights_are_shares_before_and_after_answers():
    supposed = Supposed.of(SYLLABUS)
    for right in (True, False):
        supposed = supposed.after(mask(Family.ADD_FIVE), right)
        assert sum(supposed.by_first) == pytest.approx(1)
    needed = mask(Family.SUB_FIVE)
    succeeding = supposed.succeeding(needed)
    assert all(some <= share for some, share in zip(succeeding, supposed.by_first, strict=True))


def test_an_answer_speaks_for_or_against_what_it_needed():
    supposed, needed = Supposed.of(SYLLABUS), mask(Family.SUB_FIVE)
    before = supposed.knows(needed)
    assert supposed.after(needed, True).knows(needed) > before > 0
    assert supposed.after(needed, False).knows(needed) < before


def test_who_succeeds_with_all_lacks_nothing_and_who_with_nothing_lacks_the_first():
    supposed = Supposed.of(SYLLABUS)
    for _ in range(4):
        supposed = supposed.after(SYLLABUS.all, True)
    assert supposed.by_first[-1] > 0.95
    supposed = Supposed.of(SYLLABUS)
    for _ in range(4):
        supposed = supposed.after(1, False)
    assert supposed.by_first[0] > 0.95


def test_what_is_known_for_sure_is_never_lacking():
    known = mask(Family.READ, Family.ADD_FIVE)
    supposed = Supposed.of(SYLLABUS, known).after(known, False)
    assert supposed.knows(known) == pytest.approx(1)
    firsts = [SYLLABUS.facts[at] for at, share in enumerate(supposed.by_first[:-1]) if share]
    assert not {family_of([fact]) for fact in firsts} & {Family.READ, Family.ADD_FIVE}


def test_somebody_adds_without_taking_away_and_somebody_forgot_a_family():
    supposed = Supposed.of(SYLLABUS)
    lacking = {lacking for group in supposed.groups for lacking, _ in group}
    adding = (Family.ADD_DIRECT, Family.ADD_FIVE, Family.ADD_TEN, Family.ADD_TEN_FIVE)
    assert SYLLABUS.all & ~mask(Family.READ, Family.SET, *adding) in lacking
    assert mask(Family.ADD_FIVE) in lacking
    assert {0, SYLLABUS.all} <= lacking


@each_row("fact", ALL_FACTS)
def test_a_narrow_probe_needs_its_fact_and_little_else(fact):
    item = narrow_probe(fact, KNOWN, Random(fact))
    assert fact in item.facts
    assert len(item.facts) <= 18
    assert seconds_of(item) > 0


def test_a_wide_item_needs_more_than_a_narrow_one():
    for fact in ("read-digit-7", "add-five-3", "sub-ten-8", "divide-1"):
        narrow = narrow_probe(fact, KNOWN, Random(fact))
        wide = list(wide_probes(fact, KNOWN, Random(fact)))
        assert wide
        assert all(fact in item.facts for item in wide)
        assert max(len(item.facts) for item in wide) > len(narrow.facts)


def test_wide_probes_have_no_more_digits_than_they_may():
    items = list(wide_probes("add-five-3", KNOWN, Random(1), digits=2))
    assert items
    assert all(abs(number) < 100 for item in items for number in item.sum.numbers)


def test_no_item_needs_what_is_not_known():
    known = frozenset(fact for fact in ALL_FACTS if "ten" not in fact)
    for fact in ("add-five-3", "sub-direct-7", "read-digit-4"):
        for item in (narrow_probe(fact, known, Random(1)), *wide_probes(fact, known, Random(1))):
            assert item.facts <= known
    assert narrow_probe("add-ten-3", known, Random(1)) is None
