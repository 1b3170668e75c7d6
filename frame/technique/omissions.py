"""Slips of omission: what a line was left without, seen at the first move past it or at the end.

The questions have an order, and the first that fits names the slip.
"""

from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from frame.technique.beads import BeadMove, Stroke, covers
from frame.technique.operation import Act
from frame.technique.plan import Freedom, Step, Technique
from frame.technique.progress import Progress
from frame.technique.slips import Fault, Slip, is_partner, same_deck


class Lack(NamedTuple):
    """A step left half done: what was made of it and what is left, on its own rod and on those
    of its carry or borrow. Of a move made in part, each part is where it belongs."""

    step: Step
    own_made: Stroke
    own_left: Stroke
    over_made: Stroke
    over_left: Stroke

    @property
    def is_through_ten(self) -> bool:
        """Whether the step carries or borrows."""
        return self.step.technique in (Technique.TEN, Technique.TEN_FIVE)

    @property
    def is_adding(self) -> bool:
        """Whether the number is added."""
        return self.step.change > 0


def fault_of_lack(progress: Progress) -> Fault | None:
    """What the work still lacks, named: a step half done, or a line that is to be done now. None
    when nothing has begun or nothing is lacking."""
    return fault_of_omission(progress) or fault_of_line_left(progress)


def fault_of_omission(progress: Progress) -> Fault | None:
    """What the step under way still lacks, named; None when it has not begun or lacks nothing."""
    step, way = progress.step, progress.way
    if step is None or way is None or way.freedom is Freedom.DIGIT:
        return None
    left = progress.left_in_step
    if left == step.moves:
        return None
    lack = _lack(step, left)
    for slip, fits in _OMISSIONS:
        if fits(lack):
            return Fault(slip, step, _half_partner(slip, lack), detail=_detail(slip, lack))
    return None


_LINES_LEFT = {
    Act.REVISE_DOWN: Slip.NOT_REVISED,
    Act.ADD_BACK: Slip.REVISED_WITHOUT_ADDING_BACK,
    Act.REVISE_UP: Slip.REMAINDER_NOT_SMALLER,
    Act.TAKE_AGAIN: Slip.PRODUCT_LEFT_OUT,
    Act.CLEAR: Slip.DIGIT_NOT_CLEARED,
    Act.HALVE: Slip.HALVING_FORGOTTEN,
    Act.SUBTRACT_HALF: Slip.HALF_SQUARE_FORGOTTEN,
    Act.SUBTRACT: Slip.PRODUCT_LEFT_OUT,
    Act.MULTIPLY: Slip.PRODUCT_LEFT_OUT,
    Act.RETURN: Slip.NOT_GIVEN_BACK,
}


def fault_of_line_left(progress: Progress) -> Fault | None:
    """The slip of ending, or going on, before a line of the work that is to be done now. A product
    is only left out where the work has begun: before its first line nothing was left out."""
    step, way = progress.step, progress.way
    if step is None or way is None:
        return None
    slip = _LINES_LEFT.get(step.operation.act)
    is_not_begun = way.index <= progress.plan.fork and not progress.made
    if slip is None or (slip is Slip.PRODUCT_LEFT_OUT and is_not_begun):
        return None
    return Fault(slip, step, line=step.operation, numbers=_numbers(step.operation.why))


def _numbers(why: tuple[Decimal, ...]) -> tuple[Decimal, ...]:
    return (why[0], why[-1]) if why else ()


def _lack(step: Step, left: Stroke) -> Lack:
    own_made: list[BeadMove] = []
    over_made: list[BeadMove] = []
    # A carry that is worked from another digit than at first has nothing made of it.
    over = [move for move in left if move.rod != step.rod]
    anew = {m.rod for m in over if not any(covers(one, m) for one in step.moves)}
    for move in step.moves:
        if move.rod in anew:
            continue
        made = move.change - sum([m.change for m in left if same_deck(m, move)])
        if made:
            (own_made if move.rod == step.rod else over_made).append(BeadMove(move.rod, made))
    own_left = tuple([m for m in left if m.rod == step.rod])
    over_left = tuple([m for m in left if m.rod != step.rod])
    return Lack(step, tuple(own_made), own_left, tuple(over_made), over_left)


def _half_partner(slip: Slip, lack: Lack) -> BeadMove | None:
    """The beads that moved of a partner, where those of the number itself did."""
    if slip is not Slip.WRONG_PARTNER:
        return None
    return next(m for m in (*lack.own_made, *lack.over_made) if _is_half_partner(lack, m))


