"""Exercises: one thing asked of the learner, and the plan by which it is worked."""

from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from functools import cached_property, lru_cache

from frame.practice.rungs import Asked, Rung
from frame.technique.addition import plan_set
from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions
from frame.technique.expression import Calculation, Sum
from frame.technique.facts import calculation_facts, number_facts
from frame.technique.operation import Act
from frame.technique.places import frame_for
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.reading import read
from frame.technique.trials import with_first_trial


class Kind(StrEnum):
    """What an exercise asks."""

    READ = "read"
    SET = "set"
    CLEAR = "clear"
    SUM = "sum"


@dataclass(frozen=True)
class Exercise:
    """One thing asked of the learner, at one rung of the ladder.

    `sum` is a sum in the wide sense: a column, a product, a quotient or a root; for READ, SET and
    CLEAR it is a column of one number. `last` is how many strokes the learner makes
    at the rung `finish`; the tool makes those before. `pace` is, in seconds, the gap between
    called numbers, or how long a flashed number takes. With `by_place` numbers are called place
    by place. With `own` the learner works on a frame of their own, and only the answer is taken.
    `trial` is the digit that is tried first, 0 for the one of the technique; a learner who works
    alone finds it tried, and its products taken.
    """

    kind: Kind
    sum: Calculation
    rung: Rung = Rung.ALONE
    rods: int = 1
    last: int = 1
    asked: Asked = Asked.SHOWN
    pace: float = 0.0
    by_place: bool = False
    own: bool = False
    trial: int = 0

    def __str__(self) -> str:
        return str(self.sum)

    def at(self, rung: Rung) -> "Exercise":
        """The same exercise at another rung."""
        return replace(self, rung=rung)

    @property
    def number(self) -> Decimal:
        """The number that is read, set or cleared; of a sum the first one."""
        return self.sum.numbers[0]

    @property
    def read_frame(self) -> Frame:
        """The frame that reads the number. Raises NumberError when it does not fit the rods."""
        return frame_for(self.number, self.rods)

    @property
    def by_answer(self) -> bool:
        """Whether the answer alone is asked for: beads may be moved, or not."""
        elsewhere = self.own or self.asked is not Asked.SHOWN
        return self.kind is Kind.SUM and (elsewhere or self.rung is Rung.NUMBER)

    @property
    def is_silent(self) -> bool:
        """Whether every bead stays, right or wrong, and nothing is said of it until the end."""
        return self.by_answer or (self.rung.is_told_at_end and self.kind is not Kind.READ)

    @property
    def is_answered(self) -> bool:
        """Whether the learner gives a number at the end."""
        covered_sum = self.kind is Kind.SUM and self.rung is Rung.COVERED
        asks = self.asks_reading or self.asks_rest
        return self.kind is Kind.READ or self.by_answer or covered_sum or asks

    @property
    def asks_reading(self) -> bool:
        """Whether the frame must be read when the work is done, since it does not show the answer
        as it stands: below zero a column shows what is missing to the borrowed 1, and a product or
        a quotient shows no sign."""
        is_column = isinstance(self.sum, Sum)
        is_signed = not is_column and any(number < 0 for number in self.sum.numbers)
        is_below = is_column and self.sum.result < 0
        return self.kind is Kind.SUM and (is_below or is_signed) and not self.rung.is_led

    @property
    def asks_rest(self) -> bool:
        """Whether what a quotient or a root leaves over is asked for, after its answer: where the
        learner works alone."""
        return self.kind is Kind.SUM and bool(self.sum.remainder) and not self.rung.is_led

    @property
    def shows_start(self) -> bool:
        """Whether the frame shows numbers before the learner begins: the first of a column, or
        the operands where the learner would not see, and so not find, the rods to set them on."""
        is_found_set = self.rung.is_unseen and not isinstance(self.sum, Sum)
        is_begun = self.kind is Kind.SUM and (self.rung.is_led or is_found_set)
        return self.kind in (Kind.READ, Kind.CLEAR) or is_begun

    @property
    def is_tried(self) -> bool:
        """Whether a first digit is found tried, to be made larger."""
        return bool(self.trial) and not self.rung.is_led and self.rung is not Rung.FINISH

    @cached_property
    def facts(self) -> frozenset[str]:
        """What a learner must know to do it. Raises NumberError when it does not fit the rods."""
        return _facts(self.kind, self.sum, self.rods, self.trial)


@lru_cache(maxsize=2048)
def _facts(kind: Kind, calculation: Calculation, rods: int, trial: int) -> frozenset[str]:
    """Kept for exercises of late, since many are drawn that are alike."""
    if kind is not Kind.SUM:
        number = read(frame_for(calculation.numbers[0], rods))
        return frozenset({"clear"}) if kind is Kind.CLEAR else number_facts(kind, number)
    plan = plan_of(calculation, USUAL, rods)
    if trial:
        plan = with_first_trial(plan, trial) or plan
    return calculation_facts(calculation, plan)


def plan_for(exercise: Exercise, conventions: Conventions) -> Plan | None:
    """The plan of what the learner moves in an exercise; None where nothing moves.

    Raises NumberError when the work does not fit the rods.
    """
    number = exercise.number
    match exercise.kind:
        case Kind.READ:
            return None
        case Kind.SET:
            cleared = Frame.cleared(exercise.rods, exercise.read_frame.units)
            return plan_set(cleared, number, conventions)
        case Kind.CLEAR:
            return plan_set(exercise.read_frame, Decimal(0), conventions)
    plan = plan_of(exercise.sum, conventions, exercise.rods)
    if exercise.trial:
        plan = with_first_trial(plan, exercise.trial) or plan
    if exercise.is_tried and (at := _revision(plan)):
        return plan.begin_at(at)
    return plan.begin_at(_shown_steps(plan)) if exercise.shows_start else plan


def _revision(plan: Plan) -> int | None:
    """The first step that makes a trial digit larger."""
    acts = [step.operation.act for step in plan.steps]
    return acts.index(Act.REVISE_UP) if Act.REVISE_UP in acts else None


def _shown_steps(plan: Plan) -> int:
    """How many steps set the first number of a column, or the operands."""
    steps = plan.steps
    is_set = [one.operation.act.is_of_column and not one.operation.row for one in steps]
    return is_set.index(False) if False in is_set else len(steps)
