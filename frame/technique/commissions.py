"""Slips of commission: a wrong bead, seen when it moves.

Each is a question about the step under way. Signatures collide, so the questions have an order
and the first that fits names the slip; some slips answer two questions.
"""

from collections.abc import Callable
from typing import NamedTuple

from frame.technique.beads import BeadMove, Stroke
from frame.technique.misplaced import slip_of_place
from frame.technique.omissions import slip_of_omission
from frame.technique.plan import Progress, Step, Technique
from frame.technique.slips import Slip, is_partner, same_deck


class Case(NamedTuple):
    """A wrong move in its situation: what is left of the step under way when it is made, whether
    the beads allow it, and the right move just before it, if that belongs to the same number."""

    progress: Progress
    step: Step
    left: Stroke
    move: BeadMove
    is_possible: bool
    last: BeadMove | None


def slip_of_move(progress: Progress, move: BeadMove, last: BeadMove | None) -> Slip:
    """The slip behind a wrong move; `last` is the right move made just before, if any."""
    step, is_possible = progress.step, progress.frame.can(move)
    if step is None:
        return _slip_after_all(progress, move, is_possible)
    if misplaced := slip_of_place(progress, step, move):
        return misplaced
    case = Case(progress, step, progress.left_in_step, move, is_possible, last)
    is_of_step = any([m.rod == move.rod for m in step.moves])
    for slip, fits in _ON_RODS_OF_STEP if is_of_step else _ELSEWHERE:
        if fits(case):
            return slip
    return slip_of_omission(progress) or Slip.EXTRA_MOVE


def _slip_after_all(progress: Progress, move: BeadMove, is_possible: bool) -> Slip:
    """When all is done, every move is one too many."""
    if not progress.frame.has(move.rod):
        return Slip.WRONG_ROD
    return Slip.EXTRA_MOVE if is_possible else Slip.COUNTED_PAST


def _tries_straight(case: Case) -> bool:
    """The number itself, on its rod, where there are no beads for it."""
    return not case.is_possible and case.move == (case.step.rod, case.step.change)


def _too_early(case: Case) -> bool:
    """The move is the plan's, but its beads are not there yet."""
    return not case.is_possible and case.progress.find(case.move) is not None


def _same_way(one: BeadMove, other: BeadMove) -> bool:
    return same_deck(one, other) and one.change * other.change > 0


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
        _same_way(m, move) and move.beads == 5 - m.beads and is_partner(step, m) for m in case.left
    )


def _takes_number_for_partner(case: Case) -> bool:
    """With 6 to 9 worked through ten, the heaven bead goes only when the number itself is taken."""
    step, move = case.step, case.move
    through_ten = step.technique is Technique.TEN and step.digit > 5
    return through_ten and move.rod == step.rod and move.change * step.change < 0


def _counts_wrong(case: Case) -> bool:
    """The right beads on the right rod, but too many."""
    return any(_same_way(m, case.move) for m in case.left)


def _goes_wrong_way(case: Case) -> bool:
    """The right number of beads on the right rod, the other way."""
    return case.move.inverse in case.left


def _counts_past(case: Case) -> bool:
    """More beads than are there."""
    return not case.is_possible and case.progress.frame.has(case.move.rod)


def _on_wrong_rod(case: Case) -> bool:
    """A right move of this step, on another rod; or a rod the frame does not have."""
    if not case.progress.frame.has(case.move.rod):
        return True
    return any(m.change == case.move.change for m in case.left)


def _in_wrong_deck(case: Case) -> bool:
    """The right rod, but the other deck."""
    move = case.move
    return any(m.rod == move.rod and not same_deck(m, move) for m in case.progress.allowed)


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
