"""The one SQLite file on this computer: learners, sittings, attempts, flashed runs, where each
lesson stands, and what is the computer's own.

With the modules beside it, the only SQL of the project. Every write is one transaction, on
disk when the call returns, or it raises StoreError; made once more it changes nothing, so that it
can be tried again. What can't be read raises StoreError, too; a row that holds what nobody can have
written is left out. Ids are unique across computers, so that files can be merged later. Nothing
leaves the computer.
"""

import json
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from frame.course.attempts import Position
from frame.learner.computer import ComputerFile
from frame.learner.rows import (
    ATTEMPT_COLUMNS,
    FLASH_COLUMNS,
    TRY_COLUMNS,
    FlashRow,
    attempt_row,
    flash_columns,
    flash_of,
    try_of,
)
from frame.learner.settings import (
    Settings,
    settings_from,
    settings_to_learner,
    stored_object,
)
from frame.learner.trouble import StoreError as StoreError

if TYPE_CHECKING:
    from frame.course.attempts import Attempt
    from frame.practice.ladder import Try


_CHOICES = "practise"
"""Beside the settings, which have no field of that name."""


@dataclass(frozen=True, slots=True)
class Learner:
    """A nickname and a picture."""

    id: str
    nickname: str
    picture: str

    @classmethod
    def new(cls, nickname: str, picture: str) -> "Learner":
        """Somebody who was not here before."""
        return cls(new_id(), nickname, picture)


@dataclass(frozen=True, slots=True)
class LessonState:
    """Where a learner stands in a lesson. `done` tells that it has once ended well, which opens
    the next; `mastered` that its sets once came to their number unaided."""

    seed: int
    position: Position
    done: bool
    mastered: bool = False


