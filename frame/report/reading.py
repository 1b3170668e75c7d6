"""The figures of a learner, read from the record."""

from collections.abc import Iterable, Mapping, Sequence
from contextlib import closing
from datetime import date, datetime, timedelta

from frame.course.attempts import Origin
from frame.learner.lately import done_lately
from frame.learner.learners import Learner
from frame.learner.rows import Dated
from frame.learner.settings import Settings
from frame.learner.store import Store
from frame.practice.behind import RECENT, behind
from frame.practice.ladder import LadderRules, Try
from frame.practice.own_ladder import OwnClimb, OwnLevel, levels_of
from frame.practice.rungs import Asked
from frame.report.figures import (
    Exercised,
    Fault,
    Found,
    Lessons,
    Manner,
    Report,
    Spent,
    report_of,
    seconds_at_work,
)
from frame.technique.conventions import Conventions

_TWO_WEEKS = timedelta(days=15)
"""With a day more, for the hours of the place."""
_ALOUD = {Asked.CALLED: Manner.CALLED, Asked.FLASHED: Manner.FLASHED}


def read_report(
    store: Store, learner: Learner, settings: Settings, lessons: Lessons, now: datetime
) -> Report:
    """The report at a moment, its days those of this computer's place. Raises StoreError."""
    dated = list(store.dated_tries(learner))
    logs = store.logs_since(learner, now - _TWO_WEEKS)
    spent = [Spent(day_of(at), seconds_at_work(log)) for at, log in logs]
    fault, looked_at, not_right = _fault(store, learner, settings.conventions, now)
    levels = _levels((one.one for one in dated), settings.ladder_rules)
    found = Found(lessons, fault, looked_at, not_right, levels)
    return report_of([*map(_exercised, dated)], spent, found, day_of(now))


def read_beside(
    store: Store, learner: Learner, settings: Settings, lessons: Lessons, now: datetime
) -> Report:
    """The same, read on a connection of its own, beside the window. Raises StoreError."""
    with closing(store.second()) as second:
        return read_report(second, learner, settings, lessons, now)


def day_of(at: datetime) -> date:
    """The day of a time where this computer stands; of one that no clock told, its own."""
    try:
        return at.astimezone().date()
    except (OverflowError, OSError, ValueError):
        return at.date()


def _exercised(dated: Dated) -> Exercised:
    one, manner = dated.one, _manner(dated.one)
    is_right = one.right and not (one.looks and manner is Manner.UNSEEN)
    day, is_placing = day_of(dated.at), dated.origin == Origin.PLACEMENT
    is_on_paper = dated.origin == Origin.PAPER
    return Exercised(day, one.family, manner, is_right, is_placing, is_on_paper)


def _manner(one: Try) -> Manner:
    if one.asked in _ALOUD:
        return _ALOUD[one.asked]
    if one.own:
        return Manner.SEEN
    if one.rung.is_led:
        return Manner.LED
    return Manner.UNSEEN if one.rung.is_unseen else Manner.SEEN


def _levels(tries: Iterable[Try], rules: LadderRules) -> Mapping[Manner, tuple[OwnLevel, int]]:
    """The level on a frame of the learner's own for each way of asking that was tried there."""
    own: Sequence[Try] = [one for one in tries if one.own and one.asked in _ALOUD]
    return {
        manner: (OwnClimb.of(own, asked, None, rules).level, len(levels_of(asked)))
        for asked, manner in _ALOUD.items()
        if any(one.asked is asked for one in own)
    }


def _fault(
    store: Store, learner: Learner, conventions: Conventions, now: datetime
) -> tuple[Fault | None, int, int]:
    """The fault that showed most often of late; in how many exercises it was looked for, and how
    many of those were not right."""
    now_at = now.timestamp()
    done = [one for one in done_lately(store, learner, conventions) if now_at - one.at <= RECENT]
    told = behind(done, now_at, conventions).told
    looked_at = len(done), sum(not one.is_right for one in done)
    if not told:
        return None, *looked_at
    first = told[0]
    by_beads = behind([one for one in done if one.answer is None], now_at, conventions).told
    return Fault(
        *first[:4],
        since=None if first.since is None else datetime.fromtimestamp(first.since).date(),
        in_answers=first.habit not in [one.habit for one in by_beads],
    ), *looked_at  # fmt: skip
