"""Slips of products, quotients and roots: digits on the wrong rods, and trials not revised.

Each is a question about the line of work under way when a wrong move is made.
"""

from frame.technique.beads import BeadMove
from frame.technique.omissions import slip_of_line_left
from frame.technique.operation import Act, Operation
from frame.technique.plan import Progress, Step
from frame.technique.slips import Slip

_PRODUCTS = frozenset({Act.MULTIPLY, Act.SUBTRACT, Act.SUBTRACT_HALF, Act.TAKE_AGAIN})


def slip_of_place(progress: Progress, step: Step, move: BeadMove) -> Slip | None:
    """The slip behind a wrong move, where it is one of place or of revision; else None."""
    act = step.operation.act
    if act.is_trial:
        is_beside = abs(move.rod - step.rod) == 1 and move.change > 0
        return Slip.QUOTIENT_ONE_ROD_OFF if is_beside else None
    if slip := slip_of_line_left(progress):
        return None if _is_of_line(step, move) else slip
    return _of_product(progress, step, move) if act in _PRODUCTS else None


def _is_of_line(step: Step, move: BeadMove) -> bool:
    """Whether a move is at least on the rods of a step; where something is to be added back, not
    one that takes away instead."""
    takes = step.operation.act is Act.ADD_BACK and move.change < 0
    return any(one.rod == move.rod and not (takes and one.change > 0) for one in step.moves)


def _of_product(progress: Progress, step: Step, move: BeadMove) -> Slip | None:
    """A digit of the product, one rod off; or as far off as zeros in an operand were overlooked."""
    off = {move.rod - one.rod for one in progress.left_in_step if one.change == move.change}
    if off & set(_over_zeros(progress, step.operation)):
        return Slip.ZERO_NOT_SKIPPED
    return Slip.PRODUCT_ONE_ROD_OFF if off & {1, -1} else None


def _over_zeros(progress: Progress, operation: Operation) -> range:
    """How far off a product comes when the zeros just before one of its factors are overlooked:
    those of the multiplier or divisor leave it too far left, those of the multiplicand too far
    right."""
    before = _product_before(progress, operation)
    if before is None:
        return range(0)
    if before.of[:1] == operation.of[:1]:
        return range(1, before.rod - operation.rod)
    if operation.act is Act.MULTIPLY and operation.of:
        return range(before.of[0] - operation.of[0] + 1, 0)
    return range(0)


def _product_before(progress: Progress, operation: Operation) -> Operation | None:
    """The product worked before the one under way."""
    steps = progress.plan.steps[: progress.step_index]
    lines = (step.operation for step in reversed(steps) if step.operation != operation)
    return next((line for line in lines if line.act is operation.act), None)