class Store(ComputerFile):
    """The open file: what is the computer's own, and everybody's."""

    def learners(self) -> tuple[Learner, ...]:
        """Everybody, in the order they came."""
        rows = self._rows("SELECT id, nickname, picture FROM learner ORDER BY rowid")
        return tuple(Learner(*row) for row in rows if all(isinstance(one, str) for one in row))

    def add_learner(self, learner: Learner, settings: Settings, now: datetime) -> None:
        """A newcomer with these settings, but for what belongs to the computer alone."""
        text = json.dumps(settings_to_learner(settings))
        row = (learner.id, learner.nickname, learner.picture, text, now.isoformat())
        with self._writing() as database:
            database.execute("INSERT OR IGNORE INTO learner VALUES (?, ?, ?, ?, ?)", row)

    def rename(self, learner: Learner, now: datetime) -> None:
        """Keep the nickname and the picture that the learner of this id has from now on."""
        row = (learner.nickname, learner.picture, learner.id)
        with self._writing() as database:
            database.execute("UPDATE learner SET nickname = ?, picture = ? WHERE id = ?", row)

    def remove_learner(self, learner: Learner) -> None:
        """Delete a learner and everything kept of them, also what lies beside the file."""
        with self._writing() as database:
            database.execute("DELETE FROM learner WHERE id = ?", (learner.id,))
        self._forget_beside()

    def settings(self, learner: Learner) -> Settings:
        """The learner's settings, with what belongs to the computer alone."""
        stored, computer = self._stored(learner), self.computer()
        return computer if stored is None else settings_from(stored).on(computer)

    def save_settings(self, learner: Learner, settings: Settings) -> None:
        """Keep the learner's settings, but for what belongs to the computer alone."""
        self._keep_with(learner, settings_to_learner(settings))

    def choices(self, learner: Learner) -> dict[str, Any]:
        """What the learner last chose to practise, as plain values; empty where nothing was."""
        kept = (self._stored(learner) or {}).get(_CHOICES)
        return kept if isinstance(kept, dict) else {}

    def keep_choices(self, learner: Learner, choices: Mapping[str, Any]) -> None:
        """Keep what the learner chose to practise, as values that JSON has."""
        self._keep_with(learner, {_CHOICES: choices})

    def _stored(self, learner: Learner) -> dict[str, Any] | None:
        """What is kept with a learner; None for one who is not known."""
        rows = self._rows("SELECT settings FROM learner WHERE id = ?", (learner.id,))
        return stored_object(rows[0][0]) if rows else None

    def _keep_with(self, learner: Learner, values: Mapping[str, Any]) -> None:
        """Keep these values with a learner, and leave the others as they are."""
        with self._writing() as database:
            text = json.dumps({**(self._stored(learner) or {}), **values})
            database.execute("UPDATE learner SET settings = ? WHERE id = ?", (text, learner.id))

    def begin_sitting(self, sitting: str, learner: Learner, now: datetime) -> None:
        """A new sitting, with this id."""
        row = (sitting, learner.id, now.isoformat())
        with self._writing() as database:
            database.execute("INSERT OR IGNORE INTO sitting VALUES (?, ?, ?, NULL)", row)

    def end_sitting(self, sitting: str, now: datetime) -> None:
        """The sitting is over."""
        with self._writing() as database:
            database.execute(
                "UPDATE sitting SET ended = ? WHERE id = ?", (now.isoformat(), sitting)
            )

    def record(
        self, sitting: str, attempts: Sequence[tuple[str, "Attempt", float]], learner: Learner,
        lesson: str, state: LessonState | None, now: datetime,
    ) -> None:  # fmt: skip
        """Keep attempts, each with an id and its seconds, and where the lesson stands, if it is
        one, in one transaction."""
        with self._writing() as database:
            for attempt_id, attempt, seconds in attempts:
                row = (attempt_id, sitting, now.isoformat(), *attempt_row(attempt, seconds))
                database.execute(_insert("attempt", ATTEMPT_COLUMNS), row)
            if state is None:
                return
            at = state.position
            database.execute(
                "INSERT INTO lesson VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
                "seed = excluded.seed, step = excluded.step, item = excluded.item, "
                "round = excluded.round, unaided = excluded.unaided, "
                "done = coalesce(done, excluded.done), "
                "mastered = coalesce(mastered, excluded.mastered)",
                (learner.id, lesson, state.seed, at.step, at.item, at.round, at.right,
                 now.isoformat() if state.done else None,
                 now.isoformat() if state.mastered else None),
            )  # fmt: skip

    def lessons(self, learner: Learner) -> dict[str, LessonState]:
        """Where the learner stands in each lesson begun."""
        rows = self._rows(
            "SELECT lesson, seed, step, item, round, unaided, done IS NOT NULL, "
            "mastered IS NOT NULL FROM lesson WHERE learner = ?",
            (learner.id,),
        )
        return {
            lesson: LessonState(seed, Position(*position), bool(done), bool(mastered))
            for lesson, seed, *position, done, mastered in rows
            if isinstance(lesson, str) and all(isinstance(one, int) for one in (seed, *position))
        }

    def attempts(self, learner: Learner) -> tuple[tuple[str, str, bool, bool], ...]:
        """Lesson, exercise, right and unaided of every attempt, oldest first."""
        rows = self._rows(
            "SELECT lesson, exercise, is_right, unaided FROM attempt JOIN sitting "
            "ON sitting.id = attempt.sitting WHERE learner = ? ORDER BY attempt.rowid",
            (learner.id,),
        )
        return tuple((lesson, text, bool(right), bool(own)) for lesson, text, right, own in rows)

    def tries(self, learner: Learner) -> tuple["Try", ...]:
        """Every attempt as the ladder sees it, oldest first, without those that hold what this
        version does not know."""
        rows = self._rows(
            f"SELECT {TRY_COLUMNS} FROM attempt JOIN sitting ON sitting.id = attempt.sitting "
            "WHERE learner = ? ORDER BY attempt.rowid",
            (learner.id,),
        )
        return tuple(filter(None, map(try_of, rows)))

    def record_flash(self, run_id: str, sitting: str, run: FlashRow, now: datetime) -> None:
        """Keep a run of flashed numbers, with this id."""
        row = (run_id, sitting, now.isoformat(), *flash_columns(run))
        with self._writing() as database:
            database.execute(_insert("flash_run", FLASH_COLUMNS), row)

    def flash_runs(self, learner: Learner) -> tuple[FlashRow, ...]:
        """Every run of flashed numbers, oldest first."""
        rows = self._rows(
            f"SELECT {FLASH_COLUMNS} FROM flash_run JOIN sitting ON sitting.id = flash_run.sitting "
            "WHERE learner = ? ORDER BY flash_run.rowid",
            (learner.id,),
        )
        return tuple(filter(None, map(flash_of, rows)))


def new_id() -> str:
    """An id that nothing has on any computer."""
    return uuid.uuid4().hex


def _insert(table: str, columns: str) -> str:
    """What puts a row of a sitting into a table."""
    places = ", ".join("?" * (4 + columns.count(",")))
    return f"INSERT OR IGNORE INTO {table} (id, sitting, at, {columns}) VALUES ({places})"
