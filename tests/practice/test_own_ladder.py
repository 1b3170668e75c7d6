"""The ladder of one's own frame: its levels, and when a learner goes up or down."""

from itertools import groupby, pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.choices import CALL_PACES, FLASH_SECONDS
from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.families import Family
from frame.practice.flashing import COUNT, DIGITS, INTERVAL
from frame.practice.ladder import LadderRules, Try
from frame.practice.own_ladder import OwnClimb, levels_of
from frame.practice.rungs import Asked, Rung

EVERY = pytest.mark.parametrize("asked", Asked)
CALLED = levels_of(Asked.CALLED)


def tries(pattern, level, asked=Asked.CALLED, family=Family.COLUMNS, own=True):
    """A try at a level for each letter: r right, m missed."""
    return [
        Try(
            family, 3, Rung.NUMBER, letter == "r", 0, 9.0, frozenset({"ripple-add"}),
            asked, own, level.digits, level.rows, level.pace,
        )
        for letter in pattern
    ]  # fmt: skip


def stands(history, asked=Asked.CALLED, **more):
    return OwnClimb.of(history, asked, **more).level.number


# The levels


@EVERY
def test_levels_are_counted_from_1_and_go_from_few_digits_to_many(asked):
    levels = levels_of(asked)
    assert [level.number for level in levels] == list(range(1, len(levels) + 1))
    longest = DIGITS[1] if asked is Asked.FLASHED else MOST_DIGITS
    lengths = [digits for digits, _ in groupby(levels, key=lambda level: level.digits)]
    assert lengths == list(range(1, longest + 1))
    assert (levels[-1].digits, levels[-1].rows) == (longest, MOST_ROWS)
    assert len({level[1:] for level in levels}) == len(levels)


@EVERY
def test_with_as_many_digits_each_level_asks_for_more_or_is_quicker_and_for_nothing_less(asked):
    for easier, harder in pairwise(levels_of(asked)):
        if easier.digits == harder.digits:
            assert harder.rows >= easier.rows and harder.pace <= easier.pace
            assert harder[2:] != easier[2:]


@EVERY
def test_where_a_digit_joins_there_are_fewer_rows_again_and_no_less_time(asked):
    for easier, harder in pairwise(levels_of(asked)):
        if easier.digits < harder.digits:
            assert harder.rows < easier.rows and harder.pace >= easier.pace


def test_the_paces_are_such_as_can_be_chosen():
    assert {level.pace for level in CALLED} <= set(CALL_PACES)
    flashed = levels_of(Asked.FLASHED)
    assert {level.pace for level in flashed} <= set(FLASH_SECONDS)
    assert all(INTERVAL[0] <= level.pace <= INTERVAL[1] for level in flashed)
    assert all(COUNT[0] <= level.rows <= COUNT[1] for level in flashed)
    assert {level.pace for level in levels_of(Asked.SHOWN)} == {0.0}


@pytest.mark.parametrize(
    ("family", "digits", "rows"),
    [(Family.ADD_DIRECT, 1, 3), (Family.ADD_FIVE, 1, 15), (Family.SUB_TEN, 2, 15)],
)
def test_a_family_has_the_levels_that_its_numbers_can_have(family, digits, rows):
    levels = levels_of(Asked.SHOWN, family)
    assert [level.number for level in levels] == list(range(1, len(levels) + 1))
    assert min(level.digits for level in levels) == digits
    assert max(level.rows for level in levels) == rows


# Up and down, a letter for each set's exercise at the level


@pytest.mark.parametrize(
    ("pattern", "level"),
    [
        ("", 5),
        ("r" * 9, 5),
        ("r" * 10, 6),
        ("m" + "r" * 9, 6),
        ("mrrrrm" + "r" * 4, 5),
        ("mrm", 4),
        ("rrmm", 4),
        ("mrrm", 5),
    ],
)
def test_up_and_down_by_the_usual_rules(pattern, level):
    assert stands(tries("r" * 10, CALLED[3]) + tries(pattern, CALLED[4])) == level


def test_the_tutors_rules_hold_here_too():
    strict = LadderRules(up_after=15, misses=None)
    assert stands(tries("r" * 14, CALLED[0]), rules=strict) == 1
    assert stands(tries("r" * 15, CALLED[0]), rules=strict) == 2
    assert stands(tries("r" * 15, CALLED[0]) + tries("m" * 50, CALLED[1]), rules=strict) == 2


