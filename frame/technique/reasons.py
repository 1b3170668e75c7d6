"""Why a step is done: what decides a line of written work, where its digits stand, how a number
below zero is read."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from frame.technique.beads import Frame
from frame.technique.conventions import First, Operands, Outer
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Step
from frame.technique.reading import read


class Why(StrEnum):
    """What kind of reason it is."""

    LINE = "line"
    """What the line of work itself tells: 48 is more than 27, so 6 becomes 5."""
    FAR = "far"
    """The first digit of a quotient goes two rods left of the dividend, which holds the divisor in
    as many digits (Rule I; Kojima, through later authors)."""
    NEAR = "near"
    """It goes one rod left of the dividend, which does not (Rule II)."""
    DECIMALS = "decimals"
    ONES = "ones"
    PRODUCT_PLACE = "product-place"
    OVERWRITTEN = "overwritten"
    BORROWED = "borrowed"
    OUTGROWN = "outgrown"
    READS_BELOW = "reads-below"


class Reason(NamedTuple):
    """A reason, with the line that it is of and the figures that it tells."""

    why: Why
    line: Operation
    numbers: tuple[Decimal, ...] = ()


_TOLD = frozenset(
    {
        Act.QUOTIENT, Act.ROOT, Act.REVISE_DOWN, Act.ADD_BACK, Act.REVISE_UP, Act.TAKE_AGAIN,
        Act.HALVE, Act.SUBTRACT_HALF, Act.ROUND,
    }
)  # fmt: skip
"""The lines whose own sentence tells more than their digits."""


def reasons_of(plan: Plan) -> tuple[tuple[Reason, ...], ...]:
    """For each step of a plan its reasons, those of a line with its first step."""
    found, frame = [], plan.start
    for at, step in enumerate(plan.steps):
        after = frame.apply_all(step.moves)
        is_first = at == 0 or plan.steps[at - 1].operation != step.operation
        reasons = list(_of_line(plan, at, frame)) if is_first else []
        reasons += _of_reading(plan.steps[at : at + 2], after)
        found.append(tuple(reasons))
        frame = after
    return tuple(found)


def _of_line(plan: Plan, at: int, frame: Frame) -> Iterator[Reason]:
    """The reasons of a line, on the frame before it."""
    step, line = plan.steps[at], plan.steps[at].operation
    if line.place:
        yield of_place(line)
    is_digit = line.act.is_trial and line.rod < 0
    if is_digit and not any(one.operation.act.is_trial and one.rod < 0 for one in plan.steps[:at]):
        yield Reason(Why.DECIMALS, line)
    if line.act is Act.MULTIPLY and not _has_product(plan.steps[:at]):
        if _has_decimals(plan):
            yield Reason(Why.ONES, line, (Decimal(frame.units + 1),))
        if line.of:
            yield from _of_product(plan, line)
    if line.act is Act.CLEAR and _overwrites(plan):
        yield Reason(Why.OVERWRITTEN, line)
    if line.act is Act.BORROW:
        yield _of_borrow(step)
    if line.act in _TOLD:
        yield Reason(Why.LINE, line)


def _has_product(steps: Sequence[Step]) -> bool:
    return any(step.operation.act is Act.MULTIPLY for step in steps)


def _has_decimals(plan: Plan) -> bool:
    """Whether a product's digits reach below the unit rod."""
    return any(step.rod < 0 for step in plan.steps if step.operation.act is Act.MULTIPLY)


def _overwrites(plan: Plan) -> bool:
    """Whether the last product of a digit goes in its place."""
    ours = plan.conventions
    return ours.first is First.LOWEST and ours.layout is not Operands.NONE


def _of_product(plan: Plan, line: Operation) -> Iterator[Reason]:
    """Where the first product lies, in the layouts with a digit beside it."""
    if plan.conventions.first is First.HIGHEST:
        is_multiplier = plan.conventions.outer is Outer.MULTIPLIER
        one, other = map(Decimal, line.factors)
        yield Reason(Why.PRODUCT_PLACE, line, (one, other, other if is_multiplier else one))


def of_place(line: Operation) -> Reason:
    """Why the first digit of a quotient stands where it does: its line compares the divisor with as
    many digits of the dividend."""
    leading, divisor = line.place
    return Reason(Why.FAR if leading >= divisor else Why.NEAR, line, line.place)


def _of_borrow(step: Step) -> Reason:
    """A 1 borrowed beyond the number, or a larger one where the number outgrows it: the rod whose
    1 was borrowed before, and those above it, then show 9."""
    if not step.moves:
        return Reason(Why.BORROWED, step.operation)
    return Reason(Why.OUTGROWN, step.operation, (Decimal(10) ** step.moves[-1].rod,))


def _of_reading(steps: Sequence[Step], frame: Frame) -> Iterator[Reason]:
    """How what stands at the end of a number below zero is read; of the steps from there on the
    first two count."""
    step, following = steps[0], steps[1:2]
    ends = not following or following[0].operation.row != step.operation.row
    if ends and step.owed is not None and step.span is None:
        owed, shown = Decimal(10) ** step.owed, read(frame)
        if shown < owed:
            yield Reason(Why.READS_BELOW, step.operation, (shown, owed - shown, owed))
