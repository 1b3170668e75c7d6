"""How the file is laid out, and how one of an earlier version becomes one of this."""

import json
import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing
from functools import cache
from itertools import chain
from typing import NamedTuple

from frame.learner.settings import Settings, settings_from, settings_to, stored_object

_FIRST = """
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

# What had no name before was so: numbers shown, on the frame of the screen. How an attempt ended
# was not told, and stays unknown.
_SECOND = """
ALTER TABLE attempt ADD COLUMN looks INTEGER NOT NULL DEFAULT 0;
ALTER TABLE attempt ADD COLUMN outcome TEXT;
ALTER TABLE attempt ADD COLUMN asked TEXT NOT NULL DEFAULT 'shown';
ALTER TABLE attempt ADD COLUMN pace REAL NOT NULL DEFAULT 0;
ALTER TABLE attempt ADD COLUMN own INTEGER NOT NULL DEFAULT 0;
CREATE TABLE flash_run (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, digits INTEGER NOT NULL, count INTEGER NOT NULL,
    interval REAL NOT NULL, minus INTEGER NOT NULL, path TEXT NOT NULL, refresh REAL,
    sd_ms REAL NOT NULL, worst_ms REAL NOT NULL, drift_ms REAL NOT NULL, missed INTEGER NOT NULL,
    stopped INTEGER NOT NULL, counts INTEGER NOT NULL, items TEXT NOT NULL);
CREATE INDEX flash_run_by_sitting ON flash_run (sitting);
"""

# Until then no lesson was done that was not passed unaided.
_THIRD = """
CREATE TABLE computer (name TEXT PRIMARY KEY, value TEXT NOT NULL);
ALTER TABLE attempt ADD COLUMN digits INTEGER NOT NULL DEFAULT 0;
ALTER TABLE attempt ADD COLUMN terms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE lesson ADD COLUMN mastered TEXT;
UPDATE lesson SET mastered = done;
"""

# Before, attempts stood in the order of their rows, and nobody noted when anything changed: what
# has no time is older than all that has one.
_FOURTH = """
ALTER TABLE learner ADD COLUMN named TEXT NOT NULL DEFAULT '';
ALTER TABLE learner ADD COLUMN pictured TEXT NOT NULL DEFAULT '';
ALTER TABLE learner ADD COLUMN settled TEXT NOT NULL DEFAULT '';
UPDATE learner SET named = created, pictured = created, settled = created;
ALTER TABLE lesson ADD COLUMN changed TEXT NOT NULL DEFAULT '';
UPDATE lesson SET changed = coalesce(done, '');
ALTER TABLE lesson ADD COLUMN placed INTEGER NOT NULL DEFAULT 0;
ALTER TABLE lesson ADD COLUMN placed_at TEXT NOT NULL DEFAULT '';
ALTER TABLE sitting ADD COLUMN conventions TEXT;
ALTER TABLE sitting ADD COLUMN window TEXT;
ALTER TABLE sitting ADD COLUMN input TEXT;
ALTER TABLE sitting ADD COLUMN judge INTEGER;
ALTER TABLE attempt ADD COLUMN number INTEGER NOT NULL DEFAULT 0;
ALTER TABLE attempt ADD COLUMN origin TEXT NOT NULL DEFAULT '';
ALTER TABLE attempt ADD COLUMN is_ended INTEGER NOT NULL DEFAULT 1;
ALTER TABLE attempt ADD COLUMN answers TEXT NOT NULL DEFAULT '[]';
ALTER TABLE attempt ADD COLUMN log BLOB;
UPDATE attempt SET number = earlier.number FROM (SELECT id, row_number() OVER
    (PARTITION BY sitting ORDER BY rowid) AS number FROM attempt) AS earlier
    WHERE earlier.id = attempt.id;
