"""What an attempt of the past was asked and answered, as far as its row tells."""

from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from frame.language.written import written_out
from frame.learner.rows import NOT_NOTED, Past
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.technique.calculation import Calculation, Product, Sum
from frame.technique.expression import ExpressionError, parse_calculation
from frame.technique.reading import plain


class Answered(NamedTuple):
    """The exercise as it is printed, what is `right`, and the `rest` that a quotient or a root
    leaves over, each None where nobody can tell; and what was `given` in the end, first the answer
    and then the rest where there is one."""

    printed: str
    right: Decimal | None = None
    rest: Decimal | None = None
    given: tuple[str, ...] = ()


def answered(past: Past) -> Answered:
    """What an attempt was asked and answered."""
    try:
        printed = written_out(parse_calculation(past.exercise))
        kind, rung, asked = Kind(past.kind), Rung(past.rung), Asked(past.asked)
    except (ExpressionError, ValueError):
        return Answered(past.exercise)
    calculation = calculation_of(past)
    if calculation is None:
        return Answered(printed, given=past.answers[-1:] if past.ended else ())
    exercise = Exercise(kind, calculation, rung, asked=asked, own=past.own)
    right = Decimal(0) if exercise.kind is Kind.CLEAR else calculation.result
    rest = calculation.remainder
    return Answered(printed, right, rest, _given(past, exercise, right) if past.ended else ())


def calculation_of(past: Past) -> Calculation | None:
    """What was to be worked; None where nobody can tell."""
    try:
        calculation = parse_calculation(past.exercise)
    except ExpressionError:
        return None
    if past.places == NOT_NOTED:
        return calculation if _is_whole(calculation, past.facts) else None
    if past.places is None:
        return calculation
    return None if isinstance(calculation, Sum) else replace(calculation, places=past.places)


def _is_whole(calculation: Calculation, facts: frozenset[str]) -> bool:
    """Whether the text of an attempt is the whole exercise where its row holds no places. That a
    result was rounded the facts tell, unless it was cut off before a 0."""
    after = plain(calculation.result).partition(".")[2]
    may_be_cut = not isinstance(calculation, Sum | Product) and "0" in after
    is_exact = "round" not in facts and ("remainder" in facts) == bool(calculation.remainder)
    return is_exact and not may_be_cut


def _given(past: Past, exercise: Exercise, right: Decimal) -> tuple[str, ...]:
    """What was given in the end. Where each bead and answer is judged at once, what is left over is
    asked for only when the answer is there, on the beads or as a number."""
    if not exercise.sum.remainder or not past.answers:
        return past.answers[-1:]
    return past.answers[-2:] if exercise.is_silent else (plain(right), past.answers[-1])
