"""Sets that are kept by name: they come back whatever they are called, and what goes is gone."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import timedelta

import pytest
from kept import NOW, added

from frame.learner.kept_sets import KeptSet
from frame.learner.store import Store

LATER = NOW + timedelta(seconds=1)
QUAY = KeptSet("1", "Quay", {"asked": "called", "called": {"digits": 3, "pace": None}})


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as opened:
        yield opened


def test_a_kept_set_can_have_another_name_and_go(store):
    otter, seal = (added(store, name, "otter") for name in ("Otter", "Seal"))
    shore = KeptSet("0", "Shore", {"asked": "shown", "beads": {}})
    store.keep_set(otter, QUAY, NOW)
    store.keep_set(otter, shore, LATER)
    store.keep_set(otter, replace(QUAY, name="Pier"), LATER)
    assert store.kept_sets(otter) == (replace(QUAY, name="Pier"), shore)
    assert store.kept_sets(seal) == ()
    store.remove_set(shore, LATER)
    assert store.kept_sets(otter) == (replace(QUAY, name="Pier"),)
    store.remove_learner(otter, LATER)
    assert store.kept_sets(otter) == ()
    assert b"Pier" not in store.path.read_bytes()


def test_a_write_of_a_set_made_twice_changes_nothing(store):
    otter = added(store, "Otter", "otter")
    for write in (lambda: store.keep_set(otter, QUAY, NOW), lambda: store.remove_set(QUAY, NOW)):
        write()
        before = store.path.read_bytes()[100:]
        write()
        assert store.path.read_bytes()[100:] == before


def test_a_child_with_several_ids_has_the_sets_of_all(store):
    otter, again = (added(store, name, "otter") for name in ("Otter", "Otter 2"))
    store.keep_set(otter, QUAY, NOW)
    store.keep_set(again, KeptSet("2", "Shore", {}), LATER)
    store.join(otter, again, NOW)
    assert [one.name for one in store.kept_sets(otter)] == ["Quay", "Shore"]


@pytest.mark.parametrize(
    "name",
    ["", "W" * 24, "שרה לוי", "O’Brien 🦦", "'); DROP TABLE x; --", "%s {name}", "国" * 24],
)
def test_a_set_of_any_name_comes_back(store, name):
    otter = added(store, "Otter", "otter")
    store.keep_set(otter, replace(QUAY, name=name), NOW)
    assert store.kept_sets(otter) == (replace(QUAY, name=name),)


@pytest.mark.parametrize(
    ("name", "read"),
    [("a\nb", "a b"), ("\u202eyauq", "yauq"), ("x" * 5000, "x" * 24), ("\0", ""), (" \t", "")],
)
def test_of_a_name_that_nobody_can_type_what_can_be_is_read(store, name, read):
    otter = added(store, "Otter", "otter")
    store.keep_set(otter, replace(QUAY, name=name), NOW)
    assert store.kept_sets(otter) == (replace(QUAY, name=read),)


def test_what_a_set_asks_is_nothing_where_it_cannot_be_read(store):
    otter = added(store, "Otter", "otter")
    store.keep_set(otter, QUAY, NOW)
    for text in ("", "[1]", "{", "[" * 100_000):
        with closing(sqlite3.connect(store.path)) as file, file:
            file.execute("UPDATE kept_set SET asked = ?", (text,))
        assert store.kept_sets(otter) == (replace(QUAY, asked={}),)


def test_of_a_damaged_file_sets_are_saved_also_where_nobody_knows_whose_they_were(tmp_path):
    path = tmp_path / "learners.sqlite"
    with closing(Store(path)) as store:
        otter = added(store, "Otter", "otter")
        store.keep_set(otter, QUAY, NOW)
        store.keep_set(otter, KeptSet("2", "Shore", {}), NOW)
        store.remove_set(KeptSet("2", "Shore", {}), LATER)
    path.with_suffix(".good").unlink()
    with closing(sqlite3.connect(path)) as file, file:
        file.execute("DELETE FROM learner")
    path.write_bytes(bytes(16) + path.read_bytes()[16:])
    with closing(Store(path)) as store:
        assert store.saved.learners == 1
        (nobody,) = store.learners()
        assert (nobody.id, nobody.nickname) == (otter.id, "?")
        assert store.kept_sets(nobody) == (QUAY,)
        store.keep_set(nobody, KeptSet("2", "Shore", {}), LATER)
        assert store.kept_sets(nobody) == (QUAY,), "what was removed stays so"
