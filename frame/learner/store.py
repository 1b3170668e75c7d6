"""The one SQLite file on this computer: learners, sittings, attempts, flashed runs, and where each
lesson stands.

With the file's layout in `schema`, the only SQL of the project. Every write is one transaction, on
disk when the call returns, or it raises StoreError. Ids are unique across computers, so that files
can be merged later. Nothing leaves the computer.
"""

import json
import sqlite3
import uuid
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from frame.course.attempts import Place
from frame.learner.rows import (
    FLASH_COLUMNS,
    TRY_COLUMNS,
    FlashRow,
    attempt_row,
    flash_columns,
    flash_of,
    try_of,
)
from frame.learner.schema import SCHEMA, bring_up_to_date, version_of
from frame.learner.settings import Settings, settings_from, settings_to

if TYPE_CHECKING:
    from frame.course.attempts import Attempt
    from frame.practice.ladder import Try


class StoreError(Exception):
    """The file can't be used: where it is and what was found; `is_newer` when it was written by
    a newer version of the tool, else it can't be read or written."""

    def __init__(self, where: Path, found: str, is_newer: bool = False) -> None:
        super().__init__(f"{where}: {found}")
        self.where, self.found, self.is_newer = where, found, is_newer


@dataclass(frozen=True, slots=True)
class Learner:
    """A nickname and a picture."""

    id: str
    nickname: str
    picture: str


@dataclass(frozen=True, slots=True)
class LessonState:
    """Where a learner stands in a lesson; `done` tells that it has been passed once."""

    seed: int
    place: Place
    done: bool


