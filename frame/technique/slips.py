"""The catalogue of slips: the names of what goes wrong with a bead, and the facts behind one."""

from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from frame.technique.beads import BeadMove
from frame.technique.operation import Operation
from frame.technique.plan import Step, Technique


class Slip(StrEnum):
    """What went wrong with a bead. The ids are stable: logs and lessons use them."""

    TOO_EARLY = "too-early"
    """A move whose beads are not there yet, or of a digit that comes later."""
    EXTRA_MOVE = "extra-move"
    NOT_ASKED = "not-asked"
    INNER_FIVE_MISSED = "inner-five-missed"
    WRONG_PARTNER = "wrong-partner"
    WRONG_COUNT = "wrong-count"
    WRONG_WAY = "wrong-way"
    """The right beads moved the other way, which fits none of the other slips."""
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
    ZERO_NOT_SKIPPED = "zero-not-skipped"
    PRODUCT_ONE_ROD_OFF = "product-one-rod-off"
    LINE_OUT_OF_ORDER = "line-out-of-order"
    WRONG_PRODUCT = "wrong-product"
    PRODUCT_LEFT_OUT = "product-left-out"
    DIGIT_NOT_CLEARED = "digit-not-cleared"
    QUOTIENT_ONE_ROD_OFF = "quotient-one-rod-off"
    TRIAL_TOO_LARGE = "trial-too-large"
    QUOTIENT_TOO_EARLY = "quotient-too-early"
    NOT_REVISED = "not-revised"
    REVISED_WITHOUT_ADDING_BACK = "revised-without-adding-back"
    WRONG_TOTAL = "wrong-total"
    REMAINDER_NOT_SMALLER = "remainder-not-smaller"
    HALVING_FORGOTTEN = "halving-forgotten"
    HALF_SQUARE_FORGOTTEN = "half-square-forgotten"
    NOT_GIVEN_BACK = "not-given-back"
    NEGATIVE_READ_AS_SHOWN = "negative-read-as-shown"


ASTRAY = "astray"
"""The detail of a slip that was made while another wrong bead lay."""


class Fault(NamedTuple):
    """A slip, and the facts that its sentence tells.

    `step` is the step it is about, `move` what was moved, None for something left out. `line` is
    the line of work that was meant. `numbers` are the figures of the slip's own sentence. `side` is
    1 where beads went one rod too far left, -1 where they went one too far right. `detail` names a
    sentence of the slip's other than its usual one.
    """

    slip: Slip
    step: Step | None = None
    move: BeadMove | None = None
    line: Operation | None = None
    numbers: tuple[Decimal, ...] = ()
    side: int = 0
    detail: str = ""


def same_deck(one: BeadMove, other: BeadMove) -> bool:
    """Whether two moves move beads of the same deck of the same rod."""
    return one.rod == other.rod and one.is_heaven == other.is_heaven


def same_way(one: BeadMove, other: BeadMove) -> bool:
    """Whether two moves move beads of the same deck in the same direction."""
    return same_deck(one, other) and one.change * other.change > 0


def is_partner(step: Step, move: BeadMove) -> bool:
    """Whether an earth move of a step is the partner of five or of ten, or its earth beads."""
    if step.technique is Technique.TEN and move.rod == step.rod:
        return True
    return any(m.rod == move.rod and m.is_heaven and m.change * move.change < 0 for m in step.moves)
