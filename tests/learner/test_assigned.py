"""What is given to do stands until it is done or taken back, on every computer."""

import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest
from kept import NOW, added

from frame.learner.assigned import Assigned, Work, set_text
from frame.learner.merging import merge
from frame.learner.store import Store

LESSON = Assigned("1", NOW, Work.LESSON, "five-add-1")
SHEET = Assigned("2", NOW + timedelta(seconds=1), Work.SHEET, "1000")


def after(seconds):
    return NOW + timedelta(seconds=seconds)


def states(store, learner):
    return [(one.id, one.done) for one in store.assigned(learner)]


def test_what_is_given_is_done_once_and_stays_done(store, otter):
    seal = added(store, "Seal")
    for one in (SHEET, LESSON, LESSON):
        store.assign([(otter, one)])
    assert store.assigned(otter) == (LESSON, SHEET) and store.assigned(seal) == ()
    store.tick_off(otter, Work.LESSON, "five-add-2", after(2))
    store.tick_off(seal, Work.LESSON, "five-add-1", after(2))
    assert states(store, otter) == [("1", None), ("2", None)]
    store.tick_off(otter, Work.LESSON, "five-add-1", after(3))
    store.tick_off(otter, Work.LESSON, "five-add-1", after(4))
    assert states(store, otter) == [("1", after(3)), ("2", None)]


def test_what_is_taken_back_is_gone(store, otter):
    store.assign([(otter, LESSON)])
    store.take_back([LESSON], after(1))
    store.assign([(otter, LESSON)])
    assert store.assigned(otter) == ()


def test_a_child_with_several_ids_has_what_any_of_them_was_given(store, otter):
    again = added(store, "Otter 2")
    store.assign([(otter, LESSON)])
    store.assign([(again, SHEET)])
    store.join(otter, again, NOW)
    store.tick_off(again, Work.LESSON, "five-add-1", after(5))
    assert states(store, otter) == [("1", after(5)), ("2", None)]


@pytest.mark.parametrize("is_taken_back_first", [True, False])
def test_what_was_done_elsewhere_comes_back_done_and_the_first_time_holds(
    tmp_path, store, otter, is_taken_back_first
):
    """A child does at home what a tutor gives at school."""
    with closing(Store(tmp_path / "home" / "learners.sqlite")) as home:
        store.assign([(otter, LESSON)])
        store.assign([(otter, SHEET)])
        merge(home, store.path, NOW)
        home.tick_off(otter, Work.LESSON, "five-add-1", after(2))
        store.tick_off(otter, Work.LESSON, "five-add-1", after(7))
        store.take_back([SHEET], after(1 if is_taken_back_first else 9))
        home.tick_off(otter, Work.SHEET, "1000", after(5))
        merge(store, home.path, NOW)
        merge(home, store.path, NOW)
        assert states(store, otter) == states(home, otter) == [("1", after(2))]


def test_a_set_is_the_same_where_it_asks_the_same(store, otter):
    asked = {"asked": "called", "called": {"digits": 3, "pace": None}}
    store.assign([(otter, Assigned("3", NOW, Work.SET, set_text(asked)))])
    assert store.assigned(otter)[0].asked == asked
    turned = dict(reversed(asked.items()))
    store.tick_off(otter, Work.SET, set_text(turned), after(1))
    assert states(store, otter) == [("3", after(1))]


@pytest.mark.parametrize("column", ["given", "work", "done"])
def test_what_nobody_can_have_written_is_left_out(store, otter, column):
    store.assign([(otter, LESSON)])
    store.assign([(otter, SHEET)])
    with closing(sqlite3.connect(store.path)) as file, file:
        file.execute(f"UPDATE assigned SET {column} = 'gull' WHERE id = '1'")
    assert store.assigned(otter) == (SHEET,)
