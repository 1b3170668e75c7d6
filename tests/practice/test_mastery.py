"""Mastery: states by the table of rules, and a fold that may be cut anywhere."""

import json
from dataclasses import replace

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.evidence import Evidence
from frame.practice.mastery import MIDDLE, OLDER, YOUNG, Mastery, State
from frame.practice.schedule import DAY

ITEM = "4+3"


def stream(text, item=ITEM, decision=2.0):
    """Evidence by letters: r right, m missed, l led; `|` begins another sitting a day later, and a
    number lets so many days more go by."""
    found, day, sitting, minute = [], 0.0, 0, 0
    for letter in text.split(" "):
        if letter.isdecimal():
            day, sitting = day + int(letter), sitting + 1
        elif letter == "|":
            day, sitting = day + 1, sitting + 1
        else:
            minute += 1
            at = 1000 * DAY + day * DAY + 60 * minute
            right = letter != "m"
            known = decision if letter == "r" else None
            found.append(Evidence(item, at, str(sitting), right, letter == "l", known))
    return found


def state(text, rules=MIDDLE, **more):
    return Mastery.of(stream(text, **more), rules).standing(ITEM).state


@each_row(
    ("text", "expected"),
    [
        ("l", State.GUIDED),
        ("l l l l", State.GUIDED),
        ("r r r r r r", State.GUIDED),  # One sitting alone.
        ("r r | r", State.ACCURATE),
        ("r | r", State.GUIDED),  # Two in a row.
        ("r m | r r", State.GUIDED),
        ("r m | r r | r", State.ACCURATE),
        ("r r | r m", State.ACCURATE),  # One miss of the last five.
        ("r r | r m r m", State.GUIDED),
        ("r r | r r r", State.FLUENT),
        ("r r | r r r l", State.FLUENT),  # To be led takes nothing away.
        ("r r | r r r 7 r", State.KEPT),
        ("r r | r r r 6 r", State.FLUENT),
        ("r r | r r r 7 l r", State.FLUENT),  # Used just before.
        ("r r | r r r 7 r m", State.FLUENT),
        ("r r | r r r 7 r m m", State.GUIDED),
        ("r r | r 9 r", State.ACCURATE),  # Nobody knows yet whether it is fluent.
    ],
)
def test_states_are_entered_and_left_as_the_rules_say(text, expected):
    # The states as MasteryRules tells them: a teacher's judgement, no source.
    assert state(text) is expected


def test_fluent_is_a_matter_of_time_but_for_the_young():
    five = "r r | r r r"
    assert state(five, decision=4.5) is State.FLUENT
    assert state(five, OLDER, decision=4.5) is State.ACCURATE
    assert state(five, YOUNG, decision=60.0) is State.FLUENT
    assert state("r r | r r m r r", YOUNG) is State.ACCURATE
    assert state(five, decision=None) is State.ACCURATE


def test_what_grows_slow_is_fluent_no_longer():
    quick, slow = stream("r r | r r r"), stream("2 r r r", decision=8.0)
    mastery = Mastery.of(quick + slow[:2])
    assert mastery.standing(ITEM).state is State.FLUENT
    mastery.add(slow[2])
    assert mastery.standing(ITEM).state is State.ACCURATE


def test_an_item_is_asked_alone_after_two_rights_with_the_bead_lit():
    one, two = Mastery.of(stream("l")), Mastery.of(stream("l l"))
    assert not one.standing(ITEM).is_ready(MIDDLE)
    assert two.standing(ITEM).is_ready(MIDDLE)


def test_only_the_first_try_of_a_day_counts_for_the_schedule():
    once, often = Mastery.of(stream("r")), Mastery.of(stream("r r r m"))
    assert once.standing(ITEM).trace == often.standing(ITEM).trace
    assert Mastery.of(stream("m r r")).standing(ITEM).trace == once.standing(ITEM).trace


def test_a_week_after_a_miss_the_chance_is_less_than_the_day_after():
    mastery = Mastery.of(stream("r | r | m"))
    now = mastery.standing(ITEM).at
    sure = Mastery.of(stream("r | r | r"))
    assert mastery.chance(ITEM, now + 7 * DAY) < mastery.chance(ITEM, now + DAY)
    assert mastery.chance(ITEM, now + DAY) < sure.chance(ITEM, now + DAY)
    assert mastery.chance("1+1", now) is None


EVIDENCE = st.lists(
    st.builds(
        Evidence,
        item=st.sampled_from(["4+3", "7-2", "6x7", "read-tens"]),
        at=st.floats(0, 100 * DAY),
        sitting=st.sampled_from("abcd"),
        right=st.sampled_from([True, True, False]),
        guided=st.sampled_from([True, False, False]),
        decision=st.none() | st.floats(0.1, 20),
    ),
    max_size=60,
).map(lambda some: sorted(some, key=lambda one: one.at))
RULES = st.sampled_from([YOUNG, MIDDLE, OLDER, replace(MIDDLE, in_a_row=4, misses=1)])


@given(EVIDENCE, st.integers(0, 60), RULES)
def test_the_fold_may_be_cut_anywhere_and_kept_in_between(evidence, cut, rules):
    whole = Mastery.of(evidence, rules)
    kept = json.loads(json.dumps(Mastery.of(evidence[:cut], rules).to_plain()))
    going_on = Mastery.from_plain(kept, rules)
    assert going_on is not None
    for one in evidence[cut:]:
        going_on.add(one)
    assert going_on == whole


def test_what_was_folded_by_other_rules_is_not_taken():
    plain = Mastery.of(stream("r r | r"), MIDDLE).to_plain()
    assert Mastery.from_plain(plain, MIDDLE) is not None
    assert Mastery.from_plain(plain, OLDER) is None


@pytest.mark.parametrize("damage", [None, [], {}, "x", 7, {"version": 1}])
def test_what_cannot_be_read_is_not_taken(damage):
    assert Mastery.from_plain(damage, MIDDLE) is None


@pytest.mark.parametrize("name", ["state", "marks", "trace", "learnt"])
def test_a_damaged_standing_is_not_taken(name):
    plain = Mastery.of(stream("r r | r")).to_plain()
    del plain["standings"][ITEM][name]
    assert Mastery.from_plain(plain, MIDDLE) is None
