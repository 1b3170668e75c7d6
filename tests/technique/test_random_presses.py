"""Whatever is pressed, the frame stays lawful and there is a way to the result."""

import random
from itertools import product

import pytest
from random_hands import CHANGES, any_possible, random_plan

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.conventions import Strictness
from frame.technique.judge import Judge, Judgement, Verdict
from frame.technique.plan import Plan

PRESS_RODS = (-1, 0, 0, 0, 1, 1, 2, 3)


def random_stroke(rng: random.Random) -> Stroke:
    rod = rng.choice(PRESS_RODS)
    if rng.random() < 0.1:
        pair = (BeadMove(rod, rng.choice((5, -5))), BeadMove(rod, rng.choice(CHANGES[1:-1])))
        return pair if rng.random() < 0.5 else pair[::-1]
    return (BeadMove(rod, rng.choice(CHANGES)),)


def next_stroke(rng: random.Random, judge: Judge) -> Stroke:
    """Mostly what is left, in no order; sometimes anything at all."""
    left = judge.progress.left_in_line
    if left and rng.random() < 0.6:
        return (rng.choice(left[:4]),)
    return random_stroke(rng)


def check_press(judge: Judge, stroke: Stroke, verdict: Verdict) -> None:
    assert set(verdict.progress.frame.digits) <= set("0123456789")
    assert verdict.progress.frame.units == judge.frame.units
    wrong = verdict.judgement is Judgement.WRONG
    assert verdict.slip is not None or not wrong
    if not verdict.kept:
        assert judge.after(verdict) == judge
        return
    assert verdict.progress.frame == judge.frame.apply_all(in_bead_order(judge.frame, stroke))


def in_bead_order(frame: Frame, stroke: Stroke) -> Stroke:
    return stroke if frame.can(stroke[0]) else stroke[::-1]


def check_way_home(judge: Judge, plan: Plan) -> None:
    """Doing what is left, in any order in which it may be done, shows the right result."""
    rng = random.Random(0)
    for _ in range(200):
        if judge.progress.finished:
            break
        move = any_possible(rng, judge)
        verdict = judge.judge((move,))
        assert verdict.is_right, f"{plan}: {move} on {judge.frame}"
        judge = judge.after(replace_order(judge, verdict))
    assert judge.finished, f"{plan} on {judge.frame}"
    assert judge.frame == plan.end, f"{plan.start}: {plan}"


def replace_order(judge: Judge, verdict: Verdict) -> Verdict:
    """Under `order`, what was put back is done in turn."""
    if verdict.kept:
        return verdict
    return judge.judge(judge.progress.left_in_step[:1])


def press(seed: int, presses: int, strictness: Strictness, keep_wrong: bool) -> None:
    rng = random.Random(seed)
    while presses > 0:
        plan = random_plan(rng, terms=4, digits=3)
        judge = Judge.of(plan, strictness, keep_wrong)
        for _ in range(30):
            stroke = next_stroke(rng, judge)
            verdict = judge.judge(stroke)
            check_press(judge, stroke, verdict)
            judge = judge.after(verdict)
            judge.omission()
        presses -= 30
        check_way_home(judge, plan)


PRESSED = list(product([Strictness.ANSWER, Strictness.BEADS, Strictness.ORDER], [True, False]))


@pytest.mark.parametrize(("strictness", "keep_wrong"), PRESSED)
def test_random_presses_leave_a_lawful_frame_and_a_way_home(
    strictness: Strictness, keep_wrong: bool
) -> None:
    press(18, 10_000 // len(PRESSED), strictness, keep_wrong)


@pytest.mark.proof
@pytest.mark.parametrize(("strictness", "keep_wrong"), PRESSED)
def test_many_random_presses_leave_a_lawful_frame_and_a_way_home(
    strictness: Strictness, keep_wrong: bool
) -> None:
    press(19, 200_000 // len(PRESSED), strictness, keep_wrong)
