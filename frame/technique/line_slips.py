"""Slips of written work, of products, quotients and roots, and of numbers below zero.

Each is a guess at the digit work that a wrong bead begins: the right product on another rod, the
product of another line, a digit of the quotient before its products have left. A guess fits when
its work could begin with this very bead. One whose own first stroke it is goes before one that it
could only begin; among equals their order decides, and the first names the slip.
"""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from frame.technique.beads import BeadMove, Stroke
from frame.technique.guesses import FAR, Digits, Guess
from frame.technique.hand import Hand
from frame.technique.omissions import fault_of_line_left, fault_of_omission
from frame.technique.operation import Act, Operation
from frame.technique.plan import Freedom, Step, WorkLine
from frame.technique.progress import Progress
from frame.technique.slips import Fault, Slip

_PRODUCTS = frozenset({Act.MULTIPLY, Act.SUBTRACT, Act.SUBTRACT_HALF})
_TAKEN_FOR_A_TRIAL = frozenset({Act.SUBTRACT, Act.SUBTRACT_HALF, Act.HALVE})


def fault_of_line(
    progress: Progress, step: Step, stroke: Stroke, move: BeadMove, *, undoes: bool
) -> Fault | None:
    """The slip behind a wrong bead of a stroke, where it is one of the line; else None."""
    if progress.way is None or progress.way.freedom is Freedom.ANY_ORDER:
        return None
    act, digits = step.operation.act, Digits(progress, stroke, move)
    if progress.made and act in _PRODUCTS and _is_other_product(digits, step):
        return Fault(Slip.WRONG_PRODUCT, step, move, step.operation)
    if undoes:
        return None
    if (trial := _open_trial(progress, step)) and (act.is_trial or move.rod == trial.rod):
        return _of_trial(digits, trial)
    if act.is_mending:
        return _of_mending(digits, step)
    if progress.left_in_step != step.moves:
        return _past_half_a_digit(digits, step)
    guesses = list(_guesses(digits, step))
    return min(guesses, key=lambda guess: guess.distance).fault if guesses else None


def _open_trial(progress: Progress, step: Step) -> Step | None:
    """The step of a trial digit that may still be changed; None where there is none."""
    if step.operation.act.is_trial:
        return step
    steps = (track.line.steps[0] for track in progress.tracks)
    return next((one for one in steps if one.operation.act.is_trial), None)


def _of_trial(digits: Digits, step: Step) -> Fault | None:
    """A digit that is too large to try, or one that is tried beside its rod."""
    frame, move, line = digits.progress.frame, digits.move, step.operation
    is_next = any(move in one.moves for one in _coming_steps(digits.progress))
    if move.rod == step.rod:
        moved = frame.after_all(digits.stroke)
        tried = moved.digit(move.rod) if moved else 0
        is_above = tried > max(int(line.digits), frame.digit(move.rod))
        return _too_large(step, move, tried) if is_above else None
    beside = [
        guess
        for side in (1, -1)
        for guess in digits.guess(
            digits.any_on(step.rod + side, 1),
            Fault(Slip.QUOTIENT_ONE_ROD_OFF, step, move, line, side=side),
        )
    ]
    if behind := next(_ones_of_tens(digits, step), None):
        return behind.fault
    if is_next and (move.change < 0 or all(guess.distance for guess in beside)):
        return Fault(Slip.TOO_EARLY, step, move)
    beside = [guess for guess in beside if guess.distance < FAR]
    if beside:
        return min(beside, key=lambda guess: guess.distance).fault
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


def _of_mending(digits: Digits, step: Step) -> Fault | None:
    """Going on before a trial digit is revised, or before what goes with it; a bead on the rods of
    that very line is told otherwise."""
    progress, move, line = digits.progress, digits.move, step.operation
    if not _is_of_line(step, move):
        return fault_of_line_left(progress)
    if line.act.is_revision or progress.left_in_step != step.moves:
        return None
    sign = 1 if step.change > 0 else -1
    fits = any(digits.any_on(rod, sign) is not None for rod in (step.rod, line.rod))
    return Fault(Slip.WRONG_TOTAL, step, move, line) if fits else None


