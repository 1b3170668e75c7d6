"""How the file is laid out, and how one of an earlier version becomes one of this."""

import sqlite3

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

_STEPS = (_FIRST, _SECOND)
"""Each makes the next version of the one before; an empty file is version 0."""

SCHEMA = len(_STEPS)
"""The version that this code reads and writes."""


def version_of(database: sqlite3.Connection) -> int:
    """The version of the file."""
    version: int = database.execute("PRAGMA user_version").fetchone()[0]
    return version


def bring_up_to_date(database: sqlite3.Connection) -> None:
    """Bring a file of an earlier version to this one, in one transaction."""
    steps = _STEPS[version_of(database) :]
    if steps:
        database.executescript(f"BEGIN; {''.join(steps)} PRAGMA user_version = {SCHEMA}; COMMIT;")
