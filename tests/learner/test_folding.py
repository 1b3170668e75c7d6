"""What is folded from a record, kept beside it, is always that of the record."""

import sqlite3
from collections import Counter
from contextlib import closing
from datetime import datetime, timedelta
from decimal import Decimal
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kept import NOW, added, begun

from frame.course.attempts import Attempt, Origin
from frame.learner.folding import WHAT, Fold, FoldRules, fold_beside
from frame.learner.learners import new_id
from frame.learner.rows import Place, Record, told_of_attempt, try_of_attempt
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.figures import figure_of
from frame.practice.growth import Growth
from frame.practice.items import CELLS, PRODUCTS
from frame.practice.ladder import LadderRules
from frame.practice.mastery import YOUNG, Mastery
from frame.practice.observed import evidence_of
from frame.practice.outcomes import Outcome
from frame.practice.pace import pace_at
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.practice.work import Work
from frame.technique.beads import parse_stroke
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_sum

RULES = FoldRules()
WRONG = parse_stroke("2:+1")
STRICT = FoldRules(LadderRules(up_after=15))
OTHERS = [STRICT, FoldRules(mastery=YOUNG)]


def some_attempts(random, count):
    for _ in range(count):
        asked = random.choice(list(Asked))
        exercise = Exercise(
            Kind.SUM, parse_sum(random.choice(["4 + 3", "38 + 47", "12 + 34 + 56"])),
            random.choice(list(Rung)), 3, asked=asked, pace=1.5, own=random.random() < 0.2,
        )  # fmt: skip
        yield worked(exercise, random)


def worked(exercise, random):
    """An attempt at an exercise: its strokes, some of them wrong, now and then left."""
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    work.to_play.clear()
    while not (work.finished or work.asks) and random.random() < 0.97:
        work.notes.ms += random.randint(300, 4000)
        work.touch(WRONG if random.random() < 0.05 else work.next_stroke)
        if work.is_silent and not work.next_stroke:
            work.say_done()
    if work.asks:
        work.answer(exercise.sum.result if random.random() < 0.8 else Decimal(1))
    return Attempt(
        "practise", exercise, work.unaided, work.right, work.helps, tuple(work.slips),
        work.looks, work.outcome or Outcome.RIGHT, tuple(work.answers), work.log, work.finished,
    )  # fmt: skip


def practise(store, learner, count, seed=1, now=NOW):
    """Attempts recorded, a second each; them with their places."""
    sitting, places = begun(store, learner, now), []
    random = Random(seed)
    for index, attempt in enumerate(some_attempts(random, count)):
        at = now + timedelta(seconds=index)
        record = Record(new_id(), index, attempt, Origin.SET)
        store.record(sitting, [record], learner, "practise", None, at)
        places.append((attempt, Place(at.isoformat(), sitting, index)))
    return places


def of_record(store, learner, rules=RULES):
    """The ladder and the mastery by all attempts, each read and told for itself."""
    told, tappings = list(store.told_after(learner, Place("", "", 0))), store.tappings(learner)
    evidence = (
        each
        for one in told
        for each in evidence_of(one.of_items, pace_at(tappings, one.of_items.at))
    )
    return Ladder.of(store.tries(learner), rules.ladder), Mastery.of(evidence, rules.mastery)


def both(fold):
    return fold.ladder, fold.mastery


def grown_by_record(store, learner, rules=RULES):
    """What has grown, by a plain count over all attempts."""
    ladder, mastery = Ladder(rules.ladder), Mastery(rules.mastery)
    tappings, growth = store.tappings(learner), Growth()
    for one in store.told_after(learner, Place("", "", 0)):
        at = datetime.fromisoformat(one.place.at).timestamp()
        if one.of_ladder:
            ladder.add(one.of_ladder)
            growth.climb(one.of_ladder, ladder, at)
        for each in evidence_of(one.of_items, pace_at(tappings, at)):
            mastery.add(each)
            growth.learn(each.item, mastery, at)
    return growth


def counted(store, learner):
    """How often each cell and product was tried without help, and how often right, by the log."""
    tried, right = Counter(), Counter()
    for one in store.told_after(learner, Place("", "", 0)):
        for each in evidence_of(one.of_items):
            tried[each.item] += not each.guided
            right[each.item] += each.right and not each.guided
    return tried, right


def keep(store, learner, fold):
    store.keep_folded(learner, WHAT, fold.to_text())


