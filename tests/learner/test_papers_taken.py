"""A paper that was taken comes back as it was, and once."""

import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest
from kept import NOW, added, begun

from frame.learner.papers import PaperTaken


def test_papers_come_back_in_order_of_time_and_each_once(store, otter):
    seal = added(store, "Seal")
    later = PaperTaken(
        begun(store, otter), NOW + timedelta(days=1), "1000", 70, 100, on_screen=True
    )
    first = PaperTaken(begun(store, otter), NOW, "2000", 0, 300, 421.5, 33.0, 2, on_screen=True)
    other = PaperTaken(begun(store, seal), NOW, "1000", 100, 100)
    for one in (later, first, other, first):
        store.keep_paper(one)
    assert store.papers(otter) == (first, later)
    assert store.papers(seal) == (other,)
    store.remove_learner(otter, NOW)
    assert store.papers(otter) == ()


@pytest.mark.parametrize(
    ("column", "value"),
    [("marks", 101), ("marks", -1), ("marks", "many"), ("most", 0), ("seconds", -1.0),
     ("seconds", "long"), ("pauses", -2), ("at", "yesterday"), ("at", "2026-05-04T09:30:00"),
     ("code", b"\xff")],
)  # fmt: skip
def test_what_nobody_can_have_written_is_left_out(store, otter, column, value):
    store.keep_paper(PaperTaken(begun(store, otter), NOW, "1000", 70, 100))
    assert len(store.papers(otter)) == 1
    with closing(sqlite3.connect(store.path)) as file, file:
        file.execute(f"UPDATE paper SET {column} = ?", (value,))
    assert store.papers(otter) == ()
