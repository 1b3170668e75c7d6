"""The ladder: when a learner goes up or down, what is told of it, and with how many rods."""

from dataclasses import replace
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.families import Family
from frame.practice.ladder import (
    RUNGS,
    USUAL_RULES,
    Among,
    LadderRules,
    Standing,
    Try,
    below,
    is_probe,
    probe_of,
    reached,
    rods_of,
    rung_of,
    standing,
    tracks,
)
from frame.practice.rungs import Asked, Rung

FACTS = frozenset({"add-five-3"})


def a_try(rung=Rung.ALONE, right=True, **more):
    facts = {"family": Family.ADD_FIVE, "rods": 1, "looks": 0, "seconds": 4.0, "facts": FACTS}
    return Try(rung=rung, right=right, **{**facts, **more})


def tries(pattern, rung=Rung.ALONE, **more):
    """A try for each letter: r right, m missed, l right after a look."""
    return [a_try(rung, letter != "m", looks=int(letter == "l"), **more) for letter in pattern]


def climbing(count, rules=USUAL_RULES, start=Rung.ALONE, right=True, **more):
    """So many tries, each at the rung where the learner then stands."""
    history = []
    for _ in range(count):
        history.append(a_try(rung_of(history, rules, start), right, **more))
    return history


TRIES = st.lists(
    st.builds(
        a_try,
        st.sampled_from(Rung),
        st.booleans(),
        looks=st.integers(0, 2),
        seconds=st.floats(0.5, 60),
    ),
    max_size=60,
)
LETTERS = st.text("rml", max_size=60)
RULES = st.builds(
    LadderRules,
    up_after=st.sampled_from([1, 6, 10, 15]),
    share=st.sampled_from([0.8, 0.85, 0.95]),
    misses=st.sampled_from([None, Among(2, 3), Among(3, 4)]),
    looks=st.sampled_from([None, Among(3, 5)]),
)


# The rules as a table: what happens at `alone`, one letter for each exercise there.


@pytest.mark.parametrize(
    ("pattern", "rung"),
    [
        ("", Rung.ALONE),
        ("r" * 9, Rung.ALONE),
        ("r" * 10, Rung.PALE),
        ("m" + "r" * 9, Rung.PALE),
        ("r" * 9 + "m", Rung.PALE),
        ("mrrrrm" + "r" * 4, Rung.ALONE),
        ("mrrrrm" + "r" * 5, Rung.PALE),
        ("m", Rung.ALONE),
        ("mm", Rung.FINISH),
        ("mrm", Rung.FINISH),
        ("mrrm", Rung.ALONE),
        ("rrrrrrmm", Rung.FINISH),
        ("ll", Rung.ALONE),
        ("lll", Rung.FINISH),
        ("lrlrl", Rung.FINISH),
        ("lrrlrl", Rung.ALONE),
        ("lrlrrr", Rung.ALONE),
    ],
)
def test_up_and_down_by_the_usual_rules(pattern, rung):
    assert rung_of(tries(pattern)) is rung


@pytest.mark.parametrize(
    ("rules", "pattern", "rung"),
    [
        (LadderRules(up_after=6), "r" * 6, Rung.PALE),
        (LadderRules(up_after=6), "mrrrrr", Rung.ALONE),
        (LadderRules(up_after=6, share=0.8), "mrrrrr", Rung.PALE),
        (LadderRules(up_after=15), "r" * 14, Rung.ALONE),
        (LadderRules(share=0.95), "m" + "r" * 9, Rung.ALONE),
        (LadderRules(share=0.8), "mrrrrm" + "r" * 4, Rung.PALE),
        (LadderRules(up_after=15, share=0.8), "mrrrrm" + "rrm" + "r" * 6, Rung.PALE),
        (LadderRules(misses=Among(3, 4)), "mm", Rung.ALONE),
        (LadderRules(misses=Among(3, 4)), "mmrm", Rung.FINISH),
        (LadderRules(misses=None), "m" * 50, Rung.ALONE),
        (LadderRules(looks=None), "llllll", Rung.ALONE),
        (LadderRules(misses=None), "lll", Rung.FINISH),
    ],
)
def test_the_same_tries_under_other_rules(rules, pattern, rung):
    assert rung_of(tries(pattern), rules) is rung


def test_two_looks_in_one_exercise_are_one_exercise_with_a_look():
    assert rung_of([a_try(looks=2), a_try(looks=2)]) is Rung.ALONE


# Climbing


@given(st.integers(0, 120), st.sampled_from(Rung), RULES)
def test_who_is_always_right_climbs_to_the_last_rung_and_no_further(count, start, rules):
    climbed = RUNGS.index(start) + count // rules.up_after
    assert rung_of(climbing(count, rules, start), rules, start) is RUNGS[min(climbed, 7)]