def _is_of_line(step: Step, move: BeadMove) -> bool:
    """Whether a move is at least on the rods of a step; where something is to be added back, not
    one that takes away instead."""
    takes = step.operation.act is Act.ADD_BACK and move.change < 0
    return any(one.rod == move.rod and not (takes and one.change > 0) for one in step.moves)


def _past_half_a_digit(digits: Digits, step: Step) -> Fault | None:
    """Going on to another digit while the one under way is half done."""
    progress, move = digits.progress, digits.move
    if any(one.rod == move.rod for one in step.moves):
        return None
    is_next = digits.of_steps(_coming_steps(progress)) is not None
    return fault_of_omission(progress) if is_next else None


def _guesses(digits: Digits, step: Step) -> Iterator[Guess]:
    """What the stroke may begin instead of the digit that is to be worked, the likeliest first."""
    progress, move, line = digits.progress, digits.move, step.operation
    act = line.act
    if act in _PRODUCTS:
        yield from _misplaced(digits, step)
    if act in _TAKEN_FOR_A_TRIAL:
        distance = digits.any_set_on(_trial_rod(progress, line) - 1)
        yield from digits.guess(distance, _trial_too_early(progress, step, move))
    if act is Act.MULTIPLY:
        left_out = Fault(Slip.PRODUCT_LEFT_OUT, step, move, line)
        yield from digits.guess(digits.of_steps(_clearing(progress)), left_out)
    if act in (Act.CLEAR, Act.RETURN):
        yield from digits.guess(digits.of_steps(_next_line(progress)), fault_of_line_left(progress))
    if act in _PRODUCTS:
        for coming in _lines_to_come(progress, line):
            fault = Fault(Slip.LINE_OUT_OF_ORDER, step, move, coming.operation)
            yield from digits.guess(digits.of_steps(coming.steps[:1]), fault)
    distance = digits.of_steps(_later_steps(progress))
    if distance is not None and distance < FAR:
        yield Guess(distance, Fault(Slip.TOO_EARLY, step, move))
    if act in _PRODUCTS:
        wrong = Fault(Slip.WRONG_PRODUCT, step, move, line)
        if _is_other_product(digits, step):
            yield Guess(0, wrong)
        sign = 1 if step.change > 0 else -1
        for rod in (step.rod, line.rod):
            yield from digits.guess(digits.any_on(rod, sign), wrong)
    yield from _ones_of_tens(digits, step)


def _clearing(progress: Progress) -> tuple[Step, ...]:
    """The next step that clears a digit, as a tuple of one or none."""
    lines = progress.plan.lines[progress.way.index + 1 :] if progress.way else ()
    clearing = (line.steps[:1] for line in lines if line.operation.act is Act.CLEAR)
    return next(clearing, ())


def _trial_rod(progress: Progress, line: Operation) -> int:
    """The rod of the trial digit that a line belongs to."""
    if line.of:
        return line.of[0]
    before = progress.plan.lines[: progress.way.index if progress.way else 0]
    trials = (one.operation.rod for one in reversed(before) if one.operation.act.is_trial)
    return next(trials, line.rod + 1)


def _ones_of_tens(digits: Digits, step: Step) -> Iterator[Guess]:
    """A digit put behind the product before, which has none there: 30 made 32."""
    progress = digits.progress
    index = progress.way.index if progress.way else 0
    before = progress.plan.lines[index - 1] if index else None
    if before is None or progress.made or before.operation.act not in _PRODUCTS:
        return
    line, first = before.operation, before.steps[0]
    if line.digits[1:] == "0":
        wrong = Fault(Slip.WRONG_PRODUCT, step, digits.move, line)
        sign = 1 if first.change > 0 else -1
        yield from digits.guess(digits.any_on(line.rod - 1, sign), wrong)


