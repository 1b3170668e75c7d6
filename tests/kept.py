"""Learners, sittings and attempts put into a store."""

from dataclasses import replace
from datetime import UTC, datetime

from frame.learner.settings import Age
from frame.learner.store import Learner, new_id

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)


def added(store, nickname, picture="otter", age=Age.MIDDLE, now=NOW):
    """A newcomer, as the computer is set."""
    learner = Learner.new(nickname, picture)
    store.add_learner(learner, replace(store.computer(), age=age), now)
    return learner


def begun(store, learner, now=NOW):
    """The id of a new sitting."""
    sitting = new_id()
    store.begin_sitting(sitting, learner, now)
    return sitting


def timed(*attempts):
    """Attempts with ids, each with its seconds."""
    return [(new_id(), attempt, seconds) for attempt, seconds in attempts]
