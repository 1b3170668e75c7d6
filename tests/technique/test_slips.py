"""Slips are named as a tutor would name them."""

import random
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from itertools import product

from each import each_row
from truth_tables import rows

from frame.technique.addition import plan_on, plan_sum
from frame.technique.beads import BeadMove, Frame, parse_move
from frame.technique.expression import parse_calculation
from frame.technique.judge import Judge, Judgement
from frame.technique.plan import Plan, Step, Technique, parse_strokes
from frame.technique.planning import plan_of
from frame.technique.slips import Slip


def lacking(judge: Judge) -> Slip | None:
    fault = judge.omission()
    return fault and fault.slip


TABLE = rows("slips.txt", 5)
TENS = (Technique.TEN, Technique.TEN_FIVE)
SLIPS_OF_READING = {Slip.NEGATIVE_READ_AS_SHOWN}
"""Slips of no bead, since the frame is right and its number is read wrongly: no move shows them.
Their cases are with the exercises, in tests/practice/test_work_to_be_read.py."""


def first_number_set(expression: str) -> Judge:
    plan = plan_of(parse_calculation(expression))
    setting = [step for step in plan.steps if str(step.operation).startswith("set ")]
    return played(Judge.of(plan), [move for step in setting for move in step.moves])


def played(judge: Judge, moves: list[BeadMove]) -> Judge:
    for move in moves:
        verdict = judge.judge((move,))
        assert verdict.is_right, f"{move} is no right move here"
        judge = judge.after(verdict)
    return judge


@each_row(("expression", "before", "move", "slip", "why"), TABLE)
def test_a_slip_is_named_as_a_tutor_would(
    expression: str, before: str, move: str, slip: str, why: str
) -> None:
    judge = first_number_set(expression)
    made = [] if before == "." else [m for s in parse_strokes(before) for m in s]
    judge = played(judge, made)
    named = lacking(judge) if move == "end" else judge.judge((parse_move(move),)).slip
    assert named == slip, why


def test_every_slip_of_the_catalogue_has_its_cases() -> None:
    cases = Counter(row[3] for row in TABLE)
    of_beads = set(Slip) - SLIPS_OF_READING
    assert {slip: cases[slip] for slip in of_beads if cases[slip] < 4} == {}
    assert set(cases) <= of_beads


def facts(technique: tuple[Technique, ...]) -> Iterator[tuple[Plan, Step]]:
    """Each fact worked through one of the techniques, beside a tens rod that shows 2."""
    for digit, number, sign in product(range(10), range(1, 10), (1, -1)):
        plan = plan_on(Frame(f"02{digit}", 2), Decimal(sign * number))
        (step,) = plan.steps
        if step.technique in technique:
            yield plan, step


def own(step: Step) -> list[BeadMove]:
    return [move for move in step.moves if move.rod == step.rod]


def over(step: Step) -> list[BeadMove]:
    return [move for move in step.moves if move.rod != step.rod]


def test_the_tens_left_out_are_named_in_all_90_facts() -> None:
    count = 0
    for plan, step in facts(TENS):
        judge = played(Judge.of(plan), own(step))
        wanted = Slip.CARRY_FORGOTTEN if step.change > 0 else Slip.BORROW_FORGOTTEN
        assert lacking(judge) is wanted
        count += 1
    assert count == 90


def test_the_tens_alone_are_named_in_all_90_facts() -> None:
    for plan, step in facts(TENS):
        judge = played(Judge.of(plan), over(step))
        adding = step.change > 0
        wanted = Slip.CARRIED_WITHOUT_PARTNER if adding else Slip.BORROWED_WITHOUT_PARTNER
        assert lacking(judge) is wanted


def test_the_five_alone_is_named_in_all_20_facts() -> None:
    count = 0
    for plan, step in facts((Technique.FIVE,)):
        heaven = [move for move in step.moves if move.is_heaven]
        assert lacking(played(Judge.of(plan), heaven)) is Slip.PARTNER_OF_FIVE_LEFT
        count += 1
    assert count == 20


