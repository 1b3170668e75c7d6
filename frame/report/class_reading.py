"""A class, read from the record: what each child needs, for the page of a class and for groups."""

from collections import Counter
from collections.abc import Iterable
from contextlib import closing
from datetime import date, datetime, timedelta
from typing import NamedTuple

from frame.course.attempts import Origin
from frame.learner.due import due_items
from frame.learner.lately import done_lately
from frame.learner.learners import Learner
from frame.learner.settings import Settings
from frame.learner.store import Store
from frame.practice.behind import RECENT, Told, behind
from frame.practice.figures import FAMILY_OF
from frame.practice.grouping import Child
from frame.practice.needs import Pupil, Week
from frame.practice.suspects import NAMED
from frame.practice.tally import Tally
from frame.report.figures import seconds_at_work
from frame.report.reading import day_of
from frame.technique.habits import Habit

_WEEK = timedelta(days=7)
_WEIGHT = 1.0


class Seen(NamedTuple):
    """A learner of a class, as its page and as its groups see them, and how often each fault
    showed that is told."""

    learner: Learner
    pupil: Pupil
    child: Child
    told: tuple[Told, ...] = ()


class Mark(NamedTuple):
    """By what it is told whether what was read of a learner is so still: how much is kept of them,
    when the last of it was done, by which settings it was read, and on which day."""

    attempts: int
    last: datetime | None
    settings: Settings
    day: date


def mark_of(store: Store, learner: Learner, now: datetime) -> Mark:
    """The mark of what is kept of a learner now; nothing is folded for it. Raises StoreError."""
    attempts, last = store.worked(store.ids_of(learner))
    return Mark(attempts, last, store.settings(learner), day_of(now))


def class_of(store: Store, learners: Iterable[Learner], now: datetime) -> tuple[Seen, ...]:
    """What some learners need at a moment. Raises StoreError."""
    return tuple(seen_of(store, one, now) for one in learners)


def seen_beside(store: Store, learner: Learner, now: datetime) -> Seen:
    """What one needs, read on a connection of its own, beside the window. Raises StoreError."""
    with closing(store.second()) as second:
        return seen_of(second, learner, now)


def seen_of(store: Store, learner: Learner, now: datetime) -> Seen:
    """What one learner needs at a moment. Raises StoreError."""
    due, (faults, told) = due_items(store, learner, now), _faults(store, learner, now)
    families = Counter(FAMILY_OF[item] for item in due)
    pupil = Pupil(learner.id, learner.nickname, families, faults, _week(store, learner, now))
    return Seen(learner, pupil, Child(learner.id, dict.fromkeys(due, _WEIGHT), faults), told)


def _faults(
    store: Store, learner: Learner, now: datetime
) -> tuple[dict[Habit, float], tuple[Told, ...]]:
    """How likely each fault is, by answers as they weigh it, and by beads where they tell of it;
    and what is told of them."""
    conventions, at = store.settings(learner).conventions, now.timestamp()
    done = [one for one in done_lately(store, learner, conventions) if at - one.at <= RECENT]
    found = behind(done, at, conventions)
    chances = {habit: found.weighed.chance(habit) for habit in Habit}
    for told in found.told:
        chances[told.habit] = max(chances[told.habit], NAMED)
    return chances, found.told


def _week(store: Store, learner: Learner, now: datetime) -> Week:
    since, tally, on_paper = now - _WEEK, Tally(), 0
    spent = [(at, seconds_at_work(log)) for at, log in store.logs_since(learner, since)]
    spent = [(at, seconds) for at, seconds in spent if at <= now and seconds]
    for dated in store.dated_tries(learner):
        if since <= dated.at <= now and not dated.one.rung.is_led:
            tally = tally.plus(dated.one.right)
            on_paper += dated.origin == Origin.PAPER
    days = {day_of(at) for at, _ in spent}
    return Week(sum(seconds for _, seconds in spent) / 60, tally, len(days), on_paper)
