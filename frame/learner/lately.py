"""What a learner did lately, as far as it can tell what is behind it: answers of which no bead was
seen, and slips of beads."""

from collections.abc import Iterable
from contextlib import closing
from datetime import datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from frame.course.attempts import Attempt
from frame.learner.answered import calculation_of
from frame.learner.rows import Past
from frame.practice.behind import MOST, Done, behind
from frame.practice.log import Entry, Happening, Log
from frame.practice.rungs import Rung
from frame.technique.calculation import Calculation
from frame.technique.conventions import Conventions
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError

if TYPE_CHECKING:
    from frame.learner.learners import Learner
    from frame.learner.store import Store


def done_lately(store: "Store", learner: "Learner", conventions: Conventions) -> list[Done]:
    """What is kept of the last exercises, oldest first. Raises StoreError."""
    return list(filter(None, (done_of(one, conventions) for one in store.lately(learner, MOST))))


def lately_beside(store: "Store", learner: "Learner", conventions: Conventions) -> list[Done]:
    """The same, read on a connection of its own, beside the window; and weighed there once, so that
    what takes long of that is done. Raises StoreError."""
    with closing(store.second()) as second:
        done = done_lately(second, learner, conventions)
    behind(done, done[-1].at if done else 0.0, conventions)
    return done


def done_of(past: Past, conventions: Conventions) -> Done | None:
    """What one exercise tells; None where it was left, the hand was led, or nothing was worked."""
    calculation = calculation_of(past)
    if calculation is None or not past.ended:
        return None
    try:
        if Rung(past.rung).is_led:
            return None
        answers = tuple(Decimal(one) for one in past.answers)
        at = datetime.fromisoformat(past.at).timestamp()
    except (ArithmeticError, ValueError):
        return None
    return _done(at, calculation, answers, past.log, conventions)


def done_of_attempt(attempt: Attempt, at: float, conventions: Conventions) -> Done | None:
    """The same of an attempt that was made just now."""
    if not attempt.ended or attempt.exercise.rung.is_led:
        return None
    return _done(at, attempt.exercise.sum, attempt.answers, attempt.log or Log(), conventions)


def _done(
    at: float,
    calculation: Calculation,
    answers: tuple[Decimal, ...],
    log: Log,
    conventions: Conventions,
) -> Done | None:
    """Where no bead was moved the answer tells, also where some could have been, unseen."""
    strokes = [one for one in log.entries if one.what is Happening.STROKE]
    if len(calculation.numbers) < 2:
        return None
    if not strokes:
        return Done(at, calculation, answers[0]) if answers else None
    slips = [one for one in strokes if one.slip]
    rods = _rods(calculation, conventions) if slips else ()
    return Done(at, calculation, None, tuple(_with_rods(slips, rods)))


def _rods(calculation: Calculation, conventions: Conventions) -> tuple[int, ...]:
    """The rod of each step of the work."""
    try:
        return tuple(step.rod for step in plan_of(calculation, conventions).steps)
    except NumberError:
        return ()


def _with_rods(slips: Iterable[Entry], rods: tuple[int, ...]) -> Iterable[tuple[str, int]]:
    for one in slips:
        is_by_plan = one.step is not None and one.step < len(rods)
        yield one.slip, rods[one.step or 0] if is_by_plan else one.stroke[0].rod