def test_an_attempt_made_just_now_counts_as_the_one_that_is_read(store, otter):
    made = [one for one, _ in practise(store, otter, 40) if one.ended]
    assert tuple(map(try_of_attempt, made)) == store.tries(otter)


def test_the_fold_of_a_record_is_that_of_all_its_attempts(store, otter):
    practise(store, otter, 60)
    fold = Fold.of(store, otter, RULES)
    assert both(fold) == of_record(store, otter)
    assert fold.attempts == 60


@pytest.mark.parametrize("rules", [RULES, *OTHERS])
def test_what_has_grown_is_that_of_the_record(store, otter, rules):
    for week in range(4):
        practise(store, otter, 60, seed=week, now=NOW + timedelta(weeks=week))
    growth = Fold.of(store, otter, rules).growth
    assert growth == grown_by_record(store, otter, rules)
    assert growth.first_known and growth.steps and growth.of_family and growth.of_numbers


def test_the_counts_of_the_map_are_those_of_the_log(store, otter):
    practise(store, otter, 120)
    tried, right = counted(store, otter)
    mastery = Fold.of(store, otter, RULES).mastery
    figures = [figure_of(mastery, item) for item in (*map(str, CELLS), *map(str, PRODUCTS))]
    assert {one.item: (one.tries, one.right) for one in figures} == {
        one.item: (tried[one.item], right[one.item]) for one in figures
    }
    assert sum(one.tries for one in figures) > 100


def test_what_was_kept_is_gone_on_with_and_read_no_more_than_once(store, otter):
    practise(store, otter, 40)
    keep(store, otter, Fold.of(store, otter, RULES))
    practise(store, otter, 20, seed=2, now=NOW + timedelta(days=1))
    again = Fold.of(store, otter, RULES)
    assert both(again) == of_record(store, otter)
    assert not again.is_kept
    # What is kept is believed, or it would be of no use: the first attempt could say otherwise.
    with closing(sqlite3.connect(store.path)) as rows, rows:
        rows.execute("UPDATE attempt SET rung = 'watch' WHERE rowid <= 40")
    assert both(Fold.of(store, otter, RULES)) == both(again) != of_record(store, otter)


def test_attempts_made_meanwhile_move_it_as_the_record_does(store, otter):
    fold = Fold.of(store, otter, RULES)
    for attempt, place in practise(store, otter, 50):
        assert fold.add(told_of_attempt(attempt, Origin.SET, place))
    assert fold == Fold.of(store, otter, RULES)


@pytest.mark.parametrize("days", [-1, 0])
def test_an_attempt_before_the_last_is_not_taken_for_one_after_it(store, otter, days):
    """As of a clock that went back, or of one that was read already."""
    (*_, (attempt, place)) = practise(store, otter, 5)
    fold = Fold.of(store, otter, RULES)
    before = place._replace(at=(NOW + timedelta(days=days, seconds=4)).isoformat())
    assert not fold.add(told_of_attempt(attempt, Origin.SET, before))


@pytest.mark.parametrize("others", OTHERS)
def test_other_rules_fold_all_anew(store, otter, others):
    practise(store, otter, 60)
    keep(store, otter, Fold.of(store, otter, RULES))
    anew = Fold.of(store, otter, others)
    assert both(anew) == of_record(store, otter, others)
    assert both(anew) != of_record(store, otter)


def test_attempts_that_come_between_fold_all_anew(store, otter):
    """As after another file was merged with this one."""
    practise(store, otter, 30, now=NOW + timedelta(days=9))
    keep(store, otter, Fold.of(store, otter, RULES))
    practise(store, otter, 30, seed=3)
    fold = Fold.of(store, otter, RULES)
    assert both(fold) == of_record(store, otter)
    assert fold.attempts == 60


def tap(store, learner, pace, now):
    """Tapping gave a pace, or was left."""
    store.keep_tapping(new_id(), begun(store, learner, now), pace, now)


def test_each_attempt_is_told_by_the_pace_that_held_at_its_time(store, otter):
    practise(store, otter, 60)
    usual = Fold.of(store, otter, RULES)
    tap(store, otter, 2.5, NOW + timedelta(seconds=30))
    fold = Fold.of(store, otter, RULES)
    assert both(fold) == of_record(store, otter) != both(usual)


