"""The ladder: when a learner goes up or down, and with how many rods."""

from itertools import pairwise
from random import Random

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.climb import Climb
from frame.practice.families import Family
from frame.practice.ladder import (
    RUNGS,
    TIMED_BY,
    USUAL_RULES,
    Among,
    LadderRules,
    Try,
    below,
    is_probe,
    probe_of,
)
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder

FACTS = frozenset({"add-five-3"})


def a_try(rung=Rung.ALONE, right=True, **more):
    facts = {"family": Family.ADD_FIVE, "rods": 1, "looks": 0, "seconds": 4.0, "facts": FACTS}
    return Try(rung=rung, right=right, **{**facts, **more})


def tries(pattern, rung=Rung.ALONE, **more):
    """A try for each letter: r right, m missed, l right after a look."""
    return [a_try(rung, letter != "m", looks=int(letter == "l"), **more) for letter in pattern]


def from_rung(start, history, rules=USUAL_RULES):
    """The rung where a learner stands who began at another than `alone`."""
    climb = Climb(rules, start)
    for one in history:
        climb.add(one)
    return climb.rung


def climbing(count, rules=USUAL_RULES, start=Rung.ALONE, right=True, **more):
    """So many tries, each at the rung where the learner then stands."""
    climb, history = Climb(rules, start), []
    for _ in range(count):
        history.append(a_try(climb.rung, right, **more))
        climb.add(history[-1])
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
    misses=st.sampled_from([None, Among(2, 3), Among(3, 4), Among(1, 1)]),
    looks=st.sampled_from([None, Among(3, 5)]),
)


# The rules as a table: what happens at `alone`, one letter for each exercise there.


