"""What is folded from a record, kept beside it, is always that of the record."""

import sqlite3
from contextlib import closing
from datetime import timedelta
from random import Random

import pytest
from kept import NOW, added, begun, timed

from frame.course.attempts import Attempt
from frame.learner.folding import WHAT, Fold, fold_beside
from frame.learner.rows import Place, try_of_attempt
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.ladder import USUAL_RULES, LadderRules
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.technique.expression import parse_sum

STRICT = LadderRules(up_after=15)


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as opened:
        yield opened


@pytest.fixture
def otter(store):
    return added(store, "Otter")


def some_attempts(random, count):
    for _ in range(count):
        asked = random.choice(list(Asked))
        exercise = Exercise(
            Kind.SUM, parse_sum(random.choice(["4 + 3", "38 + 47", "12 + 34 + 56"])),
            random.choice(list(Rung)), 3, asked=asked, pace=1.5, own=random.random() < 0.2,
        )  # fmt: skip
        is_right = random.random() < 0.8
        yield Attempt("practise", exercise, is_right, is_right, 0, (), ended=random.random() < 0.9)


def practise(store, learner, count, seed=1, now=NOW):
    """Attempts recorded, a second each; them with their places."""
    sitting, places = begun(store, learner, now), []
    random = Random(seed)
    for index, attempt in enumerate(some_attempts(random, count)):
        at = now + timedelta(seconds=index)
        (record,) = timed((attempt, random.randint(1, 9)))
        store.record(sitting, [record], learner, "practise", None, at)
        places.append((record.attempt, Place(at.isoformat(), sitting, record.number)))
    return places


def of_record(store, learner, rules=USUAL_RULES):
    return Ladder.of(store.tries(learner), rules)


def keep(store, learner, fold):
    store.keep_folded(learner, WHAT, fold.to_text())


def test_an_attempt_made_just_now_counts_as_the_one_that_is_read(store, otter):
    made = [one for one, _ in practise(store, otter, 40) if one.ended]
    assert tuple(map(try_of_attempt, made)) == store.tries(otter)


def test_the_fold_of_a_record_is_that_of_all_its_attempts(store, otter):
    practise(store, otter, 60)
    fold = Fold.of(store, otter, USUAL_RULES)
    assert fold.ladder == of_record(store, otter)
    assert fold.attempts == 60


def test_what_was_kept_is_gone_on_with_and_read_no_more_than_once(store, otter):
    practise(store, otter, 40)
    keep(store, otter, Fold.of(store, otter, USUAL_RULES))
    practise(store, otter, 20, seed=2, now=NOW + timedelta(days=1))
    again = Fold.of(store, otter, USUAL_RULES)
    assert again.ladder == of_record(store, otter)
    assert not again.is_kept
    # What is kept is believed, or it would be of no use: the first attempt could say otherwise.
    with closing(sqlite3.connect(store.path)) as rows, rows:
        rows.execute("UPDATE attempt SET rung = 'watch' WHERE rowid <= 40")
    assert Fold.of(store, otter, USUAL_RULES).ladder == again.ladder != of_record(store, otter)


def test_attempts_made_meanwhile_move_it_as_the_record_does(store, otter):
    fold = Fold.of(store, otter, USUAL_RULES)
    for attempt, place in practise(store, otter, 50):
        assert fold.add(attempt, place)
    assert fold == Fold.of(store, otter, USUAL_RULES)


@pytest.mark.parametrize("days", [-1, 0])
def test_an_attempt_before_the_last_is_not_taken_for_one_after_it(store, otter, days):
    """As of a clock that went back, or of one that was read already."""
    (*_, (attempt, place)) = practise(store, otter, 5)
    fold = Fold.of(store, otter, USUAL_RULES)
    before = place._replace(at=(NOW + timedelta(days=days, seconds=4)).isoformat())
    assert not fold.add(attempt, before)


def test_other_rules_fold_all_anew(store, otter):
    practise(store, otter, 60)
    keep(store, otter, Fold.of(store, otter, USUAL_RULES))
    assert Fold.of(store, otter, STRICT).ladder == of_record(store, otter, STRICT)


def test_attempts_that_come_between_fold_all_anew(store, otter):
    """As after another file was merged with this one."""
    practise(store, otter, 30, now=NOW + timedelta(days=9))
    keep(store, otter, Fold.of(store, otter, USUAL_RULES))
    practise(store, otter, 30, seed=3)
    fold = Fold.of(store, otter, USUAL_RULES)
    assert fold.ladder == of_record(store, otter)
    assert fold.attempts == 60


@pytest.mark.parametrize("damaged", ["", "{", "[]", "7", '{"ladder": 5}', '{"ladder": {}}'])
def test_a_damaged_one_is_made_anew(store, otter, damaged):
    practise(store, otter, 20)
    store.keep_folded(otter, WHAT, damaged)
    assert Fold.of(store, otter, USUAL_RULES).ladder == of_record(store, otter)


def test_it_is_folded_beside_the_window_on_a_connection_of_its_own(store, otter):
    practise(store, otter, 20)
    before = sorted(store.path.parent.iterdir())
    assert fold_beside(store, otter, USUAL_RULES) == Fold.of(store, otter, USUAL_RULES)
    assert sorted(store.path.parent.iterdir()) == before


def test_a_child_with_two_ids_has_one_fold(store, otter):
    other = added(store, "Otter")
    practise(store, otter, 20)
    practise(store, other, 20, seed=2, now=NOW + timedelta(hours=1))
    apart = Fold.of(store, otter, USUAL_RULES)
    store.join(otter, other, NOW)
    assert Fold.of(store, otter, USUAL_RULES).attempts == 40
    store.join(otter, other, NOW + timedelta(days=1), apart=True)
    assert Fold.of(store, otter, USUAL_RULES) == apart
