"""A copy of what is kept, or of one learner alone, that can be taken in again here or elsewhere."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

from frame.learner.copies import make_private_file
from frame.learner.learners import Learner
from frame.learner.persons import count_children
from frame.learner.schema import bring_up_to_date, columns_of, tables_of
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble, told_of


class BackedUp(NamedTuple):
    """How many children and attempts a backup holds."""

    learners: int
    attempts: int


def back_up(store: Store, path: Path, learner: Learner | None = None) -> BackedUp:
    """Write all that is kept to a new file, or what is kept of one learner, without what is the
    computer's own. It is for this user's eyes alone, and there only when it is whole. Raises
    StoreError, which tells of which file; a file that is there already is left as it is."""
    with _new_file(path) as fresh:
        if learner is None:
            store.copy_to(fresh)
        else:
            with closing(sqlite3.connect(fresh)) as empty:
                bring_up_to_date(empty)
            _copy_learner(store, fresh, store.ids_of(learner))
        with closing(sqlite3.connect(fresh)) as file:
            (attempts,) = file.execute("SELECT count(*) FROM attempt").fetchone()
            return BackedUp(count_children(file), attempts)


def free_name(path: Path) -> Path:
    """This path, or one with a number behind its name, that nothing has yet."""
    free, number = path, 1
    while os.path.lexists(free):
        number += 1
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return free


@contextmanager
def _new_file(path: Path) -> Iterator[Path]:
    """A file to write that is found at the path once it is whole."""
    if os.path.lexists(path):
        found = "a folder" if os.path.isdir(path) else "a file that is there already"
        raise StoreError(path, found, Trouble.TAKEN)
    fresh = path.with_name(f"{path.name}.part-{os.getpid()}")
    try:
        with told_of(path):
            fresh.unlink(missing_ok=True)
            make_private_file(fresh)
            yield fresh
            fresh.rename(path)
    except StoreError as error:
        if error.trouble is not Trouble.FULL:
            raise
        raise StoreError(path, error.found, error.trouble) from error  # It was only read there.
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)


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
