"""Slips of commission: a wrong bead, seen when it moves.

Each is a question about the digit under way. Signatures collide, so the questions have an order and
the first that fits names the slip; some slips answer two questions. The rows of the truth table of
slips show the order, for questions that can fit together. Where none fits, nothing is said of the
bead but what stands and what comes next.
"""

from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from frame.technique.beads import BeadMove, Stroke, covers
from frame.technique.intents import begins
from frame.technique.line_slips import fault_of_line
from frame.technique.omissions import fault_of_omission
from frame.technique.plan import Freedom, Step, Technique
from frame.technique.progress import Progress
from frame.technique.slips import Fault, Slip, is_partner, same_deck, same_way


class Case(NamedTuple):
    """A wrong move in its situation: what is left of the step under way when it is made, whether
    the beads allow it, and the right move just before it, if that belongs to the same line."""

    progress: Progress
    step: Step
    left: Stroke
    move: BeadMove
    is_possible: bool
    last: BeadMove | None


def fault_of_move(
    progress: Progress, stroke: Stroke, move: BeadMove, last: BeadMove | None
) -> Fault:
    """The slip behind a wrong move of a stroke; `last` is the right move just before, if any."""
    step, is_possible = progress.step, progress.frame.can(move)
    if not progress.frame.has(move.rod):
        return Fault(Slip.WRONG_ROD, step, move, detail="none")
    if step is None:
        return Fault(Slip.EXTRA_MOVE if is_possible else Slip.COUNTED_PAST, step, move)
    case = Case(progress, step, progress.left_in_step, move, is_possible, last)
    if fault := fault_of_line(progress, step, stroke, move, undoes=_undoes(case)):
        return fault
    if _begins_next_number(case) and (omission := fault_of_omission(progress)):
        return omission
    is_of_step = any([one.rod == move.rod for one in step.moves])
    for slip, fits in _ON_RODS_OF_STEP if is_of_step else _ELSEWHERE:
        if fits(case):
            return _told(slip, case)
    if _begins_next_number(case) and any(covers(one, move) for one in _to_come(progress)):
        return Fault(Slip.TOO_EARLY, step, move)
    return Fault(_slip_of_none(case), step, move)


def _slip_of_none(case: Case) -> Slip:
    """No question fits: the beads stay where they are if the line moves none of them; else it is
    only said what stands there."""
    is_to_move = any(same_deck(one, case.move) for one in case.progress.left_in_line)
    return Slip.NOT_ASKED if is_to_move or not case.is_possible else Slip.EXTRA_MOVE


def _told(slip: Slip, case: Case) -> Fault:
    """The slip with what its sentence tells."""
    step, move = case.step, case.move
    if slip is Slip.WRONG_COUNT:
        beads = next(one.beads for one in case.left if same_way(one, move))
        return Fault(slip, step, move, numbers=(Decimal(beads),))
    if slip is Slip.INNER_FIVE_MISSED:
        waits = any(one.is_heaven and one.rod == step.rod for one in case.left)
        return Fault(slip, step, move, detail="" if waits else "five")
    if slip is Slip.WRONG_ROD and (digit := _digit_beside(case)):
        return Fault(slip, digit, move, numbers=(Decimal(digit.digit),), detail="digit")
    if slip is Slip.EXTRA_MOVE:
        is_to_move = any(same_deck(one, move) for one in case.progress.left_in_line)
        return Fault(slip, step, move, detail="taken" if is_to_move else "")
    return Fault(slip, step, move)


def _is_number_itself(case: Case) -> bool:
    """Whether the digit was begun straight on its rod, though the beads there can't make it."""
    step, move = case.step, case.move
    if move.rod != step.rod or step.technique is Technique.DIRECT or case.left != step.moves:
        return False
    is_straight = not move.is_heaven and move.change * step.change > 0
    return is_straight and move.beads <= step.digit % 5


def _tries_straight(case: Case) -> bool:
    """The number itself, on its rod, where there are no beads for it or too few."""
    itself = not case.is_possible and case.move == (case.step.rod, case.step.change)
    return itself or _is_number_itself(case)


def _too_early(case: Case) -> bool:
    """A move of this line or of the next, but its beads are not there yet."""
    return not case.is_possible and any(covers(one, case.move) for one in _to_come(case.progress))


def _to_come(progress: Progress) -> Stroke:
    """The moves that are to come: of the line under way, and of the line after it."""
    coming = progress.coming
    later = tuple([m for stroke in coming.strokes for m in stroke]) if coming else ()
    return progress.left_in_line + later


