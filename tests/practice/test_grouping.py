"""A class in groups: nobody left out, nobody twice, and more groups never cover less."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.practice.grouping import Child, Why, split_of
from frame.technique.habits import Habit

QUICKLY = settings(max_examples=25)

ITEMS = [f"{digit}+{more}" for digit in range(4) for more in range(1, 4)]
FAULTS = (Habit.CARRY_FORGOTTEN, Habit.WRONG_PARTNER, Habit.FIVE_BEAD_LEFT)
THREE_ITEMS = 100.0
"""Seconds an exercise, so that a task holds three."""

needs = st.dictionaries(st.sampled_from(ITEMS), st.sampled_from([0.25, 0.5, 1.0, 1.5, 2.0]))
chances = st.dictionaries(st.sampled_from(FAULTS), st.sampled_from([0.3, 0.5, 0.9]), max_size=2)


@st.composite
def classes(draw, most=9):
    some = draw(st.lists(st.tuples(needs, chances), max_size=most))
    return [Child(f"c{at}", due, faults) for at, (due, faults) in enumerate(some)]


def split(children, most=3, **how):
    return split_of(children, most, seconds=THREE_ITEMS, **how)


def ids(groups):
    return [[one.id for one in group.members] for group in groups]


@QUICKLY
@given(classes(), st.integers(1, 5))
def test_each_child_has_one_place_and_who_needs_nothing_is_in_no_group(children, most):
    found = split(children, most)
    placed = [name for group in ids(found.groups) for name in group]
    assert sorted([*placed, *found.others]) == [child.id for child in children]
    idle = [one.id for one in children if not any(one.due.values()) and not one.likely]
    assert list(found.others) == idle
    assert len(found.groups) <= most and all(ids(found.groups))


@QUICKLY
@given(classes(), st.integers(1, 5))
def test_what_is_told_of_a_child_is_so(children, most):
    by_id = {child.id: child for child in children}
    for group in split(children, most).groups:
        assert len(group.items) <= 3 and len(set(group.items)) == len(group.items)
        chances = [by_id[one.id].faults.get(group.fault, 0) for one in group.members]
        assert group.with_fault == sum(chance >= 0.5 for chance in chances)
        for one in group.members:
            due = by_id[one.id].due
            assert one.due == sum(due.values())
            assert one.covered == sum(due.get(item, 0) for item in group.items)
            assert 0 <= one.share <= 1
            assert one.has_fault == (by_id[one.id].faults.get(group.fault, 0) >= 0.5)
            assert (one.why is Why.DUE) == (one.covered > 0)
            assert (one.why is Why.FAULT) == (one.has_fault and not one.covered)


@QUICKLY
@given(classes(), st.integers(1, 5))
def test_a_task_is_what_its_group_needs_most(children, most):
    by_id = {child.id: child for child in children}
    for group in split(children, most).groups:
        needed = {
            item: sum(by_id[one.id].due.get(item, 0) for one in group.members) for item in ITEMS
        }
        best = sorted(needed.values(), reverse=True)[:3]
        assert [needed[item] for item in group.items] == [need for need in best if need]


@QUICKLY
@given(classes(12))
def test_more_groups_never_meet_less(children):
    met = [split(children, most).met for most in range(1, 6)]
    assert all(few <= many for few, many in pairwise(met))
    assert met[-1] <= split(children).need


@QUICKLY
@given(classes(), st.randoms(use_true_random=False))
def test_the_order_of_the_class_changes_nothing(children, random):
    mixed = random.sample(children, len(children))
    mixed = [
        Child(one.id, dict(reversed(one.due.items())), dict(reversed(one.faults.items())))
        for one in mixed
    ]
    assert split(mixed) == split(children)


@QUICKLY
@given(classes())
def test_no_child_alone_would_add_more_in_another_group(children):
    """As far as single moves go nothing is left to be had."""
    found = split(children)
    by_id = {child.id: child for child in children}
    places = ids(found.groups)
    for own, place in enumerate(places):
        for name in place:
            for to in range(len(places)):
                moved = [[*p] for p in places]
                moved[own].remove(name)
                moved[to].append(name)
                total = sum(split([by_id[one] for one in p], 1).met for p in moved)
                assert total <= found.met + 0.001


def test_who_needs_the_same_is_together():
    children = [
        Child("Otter", {"1+1": 1, "1+2": 1, "1+3": 1}),
        Child("Fox", {"2+1": 1, "2+2": 1, "2+3": 1}),
        Child("Seal", {"1+1": 1, "1+2": 1, "1+3": 1}),
        Child("Hare", {"2+1": 1, "2+2": 1, "2+3": 1}),
    ]
    found = split(children)
    assert ids(found.groups) == [["Fox", "Hare"], ["Otter", "Seal"]]
    assert [group.items for group in found.groups] == [
        ("2+1", "2+2", "2+3"),
        ("1+1", "1+2", "1+3"),
    ]
    assert found.share == 1


def test_who_shares_a_fault_is_together():
    fault, other = FAULTS[:2]
    due = {"1+1": 1.0}
    children = [
        Child("Fox", due, {fault: 0.9}),
        Child("Hare", due, {other: 0.9}),
        Child("Otter", due, {fault: 0.8}),
        Child("Seal", {}, {other: 0.7}),
    ]
    found = split(children, 2)
    assert ids(found.groups) == [["Fox", "Otter"], ["Hare", "Seal"]]
    assert [group.fault for group in found.groups] == [fault, other]
    assert [one.why for one in found.groups[1].members] == [Why.DUE, Why.FAULT]


def test_a_fault_that_is_not_likely_is_nobodys():
    found = split([Child("Fox", {"1+1": 1}, {FAULTS[0]: 0.49})])
    assert found.groups[0].fault is None and found.need == 1


def test_who_needs_nothing_takes_nobodys_task():
    children = [
        Child("Fox", {"1+1": 1, "1+2": 1, "1+3": 1}),
        Child("Hare", {"1+1": 1, "1+2": 1, "1+3": 1}),
        Child("Otter", {"2+1": 1, "2+2": 1, "2+3": 1}),
        Child("Seal", {}),
    ]
    found = split(children, 2)
    assert ids(found.groups) == [["Fox", "Hare"], ["Otter"]] and found.others == ("Seal",)
    assert split(children[3:]).groups == () and split(children[3:]).share == 1


def test_what_does_not_fit_is_said():
    many = {item: 1 for item in ITEMS[:3]}
    children = [Child("Fox", many), Child("Hare", many), Child("Seal", {ITEMS[5]: 0.5})]
    (group,) = split(children, 1).groups
    assert [one.why for one in group.members] == [Why.DUE, Why.DUE, Why.NOT_COVERED]
    assert group.members[2].share == 0


def test_no_more_groups_than_help():
    children = [Child(name, {"1+1": 1, "1+2": 1}) for name in ("Fox", "Hare", "Otter")]
    assert len(split(children, 3).groups) == 1


@pytest.mark.parametrize("minutes", [1, 2.5, 5, 10])
def test_a_task_holds_as_much_as_there_is_time_for(minutes):
    fox = Child("Fox", {item: 1 for item in ITEMS})
    (group,) = split_of([fox], 1, minutes=minutes, seconds=60).groups
    assert len(group.items) == int(minutes)


def test_of_what_is_needed_alike_the_first_by_id_is_taken():
    (group,) = split([Child("Fox", {item: 1 for item in reversed(ITEMS)})]).groups
    assert list(group.items) == sorted(ITEMS)[:3]


def test_nobody_makes_no_groups():
    assert split([]).groups == () and split([]).share == 1


@pytest.mark.parametrize(
    ("children", "how"),
    [
        ([Child("Fox", {}), Child("Fox", {})], {}),
        ([Child("Fox", {"1+1": -1})], {}),
        ([], {"most": 0}),
        ([], {"minutes": 0}),
        ([], {"seconds": 0}),
    ],
)
def test_what_makes_no_sense_is_refused(children, how):
    with pytest.raises(ValueError):
        split_of(children, **{"most": 3, **how})
