"""Learners, sittings and attempts put into a store."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory

from frame.course.attempts import Origin
from frame.learner.learners import Learner, new_id
from frame.learner.rows import Record
from frame.learner.settings import Age
from frame.learner.sitting import Circumstances
from frame.learner.store import Store
from frame.practice.log import Entry, Happening, Log
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
AROUND = Circumstances(USUAL, (1280, 720), judge=1)
COME = count()
NUMBERS = count(1)


@cache
def begun_file():
    """The bytes of a file with nobody in it, begun once for all tests."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "learners.sqlite"
        Store(path).close()
        return path.read_bytes()


def store_in(folder):
    """The store of a folder, begun where there is none."""
    path = folder / "learners.sqlite"
    if not path.exists():
        folder.mkdir(parents=True, exist_ok=True)
        path.write_bytes(begun_file())
    return Store(path)


def added(store, nickname, picture="otter", age=Age.MIDDLE, now=NOW):
    """A newcomer, as the computer is set, who comes after those before."""
    learner = Learner.new(nickname, picture)
    settings = replace(store.computer(), age=age)
    store.add_learner(learner, settings, now + timedelta(microseconds=next(COME)))
    return learner


def two_otters_and_a_seal(store, now=NOW):
    """Three newcomers, two of whom have one name."""
    come = (("Otter", "otter"), ("Seal", "seal"), ("Otter", "gull"))
    return [added(store, name, picture, now=now) for name, picture in come]


def begun(store, learner, now=NOW):
    """The id of a new sitting."""
    sitting = new_id()
    store.begin_sitting(sitting, learner, AROUND, now)
    return sitting


def timed(*attempts):
    """Attempts to be recorded, each with its seconds, in the order given."""
    return [
        Record(new_id(), next(NUMBERS), replace(attempt, log=lasting(seconds)), Origin.SET)
        for attempt, seconds in attempts
    ]


def tried_by_three(store, attempt, now=NOW):
    """Two otters and a seal, each of whom did this three times."""
    for learner in two_otters_and_a_seal(store, now):
        tried = timed(*[(attempt, 1.0)] * 3)
        store.record(begun(store, learner), tried, learner, attempt.lesson, None, now)


def lasting(seconds):
    """A log of one stroke, done after so many seconds."""
    moved = Entry(Happening.STROKE, min(500, round(1000 * seconds)), (BeadMove(0, 1),), kept=True)
    return Log(entries=(moved, Entry(Happening.DONE, round(1000 * seconds))))
