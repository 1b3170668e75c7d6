"""The second part of placement: steps of imagined work, and items for them."""

from random import Random

import pytest

from frame.practice.exercises import Kind, plan_for
from frame.practice.flashing import LEVELS
from frame.practice.imagining import MOST_ITEMS, Imagining, Step, steps_of
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked, Rung
from frame.technique.conventions import USUAL
from frame.technique.facts import ALL_FACTS

KNOWN = frozenset(ALL_FACTS)
OF_FIVE = frozenset(
    fact for fact in ALL_FACTS if fact.startswith(("set-", "add-direct", "add-five", "sub-direct"))
)


def begin(asked, known=KNOWN, seed=1):
    return Imagining.begin(asked, known, Random(seed))


def states(asked, answers, known=KNOWN):
    state = begin(asked, known)
    yield state
    for right in answers:
        if state.next_item() is None:
            return
        state = state.answered(right)
        yield state


def test_the_steps_are_those_of_the_ladders():
    assert [step[1:] for step in steps_of(Asked.CALLED)] == [
        level[1:] for level in levels_of(Asked.CALLED)
    ]
    assert [step[1:] for step in steps_of(Asked.FLASHED)] == [
        (level.setting.digits, level.setting.count, level.setting.interval) for level in LEVELS
    ]
    assert steps_of(Asked.SHOWN)[0] == Step(Rung.PALE, 1, 2)


@pytest.mark.parametrize("asked", Asked)
def test_an_item_is_of_its_step(asked):
    for state in states(asked, [True] * MOST_ITEMS):
        item = state.next_item()
        if item is None:
            return
        step = state.steps[state.step]
        assert (item.kind, item.asked, item.rung, item.pace) == (
            Kind.SUM, asked, step.rung, step.pace,
        )  # fmt: skip
        assert len(item.sum.numbers) == step.rows
        assert max(len(str(abs(number))) for number in item.sum.numbers) <= step.digits
        assert plan_for(item, USUAL) is not None


def test_items_that_are_shown_need_only_what_is_known():
    for state in states(Asked.SHOWN, [True] * MOST_ITEMS, OF_FIVE):
        item = state.next_item()
        assert item is None or item.facts <= OF_FIVE


@pytest.mark.parametrize("asked", Asked)
def test_who_succeeds_always_climbs_and_who_never_does_is_not_asked_long(asked):
    *_, up = states(asked, [True] * MOST_ITEMS)
    assert up.result().step in up.steps[len(up.steps) // 2 :]
    assert up.result().right == up.result().asked <= MOST_ITEMS
    *_, down = states(asked, [False] * MOST_ITEMS)
    assert down.result().step is None
    assert down.result().asked <= 2


@pytest.mark.parametrize("asked", Asked)
def test_two_misses_bring_an_easier_step_and_no_item_comes_twice(asked):
    for seed in range(20):
        random, state = Random(seed), begin(asked, seed=seed)
        while state.next_item():
            last = state.answers[-2:]
            if len(last) == 2 and not any(one.right for one in last):
                assert state.step < min(one.step for one in last)
            state = state.answered(random.random() < 0.6)
        sums = [one.item.sum for one in state.answers]
        assert len(set(sums)) == len(sums)
        with pytest.raises(ValueError, match="no item"):
            state.answered(True)


@pytest.mark.parametrize("asked", Asked)
def test_what_cannot_count_is_asked_again_once_with_other_numbers(asked):
    first = begin(asked).answered(True)
    again = first.spoilt_run()
    assert (again.step, again.answers) == (first.step, first.answers)
    assert again.next_item().sum != first.next_item().sum
    assert again.result() == first.result()
    assert again.answered(True).result() == first.answered(True).result()
    assert again.spoilt_run().next_item() is None
    assert again.answered(True).spoilt_run().next_item() is None, "once, whenever it was"
    assert again.spoilt_run().result() == first.result()


def test_nothing_is_found_above_what_succeeded():
    for seed in range(20):
        random, state = Random(seed), begin(Asked.CALLED, seed=seed)
        while state.next_item():
            state = state.answered(random.random() < 0.6)
            right = [one.step for one in state.answers if one.right]
            found = state.result().step
            assert found is None or state.steps.index(found) <= max(right)
