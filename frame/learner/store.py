"""The one SQLite file on this computer: learners, sittings, attempts, where each lesson stands.

The only SQL of the project. Every write is one transaction, on disk when the call returns, or it
raises StoreError. Ids are unique across computers, so that files can be merged later. Nothing
leaves the computer.
"""

import json
import sqlite3
import uuid
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from frame.course.attempts import Attempt, Place
from frame.learner.settings import Settings, settings_from, settings_to

SCHEMA = 1

_CREATE = """
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL);
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT);
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL);
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, PRIMARY KEY (learner, lesson));
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
"""


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
        version = database.execute("PRAGMA user_version").fetchone()[0]
        if version > SCHEMA:
            raise StoreError(self.path, str(version), is_newer=True)
        if version < 1:
            database.executescript(f"BEGIN; {_CREATE} PRAGMA user_version = {SCHEMA}; COMMIT;")

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
        self, sitting: str, attempts: Mapping[Attempt, float], learner: Learner, lesson: str,
        state: LessonState, now: datetime,
    ) -> None:  # fmt: skip
        """Keep attempts, each with its seconds, and where the lesson stands, in one transaction."""
        with self._writing() as database:
            for attempt, seconds in attempts.items():
                row = (uuid.uuid4().hex, sitting, now.isoformat(), *_columns(attempt), seconds)
                database.execute(f"INSERT INTO attempt VALUES ({', '.join('?' * 14)})", row)
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


def _fields(learner: Learner) -> tuple[str, str, str]:
    return learner.id, learner.nickname, learner.picture


def _columns(attempt: Attempt) -> tuple[object, ...]:
    exercise = attempt.exercise
    return (
        attempt.lesson, str(exercise), exercise.kind.value, exercise.rung.value, exercise.rods,
        json.dumps(sorted(exercise.facts)), attempt.right, attempt.unaided, attempt.helps,
        json.dumps(attempt.slips),
    )  # fmt: skip


def _free_name(path: Path) -> Path:
    """A name beside `path` that nothing has yet."""
    number = 1
    while (aside := path.with_suffix(f".unreadable-{number}")).exists():
        number += 1
    return aside