@pytest.mark.parametrize("family", Family)
def test_a_family_ends_at_its_last_rung(family):
    assert rung_of(climbing(80, family=family)) is family.top


@given(st.integers(0, 60), st.sampled_from(Rung))
def test_who_is_always_wrong_falls_to_the_lowest_rung_and_no_further(count, start):
    fallen = RUNGS.index(start) - count // 2
    history = climbing(count, start=start, right=False)
    assert rung_of(history, start=start) is RUNGS[max(fallen, 0)]


@given(TRIES, RULES)
def test_no_rung_is_ever_skipped(history, rules):
    stood = [RUNGS.index(rung_of(history[:end], rules)) for end in range(len(history) + 1)]
    assert all(abs(after - before) <= 1 for before, after in pairwise(stood))


@given(LETTERS, RULES)
def test_after_a_move_the_count_starts_anew(letters, rules):
    """What was done before the last move has no more say than who was always there."""
    history = tries("r" * rules.up_after, Rung.TRACES) + tries(letters, Rung.COVERED)
    alone = rung_of(tries(letters, Rung.COVERED), rules, Rung.COVERED)
    assert rung_of(history, rules, Rung.TRACES) is alone


# Tries elsewhere


ELSEWHERE = st.builds(
    a_try,
    st.sampled_from([rung for rung in Rung if rung is not Rung.ALONE]),
    st.booleans(),
    looks=st.integers(0, 2),
    seconds=st.floats(0.1, 60),
)


@given(LETTERS, st.lists(st.tuples(st.integers(0, 60), ELSEWHERE), max_size=20))
def test_probes_and_rungs_chosen_by_hand_move_nobody(letters, others):
    """Up to the first move; no time is compared at `alone`, for below it the hand is led."""
    alone = tries(letters)
    moves = [end for end in range(len(alone) + 1) if rung_of(alone[:end]) is not Rung.ALONE]
    history = alone[: moves[0] if moves else len(alone)]
    stands = rung_of(history)
    for at, other in others:
        history.insert(at % max(1, len(history)), other)
    assert rung_of(history) is stands


@pytest.mark.parametrize("elsewhere", [rung for rung in Rung if rung is not Rung.ALONE])
@pytest.mark.parametrize("pattern", ["r" * 40, "m" * 40, "l" * 40])
def test_any_number_of_tries_elsewhere_moves_nobody(elsewhere, pattern):
    assert rung_of(tries(pattern, elsewhere)) is Rung.ALONE
    assert rung_of(tries("r" * 9) + tries(pattern, elsewhere) + tries("r")) is Rung.PALE
    assert rung_of(tries("m") + tries(pattern, elsewhere) + tries("m")) is Rung.FINISH


def test_about_one_exercise_in_ten_is_a_probe():
    random = Random(3)
    assert 800 < sum(is_probe(random) for _ in range(10_000)) < 1200
    assert all(is_probe(random, LadderRules(probe_every=1)) for _ in range(20))


def test_no_probe_is_drawn_where_the_tool_leads_the_hand():
    probes = {rung: probe_of(rung) for rung in Rung}
    assert {rung for rung, probe in probes.items() if probe} == set(RUNGS[4:])
    assert all(probes[rung] is below(rung) for rung in RUNGS[4:])


# Time


@pytest.mark.parametrize(
    ("seconds", "rung"), [(6.0, Rung.TRACES), (6.01, Rung.PALE), (30.0, Rung.PALE)]
)
def test_slow_answers_hold(seconds, rung):
    history = tries("r" * 10, seconds=4.0)
    assert rung_of(history + tries("r" * 30, Rung.PALE, seconds=seconds)) is rung


def test_who_grows_quicker_goes_up():
    history = tries("r" * 10) + tries("r" * 20, Rung.PALE, seconds=9.0)
    assert rung_of(history + tries("r" * 5, Rung.PALE, seconds=5.0)) is Rung.PALE
    assert rung_of(history + tries("r" * 6, Rung.PALE, seconds=5.0)) is Rung.TRACES


def test_the_time_at_the_rung_below_is_that_of_late():
    history = tries("r" * 10) + tries("r" * 9, Rung.PALE, seconds=9.0)
    slower_probes = tries("r" * 10, Rung.ALONE, seconds=8.0)
    assert rung_of([*history, a_try(Rung.PALE, seconds=9.0)]) is Rung.PALE
    assert rung_of([*history, *slower_probes, a_try(Rung.PALE, seconds=9.0)]) is Rung.TRACES


def test_the_time_of_a_miss_tells_nothing():
    at_pale = [
        *tries("m", Rung.PALE, seconds=0.1),
        *tries("rrrr", Rung.PALE, seconds=5.0),
        *tries("rrrrr", Rung.PALE, seconds=7.0),
    ]
    assert rung_of(tries("r" * 10) + at_pale) is Rung.PALE