UPDATE attempt SET origin = 'set' WHERE lesson LIKE 'practise-%';
CREATE TABLE tapping (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, pace REAL);
CREATE INDEX tapping_by_sitting ON tapping (sitting);
CREATE TABLE gone (learner TEXT PRIMARY KEY, at TEXT NOT NULL, back TEXT NOT NULL DEFAULT '');
CREATE TABLE joined (one TEXT NOT NULL, other TEXT NOT NULL, at TEXT NOT NULL,
    apart INTEGER NOT NULL DEFAULT 0, PRIMARY KEY (one, other));
CREATE TABLE kept_set (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, kept TEXT NOT NULL, removed INTEGER NOT NULL DEFAULT 0, changed TEXT NOT NULL,
    name TEXT NOT NULL, asked TEXT NOT NULL);
CREATE TABLE folded (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, what TEXT NOT NULL,
    value TEXT NOT NULL, PRIMARY KEY (learner, what));
"""

# To how many decimals a result was to be rounded nobody noted before.
_FIFTH = """
ALTER TABLE attempt ADD COLUMN places INTEGER DEFAULT -1;
"""

# Before, nobody kept that a paper was one, and nothing was given to do.
_SIXTH = """
CREATE TABLE paper (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, code TEXT NOT NULL, marks INTEGER NOT NULL, most INTEGER NOT NULL,
    seconds REAL NOT NULL, paused REAL NOT NULL, pauses INTEGER NOT NULL,
    on_screen INTEGER NOT NULL);
CREATE INDEX paper_by_sitting ON paper (sitting);
CREATE TABLE assigned (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, given TEXT NOT NULL, removed INTEGER NOT NULL DEFAULT 0, changed TEXT NOT NULL,
    work TEXT NOT NULL, text TEXT NOT NULL, done TEXT NOT NULL DEFAULT '');
"""

_MOVED = (
    ("classroom", "screen_diagonal", "screen_shape", "nearest_seat", "farthest_seat"),
    ("quick_flash",),
)
"""What was each learner's before version 3; what stands together is moved together."""


def _first(database: sqlite3.Connection) -> None:
    _run(database, _FIRST)


def _second(database: sqlite3.Connection) -> None:
    _run(database, _SECOND)


def _third(database: sqlite3.Connection) -> None:
    _run(database, _THIRD)
    _move_to_computer(database)
    _measure_attempts(database)


def _fourth(database: sqlite3.Connection) -> None:
    _run(database, _FOURTH)


def _fifth(database: sqlite3.Connection) -> None:
    _run(database, _FIFTH)


def _sixth(database: sqlite3.Connection) -> None:
    _run(database, _SIXTH)


def _run(database: sqlite3.Connection, script: str) -> None:
    """Unlike `executescript`, within the transaction under way."""
    for statement in script.split(";"):
        database.execute(statement)


def _move_to_computer(database: sqlite3.Connection) -> None:
    """The computer gets what it has now from the first learner who had it changed."""
    rows = database.execute("SELECT settings, id FROM learner ORDER BY rowid").fetchall()
    stored = [(stored_object(text), learner) for text, learner in rows]
    moved: dict[str, object] = {}
    for names in _MOVED:
        moved |= next(filter(None, (_changed(one, names) for one, _ in stored)), {})
    if moved:
        database.execute("INSERT INTO computer VALUES ('settings', ?)", (json.dumps(moved),))
    gone = set(chain.from_iterable(_MOVED))
    for one, learner in stored:
        if one:
            left = json.dumps({name: one[name] for name in one if name not in gone})
            database.execute("UPDATE learner SET settings = ? WHERE id = ?", (left, learner))


def _changed(stored: Mapping[str, object], names: tuple[str, ...]) -> dict[str, object]:
    """The settings of these names, where any of them is not the usual one."""
    own, usual = settings_to(settings_from(stored)), settings_to(Settings())
    is_changed = any(own[name] != usual[name] for name in names)
    return {name: own[name] for name in names} if is_changed else {}


