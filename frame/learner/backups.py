"""A copy of what is kept, or of one learner alone, that can be taken in again here or elsewhere."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from frame.learner.learners import Learner
from frame.learner.new_file import new_file
from frame.learner.persons import count_children
from frame.learner.schema import bring_up_to_date, columns_of, tables_of
from frame.learner.store import Store


class BackedUp(NamedTuple):
    """How many children and attempts a backup holds."""

    learners: int
    attempts: int


def back_up(store: Store, path: Path, learner: Learner | None = None) -> BackedUp:
    """Write all that is kept to a new file, or what is kept of one learner, without what is the
    computer's own. It is for this user's eyes alone, and there only when it is whole. Raises
    StoreError, which tells of which file; a file that is there already is left as it is."""
    with new_file(path) as fresh:
        if learner is None:
            store.copy_to(fresh)
        else:
            with closing(sqlite3.connect(fresh)) as empty:
                bring_up_to_date(empty)
            _copy_learner(store, fresh, store.ids_of(learner))
        with closing(sqlite3.connect(fresh)) as file:
            (attempts,) = file.execute("SELECT count(*) FROM attempt").fetchone()
            return BackedUp(count_children(file), attempts)


def _copy_learner(store: Store, fresh: Path, ids: tuple[str, ...]) -> None:
    """Copy what is kept of the child with these ids into a fresh file of this version."""
    places = ", ".join("?" * len(ids))
    of_learner, of_sitting = f"learner IN ({places})", "sitting IN (SELECT id FROM other.sitting)"
    kept: dict[str, tuple[str, tuple[str, ...]]] = {
        "learner": (f"id IN ({places})", ids),
        "gone": (of_learner, ids),
        "joined": (f"one IN ({places}) AND other IN ({places})", ids + ids),
        **dict.fromkeys(tables_of("learner"), (of_learner, ids)),
        **dict.fromkeys(tables_of("sitting"), (of_sitting, ())),
    }
    with store.writing_beside(fresh) as database:
        for table, (where, facts) in kept.items():
            names = ", ".join(column.name for column in columns_of(database)[table])
            database.execute(
                f"INSERT INTO other.{table} ({names}) SELECT {names} FROM main.{table} "
                f"WHERE {where}",
                facts,
            )