def _trial_too_early(progress: Progress, step: Step, move: BeadMove) -> Fault | None:
    """The next digit before what belongs to this one; of a root what was forgotten for it."""
    if step.operation.act is Act.SUBTRACT:
        return Fault(Slip.QUOTIENT_TOO_EARLY, step, move, step.operation)
    return fault_of_line_left(progress)


def _misplaced(digits: Digits, step: Step) -> Iterator[Guess]:
    """The digit of the product, one rod off; or as far off as zeros in an operand were
    overlooked."""
    line, move = step.operation, digits.move
    for off in _over_zeros(digits.progress, line):
        fault = Fault(Slip.ZERO_NOT_SKIPPED, step, move, line)
        yield from digits.guess(_beside(digits, step, off), fault)
    for side in (-1, 1):
        fault = Fault(Slip.PRODUCT_ONE_ROD_OFF, step, move, line, side=side)
        yield from digits.guess(_beside(digits, step, side), fault)


def _beside(digits: Digits, step: Step, off: int) -> int | None:
    """How well the stroke begins a step's digit some rods off; well, too, where it makes the same
    bead there, though the beads of that rod would be worked otherwise."""
    distance, move = digits.of_steps([step], off), digits.move
    straight = [m for m in step.moves if m.rod == step.rod and m.change * step.change > 0]
    is_bead = any(one.rod + off == move.rod and one.change == move.change for one in straight)
    return 0 if is_bead and distance is None else distance


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


def _lines_to_come(progress: Progress, line: Operation) -> Iterator[WorkLine]:
    """The next products after the one under way."""
    lines = progress.plan.lines
    index = progress.way.index + 1 if progress.way else len(lines)
    for coming in lines[index : index + _LINES_AHEAD]:
        is_other = coming.operation.factors != line.factors
        if coming.operation.act is line.act and is_other:
            yield coming


_LINES_AHEAD = 12
"""How many lines to come are looked through for the one that was begun too early."""


def _is_other_product(digits: Digits, step: Step) -> bool:
    """Whether the strokes of the line so far are the convention's own for another product of two
    digits in its place."""
    progress, line = digits.progress, step.operation
    start, moves = progress.frame, (*progress.made, *digits.stroke)
    for made in reversed(progress.made):
        start = start.apply(made.inverse)
    for number in _TABLE:
        if number != int(line.digits[:2]):
            hand = Hand(progress.plan.conventions, start)
            hand.work_all(line._replace(digits=f"{number:02}"), 1 if step.change > 0 else -1)
            if _follows(moves, [stroke for one in hand.steps for stroke in one.strokes]):
                return True
    return False


_TABLE = sorted({one * other for one in range(1, 10) for other in range(1, 10)})


def _follows(moves: Sequence[BeadMove], strokes: Iterable[Stroke]) -> bool:
    """Whether moves are the beginning of some strokes, those of a pinch in either order."""
    at = 0
    for stroke in strokes:
        made = moves[at : at + len(stroke)]
        at += len(stroke)
        if len(made) < len(stroke):
            return set(made) <= set(stroke)
        if set(made) != set(stroke):
            return False
    return at >= len(moves)


def _coming_steps(progress: Progress) -> tuple[Step, ...]:
    """The next digit of the line under way and the first of the next line."""
    return (*_later_steps(progress)[:1], *_next_line(progress))


def _later_steps(progress: Progress) -> tuple[Step, ...]:
    """The digits of the line under way after the one to be worked."""
    way = progress.way
    later = way.steps[way.step_of[progress.at] + 1 :] if way else ()
    return tuple([one for one in later if one.operation.act not in (Act.BORROW, Act.RETURN)])


def _next_line(progress: Progress) -> tuple[Step, ...]:
    """The first digit of the line to come, as a tuple of one or none."""
    coming = progress.coming
    return coming.steps[:1] if coming else ()