def _begins_next_number(case: Case) -> bool:
    """Whether the bead begins a digit of the number after this one, and is none that the digit
    under way still needs or that is taken back."""
    coming, move = case.progress.coming, case.move
    if coming is None or not coming.operation.act.is_of_column:
        return False
    is_needed = any(same_way(one, move) for one in case.left)
    if is_needed or (case.last is not None and move == case.last.inverse):
        return False
    steps = [step for step in coming.steps if step.technique is not Technique.BORROW]
    if coming.freedom is not Freedom.ANY_ORDER:
        steps = steps[:1]
    digits = [(step.rod, step.change) for step in steps]
    return begins(digits, case.progress.frame, move)


def _undoes(case: Case) -> bool:
    """The move takes back the last right move, or one of the step under way."""
    move = case.move
    if case.last is not None and move == case.last.inverse:
        return True
    against = [m for m in case.step.moves if same_deck(m, move) and m.change * move.change < 0]
    return case.is_possible and any(m not in case.left for m in against)


def _misses_inner_five(case: Case) -> bool:
    """The partner of ten needs the partner of five, and was tried without it."""
    move = case.move
    if case.step.technique is not Technique.TEN_FIVE or move.rod != case.step.rod:
        return False
    inner = next((m for m in case.left if same_deck(m, move)), None)
    if move.is_heaven or inner is None or inner not in case.step.moves:
        return False
    straight = move.change * inner.change < 0 and move.beads != inner.beads
    return straight or (move.change * inner.change > 0 and move.beads == 5 - inner.beads)


def _takes_wrong_partner(case: Case) -> bool:
    """The number itself was taken for its partner of five or of ten."""
    step, move = case.step, case.move
    if move.is_heaven:
        return _takes_number_for_partner(case)
    return any(
        same_way(m, move) and move.beads == 5 - m.beads and is_partner(step, m) for m in case.left
    )


def _takes_number_for_partner(case: Case) -> bool:
    """With 6 to 9 worked through ten, the heaven bead goes only when the number itself is taken."""
    step, move = case.step, case.move
    through_ten = step.technique is Technique.TEN and step.digit > 5
    is_partner_left = any(one.rod == step.rod for one in case.left)
    is_against = move.rod == step.rod and move.change * step.change < 0
    return through_ten and is_partner_left and is_against


def _counts_wrong(case: Case) -> bool:
    """The right beads on the right rod, but too many."""
    return any(same_way(m, case.move) for m in case.left)


def _goes_wrong_way(case: Case) -> bool:
    """The right number of beads on the right rod, the other way."""
    return case.move.inverse in case.left


def _counts_past(case: Case) -> bool:
    """More beads than are there."""
    return not case.is_possible


def _on_wrong_rod(case: Case) -> bool:
    """A right move of this step, or a digit of this line, on another rod."""
    is_move = any(m.change == case.move.change and m.rod != case.move.rod for m in case.left)
    return is_move or _digit_beside(case) is not None


def _digit_beside(case: Case) -> Step | None:
    """The digit that the bead begins one rod beside its own."""
    frame, move = case.progress.frame, case.move
    for step in _digits_left(case.progress):
        is_beside = abs(step.rod - move.rod) == 1
        if is_beside and begins([(move.rod, step.change)], frame, move):
            return step
    return None


def _digits_left(progress: Progress) -> list[Step]:
    """The digits of a number that are still to be worked, but the one under way where it is
    begun."""
    way, step = progress.way, progress.step
    if way is None or step is None or way.freedom is not Freedom.ANY_ORDER:
        return []
    is_begun = progress.left_in_step != step.moves
    return list(way.steps[way.step_of[progress.at] + is_begun :])


def _in_wrong_deck(case: Case) -> bool:
    """The right rod, but the other deck."""
    move, here = case.move, [m for m in case.progress.next_stroke if m.rod == case.move.rod]
    return any(not same_deck(m, move) for m in here) and not any(same_deck(m, move) for m in here)


_Commission = Callable[[Case], bool]
_ON_RODS_OF_STEP: tuple[tuple[Slip, _Commission], ...] = (
    (Slip.COUNTED_PAST, _tries_straight),
    (Slip.TOO_EARLY, _too_early),
    (Slip.EXTRA_MOVE, _undoes),
    (Slip.INNER_FIVE_MISSED, _misses_inner_five),
    (Slip.WRONG_PARTNER, _takes_wrong_partner),
    (Slip.WRONG_COUNT, _counts_wrong),
    (Slip.WRONG_WAY, _goes_wrong_way),
    (Slip.COUNTED_PAST, _counts_past),
    (Slip.WRONG_ROD, _on_wrong_rod),
    (Slip.WRONG_DECK, _in_wrong_deck),
)
_ELSEWHERE: tuple[tuple[Slip, _Commission], ...] = (
    (Slip.TOO_EARLY, _too_early),
    (Slip.EXTRA_MOVE, _undoes),
    (Slip.WRONG_ROD, _on_wrong_rod),
    (Slip.COUNTED_PAST, _counts_past),
)
