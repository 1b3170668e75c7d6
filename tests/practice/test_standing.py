"""What is folded from all that was tried is the same at once and bit by bit, and can be kept."""

import json
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.learner.settings import Down, Settings
from frame.practice.climb import MEMORY
from frame.practice.families import Family
from frame.practice.ladder import USUAL_RULES, LadderRules, Try
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder

FACTS = {
    Family.ADD_FIVE: ["add-five-3", "add-five-4"],
    Family.COLUMNS: ["ripple-add", "ripple-sub"],
}
SIZES = [level[1:] for level in levels_of(Asked.CALLED)[:4]]


def a_try(random):
    family = random.choice(sorted(FACTS))
    digits, terms, pace = random.choice(SIZES)
    return Try(
        family, random.choice([3, 4]), random.choice(list(Rung)), random.random() < 0.7,
        random.randrange(2), random.choice([2.5, 4.0, 9.125]),
        frozenset(random.sample(FACTS[family], random.randrange(3))),
        random.choice(list(Asked)), random.random() < 0.5, digits, terms, pace,
    )  # fmt: skip


def tries(seed, count):
    random = Random(seed)
    return [a_try(random) for _ in range(count)]


HISTORIES = st.builds(tries, st.integers(), st.integers(1, 120))
RULES = st.builds(
    LadderRules, up_after=st.sampled_from([1, 2, 10]), share=st.sampled_from([0.5, 0.85]),
    misses=st.sampled_from([None, USUAL_RULES.misses]),
)  # fmt: skip


@given(HISTORIES, RULES, st.data())
def test_a_fold_that_was_kept_goes_on_as_if_it_had_never_ended(history, rules, data):
    at = data.draw(st.integers(0, len(history)))
    kept = json.loads(json.dumps(Ladder.of(history[:at], rules).to_plain()))
    ladder = Ladder.from_plain(kept, rules)
    for one in history[at:]:
        ladder.add(one)
    assert ladder == Ladder.of(history, rules)


@given(HISTORIES, RULES, RULES)
def test_by_other_rules_it_is_made_anew(history, rules, others):
    kept = json.loads(json.dumps(Ladder.of(history, rules).to_plain()))
    assert (Ladder.from_plain(kept, others) is None) is (rules != others)


@pytest.mark.parametrize("kept", [None, 7, [], {}, {"version": 1}, {"version": 99, "rules": {}}])
def test_what_cannot_be_read_is_made_anew(kept):
    assert Ladder.from_plain(kept, USUAL_RULES) is None


DAMAGED = [None, 5, "x", [[]], [["add-five"]], [[1, 2, 3, 4, 5, 6, 7]]]


@given(HISTORIES, st.data())
def test_a_kept_fold_that_is_damaged_is_made_anew_or_read_and_never_breaks(history, data):
    kept = json.loads(json.dumps(Ladder.of(history).to_plain()))
    name = data.draw(st.sampled_from(["climbs", "own", "in_a_row"]))
    kept[name] = data.draw(
        st.sampled_from([None, 5, "x", [[]], [["add-five"]], [[1, 2, 3, 4, 5, 6, 7]]])
    )
    assert Ladder.from_plain(kept, USUAL_RULES) is None


@pytest.mark.parametrize("up_after", [6, 10, 15])
@pytest.mark.parametrize("down", Down)
def test_memory_holds_as_many_as_any_rules_that_can_be_set_ask_for(up_after, down):
    rules = Settings(ladder_up_after=up_after, ladder_down=down).ladder_rules
    asked = [rules.up_after * rules.again]
    asked += [among.last * rules.again for among in (rules.misses, rules.looks) if among]
    assert max(asked) <= MEMORY


def test_it_takes_no_more_room_however_much_was_tried():
    ladder = Ladder.of(tries(1, 10_000))
    for climb in ladder.climbs.values():
        assert all(len(some) <= MEMORY for some in climb.by_rung.values())
        assert climb.here == climb.by_rung.get(climb.rung, [])[-climb.since :] or not climb.since
    assert all(len(right) <= MEMORY for own in ladder.own.values() for right in own.right.values())
