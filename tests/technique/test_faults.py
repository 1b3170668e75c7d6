"""What the judge tells of a planted slip besides its name: the step and the line it is about, what
was moved, on which side."""

from collections.abc import Iterable

from each import each_row

from frame.technique.beads import BeadMove, stroke_text
from frame.technique.conventions import USUAL, Carry, Conventions, First, Operands
from frame.technique.expression import parse_calculation
from frame.technique.judge import Judge
from frame.technique.operation import Act
from frame.technique.plan import parse_strokes
from frame.technique.planning import plan_of
from frame.technique.slips import Fault, Slip

CARRY_FIRST = Conventions(carry=Carry.FIRST)
UNSET = Conventions(layout=Operands.NONE)
UNSET_CARRY_FIRST = Conventions(layout=Operands.NONE, carry=Carry.FIRST)
UNSET_FROM_LOWEST = Conventions(layout=Operands.NONE, first=First.LOWEST)


def with_operands_set(text: str, school: Conventions, keep_wrong: bool = False) -> Judge:
    judge = Judge.of(plan_of(parse_calculation(text), school), keep_wrong=keep_wrong)
    while (step := judge.progress.step) and step.operation.act is Act.SET:
        judge = played(judge, judge.progress.next_stroke)
    return judge


def played(judge: Judge, moves: Iterable[BeadMove]) -> Judge:
    for move in moves:
        verdict = judge.judge((move,))
        assert verdict.is_right, f"{move} is no right move here"
        judge = judge.after(verdict)
    return judge


def told(fault: Fault | None) -> tuple[str, str, str, str, int] | None:
    """Slip, step, beads moved, line and side; a dot for what is not told."""
    if fault is None:
        return None
    step = str(fault.step.operation) if fault.step else "."
    moved = stroke_text((fault.move,)) if fault.move else "."
    return fault.slip, step, moved, str(fault.line or "."), fault.side


TABLE = [
    # A trial digit beside its rod, and its products before it.
    ("927 / 3", USUAL, ".", "1:+3",
     (Slip.QUOTIENT_ONE_ROD_OFF, "quotient 3", "1:+3", "quotient 3", -1), "one rod too far right"),
    ("927 / 3", USUAL, ".", "3:+3",
     (Slip.QUOTIENT_ONE_ROD_OFF, "quotient 3", "3:+3", "quotient 3", 1), "one rod too far left"),
    ("51 / 6", CARRY_FIRST, ".", "-1:+1",
     (Slip.QUOTIENT_ONE_ROD_OFF, "quotient 8", "-1:+1", "quotient 8", -1),
     "a 1 set right of its rod, though 48 taken from 51 has such a bead too"),
    ("927 / 3", USUAL, ".", "0:-4", (Slip.TOO_EARLY, "quotient 3", "0:-4", ".", 0),
     "09 begun before the 3 that it is of is set"),
    # Products.
    ("63 x 7", USUAL, ".", "2:-2", (Slip.PRODUCT_LEFT_OUT, "3x7=21", "2:-2", "3x7=21", 0),
     "the 3 is being cleared, before its 21"),
    ("12 x 3", USUAL, ".", "2:-2", (Slip.PRODUCT_LEFT_OUT, "2x3=06", "2:-2", "2x3=06", 0),
     "the 2 is cleared, before its 06"),
    ("37 x 432", USUAL, ".", "end", None, "nothing has begun, so nothing is left out"),
    ("38 x 2", USUAL, "1:+1 0:+1", "2:-3", (Slip.WRONG_COUNT, "8x2=16", ".", ".", 0),
     "the 8 is being cleared, when 5 of the 6 are to come"),
    ("38 x 2", USUAL, "1:+1 0:+1", "3:-1", (Slip.EXTRA_MOVE, "8x2=16", "3:-1", ".", 0),
     "the 3 is none of what is to come next"),
    ("6 x 234", UNSET_FROM_LOWEST, ".", "2:+2",
     (Slip.PRODUCT_ONE_ROD_OFF, "6x4=24", "2:+2", "6x4=24", 1),
     "24 one rod too far left; there is no product before it, after which a nought could come"),
    ("6 x 234", UNSET_FROM_LOWEST, ".", "0:+2",
     (Slip.PRODUCT_ONE_ROD_OFF, "6x4=24", "0:+2", "6x4=24", -1), "24 one rod too far right"),
    ("99 x 5", UNSET_CARRY_FIRST, "2:+4", "3:+1",
     (Slip.WRONG_PRODUCT, "9x5=45", "3:+1", "9x5=45", 0),
     "45 begun; with its 4 made a 9, a 1 is carried here when more is added"),
    ("3 x 3", UNSET, ".", "2:+1", (Slip.EXTRA_MOVE, "3x3=09", "2:+1", ".", 0),
     "no digit added for 09 moves a bead here"),
    # Numbers.
    ("4 + 2", USUAL, "0:+5 0:-2", "end", (Slip.WRONG_PARTNER, "+2", "0:-2", ".", 0),
     "2 taken for 3, its partner"),
    ("9 + 8", USUAL, "0:-1", "end", (Slip.WRONG_COUNT, "+8", ".", ".", 0),
     "1 of 2 is off; no heaven bead is to go"),
    ("98 + 12", USUAL, "0:-3 1:-5 1:-4", "end", (Slip.FIVES_PARTNER_FOR_TENS, "+12", ".", ".", 0),
     "3 off for 8; the nine is cleared by the ten of 12, no carry has run over it"),
]  # fmt: skip
"""Calculation, school, beads before, beads judged (or `end` for "done"), what is told, why. Worked
out by hand, by the order of guesses in the docstring of `line_slips`; no source."""


@each_row(("text", "school", "before", "stroke", "wanted", "why"), TABLE)
def test_what_is_told_of_a_slip(
    text: str,
    school: Conventions,
    before: str,
    stroke: str,
    wanted: tuple[str, str, str, str, int] | None,
    why: str,
) -> None:
    made = [] if before == "." else [move for one in parse_strokes(before) for move in one]
    judge = played(with_operands_set(text, school), made)
    (moves,) = [()] if stroke == "end" else parse_strokes(stroke)
    assert told(judge.judge(moves).fault if moves else judge.omission()) == wanted, why


def test_beside_a_wrong_trial_left_lying_the_rod_that_was_touched_tells_the_side() -> None:
    """With a 9 lying there, a bead left of it might be the carry of a digit set right of it."""
    judge = with_operands_set("12 / 4", CARRY_FIRST, keep_wrong=True)
    (nine,) = parse_strokes("0:+4&0:+5")
    verdict = judge.judge(nine)
    assert (verdict.slip, verdict.kept) == (Slip.TRIAL_TOO_LARGE, True)
    fault = judge.after(verdict).judge((BeadMove(1, 1),)).fault
    assert told(fault) == (Slip.QUOTIENT_ONE_ROD_OFF, "quotient 3", "1:+1", "quotient 3", 1)
