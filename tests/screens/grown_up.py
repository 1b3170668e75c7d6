"""Somebody simulated, who has practised for a while, in the place of whoever is in the window."""

import sqlite3
from contextlib import closing
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from growers import grow

from frame.learner.folding import WHAT, Fold, FoldRules
from frame.learner.settings import Settings
from frame.learner.store import Store

COPIED = ("sitting", "attempt", "lesson", "folded")


@cache
def folder():
    """For as long as anything is tried."""
    return TemporaryDirectory()


@cache
def grown(attempts):
    """The file of somebody who has made so many attempts, and the learner; it takes a while."""
    path = Path(folder().name, f"{attempts}.sqlite")
    with closing(Store(path)) as store:
        learner = grow(store, attempts)
        rules = FoldRules(Settings().ladder_rules, Settings().mastery_rules)
        store.keep_folded(learner, WHAT, Fold.of(store, learner, rules).to_text())
    return path, learner


def grow_up(room, attempts, age=None):
    """Whoever is here has made so many attempts."""
    if age is not None:
        room.set(age=age)
    path, other = grown(attempts)
    with closing(sqlite3.connect(room.store.path)) as file, file:
        file.execute("ATTACH ? AS grown", (str(path),))
        for table in COPIED:
            file.execute(f"INSERT INTO {table} SELECT * FROM grown.{table}")
            if table != "attempt":
                change = f"UPDATE OR REPLACE {table} SET learner = ? WHERE learner = ?"
                file.execute(change, (room.learner.id, other.id))
    room.lessons = room.store.lessons(room.learner)
    room.fold_anew()
