"""The ladder proved with simulated learners: nobody swings for ever, nobody is held for nothing."""

from dataclasses import replace
from itertools import groupby

import pytest
from climbers import (
    ALWAYS_RIGHT,
    AT_RANDOM,
    EIGHT_IN_TEN,
    LEARNERS,
    NINE_IN_TEN,
    Learner,
    practise,
)

from frame.practice.climb import Climb
from frame.practice.families import Family
from frame.practice.ladder import RUNGS, USUAL_RULES
from frame.practice.rungs import Rung

SOME = [(Family.COLUMNS, 2), (Family.MULTIPLY, 4)]
ALL = [(family, seed) for family in Family for seed in range(11, 14)]
WITH_SEEDS = pytest.mark.parametrize(
    ("family", "seed"), [*SOME, *(pytest.param(*one, marks=pytest.mark.proof) for one in ALL)]
)

MOST_FALLS = 3
"""From one rung with as many rods, in 1000 exercises. A swing is a fall from a rung to which the
learner had come back after an earlier fall; it is endless where such falls go on as they began."""


def name_of(learner):
    return learner.name


@pytest.mark.parametrize("learner", LEARNERS, ids=name_of)
@WITH_SEEDS
def test_nobody_swings_between_two_rungs_for_ever(learner, family, seed):
    assert max(practise(learner, family, seed).falls.values(), default=0) <= MOST_FALLS


@pytest.mark.parametrize("learner", [NINE_IN_TEN, EIGHT_IN_TEN], ids=name_of)
def test_without_more_asked_for_after_a_fall_there_would_be_swings(learner):
    lax = replace(USUAL_RULES, again=1)
    assert max(practise(learner, Family.MULTIPLY, 1, rules=lax).falls.values()) > 2 * MOST_FALLS


@pytest.mark.parametrize("learner", ALWAYS_RIGHT, ids=name_of)
@WITH_SEEDS
def test_who_is_always_right_goes_on_however_slow_they_move_beads_or_type(learner, family, seed):
    """Three sets at most at one rung, since of a set some are probes of the rung below."""
    course = practise(learner, family, seed)
    *before, last = [(place, len(list(some))) for place, some in groupby(course.stood)]
    assert all(sets <= 3 for _, sets in before)
    assert not course.falls
    (rung, rods), _ = last
    assert rods >= family.most_rods - 2
    assert family.grows or rung is family.top


@WITH_SEEDS
def test_who_is_right_nine_times_in_ten_climbs_too(family, seed):
    course = practise(NINE_IN_TEN, family, seed)
    high = [rung for rung, _ in course.stood if RUNGS.index(rung) >= RUNGS.index(Rung.ALONE)]
    assert len(high) > 0.8 * len(course.stood)
    _, rods = course.stood[-1]
    assert rods >= family.least_rods + 4 or not family.grows
    assert family.grows or family.top in {rung for rung, _ in course.stood}


@WITH_SEEDS
def test_who_answers_at_random_is_led(family, seed):
    course = practise(AT_RANDOM, family, seed)
    late = course.stood[len(course.stood) // 2 :]
    assert all(rung in (Rung.WATCH, Rung.FOLLOW, Rung.FINISH) for rung, _ in late)


@pytest.mark.parametrize("rung", [Rung.PALE, Rung.TRACES, Rung.NUMBER])
def test_who_takes_twice_as_long_at_a_rung_stays_there(rung):
    """Where times can be compared; elsewhere nobody is held."""
    at = RUNGS.index(rung)
    learner = Learner("twice", 1.0, lambda one: 40.0 if RUNGS.index(one) >= at else 4.0)
    course = practise(learner, Family.COLUMNS, 5, exercises=300)
    assert {place for place in course.stood[-10:]} == {(rung, 3)}
    assert not Climb.of(course.tries).is_quick


@pytest.mark.proof
@pytest.mark.parametrize("learner", [NINE_IN_TEN, EIGHT_IN_TEN], ids=name_of)
@pytest.mark.parametrize("seed", range(3))
def test_in_ten_times_as_many_exercises_there_are_hardly_more_falls(learner, seed):
    course = practise(learner, Family.ROOT, seed, exercises=10_000)
    assert max(course.falls.values()) <= 2 * MOST_FALLS
