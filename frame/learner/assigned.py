"""What a tutor gives a learner to do: it stands on the home until it is done or taken back."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from frame.learner.ids import new_id
from frame.learner.learners import Learner, LearnersFile, places_of
from frame.learner.settings import stored_object


class Work(StrEnum):
    """What can be given to do, and what its text is."""

    LESSON = "lesson"
    """The lesson's id."""
    SET = "set"
    """What the set asks for, as of one that is kept by name."""
    SHEET = "sheet"
    """The code of a sheet, or of a paper."""
    DUE = "due"
    """Today's set, whatever is due then; without a text."""


_OF_DUE = "due-"
"""So begins the id of a sheet that stands in the place of today's set."""


@dataclass(frozen=True, slots=True)
class Assigned:
    """What was given when, with an id which nothing else has on any computer, and when it was done;
    None while it is not."""

    id: str
    given: datetime
    work: Work
    text: str = ""
    done: datetime | None = None

    @classmethod
    def due_sheet(cls, code: str, now: datetime) -> "Assigned":
        """A sheet that is given now in the place of today's set, to who can't begin that."""
        return cls(f"{_OF_DUE}{new_id()}", now, Work.SHEET, code)

    @property
    def is_due(self) -> bool:
        """Whether what is due was given: today's set, or a sheet in its place."""
        return self.work is Work.DUE or self.id.startswith(_OF_DUE)

    @property
    def given_as(self) -> tuple[Work, str]:
        """The work and its text, as a tutor chose them."""
        return (Work.DUE, "") if self.is_due else (self.work, self.text)

    @property
    def asked(self) -> Mapping[str, Any]:
        """What a set asks for, as plain values; nothing where it can't be read."""
        return stored_object(self.text)


def set_text(asked: Mapping[str, Any]) -> str:
    """The text of a set; the same for what asks the same."""
    return json.dumps(asked, sort_keys=True)


class AssignedFile(LearnersFile):
    """The open file, as far as it tells what learners were given to do."""

    def assigned(self, learner: Learner) -> tuple[Assigned, ...]:
        """What a learner was given and not taken back, oldest first, done or not."""
        ids = self.ids_of(learner)
        rows = self._rows(
            "SELECT id, given, work, text, done FROM assigned "
            f"WHERE learner IN ({places_of(ids)}) AND NOT removed ORDER BY given, id",
            ids,
        )
        return tuple(filter(None, map(_assigned_of, rows)))

    def assign(self, some: Iterable[tuple[Learner, Assigned]]) -> None:
        """Give each of some learners something to do: all of it, but to who is here no more."""
        rows = []
        for learner, one in some:
            given = one.given.isoformat()
            rows.append((one.id, given, given, one.work.value, one.text, learner.id))
        with self._writing() as database:
            database.executemany(
                "INSERT OR IGNORE INTO assigned (id, learner, given, changed, work, text) "
                "SELECT ?, id, ?, ?, ?, ? FROM learner WHERE id = ?",
                rows,
            )

    def take_back(self, some: Iterable[Assigned], now: datetime) -> None:
        """These need not be done any more, on no computer."""
        with self._writing() as database:
            database.executemany(
                "UPDATE assigned SET removed = 1, changed = ? WHERE id = ? AND NOT removed",
                [(now.isoformat(), one.id) for one in some],
            )

    def tick_off(self, learner: Learner, work: Work, text: str, now: datetime) -> None:
        """A learner did this: whatever of it was given and not done is done now."""
        ids = self.ids_of(learner)
        with self._writing() as database:
            database.execute(
                f"UPDATE assigned SET done = ? WHERE learner IN ({places_of(ids)}) "
                "AND work = ? AND text = ? AND done = '' AND NOT removed",
                (now.isoformat(), *ids, work.value, text),
            )


def _assigned_of(row: Sequence[Any]) -> Assigned | None:
    """What an id, its times, its work and its text tell of; None where nobody can have written
    them."""
    id, given, work, text, done = row
    if not isinstance(id, str) or not isinstance(text, str):
        return None
    try:
        when = datetime.fromisoformat(given)
        ended = datetime.fromisoformat(done) if done else None
        return Assigned(id, when, Work(work), text, ended)
    except (ValueError, TypeError):
        return None
