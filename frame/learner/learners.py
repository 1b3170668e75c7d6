"""Who learns here: names and pictures, several ids of one child, and what each has chosen.

What can change has the time of its change, and the later one holds.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Any

from frame.learner.computer import ComputerFile
from frame.learner.ids import new_id as new_id
from frame.learner.kept_sets import KeptSet, set_of
from frame.learner.persons import Pair, groups
from frame.learner.settings import Settings, settings_from, settings_to_learner, stored_object


class Chosen(StrEnum):
    """What is kept of what a learner chose last: beside the settings, which have no such fields."""

    PRACTICE = "practise"
    PAPER = "paper"


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


class LearnersFile(ComputerFile):
    """The open file, as far as it tells who learns here."""

    def learners(self) -> tuple[Learner, ...]:
        """Everybody, in the order they came. Of a child with several ids the first stands for all,
        with the name and the picture that were given last."""
        known, together, found = self._known(), self._together(), dict[frozenset[str], Learner]()
        for learner in known:
            ids = together.get(learner, frozenset({learner}))
            if ids not in found:
                found[ids] = _shown(learner, [known[one] for one in sorted(ids) if one in known])
        return tuple(found.values())

    def each_of(self, learner: Learner) -> tuple[Learner, ...]:
        """Every id of a learner, with the name and the picture that are its own, as they came."""
        ids = self.ids_of(learner)
        return tuple(_shown(one, [row]) for one, row in self._known().items() if one in ids)

    def as_one(self, one: Learner, other: Learner) -> Learner:
        """As whom both would be shown, were they one child."""
        ids = {*self.ids_of(one), *self.ids_of(other)}
        rows = {id: row for id, row in self._known().items() if id in ids}
        return _shown(next(iter(rows)), [rows[id] for id in sorted(rows)]) if rows else one

    def _known(self) -> dict[str, tuple[str, ...]]:
        """Id, name, picture and the times of both, by the id, in the order they came."""
        rows = self._rows(
            "SELECT id, nickname, picture, named, pictured FROM learner ORDER BY created, id"
        )
        return {row[0]: row for row in rows if all(isinstance(one, str) for one in row)}

    def _together(self) -> Mapping[str, frozenset[str]]:
        rows = self._rows("SELECT one, other, apart FROM joined ORDER BY one, other")
        return groups(Pair(one, other, bool(apart)) for one, other, apart in rows)

    def came(self, learner: Learner) -> datetime | None:
        """When a learner came, the first time of a child with several ids; None where that can't be
        read."""
        ids = self.ids_of(learner)
        rows = self._rows(f"SELECT min(created) FROM learner WHERE id IN ({places_of(ids)})", ids)
        try:
            return datetime.fromisoformat(rows[0][0])
        except (ValueError, TypeError):
            return None

    def ids_of(self, learner: Learner) -> tuple[str, ...]:
        """All ids of a learner."""
        return tuple(sorted(self._together().get(learner.id, {learner.id})))

    def join(self, one: Learner, other: Learner, now: datetime, *, apart: bool = False) -> None:
        """From now on both are one child, by an adult's word; or are so no longer."""
        row = (*sorted((one.id, other.id)), now.isoformat(), apart)
        with self._writing() as database:
            database.execute("INSERT OR REPLACE INTO joined VALUES (?, ?, ?, ?)", row)

    def part(self, learner: Learner, now: datetime) -> None:
        """What was joined with a learner is so no longer: each id is a child's own."""
        ids = self.ids_of(learner)
        places = places_of(ids)
        with self._writing() as database:
            database.execute(
                f"UPDATE joined SET at = ?, apart = 1 "
                f"WHERE one IN ({places}) AND other IN ({places}) AND NOT apart",
                (now.isoformat(), *ids, *ids),
            )

    def add_learner(self, learner: Learner, settings: Settings, now: datetime) -> None:
        """A newcomer with these settings, but for what belongs to the computer alone."""
        self.add_learners((learner,), settings, now)

    def add_learners(self, some: Iterable[Learner], settings: Settings, now: datetime) -> None:
        """Newcomers with these settings, who come one after another: all of them, or nobody."""
        text = json.dumps(settings_to_learner(settings))
        with self._writing() as database:
            for number, one in enumerate(some):
                at = (now + timedelta(microseconds=number)).isoformat()
                row = (one.id, one.nickname, one.picture, text, at, at, at, at)
                database.execute(
                    "INSERT OR IGNORE INTO learner VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row
                )

    def rename(self, learner: Learner, now: datetime) -> None:
        """Keep the name and the picture that a learner has now, each with the time of its own
        change."""
        ids, at = self.ids_of(learner), now.isoformat()
        shown = next((one for one in self.learners() if one.id in ids), learner)
        with self._writing() as database:
            if learner.nickname != shown.nickname:
                row = (learner.nickname, at, learner.id)
                database.execute("UPDATE learner SET nickname = ?, named = ? WHERE id = ?", row)
            if learner.picture != shown.picture:
                row = (learner.picture, at, learner.id)
                database.execute("UPDATE learner SET picture = ?, pictured = ? WHERE id = ?", row)

    def remove_learner(self, learner: Learner, now: datetime) -> None:
        """Delete a learner and everything kept of them, also what lies beside the file; it is noted
        that they are gone, so that they are on every computer."""
        # Where a clock was put back, they are gone all the same after they were brought back.
        ids = self.ids_of(learner)
        with self._writing() as database:
            for one in ids:
                database.execute("DELETE FROM learner WHERE id = ?", (one,))
                database.execute(
                    "INSERT INTO gone (learner, at) VALUES (?, ?) "
                    "ON CONFLICT DO UPDATE SET at = max(at, excluded.at, back || '+')",
                    (one, now.isoformat()),
                )
        self.forget_beside()

    def settings(self, learner: Learner) -> Settings:
        """The learner's settings, with what belongs to the computer alone."""
        stored, computer = self._stored(learner), self.computer()
        return computer if stored is None else settings_from(stored).on(computer)

    def save_settings(self, learner: Learner, settings: Settings, now: datetime) -> None:
        """Keep the learner's settings, but for what belongs to the computer alone."""
        self._keep_with(learner, settings_to_learner(settings), now)

    def choices(self, learner: Learner, of: Chosen = Chosen.PRACTICE) -> dict[str, Any]:
        """What the learner last chose, as plain values; empty where nothing was."""
        kept = (self._stored(learner) or {}).get(of)
        return kept if isinstance(kept, dict) else {}

    def keep_choices(
        self,
        learner: Learner,
        choices: Mapping[str, Any],
        now: datetime,
        of: Chosen = Chosen.PRACTICE,
    ) -> None:
        """Keep what the learner chose, as values that JSON has."""
        self._keep_with(learner, {of: choices}, now)

    def kept_sets(self, learner: Learner) -> tuple[KeptSet, ...]:
        """The sets that a learner keeps by name, in the order in which they were kept."""
        ids = self.ids_of(learner)
        rows = self._rows(
            f"SELECT id, name, asked FROM kept_set WHERE learner IN ({places_of(ids)}) "
            "AND NOT removed ORDER BY kept, id",
            ids,
        )
        return tuple(filter(None, map(set_of, rows)))

    def keep_set(self, learner: Learner, one: KeptSet, now: datetime) -> None:
        """Keep a set as it is now, unless it was removed."""
        row = (one.id, learner.id, now.isoformat(), now.isoformat(), one.name)
        with self._writing() as database:
            database.execute(
                "INSERT INTO kept_set (id, learner, kept, changed, name, asked) "
                "VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
                "changed = excluded.changed, name = excluded.name, asked = excluded.asked "
                "WHERE NOT removed",
                (*row, json.dumps(one.asked)),
            )

    def remove_set(self, one: KeptSet, now: datetime) -> None:
        """A set goes; it is noted that it is gone, so that it is on every computer."""
        with self._writing() as database:
            database.execute(
                "UPDATE kept_set SET removed = 1, changed = ?, name = '', asked = '' WHERE id = ?",
                (now.isoformat(), one.id),
            )

    def _stored(self, learner: Learner) -> dict[str, Any] | None:
        """What is kept with a learner; None for one who is not known."""
        ids = self.ids_of(learner)
        rows = self._rows(
            f"SELECT settings FROM learner WHERE id IN ({places_of(ids)}) "
            "ORDER BY settled DESC, id LIMIT 1",
            ids,
        )
        return stored_object(rows[0][0]) if rows else None

    def _keep_with(self, learner: Learner, values: Mapping[str, Any], now: datetime) -> None:
        """Keep these values with a learner, and leave the others as they are."""
        with self._writing() as database:
            text = json.dumps({**(self._stored(learner) or {}), **values})
            database.execute(
                "UPDATE learner SET settings = ?, settled = ? WHERE id = ?",
                (text, now.isoformat(), learner.id),
            )


def _shown(id: str, rows: Sequence[tuple[str, ...]]) -> Learner:
    """A child of these rows: the name and the picture that were given last."""
    name = max(rows, key=lambda row: row[3])[1]
    return Learner(id, name, max(rows, key=lambda row: row[4])[2])


def places_of(values: Sequence[object]) -> str:
    """So many places for values in a statement."""
    return ", ".join("?" * len(values))