def _detail(slip: Slip, lack: Lack) -> str:
    """Which of a slip's sentences is true: the five bead of a partner may have moved, a ripple may
    lack its far end or a rod on its way."""
    if slip is Slip.INNER_FIVE_MISSED:
        return "five" if any(move.is_heaven for move in lack.own_made) else ""
    if slip is Slip.PARTNER_OF_FIVE_LEFT:
        made = (*lack.own_made, *lack.over_made)
        left = (*lack.own_left, *lack.over_left)
        return "five" if any(m.is_heaven and m.rod in {o.rod for o in made} for m in left) else ""
    if slip is not Slip.RIPPLE_STOPPED:
        return ""
    reached = max(move.rod for move in lack.over_made)
    is_between = all(move.rod < reached for move in lack.over_left)
    return "between" if is_between else ""


def _stops_ripple(lack: Lack) -> bool:
    reached = {move.rod for move in lack.over_made}
    is_missing = all(move.rod not in reached for move in lack.over_left)
    return lack.step.ripple > 0 and bool(reached and lack.over_left) and is_missing


def _lacks_carry(lack: Lack) -> bool:
    own_done = bool(lack.own_made) and not lack.own_left
    return lack.is_through_ten and own_done and bool(lack.over_left) and not lack.over_made


def _forgets_carry(lack: Lack) -> bool:
    return lack.is_adding and _lacks_carry(lack)


def _forgets_borrow(lack: Lack) -> bool:
    return not lack.is_adding and _lacks_carry(lack)


def _lacks_partner(lack: Lack) -> bool:
    over_done = bool(lack.over_made) and not lack.over_left
    return lack.is_through_ten and over_done and not lack.own_made


def _carries_alone(lack: Lack) -> bool:
    return lack.is_adding and _lacks_partner(lack)


def _borrows_alone(lack: Lack) -> bool:
    return not lack.is_adding and _lacks_partner(lack)


def _lacks_inner_five(lack: Lack) -> bool:
    """The partner of ten goes through the five, and only a part of it moved."""
    half = bool(lack.own_made) and bool(lack.own_left)
    return lack.step.technique is Technique.TEN_FIVE and half


def _stops_at_number(lack: Lack) -> bool:
    """Of a partner's beads only as many moved as the number itself has."""
    return any(_is_half_partner(lack, m) for m in (*lack.own_made, *lack.over_made))


def _is_half_partner(lack: Lack, made: BeadMove) -> bool:
    """Whether earth beads moved are as many as the number's whose partner was to move."""
    return any(
        made.beads == 5 - (made.beads + rest.beads) and is_partner(lack.step, made)
        for rest in (*lack.own_left, *lack.over_left)
        if not made.is_heaven and same_deck(made, rest)
    )


def _lacks_heaven_of_ten(lack: Lack) -> bool:
    """Of the partner of ten only the earth beads moved, which are the partner of five."""
    earth_made = bool(lack.own_made) and not any(m.is_heaven for m in lack.own_made)
    heaven_left = bool(lack.own_left) and all(m.is_heaven for m in lack.own_left)
    return lack.step.technique is Technique.TEN and earth_made and heaven_left


def _lacks_half_of_pair(lack: Lack) -> bool:
    """One half of a pair that works against itself moved, all of it; of the other nothing did."""
    made, left = (*lack.own_made, *lack.over_made), (*lack.own_left, *lack.over_left)
    return any(
        one.rod == rest.rod
        and one.is_heaven != rest.is_heaven
        and one.change * rest.change < 0
        and rest in lack.step.moves
        and not any(same_deck(one, other) for other in left)
        and not any(same_deck(rest, other) for other in made)
        for one in made
        for rest in left
    )


def _falls_short(lack: Lack) -> bool:
    return bool(lack.own_left or lack.over_left)


_OMISSIONS: tuple[tuple[Slip, Callable[[Lack], bool]], ...] = (
    (Slip.INNER_FIVE_MISSED, _lacks_inner_five),
    (Slip.RIPPLE_STOPPED, _stops_ripple),
    (Slip.CARRY_FORGOTTEN, _forgets_carry),
    (Slip.BORROW_FORGOTTEN, _forgets_borrow),
    (Slip.CARRIED_WITHOUT_PARTNER, _carries_alone),
    (Slip.BORROWED_WITHOUT_PARTNER, _borrows_alone),
    (Slip.WRONG_PARTNER, _stops_at_number),
    (Slip.FIVES_PARTNER_FOR_TENS, _lacks_heaven_of_ten),
    (Slip.PARTNER_OF_FIVE_LEFT, _lacks_half_of_pair),
    (Slip.WRONG_COUNT, _falls_short),
)
