"""Attempts, flashed runs and tappings as rows of their tables, and back."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from math import inf
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from frame.course.attempts import Attempt, Origin
    from frame.practice.ladder import Try
    from frame.practice.log import Log
    from frame.practice.observed import Observed
    from frame.practice.pace import Tapping


class Place(NamedTuple):
    """Where an attempt has its place among all: its time as it is written, its sitting, and its
    number there."""

    at: str
    sitting: str
    number: int


class Record(NamedTuple):
    """An attempt to be kept: its id, which no other has on any computer, its number within the
    sitting, and where it came from."""

    id: str
    number: int
    attempt: "Attempt"
    origin: "Origin"


ATTEMPT_COLUMNS = (
    "number, lesson, exercise, kind, rung, rods, facts, is_right, unaided, helps, slips, seconds, "
    "looks, outcome, asked, pace, own, digits, terms, origin, is_ended, answers, log, "
    "places"
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
        answers, pack(attempt.log) if attempt.log else None, exercise.sum.places,
    )  # fmt: skip


TRY_COLUMNS = (
    "attempt.at, sitting.id, number, is_ended, rung, rods, facts, is_right AND unaided, looks, "
    "seconds, asked, own, digits, terms, pace"
)


def try_of(row: Sequence[Any]) -> "tuple[Place, Try | None]":
    """The try that TRY_COLUMNS tell of, at its place; None for one that was left, or where they
    hold what this version does not know."""
    at, sitting, number, is_ended, *columns = row
    return Place(at, sitting, number), _try_of(columns) if is_ended else None


def _try_of(row: Sequence[Any]) -> "Try | None":
    # The store is opened before the first picture, and tries are read much later.
    from frame.practice.families import family_of
    from frame.practice.ladder import Try
    from frame.practice.rungs import Asked, Rung

    rung, rods, facts, right, looks, seconds, asked, own, *size_and_pace = row
    if not all(isinstance(one, int | float) for one in (rods, looks, seconds, *size_and_pace)):
        return None
    try:
        known = frozenset(_texts(facts))
        return Try(
            family_of(known), rods, Rung(rung), bool(right), looks, seconds, known,
            Asked(asked), bool(own), *size_and_pace,
        )  # fmt: skip
    except (ValueError, TypeError):
        return None


def _texts(column: Any) -> tuple[str, ...]:
    """What a column holds several of. Raises ValueError or TypeError for what no version wrote."""
    some = json.loads(column)
    if not isinstance(some, list) or not all(isinstance(one, str) for one in some):
        raise ValueError(column)
    return tuple(some)


NOT_NOTED = -1


class Past(NamedTuple):
    """An attempt as it is read again: when it was written, in which sitting and as which there,
    what was asked and how, and how it went. `answers` are the numbers given, in order; to so many
    `places` the result was to be rounded, None where it was not, NOT_NOTED where nobody knows."""

    at: str
    sitting: str
    number: int
    id: str
    lesson: str
    exercise: str
    kind: str
    rung: str
    asked: str
    origin: str
    outcome: str | None
    rods: int
    helps: int
    looks: int
    digits: int
    terms: int
    seconds: float
    pace: float
    own: bool
    right: bool
    unaided: bool
    ended: bool
    places: int | None
    facts: frozenset[str]
    slips: tuple[str, ...]
    answers: tuple[str, ...]
    log: "Log"

    @property
    def decimals(self) -> int | None:
        """The places, as far as they are known."""
        return None if self.places == NOT_NOTED else self.places


PAST_COLUMNS = (
    "attempt.at, sitting.id, number, attempt.id, lesson, exercise, kind, rung, asked, origin, "
    "outcome, rods, helps, looks, digits, terms, seconds, pace, own, is_right, unaided, is_ended, "
    "places, facts, slips, answers, log"
)


def past_of(row: Sequence[Any]) -> Past | None:
    """The attempt that PAST_COLUMNS tell of; None where they hold what no version wrote."""
    # As above: nothing of it is read before the first picture.
    from frame.learner.packing import unpack
    from frame.technique.calculation import MOST_DECIMALS

    texts, outcome, amounts, flags = row[3:10], row[10], row[11:18], row[18:22]
    places, facts, slips, answers, log = row[22:]
    if not (
        _is_place(Place(*row[:3]))
        and all(isinstance(one, str) for one in texts)
        and isinstance(outcome, str | None)
        and all(map(_is_amount, amounts))
        and (places is None or places in range(NOT_NOTED, MOST_DECIMALS + 1))
    ):
        return None
    try:
        lists = frozenset(_texts(facts)), _texts(slips), _texts(answers)
        return Past._make((*row[:18], *map(bool, flags), places, *lists, unpack(log or b"")))
    except (ValueError, TypeError):
        return None


def _is_amount(value: object) -> bool:
    """Whether it counts or measures something."""
    return isinstance(value, int | float) and 0 <= value < inf


def try_of_attempt(attempt: "Attempt") -> "Try":
    """The same try as is read of an attempt that was kept."""
    from frame.learner.sizes import size_of
    from frame.practice.families import family_of
    from frame.practice.ladder import Try

    exercise, facts = attempt.exercise, attempt.exercise.facts
    return Try(
        family_of(facts), exercise.rods, exercise.rung, attempt.right and attempt.unaided,
        attempt.looks, attempt.seconds, facts, exercise.asked, exercise.own,
        *size_of(exercise.sum), exercise.pace,
    )  # fmt: skip


class Dated(NamedTuple):
    """A try, when it was kept, and where it came from."""

    at: datetime
    one: "Try"
    origin: str


DATED_COLUMNS = f"{TRY_COLUMNS}, origin"


def dated_of(row: Sequence[Any]) -> Dated | None:
    """The try that DATED_COLUMNS tell of; None where TRY_COLUMNS give none, or no time."""
    *columns, origin = row
    place, one = try_of(columns)
    if one is None or not _is_place(place):
        return None
    return Dated(datetime.fromisoformat(place.at), one, origin)


def dated_log_of(row: Sequence[Any]) -> "tuple[datetime, Log] | None":
    """The log of an attempt with its time; None where no version wrote them."""
    # As above: nothing of it is read before the first picture.
    from frame.learner.packing import unpack

    at, log = row
    try:
        return datetime.fromisoformat(at), unpack(log or b"")
    except (ValueError, TypeError):
        return None


class Told(NamedTuple):
    """What one attempt tells, at its place among all: of the ladder, None where it moves nobody;
    and of the items that it asked for."""

    place: Place
    of_ladder: "Try | None"
    of_items: "Observed | None"


TOLD_COLUMNS = f"{TRY_COLUMNS}, origin, log"


def told_of_row(row: Sequence[Any]) -> Told | None:
    """What the attempt tells that TOLD_COLUMNS hold; None where its place is one that no version
    wrote."""
    # As above: nothing is folded before somebody was greeted.
    from frame.course.attempts import OFF_LADDER

    *columns, origin, log = row
    place, one = try_of(columns)
    if not _is_place(place):
        return None
    _, _, _, is_ended, rung, _, facts, right, _, _, asked, own, *_ = columns
    observed = _observed(place, (rung, facts, right, asked, own, is_ended), log)
    return Told(place, None if origin in OFF_LADDER else one, observed)


def _is_place(place: Place) -> bool:
    try:
        moment = datetime.fromisoformat(place.at)
        is_time = moment.tzinfo is not None and bool(moment.astimezone(UTC))
    except (ValueError, TypeError, OverflowError):
        return False
    return is_time and isinstance(place.sitting, str) and isinstance(place.number, int)


def _observed(place: Place, row: Sequence[Any], log: bytes | None) -> "Observed | None":
    from frame.learner.packing import unpack
    from frame.practice.observed import Observed
    from frame.practice.rungs import Asked, Rung

    rung, facts, right, asked, own, is_ended = row
    try:
        return Observed(
            datetime.fromisoformat(place.at).timestamp(), place.sitting, unpack(log or b""),
            frozenset(_texts(facts)), bool(right), Rung(rung).is_led,
            asked == Asked.SHOWN and not own, bool(is_ended),
        )  # fmt: skip
    except (ValueError, TypeError):
        return None


def told_of_attempt(attempt: "Attempt", origin: "Origin", place: Place) -> Told:
    """The same of an attempt that was made just now."""
    from frame.course.attempts import OFF_LADDER
    from frame.practice.log import Log
    from frame.practice.observed import Observed
    from frame.practice.rungs import Asked

    exercise = attempt.exercise
    is_on_ladder = attempt.ended and origin not in OFF_LADDER
    observed = Observed(
        datetime.fromisoformat(place.at).timestamp(), place.sitting, attempt.log or Log(),
        exercise.facts, attempt.right and attempt.unaided, exercise.rung.is_led,
        exercise.asked is Asked.SHOWN and not exercise.own, attempt.ended,
    )  # fmt: skip
    return Told(place, try_of_attempt(attempt) if is_on_ladder else None, observed)


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


def tapping_of(row: Sequence[Any]) -> "Tapping | None":
    """The tapping of its time and its pace; None where they are what no version wrote."""
    # As above: nothing of it is read before somebody was greeted.
    from frame.practice.pace import PAUSE, Tapping

    at, pace = row
    try:
        is_pace = pace is None or 0 < pace <= PAUSE
        return Tapping(datetime.fromisoformat(at).timestamp(), pace) if is_pace else None
    except (ValueError, TypeError):
        return None