def test_no_time_is_compared_with_a_led_hand():
    quick = tries("r" * 10, Rung.FINISH, seconds=1.0)
    slow = tries("r" * 10, Rung.ALONE, seconds=20.0)
    assert rung_of(quick + slow, start=Rung.FINISH) is Rung.PALE


# What is told


def test_the_share_at_each_rung_is_that_of_the_same_facts():
    other = frozenset({"add-five-4"})
    history = [
        *tries("rrrm"),
        *tries("mmmm", facts=other),
        *tries("rrmm", Rung.COVERED),
    ]
    assert standing(history) == (
        Standing(Rung.ALONE, 4, 0.75),
        Standing(Rung.COVERED, 4, 0.5),
    )
    assert standing(history[:8]) == (Standing(Rung.ALONE, 8, 0.375),)
    assert standing([]) == ()


def test_the_share_is_that_of_late():
    assert standing(tries("m" * 30 + "r" * 9 + "m")) == (Standing(Rung.ALONE, 10, 0.9),)
    some = replace(USUAL_RULES, up_after=6)
    assert standing(tries("m" * 30 + "rrr"), some) == (Standing(Rung.ALONE, 6, 0.5),)


@given(TRIES, RULES)
def test_the_table_is_in_the_ladders_order_and_never_empty_handed(history, rules):
    rows = standing(history, rules)
    assert [row.rung for row in rows] == [rung for rung in RUNGS if rung in {r.rung for r in rows}]
    assert all(1 <= row.tries <= rules.up_after and 0 <= row.share <= 1 for row in rows)


def test_a_rung_above_alone_is_told_only_while_alone_holds():
    history = climbing(30)
    assert rung_of(history) is reached(history) is Rung.COVERED
    decayed = history + tries("mm")
    assert rung_of(decayed) is Rung.COVERED
    assert reached(decayed) is Rung.ALONE
    assert reached(decayed + tries("r" * 9)) is Rung.COVERED


def test_a_tutor_who_is_content_with_less_is_told_no_more():
    content = LadderRules(share=0.8)
    history = tries("mrrrrm" + "r" * 4)
    assert rung_of(history, content) is Rung.PALE
    assert reached(history, content) is Rung.ALONE
    assert reached([*history, a_try()], content) is Rung.PALE


def test_below_alone_the_rung_is_told_as_it_is():
    assert reached(tries("mm")) is Rung.FINISH


def test_who_began_above_alone_has_nothing_to_tell():
    assert reached(tries("r" * 10, Rung.PALE), start=Rung.PALE) is Rung.ALONE


@given(TRIES, RULES)
def test_what_is_told_is_never_above_where_the_learner_stands(history, rules):
    stands, told = rung_of(history, rules), reached(history, rules)
    assert told in (stands, Rung.ALONE)
    assert RUNGS.index(told) <= RUNGS.index(stands)


# Tracks and rods


def test_tracks_are_apart_and_in_order():
    one, two = a_try(seconds=1), a_try(rods=2)
    three, four = a_try(seconds=3), a_try(family=Family.SUB_FIVE)
    found = tracks([one, two, three, four])
    assert found == {
        (Family.ADD_FIVE, 1): (one, three),
        (Family.ADD_FIVE, 2): (two,),
        (Family.SUB_FIVE, 1): (four,),
    }


@pytest.mark.parametrize("more", [{"own": True}, {"asked": Asked.CALLED}, {"asked": Asked.FLASHED}])
def test_what_tells_nothing_of_a_rung_is_on_no_track(more):
    assert tracks([a_try(**more)]) == {}


def mastered(rods, last="r" * 10, seconds=4.0):
    return climbing(40, rods=rods) + tries(last, Rung.NUMBER, rods=rods, seconds=seconds)


@pytest.mark.parametrize(
    ("by_rods", "least", "rods"),
    [
        ({}, 1, 1),
        ({}, 3, 3),
        ({1: climbing(39)}, 1, 1),
        ({1: climbing(40)}, 1, 1),
        ({1: mastered(1, "mrrrrrrrr")}, 1, 1),
        ({1: mastered(1)}, 1, 2),
        ({1: mastered(1, seconds=60.0)}, 1, 2),
        ({2: mastered(2)}, 1, 1),
        ({2: mastered(2)}, 2, 3),
        ({1: mastered(1), 2: mastered(2)}, 1, 3),
        ({1: mastered(1), 2: mastered(2), 3: mastered(3, seconds=60.0)}, 1, 3),
        ({1: mastered(1), 2: mastered(2), 3: mastered(3)}, 1, 4),
        ({1: mastered(1, "r" * 10 + "mm")}, 1, 1),
    ],
)
def test_rods_come_one_by_one_and_a_fourth_only_when_three_are_quick(by_rods, least, rods):
    assert rods_of(by_rods, least=least) == rods