def test_the_number_for_its_partner_is_named_in_all_20_facts() -> None:
    """The five is made, then the number itself for its partner; seen at once or at the end."""
    for plan, step in facts((Technique.FIVE,)):
        heaven = [move for move in step.moves if move.is_heaven]
        (earth,) = [move for move in step.moves if not move.is_heaven]
        judge = played(Judge.of(plan), heaven)
        number = BeadMove(earth.rod, step.digit if earth.change > 0 else -step.digit)
        if not judge.frame.can(number):
            continue
        verdict = judge.judge((number,))
        slip = lacking(judge.after(verdict)) if verdict.is_right else verdict.slip
        assert slip is Slip.WRONG_PARTNER, f"{plan.start} {step.change:+d}"


def test_the_partner_of_ten_tried_straight_is_named_in_all_20_facts() -> None:
    for plan, step in facts((Technique.TEN_FIVE,)):
        adding = step.change > 0
        judge = played(Judge.of(plan), [] if adding else over(step))
        partner = 10 - step.digit
        verdict = judge.judge((BeadMove(step.rod, -partner if adding else partner),))
        assert verdict.judgement is Judgement.WRONG
        assert verdict.slip is Slip.INNER_FIVE_MISSED


def test_the_number_itself_where_no_beads_are_is_counting_past() -> None:
    """In facts of five and ten an earth number itself, or the heaven bead, does not fit."""
    for plan, step in facts((Technique.FIVE, Technique.TEN)):
        move = BeadMove(step.rod, step.change)
        if step.digit <= 5:
            assert Judge.of(plan).judge((move,)).slip is Slip.COUNTED_PAST, (plan.start, move)


def test_what_is_left_of_a_step_is_named_at_the_first_move_past_it_and_at_the_end() -> None:
    rng = random.Random(21)
    seen = Counter[str]()
    for _ in range(250):
        terms = [Decimal(rng.randrange(1, 10**6)) for _ in range(3)]
        plan = plan_sum(terms, at_least=3)
        index = rng.randrange(len(plan.steps))
        judge = Judge.of(plan)
        for step in plan.steps[:index]:
            judge = played(judge, list(step.moves))
        step = plan.steps[index]
        leave_each_move_out(judge, step, terms[step.operation.row + 1 :], seen)
    assert seen["left out"] > 300
    assert seen["named past it"] > 100


def moves_past(judge: Judge, step: Step, coming: list[Decimal]) -> Iterator[BeadMove]:
    """The possible moves that begin a digit of the next number on the frame as it stands, and are
    on no rod of the step."""
    rods = {move.rod for move in step.moves}
    for number in coming[:1]:
        for later in plan_on(judge.frame, number).steps:
            for move in later.strokes[0]:
                if move.rod not in rods and judge.frame.can(move):
                    yield move


def leave_each_move_out(
    judge: Judge, step: Step, coming: list[Decimal], seen: Counter[str]
) -> None:
    """Leave each move of a step in turn out, and go on."""
    for left_out in step.moves if len(step.moves) > 1 else ():
        here = judge
        for move in step.moves:
            if move != left_out and here.frame.can(move):
                here = here.after(here.judge((move,)))
        left = here.progress.step
        if here.progress.left_in_step != (left_out,) or (left and left.moves == (left_out,)):
            continue  # More is left, or all of a digit that is read as not begun.
        slip = lacking(here)
        assert slip is not None, f"{here.frame}: {left_out} left out of {step.operation}"
        seen["left out"] += 1
        for past in moves_past(here, step, coming):
            verdict = here.judge((past,))
            about = f"{here.frame}: {past} past {left_out} of {step.operation}, then {coming[0]}"
            # It may as well begin another digit of this number, which no one need wait with.
            is_past = verdict.judgement is Judgement.WRONG
            assert verdict.slip is (slip if is_past else None), about
            seen["named past it"] += is_past


def test_a_step_not_begun_is_no_omission() -> None:
    rng = random.Random(22)
    for _ in range(100):
        plan = plan_sum([Decimal(rng.randrange(1, 10**4)) for _ in range(3)], at_least=3)
        judge = Judge.of(plan)
        for step in plan.steps:
            assert lacking(judge) is None
            judge = played(judge, list(step.moves))
        assert lacking(judge) is None
