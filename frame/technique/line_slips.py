"""Slips of written work, of products, quotients and roots, and of numbers below zero.

Each is a guess at the digit work that a wrong bead begins: the right product on another rod, the
product of another line, a digit of the quotient before its products have left. A guess fits when
its work could begin with this very bead. They have an order, and the first that fits names the
slip.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from frame.technique.beads import BeadMove
from frame.technique.intents import begins
from frame.technique.omissions import fault_of_line_left, fault_of_omission
from frame.technique.operation import Act, Operation
from frame.technique.plan import Freedom, Step
from frame.technique.progress import Progress
from frame.technique.slips import Fault, Slip

_PRODUCTS = frozenset({Act.MULTIPLY, Act.SUBTRACT, Act.SUBTRACT_HALF})
_TAKEN_FOR_A_TRIAL = frozenset({Act.SUBTRACT, Act.SUBTRACT_HALF, Act.HALVE})


def fault_of_line(
    progress: Progress, step: Step, move: BeadMove, *, undoes: bool
) -> Fault | None:
    """The slip behind a wrong bead, where it is one of the line under way; else None."""
    if progress.way is None or progress.way.freedom is Freedom.ANY_ORDER or undoes:
        return None
    act = step.operation.act
    if act.is_trial:
        return _of_trial(progress, step, move)
    if act.is_mending:
        return _of_mending(progress, step, move)
    if progress.left_in_step != step.moves:
        return _past_half_a_digit(progress, step, move)
    for fault in _guesses(progress, step, move):
        return fault
    return None


def _of_trial(progress: Progress, step: Step, move: BeadMove) -> Fault | None:
    """A digit that is too large to try, or one that is tried beside its rod."""
    frame, line = progress.frame, step.operation
    if move.rod == step.rod:
        tried = frame.digit(move.rod) + move.change
        is_above = frame.can(move) and move.change > 0 and tried > int(line.digits)
        return _too_large(step, move, tried) if is_above else None
    side = move.rod - step.rod
    if side in (1, -1) and move.change > 0:
        return Fault(Slip.QUOTIENT_ONE_ROD_OFF, step, move, line, side=side)
    is_next = any(move in one.moves for one in _coming_steps(progress))
    return Fault(Slip.TOO_EARLY, step, move) if is_next else None


def _too_large(step: Step, move: BeadMove, tried: int) -> Fault | None:
    """A trial that its first product shows to be too large: 6 x 1 is 6, more than 5."""
    why, trial = step.operation.why, Decimal(tried)
    if not why:
        return None
    factor = trial if len(why) == 1 else why[1]
    numbers = (trial, factor, trial * factor, why[0])
    is_more = trial * factor > why[0]
    return Fault(Slip.TRIAL_TOO_LARGE, step, move, step.operation, numbers) if is_more else None


def _of_mending(progress: Progress, step: Step, move: BeadMove) -> Fault | None:
    """Going on before a trial digit is revised, or before what goes with it; a bead on the rods of
    that very line is told otherwise."""
    if _is_of_line(step, move):
        return _wrong_total(progress, step, move)
    return fault_of_line_left(progress)


def _is_of_line(step: Step, move: BeadMove) -> bool:
    """Whether a move is at least on the rods of a step; where something is to be added back, not
    one that takes away instead."""
    takes = step.operation.act is Act.ADD_BACK and move.change < 0
    return any(one.rod == move.rod and not (takes and one.change > 0) for one in step.moves)


def _wrong_total(progress: Progress, step: Step, move: BeadMove) -> Fault | None:
    """Another digit than that which is to come back, or to go once more."""
    if step.operation.act.is_revision or progress.left_in_step != step.moves:
        return None
    return _other_digit(progress, step, move, Slip.WRONG_TOTAL)


def _past_half_a_digit(progress: Progress, step: Step, move: BeadMove) -> Fault | None:
    """Going on to another digit while the one under way is half done."""
    if any(one.rod == move.rod for one in step.moves):
        return None
    is_next = _begins(progress, _coming_steps(progress), move)
    return fault_of_omission(progress) if is_next else None


def _guesses(progress: Progress, step: Step, move: BeadMove) -> Iterator[Fault]:
    """What the bead may begin instead of the digit that is to be worked."""
    line, act = step.operation, step.operation.act
    if act in _PRODUCTS:
        yield from _misplaced(progress, step, move)
    if act in _TAKEN_FOR_A_TRIAL and _begins_trial(progress, line, move):
        left = fault_of_line_left(progress)
        is_of_root = act in (Act.HALVE, Act.SUBTRACT_HALF)
        early = Fault(Slip.QUOTIENT_TOO_EARLY, step, move, line)
        yield left if is_of_root and left is not None else early
    if act in (Act.CLEAR, Act.RETURN) and _begins(progress, _next_line(progress), move):
        left = fault_of_line_left(progress)
        yield from (left,) if left is not None else ()
    if act in _PRODUCTS:
        if other := _other_line(progress, line, move):
            yield Fault(Slip.LINE_OUT_OF_ORDER, step, move, other)
    later = progress.way.steps[1:] if progress.way else ()
    if _begins(progress, later, move):
        yield Fault(Slip.TOO_EARLY, step, move)
    if act in _PRODUCTS and (wrong := _other_digit(progress, step, move, Slip.WRONG_PRODUCT)):
        yield wrong


def _misplaced(progress: Progress, step: Step, move: BeadMove) -> Iterator[Fault]:
    """The digit of the product, one rod off; or as far off as zeros in an operand were
    overlooked."""
    line = step.operation
    if any(_begins_beside(progress, step, move, off) for off in _over_zeros(progress, line)):
        yield Fault(Slip.ZERO_NOT_SKIPPED, step, move, line)
    for side in (-1, 1):
        if _begins_beside(progress, step, move, side):
            yield Fault(Slip.PRODUCT_ONE_ROD_OFF, step, move, line, side=side)


def _begins_beside(progress: Progress, step: Step, move: BeadMove, off: int) -> bool:
    """Whether a bead begins a digit some rods off, or is one of its beads there."""
    is_bead = any(one.rod + off == move.rod and one.change == move.change for one in step.moves)
    return is_bead or begins([(step.rod + off, step.change)], progress.frame, move)


def _over_zeros(progress: Progress, operation: Operation) -> range:
    """How far off a product comes when the zeros just before one of its factors are overlooked:
    those of the multiplier or divisor leave it too far left, those of the multiplicand too far
    right."""
    before = _product_before(progress, operation)
    if before is None:
        return range(0)
    if before.of[:1] == operation.of[:1] and before.row == operation.row:
        return range(1, before.rod - operation.rod)
    if operation.act is Act.MULTIPLY and operation.of and before.of:
        return range(before.of[0] - operation.of[0] + 1, 0)
    return range(0)


def _product_before(progress: Progress, operation: Operation) -> Operation | None:
    """The product worked before the one under way."""
    index = progress.way.index if progress.way else 0
    before = progress.plan.lines[index - 1].operation if index else None
    if before is not None and before.act is Act.CLEAR and index > 1:
        before = progress.plan.lines[index - 2].operation
    return before if before is not None and before.act is operation.act else None


def _begins_trial(progress: Progress, line: Operation, move: BeadMove) -> bool:
    """Whether a bead sets a digit on the rod of the trial after this one."""
    trial = line.of[0] if line.of else line.rod + 1
    return move.rod == trial - 1 and move.change > 0


def _other_line(progress: Progress, line: Operation, move: BeadMove) -> Operation | None:
    """The product of a line to come, of the digit under way or of the next, that the bead begins."""
    lines = progress.plan.lines
    index = progress.way.index + 1 if progress.way else len(lines)
    for coming in lines[index : index + _LINES_AHEAD]:
        if coming.operation.act is line.act and _begins(progress, coming.steps[:1], move):
            return coming.operation
    return None


_LINES_AHEAD = 12
"""How many lines to come are looked through for the one that was begun too early."""


def _other_digit(progress: Progress, step: Step, move: BeadMove, slip: Slip) -> Fault | None:
    """Another digit on the rod of the one to be worked, or on the first rod of its line."""
    sign = 1 if step.change > 0 else -1
    others = [(rod, sign * digit) for rod in (step.rod, step.operation.rod) for digit in range(1, 10)]
    fits = any(begins([digit], progress.frame, move) for digit in others)
    return Fault(slip, step, move, step.operation) if fits else None


def _coming_steps(progress: Progress) -> tuple[Step, ...]:
    """The next digit of the line under way and the first of the next line."""
    way, step = progress.way, progress.step
    if way is None or step is None:
        return ()
    after = way.step_of[progress.at] + 1
    return (*way.steps[after : after + 1], *_next_line(progress))


def _next_line(progress: Progress) -> tuple[Step, ...]:
    """The first digit of the line to come, as a tuple of one or none."""
    coming = progress.coming
    return coming.steps[:1] if coming else ()


def _begins(progress: Progress, steps: Iterable[Step], move: BeadMove) -> bool:
    """Whether a bead begins the digit of one of some steps."""
    digits = [(step.rod, step.change) for step in steps]
    return any(begins([digit], progress.frame, move) for digit in digits)
