"""Which facts are sure, and on which rods nothing else is worked."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.fading import facts_by_rod, rods_to_fade
from frame.practice.families import Family
from frame.practice.ladder import LadderRules, Try
from frame.practice.rungs import Rung
from frame.practice.standing import Ladder
from frame.technique.conventions import USUAL
from frame.technique.expression import Sum, parse_sum


def a_try(letter, facts="add-five-3", rung=Rung.ALONE):
    known = frozenset(facts.split())
    return Try(Family.ADD_FIVE, 1, rung, letter != "m", int(letter == "l"), 4.0, known)


@pytest.mark.parametrize(
    ("pattern", "sure"),
    [("", False), ("rrrr", False), ("rrrrr", True), ("mrrrrr", True), ("rrrrrm", False),
     ("rrrrrmrrrr", False), ("rrlrr", False), ("rrrrrlrrrrr", True)],
)  # fmt: skip
def test_a_fact_is_sure_after_five_right_unaided_in_a_row(pattern, sure):
    assert ("add-five-3" in Ladder.of(map(a_try, pattern)).sure) is sure


def test_how_many_it_takes_is_a_rule():
    assert Ladder.of(map(a_try, "rr"), LadderRules(sure_after=2)).sure == {"add-five-3"}


def test_each_fact_has_a_row_of_its_own():
    tries = [a_try("r", "add-five-3 add-direct-1")] * 4 + [a_try("m", "add-direct-1")]
    assert Ladder.of([*tries, a_try("r", "add-five-3")]).sure == {"add-five-3"}


@pytest.mark.parametrize("rung", [Rung.WATCH, Rung.FOLLOW, Rung.FINISH])
@pytest.mark.parametrize("letter", "rm")
def test_a_led_hand_proves_nothing(rung, letter):
    led = [a_try(letter, rung=rung)] * 9
    assert not Ladder.of(led).sure
    assert Ladder.of([*map(a_try, "rrrrr"), *led]).sure == {"add-five-3"}


def by_rods(exercise):
    """What each rod takes, by the usual plan."""
    return facts_by_rod(exercise, plan_for(exercise, USUAL))


def exercise(text, kind=Kind.SUM, rods=3, rung=Rung.ALONE):
    return Exercise(kind, parse_sum(text), rung, rods)


@pytest.mark.parametrize(
    ("text", "by_rod"),
    [
        ("4 + 3", {0: "set-digit-4 add-five-3"}),
        ("40 + 30", {1: "set-digit-4 set-tens add-five-3"}),
        ("14 + 3", {1: "set-digit-1 set-tens", 0: "set-digit-4 add-five-3"}),
        ("9 + 9", {0: "set-digit-9 add-ten-9 add-direct-1", 1: "add-ten-9 add-direct-1"}),
        ("12 - 4", {1: "set-digit-1 set-tens sub-ten-4 sub-direct-1",
                    0: "set-digit-2 sub-ten-4 sub-direct-1"}),
        ("99 + 1", {2: "ripple-add add-ten-1 add-direct-1",
                    1: "set-digit-9 set-tens ripple-add add-ten-1 add-direct-1",
                    0: "set-digit-9 ripple-add add-ten-1 add-direct-1"}),
    ],
)  # fmt: skip
def test_what_is_worked_on_each_rod(text, by_rod):
    wanted = {rod: frozenset(facts.split()) for rod, facts in by_rod.items()}
    assert by_rods(exercise(text)) == wanted


def test_a_number_that_stands_there_is_not_set():
    led = exercise("14 + 3", rung=Rung.FOLLOW)
    assert by_rods(led) == {0: frozenset({"add-five-3"})}


@pytest.mark.parametrize(
    ("kind", "by_rod"),
    [(Kind.READ, {}), (Kind.CLEAR, {0: "clear", 2: "clear"}),
     (Kind.SET, {0: "set-digit-5", 2: "set-digit-7 set-hundreds"})],
)  # fmt: skip
def test_numbers_are_set_and_cleared_rod_by_rod_and_read_without_a_move(kind, by_rod):
    wanted = {rod: frozenset(facts.split()) for rod, facts in by_rod.items()}
    assert by_rods(exercise("705", kind)) == wanted


TERMS = st.lists(st.integers(-999, 999).filter(bool), min_size=1, max_size=4).filter(
    lambda terms: all(0 <= sum(terms[: end + 1]) < 9999 for end in range(len(terms)))
)


@given(TERMS)
def test_no_rod_asks_for_more_than_the_exercise(terms):
    column = Exercise(Kind.SUM, Sum(tuple(map(Decimal, terms))), rods=5)
    by_rod = by_rods(column)
    assert frozenset().union(*by_rod.values()) <= column.facts


@given(TERMS, st.data())
def test_a_rod_fades_only_when_all_on_it_is_sure(terms, data):
    column = Exercise(Kind.SUM, Sum(tuple(map(Decimal, terms))), rods=5)
    by_rod = by_rods(column)
    sure = data.draw(st.frozensets(st.sampled_from(sorted(column.facts))))
    faded = rods_to_fade(by_rod, sure)
    assert all((by_rod[rod] <= sure) is (rod in faded) for rod in by_rod)
    assert rods_to_fade(by_rod, column.facts) == set(by_rod)
    assert rods_to_fade(by_rod, frozenset()) == set()


def test_a_rod_on_which_nothing_is_known_to_happen_stays():
    assert rods_to_fade({0: frozenset()}, frozenset({"clear"})) == set()
