"""Digits of a root: which may be tried, why one becomes smaller, and how a hand goes on with it."""

from collections.abc import Iterator
from decimal import Decimal
from math import isqrt
from random import Random

import pytest

from frame.technique.beads import BeadMove, Frame
from frame.technique.calculation import Root
from frame.technique.conventions import Carry, Conventions
from frame.technique.judge import Judge, Judgement
from frame.technique.mend import shortest_mend
from frame.technique.operation import Act
from frame.technique.plan import Plan, Step
from frame.technique.planning import plan_of

# Which digits may be tried


def tried_and_revised(plan: Plan) -> Iterator[tuple[Step, Frame]]:
    """Each digit tried after the first, and each that is made smaller, with the frame before it."""
    frame = plan.start
    for step in plan.steps:
        act, top = step.operation.act, step.span[0] if step.span else None
        if act is Act.REVISE_DOWN or (act is Act.ROOT and step.rod != top):
            yield step, frame
        frame = frame.apply_all(step.moves)


def digit_of_root(radicand: int, rod: int) -> int:
    return int(isqrt(radicand) // 10**rod % 10)


def lawful(plan: Plan, step: Step, frame: Frame) -> range:
    assert plan.trials is not None
    return plan.trials.lawful(frame, step)


def test_every_digit_from_the_true_one_to_the_largest_may_be_tried() -> None:
    """The planner tries the largest, and the next smaller one in a revision. Where the digit is
    nought, none but that one can be set."""
    rng, seen = Random(81), {Act.ROOT: 0, Act.REVISE_DOWN: 0}
    for _ in range(200):
        radicand = rng.randrange(100, 10 ** rng.randint(4, 7))
        plan = plan_of(Root(Decimal(radicand)))
        for step, frame in tried_and_revised(plan):
            true, most = digit_of_root(radicand, step.rod), int(step.operation.digits)
            assert lawful(plan, step, frame) == range(true or most, most + 1), (radicand, step)
            seen[step.operation.act] += true < most
    assert min(seen.values()) > 15, seen


# Why one becomes smaller

HALF_SQUARES = {
    "256": [("24.5", "8")],
    "289": [("40.5", "4.5"), ("32", "14.5")],
    "62001": [("12.5", "10")],
}
"""Radicands, and what half of the square is that can't be taken, and what is left for it; worked
by hand. 289: half of 189 is 94.5, from which 9 × 1 leaves 4.5 for half of 81; with 8 there are 14.5
for half of 64."""


@pytest.mark.parametrize(("radicand", "why"), HALF_SQUARES.items())
def test_a_digit_becomes_smaller_where_half_its_square_can_not_be_taken(
    radicand: str, why: list[tuple[str, str]]
) -> None:
    lines = [line.operation for line in plan_of(Root(Decimal(radicand))).lines]
    revised = [line.why for line in lines if line.act is Act.REVISE_DOWN]
    assert revised == [tuple(map(Decimal, pair)) for pair in why]


# How a hand goes on


def work_on(judge: Judge, moves: Iterator[BeadMove] | tuple[BeadMove, ...]) -> Judge:
    for move in moves:
        verdict = judge.judge((move,))
        assert verdict.judgement is Judgement.RIGHT, (move, judge.frame, verdict.slip)
        judge = judge.after(verdict)
    return judge


def test_a_digit_may_be_made_smaller_by_more_than_one_at_once() -> None:
    """As many times as it was made smaller, what was taken with it comes back; the work then comes
    to the same end."""
    rng, seen = Random(82), 0
    while seen < 30:
        radicand = rng.randrange(100, 10 ** rng.randint(3, 7))
        plan = plan_of(Root(Decimal(radicand)), Conventions(carry=rng.choice(list(Carry))))
        for step, frame in tried_and_revised(plan):
            true = digit_of_root(radicand, step.rod)
            if step.operation.act is Act.REVISE_DOWN and 0 < true < int(step.operation.digits):
                judge = work_on(Judge.of(plan), moves_before(plan, step))
                assert judge.frame == frame
                judge = work_on(judge, shortest_mend(frame, frame.with_digit(step.rod, true)))
                while not judge.finished:
                    judge = work_on(judge, judge.progress.next_stroke[:1])
                assert judge.frame == plan.end, radicand
                seen += 1


def moves_before(plan: Plan, step: Step) -> Iterator[BeadMove]:
    """Every move of a plan before one of its steps."""
    at = next(at for at, one in enumerate(plan.steps) if one is step)
    return (move for one in plan.steps[:at] for move in one.moves)
