"""Attempts and flashed runs as rows of their tables, and back."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from frame.course.attempts import Attempt, Origin
    from frame.practice.ladder import Try
    from frame.practice.log import Log


class Record(NamedTuple):
    """An attempt to be kept: its id, which no other has on any computer, its number within the
    sitting, and where it came from."""

    id: str
    number: int
    attempt: "Attempt"
    origin: "Origin"


ATTEMPT_COLUMNS = (
    "number, lesson, exercise, kind, rung, rods, facts, is_right, unaided, helps, slips, seconds, "
    "looks, outcome, asked, pace, own, digits, terms, origin, is_ended, answers, log"
)


def attempt_row(record: Record) -> tuple[object, ...]:
    """The ATTEMPT_COLUMNS of an attempt."""
    # As below: nothing is attempted before the first picture.
    from frame.learner.packing import pack
    from frame.learner.sizes import size_of

    attempt, exercise = record.attempt, record.attempt.exercise
    answers = json.dumps([str(one) for one in attempt.answers])
    return (
        record.number, attempt.lesson, str(exercise), exercise.kind.value, exercise.rung.value,
        exercise.rods, json.dumps(sorted(exercise.facts)), attempt.right, attempt.unaided,
        attempt.helps, json.dumps(attempt.slips), attempt.seconds, attempt.looks,
        attempt.outcome.value if attempt.ended else None, exercise.asked.value, exercise.pace,
        exercise.own, *size_of(exercise.sum), record.origin.value, attempt.ended,
        answers, pack(attempt.log) if attempt.log else None,
    )  # fmt: skip


TRY_COLUMNS = (
    "rung, rods, facts, is_right AND unaided, looks, seconds, asked, own, digits, terms, pace"
)


def try_of(row: Sequence[Any]) -> "Try | None":
    """The try that TRY_COLUMNS tell of; None where they hold what this version does not know."""
    # The store is opened before the first picture, and tries are read much later.
    from frame.practice.families import family_of
    from frame.practice.ladder import Try
    from frame.practice.rungs import Asked, Rung

    rung, rods, facts, right, looks, seconds, asked, own, *size_and_pace = row
    if not all(isinstance(one, int | float) for one in (rods, looks, seconds, *size_and_pace)):
        return None
    try:
        known = frozenset(json.loads(facts))
        return Try(
            family_of(known), rods, Rung(rung), bool(right), looks, seconds, known,
            Asked(asked), bool(own), *size_and_pace,
        )  # fmt: skip
    except (ValueError, TypeError):
        return None


class Past(NamedTuple):
    """An attempt as it is read again: when it was written and in which sitting, what was asked and
    how, and how it went."""

    at: str
    sitting: str
    number: int
    lesson: str
    exercise: str
    rung: str
    asked: str
    own: bool
    facts: frozenset[str]
    right: bool
    unaided: bool
    slips: tuple[str, ...]
    answers: tuple[str, ...]
    log: "Log"
    origin: str
    ended: bool


PAST_COLUMNS = (
    "attempt.at, sitting.id, number, lesson, exercise, rung, asked, own, facts, is_right, unaided, "
    "slips, answers, log, origin, is_ended"
)


def past_of(row: Sequence[Any]) -> Past | None:
    """The attempt that PAST_COLUMNS tell of; None where they hold what no version wrote."""
    # As above: nothing of it is read before the first picture.
    from frame.learner.packing import unpack

    at, sitting, number, lesson, exercise, rung, asked, own, facts, right, unaided, *rest = row
    slips, answers, log, origin, ended = rest
    try:
        return Past(
            at, sitting, number, lesson, exercise, rung, asked, bool(own),
            frozenset(json.loads(facts)), bool(right), bool(unaided), tuple(json.loads(slips)),
            tuple(json.loads(answers)), unpack(log or b""), origin, bool(ended),
        )  # fmt: skip
    except (ValueError, TypeError):
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class FlashRow:
    """One run of flashed numbers: what was asked for, and what the screen really did.

    `interval` is in seconds, `refresh` in pictures a second (None where the screen has none that
    is steady), what ends in `_ms` in milliseconds. `items` holds, for each number, when it was to
    be seen and when it was, in milliseconds, None for one never seen. `missed` counts numbers
    that came too late or not at all; `stopped` tells that somebody ended the run, `counts` that
    the run was as it should be, so that its answer counts.
    """

    digits: int
    count: int
    interval: float
    minus: bool
    path: str
    refresh: float | None
    sd_ms: float
    worst_ms: float
    drift_ms: float
    missed: int
    stopped: bool
    counts: bool
    items: tuple[tuple[float, float | None], ...]


FLASH_COLUMNS = (
    "digits, count, interval, minus, path, refresh, sd_ms, worst_ms, drift_ms, missed, stopped, "
    "counts, items"
)


def flash_columns(run: FlashRow) -> tuple[object, ...]:
    """The FLASH_COLUMNS of a run."""
    return (
        run.digits, run.count, run.interval, run.minus, run.path, run.refresh, run.sd_ms,
        run.worst_ms, run.drift_ms, run.missed, run.stopped, run.counts, json.dumps(run.items),
    )  # fmt: skip


def flash_of(row: Sequence[Any]) -> FlashRow | None:
    """The run that FLASH_COLUMNS tell of, the inverse of `flash_columns`; None where they hold what
    no version wrote."""
    run = dict(zip(FLASH_COLUMNS.split(", "), row, strict=True))
    run |= {name: bool(run[name]) for name in ("minus", "stopped", "counts")}
    try:
        run["items"] = tuple((asked, seen) for asked, seen in json.loads(run["items"]))
    except (ValueError, TypeError):
        return None
    return FlashRow(**run)