def _measure_attempts(database: sqlite3.Connection) -> None:
    """Old attempts get the size of the exercise that they tell of."""
    # Only a file of an earlier version needs it.
    from frame.learner.sizes import size_of_text

    rows = database.execute("SELECT exercise, rowid FROM attempt").fetchall()
    database.executemany(
        "UPDATE attempt SET digits = ?, terms = ? WHERE rowid = ?",
        [(*size_of_text(text), row) for text, row in rows],
    )


_STEPS: tuple[Callable[[sqlite3.Connection], None], ...] = (
    _first,
    _second,
    _third,
    _fourth,
    _fifth,
    _sixth,
)
"""Each makes the next version of the one before; an empty file is version 0."""

SCHEMA = len(_STEPS)
"""The version that this code reads and writes."""


def version_of(database: sqlite3.Connection) -> int:
    """The version of the file."""
    version: int = database.execute("PRAGMA user_version").fetchone()[0]
    return version


def bring_up_to_date(database: sqlite3.Connection) -> None:
    """Bring a file of an earlier version to this one, in one transaction."""
    if version_of(database) == SCHEMA:
        return
    with database:
        # Another window may be at it already.
        database.execute("BEGIN IMMEDIATE")
        build(database, SCHEMA)


def build(database: sqlite3.Connection, version: int) -> None:
    """Within a transaction, bring a file of an earlier version, or an empty one, to this one."""
    for number in range(version_of(database), version):
        _STEPS[number](database)
        database.execute(f"PRAGMA user_version = {number + 1}")


class Column(NamedTuple):
    """A column of a table: its name, the kind of its values, and whether each row needs one."""

    name: str
    kind: str
    is_needed: bool


_COLUMNS = (
    "SELECT one.name, its.name, its.type, its.[notnull] FROM sqlite_master AS one "
    "JOIN pragma_table_info(one.name) AS its WHERE one.type = 'table' ORDER BY one.name, its.cid"
)

Columns = Mapping[str, tuple[Column, ...]]
"""The columns of each table."""


def columns_of(database: sqlite3.Connection) -> Columns:
    """The columns of the tables that a file has of those it should."""
    found: dict[str, list[Column]] = {table: [] for table in TABLES}
    for table, name, kind, needed in database.execute(_COLUMNS):
        if table in found:
            found[table].append(Column(name, kind, bool(needed)))
    return {table: tuple(columns) for table, columns in found.items()}


TABLES = (
    *("computer", "learner", "sitting", "attempt", "lesson", "flash_run", "tapping", "gone"),
    *("joined", "kept_set", "paper", "assigned"),
)
"""What is kept, in an order in which each refers only to those before it. What is `folded` from it
can be made anew."""


@cache
def tables_of(owner: str) -> tuple[str, ...]:
    """The tables of which each row belongs to one of `owner`, which is `learner` or `sitting`."""
    with closing(sqlite3.connect(":memory:")) as database:
        build(database, SCHEMA)
        owners = {table: database.execute(f"PRAGMA foreign_key_list({table})") for table in TABLES}
        return tuple(table for table, rows in owners.items() if owner in {row[2] for row in rows})


@cache
def _columns_of_version(version: int) -> Columns:
    with closing(sqlite3.connect(":memory:")) as database:
        build(database, version)
        return columns_of(database)


def has_all_columns(database: sqlite3.Connection) -> bool:
    """Whether a file of this version is laid out as it should be."""
    return columns_of(database) == _columns_of_version(SCHEMA)


def version_by_columns(found: Columns) -> int:
    """The version that a damaged file is of: the latest of whose columns it has any that the
    version before had not."""
    for version in range(SCHEMA, 1, -1):
        before = _columns_of_version(version - 1)
        now = _columns_of_version(version)
        if any(set(found.get(t, ())) & (set(now[t]) - set(before[t])) for t in TABLES):
            return version
    return 1
