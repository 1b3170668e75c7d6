"""Today's set and simulated learners: what can be claimed of them. No child was asked."""

from functools import cache
from random import Random
from statistics import mean

import pytest
from learners import KEPT, Learner, live
from memories import DAY, MEMORIES
from policies import POLICIES, taught
from today import OURS, all_tried, gains, surely_better, table, tried

FORGETFUL = ("activation", "half-life")


def recalled(kind, days, later):
    """The chance with which an item that was recalled on some days is recalled so much later."""
    memory = MEMORIES[kind](Random(1))
    for day in days:
        memory.asked("4+3", day * DAY, True)
    return memory.chance("4+3", (days[-1] + later) * DAY)


@pytest.mark.parametrize("kind", FORGETFUL)
def test_they_forget_and_what_is_spaced_lasts_longer(kind):
    together, spaced = (0, 0.001, 0.002, 0.003), (0, 2, 5, 9)
    assert recalled(kind, spaced, 1) > recalled(kind, spaced, 7) > recalled(kind, spaced, 30)
    assert recalled(kind, spaced, 7) > recalled(kind, together, 7)


def test_without_forgetting_nothing_is_lost():
    days = (0, 2, 5, 9)
    assert recalled("no forgetting", days, 1) == recalled("no forgetting", days, 300)


@pytest.mark.parametrize("kind", MEMORIES)
def test_what_is_recalled_lasts_longer_than_what_is_shown(kind):
    chances = []
    for is_recalled in (True, False):
        memory = MEMORIES[kind](Random(1))
        for day in (0, 2, 5):
            memory.asked("4+3", day * DAY, is_recalled)
        chances.append(memory.chance("4+3", 8 * DAY))
    assert chances[0] > chances[1]


@cache
def in_our_way():
    ours = Learner(4, minutes=2.0)
    live(ours, POLICIES[OURS], weeks=2)
    return ours


@pytest.mark.parametrize("way", POLICIES)
def test_every_way_has_the_same_learner_days_and_minutes(way):
    ours, other = in_our_way(), Learner(4, minutes=2.0)
    live(other, POLICIES[way], weeks=2)
    assert other.pace == ours.pace
    assert other.came == ours.came
    assert taught(other) == taught(ours)
    longest = max(*ours.durations, *other.durations)
    for one in (ours, other):
        assert one.practised <= one.came * (120 + 2 * longest)


def test_a_run_can_be_had_again():
    one, other = (tried(OURS, 3, minutes=1.0, weeks=1) for _ in range(2))
    assert one == other
    assert one != tried(OURS, 4, minutes=1.0, weeks=1)


def test_practice_keeps_more_than_none_and_the_figures_are_told():
    found = all_tried((OURS, "no practice"), range(1, 4), jobs=1, minutes=3.0, weeks=3)
    assert mean(one.kept for one in found[OURS]) > mean(one.kept for one in found["no practice"])
    assert len(list(table(found))) == 4
    assert 0 < KEPT < 1


@pytest.mark.proof
@pytest.mark.parametrize("kind", FORGETFUL)
def test_more_is_kept_for_each_hour_than_by_chance_and_more_is_right(kind):
    ways = (OURS, "at random", "in order", "due first", "today by fsrs")
    found = all_tried(ways, range(1, 61), minutes=5.0, memory_kind=kind)
    assert surely_better(gains(found, "at random"))
    assert surely_better(gains(found, "today by fsrs"))
    right = {way: mean(one.right for one in some) for way, some in found.items()}
    assert max(right, key=right.__getitem__) == OURS


@pytest.mark.proof
def test_all_due_first_keeps_less_or_more_by_the_memory():
    """The case in which ours does worse: where forgetting is exponential and little is lost, the
    most overdue first keeps more, at more misses."""
    ways = (OURS, "due first")
    found = {kind: all_tried(ways, range(1, 61), minutes=5.0, memory_kind=kind)
             for kind in FORGETFUL}  # fmt: skip
    assert surely_better(gains(found["activation"], "due first"))
    assert surely_better(gains(found["half-life"], OURS, ours="due first"))