@pytest.mark.parametrize(
    ("second", "tells"), [(-1, True), (20, True), (39, True), (39.5, False), (90_000, False)]
)
def test_a_tapping_after_all_that_was_folded_is_gone_on_with_and_one_before_is_not(
    store, otter, second, tells
):
    """As one that came with another file."""
    practise(store, otter, 40)
    before = Fold.of(store, otter, RULES)
    keep(store, otter, before)
    tap(store, otter, 2.5, NOW + timedelta(seconds=second))
    fold = Fold.of(store, otter, RULES)
    assert both(fold) == of_record(store, otter)
    assert fold.is_kept is not tells
    practise(store, otter, 20, seed=2, now=NOW + timedelta(days=1, hours=2))
    assert both(Fold.of(store, otter, RULES)) == of_record(store, otter)


def test_attempts_made_after_a_tapping_move_it_as_the_record_does(store, otter):
    tap(store, otter, 2.5, NOW + timedelta(seconds=20))
    fold = Fold.of(store, otter, RULES)
    for attempt, place in practise(store, otter, 50):
        assert fold.add(told_of_attempt(attempt, Origin.SET, place))
    assert fold == Fold.of(store, otter, RULES)


PACES = st.lists(st.tuples(st.integers(-5, 65), st.sampled_from([None, 0.2, 0.9, 2.5])), max_size=4)


@given(paces=PACES, kept=st.lists(st.integers(0, 60), max_size=3), seed=st.integers(0, 9))
@settings(max_examples=25)
def test_paces_that_come_at_any_time_move_the_fold_as_they_do_the_record(paces, kept, seed):
    """Whether they come before, between or after attempts that were folded, and whatever of the
    fold was kept by then."""
    with closing(Store(None)) as store:
        otter = added(store, "Otter")
        sitting, fold = begun(store, otter), Fold.of(store, otter, RULES)
        come = sorted(paces, key=lambda one: one[0])
        for index, attempt in enumerate(some_attempts(Random(seed), 60)):
            while come and come[0][0] <= index:
                at, pace = come.pop(0)
                tap(store, otter, pace, NOW + timedelta(seconds=at + 0.5))
                fold = Fold.of(store, otter, RULES)
            at = NOW + timedelta(seconds=index)
            record = Record(new_id(), index, attempt, Origin.SET)
            store.record(sitting, [record], otter, "practise", None, at)
            assert fold.add(
                told_of_attempt(attempt, Origin.SET, Place(at.isoformat(), sitting, index))
            )
            if index in kept:
                keep(store, otter, fold)
        assert both(fold) == of_record(store, otter)
        assert both(Fold.of(store, otter, RULES)) == both(fold)


def test_what_was_only_offered_folds_nothing_anew(store, otter):
    practise(store, otter, 40)
    keep(store, otter, Fold.of(store, otter, RULES))
    tap(store, otter, None, NOW + timedelta(seconds=20))
    assert Fold.of(store, otter, RULES).is_kept


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("number", "many"),
        ("number", b"\x00"),
        ("at", b"\xff"),
        ("at", "soon"),
        ("at", "2026-05-04"),
    ],
)
def test_an_attempt_at_a_place_that_nobody_wrote_tells_nothing(store, otter, column, value):
    practise(store, otter, 20)
    with closing(sqlite3.connect(store.path)) as rows, rows:
        rows.execute(f"UPDATE attempt SET {column} = ? WHERE rowid IN (1, 7, 20)", (value,))
    fold = Fold.of(store, otter, RULES)
    assert fold.attempts == 17
    keep(store, otter, fold)
    assert Fold.of(store, otter, RULES) == fold


@pytest.mark.parametrize("damaged", ["", "{", "[]", "7", '{"ladder": 5}', '{"ladder": {}}'])
def test_a_damaged_one_is_made_anew(store, otter, damaged):
    practise(store, otter, 20)
    store.keep_folded(otter, WHAT, damaged)
    assert both(Fold.of(store, otter, RULES)) == of_record(store, otter)


def test_it_is_folded_beside_the_window_on_a_connection_of_its_own(store, otter):
    practise(store, otter, 20)
    before = sorted(store.path.parent.iterdir())
    assert fold_beside(store, otter, RULES) == Fold.of(store, otter, RULES)
    assert sorted(store.path.parent.iterdir()) == before


def test_a_child_with_two_ids_has_one_fold(store, otter):
    other = added(store, "Otter")
    practise(store, otter, 20)
    practise(store, other, 20, seed=2, now=NOW + timedelta(hours=1))
    apart = Fold.of(store, otter, RULES)
    store.join(otter, other, NOW)
    assert Fold.of(store, otter, RULES).attempts == 40
    store.join(otter, other, NOW + timedelta(days=1), apart=True)
    assert Fold.of(store, otter, RULES) == apart