class Store:
    """The open file."""

    def __init__(self, path: Path) -> None:
        """Open or make the file at `path`.

        A file that is no database is moved aside, never written over. Raises StoreError for a
        file of a newer version, or a place that cannot be written.
        """
        self.path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            self._database = self._open()
        except (OSError, sqlite3.Error) as error:
            raise StoreError(path, str(error)) from error

    def _open(self) -> sqlite3.Connection:
        try:
            return self._connect()
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError):
                raise
            self.path.rename(_free_name(self.path))
            return self._connect()

    def _connect(self) -> sqlite3.Connection:
        database = sqlite3.connect(self.path, timeout=5)
        try:
            self._prepare(database)
        except BaseException:
            database.close()
            raise
        return database

    def _prepare(self, database: sqlite3.Connection) -> None:
        database.execute("PRAGMA foreign_keys = ON")
        database.execute("PRAGMA secure_delete = ON")
        if database.execute("PRAGMA quick_check").fetchone()[0] != "ok":
            raise sqlite3.DatabaseError("damaged")
        if (version := version_of(database)) > SCHEMA:
            raise StoreError(self.path, str(version), is_newer=True)
        bring_up_to_date(database)

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction. Raises StoreError when it can't be written; then nothing is."""
        try:
            with self._database as database:
                yield database
        except sqlite3.Error as error:
            raise StoreError(self.path, str(error)) from error

    def close(self) -> None:
        """Close the file."""
        self._database.close()

    def learners(self) -> tuple[Learner, ...]:
        """Everybody, in the order they came."""
        rows = self._database.execute("SELECT id, nickname, picture FROM learner ORDER BY rowid")
        return tuple(Learner(*row) for row in rows)

    def add_learner(self, nickname: str, picture: str, now: datetime) -> Learner:
        """A new learner, with the usual settings."""
        learner = Learner(uuid.uuid4().hex, nickname, picture)
        row = (*_fields(learner), json.dumps(settings_to(Settings())), now.isoformat())
        with self._writing() as database:
            database.execute("INSERT INTO learner VALUES (?, ?, ?, ?, ?)", row)
        return learner

    def remove_learner(self, learner: Learner) -> None:
        """Delete a learner and everything kept of them."""
        with self._writing() as database:
            database.execute("DELETE FROM learner WHERE id = ?", (learner.id,))

    def settings(self, learner: Learner) -> Settings:
        """The learner's settings."""
        row = self._database.execute(
            "SELECT settings FROM learner WHERE id = ?", (learner.id,)
        ).fetchone()
        return settings_from(json.loads(row[0])) if row else Settings()

    def save_settings(self, learner: Learner, settings: Settings) -> None:
        """Keep the learner's settings."""
        with self._writing() as database:
            database.execute(
                "UPDATE learner SET settings = ? WHERE id = ?",
                (json.dumps(settings_to(settings)), learner.id),
            )

    def begin_sitting(self, learner: Learner, now: datetime) -> str:
        """A new sitting; its id."""
        sitting = uuid.uuid4().hex
        with self._writing() as database:
            database.execute(
                "INSERT INTO sitting VALUES (?, ?, ?, NULL)", (sitting, learner.id, now.isoformat())
            )
        return sitting

    def end_sitting(self, sitting: str, now: datetime) -> None:
        """The sitting is over."""
        with self._writing() as database:
            database.execute(
                "UPDATE sitting SET ended = ? WHERE id = ?", (now.isoformat(), sitting)
            )

    def record(
        self, sitting: str, attempts: Sequence[tuple["Attempt", float]], learner: Learner,
        lesson: str, state: LessonState | None, now: datetime,
    ) -> None:  # fmt: skip
        """Keep attempts, each with its seconds, and where the lesson stands, if it is one, in one
        transaction."""
        with self._writing() as database:
            for attempt, seconds in attempts:
                row = (uuid.uuid4().hex, sitting, now.isoformat(), *attempt_row(attempt, seconds))
                database.execute(f"INSERT INTO attempt VALUES ({', '.join('?' * 19)})", row)
            if state is None:
                return
            place = state.place
            database.execute(
                "INSERT INTO lesson VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
                "seed = excluded.seed, step = excluded.step, item = excluded.item, "
                "round = excluded.round, unaided = excluded.unaided, "
                "done = coalesce(done, excluded.done)",
                (learner.id, lesson, state.seed, place.step, place.item, place.round, place.right,
                 now.isoformat() if state.done else None),
            )  # fmt: skip

    def lessons(self, learner: Learner) -> dict[str, LessonState]:
        """Where the learner stands in each lesson begun."""
        rows = self._database.execute(
            "SELECT lesson, seed, step, item, round, unaided, done FROM lesson WHERE learner = ?",
            (learner.id,),
        )
        return {
            lesson: LessonState(seed, Place(*place), done is not None)
            for lesson, seed, *place, done in rows
        }

    def attempts(self, learner: Learner) -> tuple[tuple[str, str, bool, bool], ...]:
        """Lesson, exercise, right and unaided of every attempt, oldest first."""
        rows = self._database.execute(
            "SELECT lesson, exercise, is_right, unaided FROM attempt JOIN sitting "
            "ON sitting.id = attempt.sitting WHERE learner = ? ORDER BY attempt.rowid",
            (learner.id,),
        )
        return tuple((lesson, text, bool(right), bool(own)) for lesson, text, right, own in rows)

    def tries(self, learner: Learner) -> tuple["Try", ...]:
        """Every attempt as the ladder sees it, oldest first, without those that hold what this
        version does not know."""
        rows = self._database.execute(
            f"SELECT {TRY_COLUMNS} FROM attempt JOIN sitting ON sitting.id = attempt.sitting "
            "WHERE learner = ? ORDER BY attempt.rowid",
            (learner.id,),
        )
        return tuple(filter(None, map(try_of, rows)))

    def record_flash(self, sitting: str, run: FlashRow, now: datetime) -> None:
        """Keep a run of flashed numbers."""
        row = (uuid.uuid4().hex, sitting, now.isoformat(), *flash_columns(run))
        with self._writing() as database:
            database.execute(
                f"INSERT INTO flash_run (id, sitting, at, {FLASH_COLUMNS}) "
                f"VALUES ({', '.join('?' * len(row))})",
                row,
            )

    def flash_runs(self, learner: Learner) -> tuple[FlashRow, ...]:
        """Every run of flashed numbers, oldest first."""
        rows = self._database.execute(
            f"SELECT {FLASH_COLUMNS} FROM flash_run JOIN sitting ON sitting.id = flash_run.sitting "
            "WHERE learner = ? ORDER BY flash_run.rowid",
            (learner.id,),
        )
        return tuple(map(flash_of, rows))


def _fields(learner: Learner) -> tuple[str, str, str]:
    return learner.id, learner.nickname, learner.picture


def _free_name(path: Path) -> Path:
    """A name beside `path` that nothing has yet."""
    number = 1
    while (aside := path.with_suffix(f".unreadable-{number}")).exists():
        number += 1
    return aside
