"""The catalogue of slips: the kinds of wrong bead, each a question about the step under way.

Signatures collide, so the questions have an order and the first that fits names the slip; some
slips answer two questions. Slips of commission are seen in a move; slips of omission at the
first move past them, or at the end.
"""

from collections.abc import Callable
from enum import StrEnum

from frame.technique.beads import BeadMove, Stroke
from frame.technique.plan import Progress, Step, Technique


class Slip(StrEnum):
    """What went wrong with a bead. The ids are stable: logs and lessons use them."""

    TOO_EARLY = "too-early"
    EXTRA_MOVE = "extra-move"
    INNER_FIVE_MISSED = "inner-five-missed"
    WRONG_PARTNER = "wrong-partner"
    WRONG_COUNT = "wrong-count"
    WRONG_WAY = "wrong-way"
    COUNTED_PAST = "counted-past"
    WRONG_ROD = "wrong-rod"
    WRONG_DECK = "wrong-deck"
    RIPPLE_STOPPED = "ripple-stopped"
    CARRY_FORGOTTEN = "carry-forgotten"
    BORROW_FORGOTTEN = "borrow-forgotten"
    CARRIED_WITHOUT_PARTNER = "carried-without-partner"
    BORROWED_WITHOUT_PARTNER = "borrowed-without-partner"
    FIVES_PARTNER_FOR_TENS = "fives-partner-for-tens"
    PARTNER_OF_FIVE_LEFT = "partner-of-five-left"


_TENS = (Technique.TEN, Technique.TEN_FIVE)


def slip_of_move(progress: Progress, move: BeadMove, last: BeadMove | None) -> Slip:
    """The slip behind a wrong move; `last` is the right move made just before, if any."""
    for slip, fits in _COMMISSIONS:
        if fits(progress, move, last):
            return slip
    return slip_of_omission(progress) or Slip.EXTRA_MOVE


def slip_of_omission(progress: Progress) -> Slip | None:
    """What the step under way still lacks, named; None when it has not begun or lacks nothing."""
    step = progress.step
    if step is None:
        return None
    left = progress.left_in_step
    made = _made(step, left)
    if not made:
        return None
    for slip, fits in _OMISSIONS:
        if fits(step, made, left):
            return slip
    return None


def _made(step: Step, left: Stroke) -> Stroke:
    """What has been made of a step's moves; of a move made in part, that part."""
    return tuple(
        BeadMove(move.rod, made)
        for move in step.moves
        if (made := move.change - sum(m.change for m in left if _same_deck(m, move)))
    )


def _same_deck(one: BeadMove, other: BeadMove) -> bool:
    return one.rod == other.rod and one.is_heaven == other.is_heaven


def _same_way(one: BeadMove, other: BeadMove) -> bool:
    return _same_deck(one, other) and one.change * other.change > 0


