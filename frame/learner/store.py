"""The one SQLite file on this computer: learners, sittings, attempts, flashed runs, tappings,
papers, what is given to do, where each lesson stands, and what is the computer's own.

What is done has an order by its time, its sitting and its number within that, the same on every
computer. What can change has the time of its change, and the later one holds.

With the modules beside it, the only SQL of the project. Every write is one transaction, on
disk when the call returns, or it raises StoreError; made once more it changes nothing, so that it
can be tried again. What can't be read raises StoreError, too; a row that holds what nobody can have
written is left out. Ids are unique across computers, so that files can be merged. Nothing leaves
the computer but what a grown-up has written to a file, or has shared in a folder.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from frame.course.attempts import Position
from frame.learner.assigned import AssignedFile
from frame.learner.learners import Learner, places_of
from frame.learner.papers import PAPER_COLUMNS, PaperTaken, paper_columns, paper_of
from frame.learner.rows import (
    ATTEMPT_COLUMNS,
    DATED_COLUMNS,
    FLASH_COLUMNS,
    PAST_COLUMNS,
    TOLD_COLUMNS,
    TRY_COLUMNS,
    Dated,
    FlashRow,
    Past,
    Place,
    Record,
    Told,
    attempt_row,
    dated_log_of,
    dated_of,
    flash_columns,
    flash_of,
    past_of,
    tapping_of,
    told_of_row,
    try_of,
)
from frame.learner.sitting import Circumstances
from frame.learner.trouble import StoreError as StoreError

if TYPE_CHECKING:
    from frame.practice.ladder import Try
    from frame.practice.log import Log
    from frame.practice.pace import Tapping


_ATTEMPTS = "FROM attempt JOIN sitting ON sitting.id = attempt.sitting"
_IN_ORDER = "ORDER BY attempt.at, sitting.id, attempt.number"
_NEWEST_FIRST = "ORDER BY attempt.at DESC, sitting.id DESC, attempt.number DESC"
_AT_ONCE = 500
"""So many attempts are read at once; a statement has no more than 999 places everywhere."""


@dataclass(frozen=True, slots=True)
class LessonState:
    """Where a learner stands in a lesson. `done` tells that it has once ended well, which opens
    the next; `mastered` that its sets once came to their number unaided; `placed` that what it
    teaches was known by placement."""

    seed: int
    position: Position
    done: bool
    mastered: bool = False
    placed: bool = False

    @property
    def is_known(self) -> bool:
        """Whether what it teaches was learned, here or elsewhere."""
        return self.done or self.placed


NOT_BEGUN = LessonState(0, Position(), done=False)


class Store(AssignedFile):
    """The open file: what is the computer's own, and everybody's, and what they did."""

    def second(self) -> "Store":
        """The same file, opened once more to be read on another thread."""
        return Store(self.path, self.patience, is_second=True)

    def begin_sitting(
        self, sitting: str, learner: Learner, around: Circumstances, now: datetime
    ) -> None:
        """A new sitting, with this id."""
        ways = json.dumps(asdict(around.conventions))
        window = "{}x{}".format(*around.window)
        row = (sitting, learner.id, now.isoformat(), ways, window, "", around.judge)
        with self._writing() as database:
            database.execute(
                "INSERT OR IGNORE INTO sitting "
                "(id, learner, began, conventions, window, input, judge) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )

    def has_sitting(self, sitting: str) -> bool:
        """Whether there is a sitting with this id."""
        return bool(self._rows("SELECT 1 FROM sitting WHERE id = ?", (sitting,)))

    def note_input(self, sitting: str, inputs: Iterable[str]) -> None:
        """What of mouse, touch and keys was used in a sitting so far."""
        row = (" ".join(sorted(inputs)), sitting)
        with self._writing() as database:
            database.execute("UPDATE sitting SET input = ? WHERE id = ?", row)

    def end_sitting(self, sitting: str, now: datetime) -> None:
        """The sitting is over."""
        with self._writing() as database:
            database.execute(
                "UPDATE sitting SET ended = ? WHERE id = ?", (now.isoformat(), sitting)
            )

    def record(
        self, sitting: str, records: Sequence[Record], learner: Learner, lesson: str,
        state: LessonState | None, now: datetime,
    ) -> None:  # fmt: skip
        """Keep attempts, and where the lesson stands, if it is one, in one transaction."""
        with self._writing() as database:
            for one in records:
                row = (one.id, sitting, now.isoformat(), *attempt_row(one))
                database.execute(_insert("attempt", ATTEMPT_COLUMNS), row)
            if state is None:
                return
            at = state.position
            database.execute(
                "INSERT INTO lesson (learner, lesson, seed, step, item, round, unaided, done, "
                "mastered, changed) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) "
                "ON CONFLICT DO UPDATE SET seed = excluded.seed, step = excluded.step, "
                "item = excluded.item, round = excluded.round, unaided = excluded.unaided, "
                "changed = excluded.changed, "
                "done = coalesce(done, excluded.done), "
                "mastered = coalesce(mastered, excluded.mastered)",
                (learner.id, lesson, state.seed, at.step, at.item, at.round, at.right,
                 now.isoformat() if state.done else None,
                 now.isoformat() if state.mastered else None, now.isoformat()),
            )  # fmt: skip

    def lessons(self, learner: Learner) -> dict[str, LessonState]:
        """Where the learner stands in each lesson begun."""
        ids = self.ids_of(learner)
        rows = self._rows(
            "SELECT lesson, seed, step, item, round, unaided, done IS NOT NULL, "
            f"mastered IS NOT NULL FROM lesson WHERE learner IN ({places_of(ids)}) "
            "ORDER BY changed, learner",
            ids,
        )
        found, placed = dict[str, LessonState](), self._placed(ids)
        for lesson, seed, *position, done, mastered in rows:
            if not isinstance(lesson, str) or not _are_whole(seed, *position):
                continue
            before = found.get(lesson, NOT_BEGUN)
            found[lesson] = LessonState(
                seed, Position(*position), done or before.done, mastered or before.mastered,
                lesson in placed,
            )  # fmt: skip
        return found

    def _placed(self, ids: Sequence[str]) -> set[str]:
        """The lessons that a placement found known."""
        rows = self._rows(
            f"SELECT lesson FROM lesson WHERE placed AND learner IN ({places_of(ids)})", ids
        )
        return {lesson for (lesson,) in rows}

    def place(self, learner: Learner, lessons: Iterable[str], now: datetime) -> None:
        """A placement found what these lessons teach known, too."""
        at = now.isoformat()
        with self._writing() as database:
            database.executemany(
                "INSERT INTO lesson (learner, lesson, seed, step, item, round, unaided, placed, "
                "placed_at) VALUES (?, ?, 0, 0, 0, 0, 0, 1, ?) ON CONFLICT DO UPDATE SET "
                "placed = excluded.placed, placed_at = excluded.placed_at",
                [(learner.id, lesson, at) for lesson in lessons],
            )

    def attempts(self, learner: Learner) -> tuple[tuple[str, str, bool, bool], ...]:
        """Lesson, exercise, right and unaided of every attempt, oldest first."""
        rows = self._attempts_of(learner, "lesson, exercise, is_right, unaided")
        return tuple((lesson, text, bool(right), bool(own)) for lesson, text, right, own in rows)

    def tries(self, learner: Learner) -> tuple["Try", ...]:
        """Every attempt as the ladder sees it, oldest first, without those that were left, or hold
        what this version does not know."""
        tries = map(try_of, self._attempts_of(learner, TRY_COLUMNS))
        return tuple(one for _, one in tries if one is not None)

    def dated_tries(self, learner: Learner) -> Iterator[Dated]:
        """The same tries, each with its time and where it came from."""
        return filter(None, map(dated_of, self._attempts_of(learner, DATED_COLUMNS)))

    def logs_since(self, learner: Learner, since: datetime) -> Iterator[tuple[datetime, "Log"]]:
        """The time and the log of every attempt kept since then, also of those that were left."""
        rows = self._attempts_of(
            learner, "attempt.at, log", "AND attempt.at >= ?", (since.isoformat(),)
        )
        return filter(None, map(dated_log_of, rows))

    def told_after(self, learner: Learner, after: Place) -> Iterator[Told]:
        """What each attempt after a place tells, oldest first."""
        where = "AND (attempt.at, sitting.id, attempt.number) > (?, ?, ?)"
        rows = self._attempts_of(learner, TOLD_COLUMNS, where, after)
        yield from filter(None, map(told_of_row, rows))

    def count_attempts(self, learner: Learner) -> int:
        """How many attempts are kept of a learner."""
        return int(self._attempts_of(learner, "count(*)")[0][0])

    def worked(self, ids: Sequence[str]) -> tuple[int, datetime | None]:
        """How many attempts are kept under some ids, and when the last one was made."""
        count, last = self._rows(
            f"SELECT count(*), max(attempt.at) {_ATTEMPTS} WHERE learner IN ({places_of(ids)})",
            ids,
        )[0]
        try:
            return count, datetime.fromisoformat(last)
        except (ValueError, TypeError):
            return count, None

    def folded(self, learner: Learner, what: str) -> str | None:
        """What was folded from a learner's record, as it was kept."""
        question = "SELECT value FROM folded WHERE learner = ? AND what = ?"
        rows = self._rows(question, (learner.id, what))
        return next((value for (value,) in rows if isinstance(value, str)), None)

    def keep_folded(self, learner: Learner, what: str, value: str) -> None:
        """Keep what was folded from a learner's record."""
        with self._writing() as database:
            database.execute(
                "INSERT OR REPLACE INTO folded VALUES (?, ?, ?)", (learner.id, what, value)
            )

    def past(self, learner: Learner) -> tuple[Past, ...]:
        """All that was attempted, oldest first, also what was left."""
        return tuple(self.each_past(learner))

    def each_past(self, learner: Learner) -> Iterator[Past]:
        """The same one after another. They are read a few at a time, for all may be many, and for
        so long no window could write."""
        ids = [one for (one,) in self._attempts_of(learner, "attempt.id")]
        for first in range(0, len(ids), _AT_ONCE):
            some = ids[first : first + _AT_ONCE]
            rows = self._rows(
                f"SELECT {PAST_COLUMNS} {_ATTEMPTS} WHERE attempt.id IN ({places_of(some)}) "
                f"{_IN_ORDER}",
                some,
            )
            yield from filter(None, map(past_of, rows))

    def lately(self, learner: Learner, most: int) -> tuple[Past, ...]:
        """The last attempts, so many at most, oldest first."""
        ids = self.ids_of(learner)
        rows = self._rows(
            f"SELECT {PAST_COLUMNS} {_ATTEMPTS} WHERE learner IN ({places_of(ids)}) "
            f"{_NEWEST_FIRST} LIMIT ?",
            (*ids, most),
        )
        return tuple(filter(None, map(past_of, reversed(rows))))

    def _attempts_of(
        self, learner: Learner, columns: str, where: str = "", values: Sequence[object] = ()
    ) -> list[tuple[Any, ...]]:
        """These columns of a learner's attempts, in their order."""
        ids = self.ids_of(learner)
        return self._rows(
            f"SELECT {columns} {_ATTEMPTS} WHERE learner IN ({places_of(ids)}) {where} {_IN_ORDER}",
            (*ids, *values),
        )

    def record_flash(self, run_id: str, sitting: str, run: FlashRow, now: datetime) -> None:
        """Keep a run of flashed numbers, with this id."""
        row = (run_id, sitting, now.isoformat(), *flash_columns(run))
        with self._writing() as database:
            database.execute(_insert("flash_run", FLASH_COLUMNS), row)

    def flash_runs(self, learner: Learner) -> tuple[FlashRow, ...]:
        """Every run of flashed numbers, oldest first."""
        return tuple(
            filter(None, map(flash_of, self._by_time(learner, "flash_run", FLASH_COLUMNS)))
        )

    def keep_tapping(self, one: str, sitting: str, pace: float | None, now: datetime) -> None:
        """Keep, with this id, that tapping was offered or done, and the pace that it gave."""
        with self._writing() as database:
            database.execute(_insert("tapping", "pace"), (one, sitting, now.isoformat(), pace))

    def tappings(self, learner: Learner) -> tuple["Tapping", ...]:
        """Every time that tapping was offered or done, oldest first."""
        rows = self._by_time(learner, "tapping", "tapping.at, pace")
        return tuple(filter(None, map(tapping_of, rows)))

    def keep_paper(self, paper: PaperTaken) -> None:
        """Keep that a paper was taken, in the sitting of its tasks."""
        row = (paper.sitting, paper.sitting, paper.at.isoformat(), *paper_columns(paper))
        with self._writing() as database:
            database.execute(_insert("paper", PAPER_COLUMNS), row)

    def papers(self, learner: Learner) -> tuple[PaperTaken, ...]:
        """Every paper that was taken, oldest first."""
        rows = self._by_time(learner, "paper", f"sitting.id, paper.at, {PAPER_COLUMNS}")
        return tuple(filter(None, map(paper_of, rows)))

    def _by_time(self, learner: Learner, table: str, columns: str) -> list[tuple[Any, ...]]:
        """These columns of what a table has of a learner's sittings, by its time."""
        ids = self.ids_of(learner)
        return self._rows(
            f"SELECT {columns} FROM {table} JOIN sitting ON sitting.id = {table}.sitting "
            f"WHERE learner IN ({places_of(ids)}) ORDER BY {table}.at, {table}.id",
            ids,
        )


def _are_whole(*values: object) -> bool:
    return all(isinstance(value, int) for value in values)


def _insert(table: str, columns: str) -> str:
    """What puts a row of a sitting into a table."""
    names = f"id, sitting, at, {columns}".split(", ")
    return f"INSERT OR IGNORE INTO {table} ({', '.join(names)}) VALUES ({places_of(names)})"