@each_row(
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
    assert Climb.of(tries(pattern)).rung is rung


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
    assert Climb.of(tries(pattern), rules).rung is rung


def test_two_looks_in_one_exercise_are_one_exercise_with_a_look():
    assert Climb.of([a_try(looks=2), a_try(looks=2)]).rung is Rung.ALONE


# Climbing


@given(st.integers(0, 120), st.sampled_from(Rung), RULES)
def test_who_is_always_right_climbs_to_the_last_rung_and_no_further(count, start, rules):
    climbed = RUNGS.index(start) + count // rules.up_after
    assert from_rung(start, climbing(count, rules, start), rules) is RUNGS[min(climbed, 7)]


@each_row("family", Family)
def test_a_family_ends_at_its_last_rung(family):
    assert Climb.of(climbing(80, family=family)).rung is family.top


@given(st.integers(0, 60), st.sampled_from(Rung))
def test_who_is_always_wrong_falls_to_the_lowest_rung_and_no_further(count, start):
    fallen = RUNGS.index(start) - count // 2
    history = climbing(count, start=start, right=False)
    assert from_rung(start, history) is RUNGS[max(fallen, 0)]


@given(TRIES, RULES)
def test_no_rung_is_ever_skipped(history, rules):
    stood = [RUNGS.index(Climb.of(history[:end], rules).rung) for end in range(len(history) + 1)]
    assert all(abs(after - before) <= 1 for before, after in pairwise(stood))


@given(LETTERS, RULES)
def test_after_a_move_the_count_starts_anew(letters, rules):
    """What was done before the last move has no more say than who was always there."""
    history = tries("r" * rules.up_after, Rung.TRACES) + tries(letters, Rung.COVERED)
    alone = from_rung(Rung.COVERED, tries(letters, Rung.COVERED), rules)
    assert from_rung(Rung.TRACES, history, rules) is alone


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
    moves = [end for end in range(len(alone) + 1) if Climb.of(alone[:end]).rung is not Rung.ALONE]
    history = alone[: moves[0] if moves else len(alone)]
    stands = Climb.of(history).rung
    for at, other in others:
        history.insert(at % max(1, len(history)), other)
    assert Climb.of(history).rung is stands


@each_row("elsewhere", [rung for rung in Rung if rung is not Rung.ALONE])
@each_row("pattern", ["r" * 40, "m" * 40, "l" * 40])
def test_any_number_of_tries_elsewhere_moves_nobody(elsewhere, pattern):
    assert Climb.of(tries(pattern, elsewhere)).rung is Rung.ALONE
    assert Climb.of(tries("r" * 9) + tries(pattern, elsewhere) + tries("r")).rung is Rung.PALE
    assert Climb.of(tries("m") + tries(pattern, elsewhere) + tries("m")).rung is Rung.FINISH


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
    assert Climb.of(history + tries("r" * 30, Rung.PALE, seconds=seconds)).rung is rung


def test_who_grows_quicker_goes_up():
    history = tries("r" * 10) + tries("r" * 20, Rung.PALE, seconds=9.0)
    assert Climb.of(history + tries("r" * 5, Rung.PALE, seconds=5.0)).rung is Rung.PALE
    assert Climb.of(history + tries("r" * 6, Rung.PALE, seconds=5.0)).rung is Rung.TRACES


def test_the_time_at_the_rung_below_is_that_of_late():
    history = tries("r" * 10) + tries("r" * 9, Rung.PALE, seconds=9.0)
    slower_probes = tries("r" * 10, Rung.ALONE, seconds=8.0)
    assert Climb.of([*history, a_try(Rung.PALE, seconds=9.0)]).rung is Rung.PALE
    assert Climb.of([*history, *slower_probes, a_try(Rung.PALE, seconds=9.0)]).rung is Rung.TRACES


def test_the_time_of_a_miss_tells_nothing():
    at_pale = [
        *tries("m", Rung.PALE, seconds=0.1),
        *tries("rrrr", Rung.PALE, seconds=5.0),
        *tries("rrrrr", Rung.PALE, seconds=7.0),
    ]
    assert Climb.of(tries("r" * 10) + at_pale).rung is Rung.PALE


def test_no_time_is_compared_with_a_led_hand():
    quick = tries("r" * 10, Rung.FINISH, seconds=1.0)
    slow = tries("r" * 10, Rung.ALONE, seconds=20.0)
    assert from_rung(Rung.FINISH, quick + slow) is Rung.PALE


def at(rung, seconds, **more):
    return tries("r" * 10, rung, seconds=seconds, **more)


def test_no_time_is_compared_where_more_is_pressed_and_typed_than_below():
    """*Done* and the answer come at `covered`: they would hold back whoever types slowly."""
    beads = tries("r" * 10) + at(Rung.PALE, 4.0) + at(Rung.TRACES, 4.0)
    typed = beads + at(Rung.COVERED, 40.0)
    assert Climb.of(typed).rung is Rung.NUMBER
    assert Climb.of(typed + at(Rung.NUMBER, 40.0)).rung is Rung.NUMBER
    assert set(TIMED_BY) == {Rung.PALE, Rung.TRACES, Rung.NUMBER}
    assert all(below(rung) is other for rung, other in TIMED_BY.items())


@pytest.mark.parametrize(
    ("then", "now", "rung"),
    [({"terms": 2}, {"terms": 2}, Rung.PALE), ({"terms": 2}, {"terms": 6}, Rung.TRACES)],
)
def test_only_columns_of_as_many_numbers_are_compared(then, now, rung):
    history = tries("r" * 10, seconds=4.0, **then)
    assert Climb.of(history + tries("r" * 10, Rung.PALE, seconds=20.0, **now)).rung is rung


@pytest.mark.parametrize(("digits", "rung"), [(1, Rung.PALE), (3, Rung.TRACES)])
def test_where_the_rods_do_not_say_it_only_numbers_as_long_are_compared(digits, rung):
    more = {"family": Family.MULTIPLY, "rods": 13}
    history = tries("r" * 10, seconds=4.0, digits=1, **more)
    history += tries("r" * 10, Rung.PALE, seconds=20.0, digits=digits, **more)
    assert Climb.of(history).rung is rung


# After a fall


@pytest.mark.parametrize(
    ("falls", "right", "rung"),
    [
        (0, 9, Rung.ALONE),
        (0, 10, Rung.PALE),
        (1, 19, Rung.ALONE),
        (1, 20, Rung.PALE),
        (2, 39, Rung.ALONE),
        (2, 40, Rung.PALE),
        (3, 39, Rung.ALONE),
        (3, 40, Rung.PALE),
    ],
)
def test_each_fall_doubles_what_it_takes_to_come_back_up_to_four_times(falls, right, rung):
    history = fallen(falls)
    assert Climb.of(history + tries("r" * right)).rung is rung


def fallen(falls):
    """Who was sent down from `pale` so many times, and is at `alone`."""
    history = []
    for fall in range(falls):
        history += tries("r" * 10 * min(2**fall, 4)) + tries("m" * 2 * min(2**fall, 4), Rung.PALE)
    assert Climb.of(history).rung is Rung.ALONE
    return history


@pytest.mark.parametrize(
    ("falls", "pattern", "rung"),
    [
        (0, "mrm", Rung.ALONE),
        (1, "mrm", Rung.PALE),
        (1, "mmm", Rung.PALE),
        (1, "mrmrmm", Rung.ALONE),
        (1, "mmmm", Rung.ALONE),
        (2, "mmmmmmm", Rung.PALE),
        (2, "mmmmmmmm", Rung.ALONE),
        (1, "lllll", Rung.PALE),
        (1, "llllll", Rung.ALONE),
    ],
)
def test_whoever_has_come_back_is_sent_down_by_more(falls, pattern, rung):
    history = fallen(falls) + tries("r" * 10 * 2**falls)
    assert Climb.of(history + tries(pattern, Rung.PALE)).rung is rung


@given(TRIES, RULES)
def test_between_two_falls_from_a_rung_lies_what_it_takes_to_come_back(history, rules):
    falls = Climb.of(history, rules).falls
    for count in falls.values():
        back = sum(rules.up_after * min(2**fall, rules.again) for fall in range(1, count))
        assert back + count <= len(history)


# Tracks and rods


def test_tracks_are_apart_and_in_order():
    one, two = a_try(seconds=1), a_try(rods=2)
    three, four = a_try(seconds=3), a_try(family=Family.SUB_FIVE)
    found = Ladder.of([one, two, three, four]).climbs
    assert {track: climb.here for track, climb in found.items()} == {
        (Family.ADD_FIVE, 1): [one, three],
        (Family.ADD_FIVE, 2): [two],
        (Family.SUB_FIVE, 1): [four],
    }


@pytest.mark.parametrize("more", [{"own": True}, {"asked": Asked.CALLED}, {"asked": Asked.FLASHED}])
def test_what_tells_nothing_of_a_rung_is_on_no_track(more):
    assert Ladder.of([a_try(**more)]).climbs == {}


def mastered(rods, last="r" * 10, seconds=4.0):
    return climbing(40, rods=rods) + tries(last, Rung.NUMBER, rods=rods, seconds=seconds)


@each_row(
    ("by_rods", "family", "rods"),
    [
        ({}, Family.ADD_FIVE, 1),
        ({}, Family.COLUMNS, 3),
        ({1: climbing(39)}, Family.ADD_FIVE, 1),
        ({1: climbing(40)}, Family.ADD_FIVE, 1),
        ({3: climbing(40, rods=3)}, Family.COLUMNS, 3),
        ({1: mastered(1, "mrrrrrrrr")}, Family.ADD_FIVE, 1),
        ({1: mastered(1)}, Family.ADD_FIVE, 2),
        ({1: mastered(1, seconds=60.0)}, Family.ADD_FIVE, 2),
        ({2: mastered(2)}, Family.ADD_FIVE, 1),
        ({2: mastered(2)}, Family.ADD_TEN, 3),
        ({1: mastered(1), 2: mastered(2)}, Family.ADD_FIVE, 3),
        ({rods: mastered(rods, seconds=60.0) for rods in (1, 2, 3)}, Family.ADD_FIVE, 3),
        ({rods: mastered(rods) for rods in (1, 2, 3)}, Family.ADD_FIVE, 4),
        ({1: mastered(1, "r" * 10 + "mm")}, Family.ADD_FIVE, 1),
        ({rods: mastered(rods) for rods in range(1, 20)}, Family.ADD_FIVE, 14),
        ({rods: mastered(rods) for rods in range(1, 20)}, Family.ADD_TEN, 15),
        ({13: mastered(13)}, Family.MULTIPLY, 13),
    ],
)
def test_rods_come_one_by_one_and_a_fourth_only_when_three_are_quick(by_rods, family, rods):
    history = [one._replace(family=family) for some in by_rods.values() for one in some]
    assert Ladder.of(history).rods(family) == rods