def _tries_straight(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The number itself, on its rod, where there are no beads for it."""
    step = progress.step
    is_number = step is not None and move == (step.rod, step.change)
    return is_number and not progress.frame.can(move)


def _on_rod_apart(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """A right move of this step, on a rod that the step does not touch."""
    step = progress.step
    apart = step is not None and move.rod not in {m.rod for m in step.moves}
    return apart and any(m.change == move.change for m in progress.left_in_step)


def _too_early(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The move is the plan's, but its beads are not there yet."""
    return progress.find(move) is not None and not progress.frame.can(move)


def _undoes(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The move takes back the last right move, or one of the step under way."""
    if last is not None and move == last.inverse:
        return True
    step = progress.step
    if step is None or not progress.frame.can(move):
        return False
    made = _made(step, progress.left_in_step)
    return any(_same_deck(m, move) and m.change * move.change < 0 for m in made)


def _misses_inner_five(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The partner of ten needs the partner of five, and was tried without it."""
    step = progress.step
    if step is None or step.technique is not Technique.TEN_FIVE:
        return False
    if move.rod != step.rod or move.is_heaven:
        return False
    left = progress.left_in_step
    inner = next((m for m in step.moves if _same_deck(m, move)), None)
    if inner is None or inner not in left:
        return False
    straight = move.change * inner.change < 0
    return straight or move.beads == 5 - inner.beads


def _takes_wrong_partner(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The number itself was taken for its partner of five or of ten."""
    step = progress.step
    if step is None:
        return False
    if move.is_heaven:
        return _takes_number_for_partner(progress, step, move)
    wanted = [m for m in progress.left_in_step if _same_way(m, move)]
    return any(
        move.beads == 5 - m.beads and (_is_partner_of_five(step, m) or _is_partner_of_ten(step, m))
        for m in wanted
    )


def _takes_number_for_partner(progress: Progress, step: Step, move: BeadMove) -> bool:
    """With 6 to 9 worked through ten, the heaven bead goes only when the number itself is taken."""
    same_direction = move.change * step.change < 0
    return (
        step.technique is Technique.TEN
        and step.digit > 5
        and move.rod == step.rod
        and same_direction
        and progress.left_in_step != ()
    )


def _is_partner_of_five(step: Step, move: BeadMove) -> bool:
    """Whether the move is the earth half of a pair that works against itself."""
    return any(m.rod == move.rod and m.is_heaven and m.change * move.change < 0 for m in step.moves)


def _is_partner_of_ten(step: Step, move: BeadMove) -> bool:
    return step.technique is Technique.TEN and move.rod == step.rod


def _counts_wrong(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The right beads on the right rod, but too many."""
    return any(_same_way(m, move) for m in progress.left_in_step)


def _goes_wrong_way(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The right number of beads on the right rod, the other way."""
    return any(_same_deck(m, move) and m.change == -move.change for m in progress.left_in_step)


def _counts_past(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """More beads than are there."""
    return progress.frame.has(move.rod) and not progress.frame.can(move)


def _on_wrong_rod(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """A right move of this step, on another rod; or a rod the frame does not have."""
    if not progress.frame.has(move.rod):
        return True
    return any(m.rod != move.rod and m.change == move.change for m in progress.left_in_step)


def _in_wrong_deck(progress: Progress, move: BeadMove, last: BeadMove | None) -> bool:
    """The right rod, but the other deck."""
    return any(m.rod == move.rod and m.is_heaven != move.is_heaven for m in progress.allowed)


_Commission = Callable[[Progress, BeadMove, BeadMove | None], bool]
_COMMISSIONS: tuple[tuple[Slip, _Commission], ...] = (
    (Slip.COUNTED_PAST, _tries_straight),
    (Slip.TOO_EARLY, _too_early),
    (Slip.EXTRA_MOVE, _undoes),
    (Slip.INNER_FIVE_MISSED, _misses_inner_five),
    (Slip.WRONG_PARTNER, _takes_wrong_partner),
    (Slip.WRONG_COUNT, _counts_wrong),
    (Slip.WRONG_WAY, _goes_wrong_way),
    (Slip.WRONG_ROD, _on_rod_apart),
    (Slip.COUNTED_PAST, _counts_past),
    (Slip.WRONG_ROD, _on_wrong_rod),
    (Slip.WRONG_DECK, _in_wrong_deck),
)


def _split(step: Step, moves: Stroke) -> tuple[Stroke, Stroke]:
    """The moves on the worked rod, and those of the carry or borrow."""
    return (
        tuple(m for m in moves if m.rod == step.rod),
        tuple(m for m in moves if m.rod != step.rod),
    )


def _ripple_stopped(step: Step, made: Stroke, left: Stroke) -> bool:
    return step.ripple > 0 and bool(_split(step, made)[1]) and bool(_split(step, left)[1])


def _carry_lacks(adding: bool) -> Callable[[Step, Stroke, Stroke], bool]:
    def lacks(step: Step, made: Stroke, left: Stroke) -> bool:
        own_left, over_left = _split(step, left)
        _, over_made = _split(step, made)
        right_kind = step.technique in _TENS and (step.change > 0) == adding
        return right_kind and not own_left and bool(over_left) and not over_made

    return lacks


def _partner_lacks(adding: bool) -> Callable[[Step, Stroke, Stroke], bool]:
    def lacks(step: Step, made: Stroke, left: Stroke) -> bool:
        own_made, over_made = _split(step, made)
        right_kind = step.technique in _TENS and (step.change > 0) == adding
        return right_kind and not own_made and bool(over_made) and not _split(step, left)[1]

    return lacks


def _lacks_inner_five(step: Step, made: Stroke, left: Stroke) -> bool:
    own_made, own_left = _split(step, made)[0], _split(step, left)[0]
    return step.technique is Technique.TEN_FIVE and bool(own_made) and bool(own_left)


def _lacks_heaven_of_ten(step: Step, made: Stroke, left: Stroke) -> bool:
    """Of the partner of ten only the earth beads moved, which are the partner of five."""
    own_made, own_left = _split(step, made)[0], _split(step, left)[0]
    earth_only = bool(own_made) and not any(m.is_heaven for m in own_made)
    heaven_left = bool(own_left) and all(m.is_heaven for m in own_left)
    return step.technique is Technique.TEN and earth_only and heaven_left


def _lacks_partner_of_five(step: Step, made: Stroke, left: Stroke) -> bool:
    """One half of a pair that works against itself moved; the other did not."""
    return any(
        m.rod == other.rod and m.is_heaven != other.is_heaven and m.change * other.change < 0
        for m in made
        for other in left
    )


def _stops_at_number(step: Step, made: Stroke, left: Stroke) -> bool:
    """Of a partner's beads only as many moved as the number itself has."""
    return any(
        m.beads == 5 - (m.beads + rest.beads)
        and (_is_partner_of_five(step, m) or _is_partner_of_ten(step, m))
        for m in made
        for rest in left
        if not m.is_heaven and _same_deck(m, rest)
    )


def _falls_short(step: Step, made: Stroke, left: Stroke) -> bool:
    return bool(_split(step, left)[0])


_Omission = Callable[[Step, Stroke, Stroke], bool]
_OMISSIONS: tuple[tuple[Slip, _Omission], ...] = (
    (Slip.INNER_FIVE_MISSED, _lacks_inner_five),
    (Slip.RIPPLE_STOPPED, _ripple_stopped),
    (Slip.CARRY_FORGOTTEN, _carry_lacks(adding=True)),
    (Slip.BORROW_FORGOTTEN, _carry_lacks(adding=False)),
    (Slip.CARRIED_WITHOUT_PARTNER, _partner_lacks(adding=True)),
    (Slip.BORROWED_WITHOUT_PARTNER, _partner_lacks(adding=False)),
    (Slip.WRONG_PARTNER, _stops_at_number),
    (Slip.FIVES_PARTNER_FOR_TENS, _lacks_heaven_of_ten),
    (Slip.PARTNER_OF_FIVE_LEFT, _lacks_partner_of_five),
    (Slip.WRONG_COUNT, _falls_short),
)