def test_after_a_fall_it_takes_twice_as_much_to_come_back_and_to_fall_again():
    fallen = tries("r" * 10, CALLED[0]) + tries("mm", CALLED[1])
    assert stands(fallen) == 1
    assert stands(fallen + tries("r" * 19, CALLED[0])) == 1
    back = fallen + tries("r" * 20, CALLED[0])
    assert stands(back) == 2
    assert stands(back + tries("mmm", CALLED[1])) == 2
    assert stands(back + tries("mmmm", CALLED[1])) == 1


def test_after_a_fall_the_count_starts_anew_at_the_level_above_too():
    fallen = tries("r" * 10, CALLED[0]) + tries("mm", CALLED[1])
    assert stands(fallen + tries("r" * 9, CALLED[1])) == 1
    assert stands(fallen + tries("r" * 10, CALLED[1])) == 3


def test_at_the_first_level_nobody_is_sent_down_and_at_the_last_nobody_goes_up():
    assert stands(tries("m" * 50, CALLED[0])) == 1
    assert stands(tries("r" * 50, CALLED[-1])) == len(CALLED)
    assert stands(tries("r" * 50, CALLED[-1]) + tries("mm", CALLED[-1])) == len(CALLED) - 1


@EVERY
def test_whoever_passes_a_higher_level_by_choice_goes_on_from_there(asked):
    higher = levels_of(asked)[7]
    assert stands(tries("r" * 9, higher, asked), asked) == 1
    assert stands(tries("r" * 10, higher, asked), asked) == 9
    assert stands(tries("m" * 10, higher, asked), asked) == 1


@EVERY
def test_lower_levels_other_sizes_and_other_frames_move_nobody(asked):
    levels = levels_of(asked)
    history = tries("r" * 10, levels[2], asked)
    assert stands(history, asked) == 4
    other_size = levels[3]._replace(rows=4)
    for more in (
        tries("m" * 20, levels[0], asked),
        tries("r" * 20, levels[1], asked),
        tries("m" * 20, other_size, asked),
        tries("m" * 20, levels[3], asked, own=False),
        *(tries("m" * 20, levels[3], other) for other in Asked if other is not asked),
    ):
        assert stands(history + more, asked) == 4


def test_shown_columns_count_apart_for_each_family():
    levels = levels_of(Asked.SHOWN, Family.ADD_FIVE)
    history = tries("r" * 10, levels[0], Asked.SHOWN, Family.ADD_FIVE)
    assert stands(history, Asked.SHOWN, family=Family.ADD_FIVE) == 2
    assert stands(history, Asked.SHOWN, family=Family.ADD_TEN) == 1


LEVELS_TRIED = st.lists(st.tuples(st.sampled_from(range(6)), st.booleans()), max_size=80)


@given(LEVELS_TRIED)
def test_nobody_comes_further_than_one_beyond_what_they_tried(some):
    history = [one for at, is_right in some for one in tries("mr"[is_right], CALLED[at])]
    highest = max((at for at, _ in some), default=0)
    assert stands(history, rules=LadderRules(up_after=2)) <= highest + 2


# Simulated learners


def climb(share, seed, sets=200):
    """Where somebody stands after each set of five who is right with this probability."""
    random, history, stood = Random(seed), [], []
    for _ in range(sets):
        level = OwnClimb.of(history, Asked.CALLED).level
        stood.append(level.number)
        history += tries(["mr"[random.random() < share] for _ in range(5)], level)
    return stood


SEEDS = [1, *(pytest.param(seed, marks=pytest.mark.proof) for seed in range(2, 8))]


@pytest.mark.parametrize("seed", SEEDS)
def test_who_is_always_right_is_at_each_level_for_two_sets(seed):
    assert climb(1.0, seed)[: 2 * len(CALLED)] == [
        n for n in range(1, len(CALLED) + 1) for _ in (1, 2)
    ]


@pytest.mark.parametrize("share", [0.9, 0.8, 0.5])
@pytest.mark.parametrize("seed", SEEDS)
def test_nobody_swings_between_two_levels_for_ever(seed, share):
    falls = [pair for pair in pairwise(climb(share, seed)) if pair[1] < pair[0]]
    assert all(falls.count(pair) <= 3 for pair in falls)


@pytest.mark.parametrize("seed", SEEDS)
def test_who_is_right_nine_times_in_ten_climbs(seed):
    assert climb(0.9, seed)[-1] > len(CALLED) / 3
