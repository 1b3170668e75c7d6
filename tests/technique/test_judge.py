"""The judge lets every lawful hand through and stops every other move, on all 180 facts."""

import random
from collections.abc import Iterator
from decimal import Decimal
from itertools import product

import pytest
from random_hands import CHANGES, CONVENTIONS, any_possible, beads_allow, random_plan

from frame.technique.addition import plan_on, plan_sum
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.conventions import Conventions, Strictness
from frame.technique.judge import Judge, Judgement, Verdict
from frame.technique.mend import shortest_mend
from frame.technique.plan import Plan
from frame.technique.slips import Slip


def one_rod_plans(left: int) -> Iterator[Plan]:
    for digit, number, sign in product(range(10), range(1, 10), (1, -1)):
        yield plan_on(Frame(f"0{left}{digit}", 2), Decimal(sign * number))


def covers(wanted: BeadMove, move: BeadMove) -> bool:
    same_deck = wanted.rod == move.rod and (abs(wanted.change) == 5) == (abs(move.change) == 5)
    same_way = wanted.change * move.change > 0
    return same_deck and same_way and abs(move.change) <= abs(wanted.change)


def lawful_order(rng: random.Random, plan: Plan) -> list[BeadMove]:
    """The plan's own order; pinches in whichever order."""
    order = []
    for stroke in plan.strokes:
        order += rng.sample(stroke, len(stroke))
    return order


def follow(judge: Judge, moves: Stroke | list[BeadMove]) -> Judge:
    for move in moves:
        verdict = judge.judge((move,))
        assert verdict.judgement is Judgement.RIGHT, move
        judge = judge.after(verdict)
    return judge


@pytest.mark.parametrize("strictness", Strictness)
def test_a_hand_in_the_plans_order_is_always_right(strictness: Strictness) -> None:
    rng = random.Random(11)
    for _ in range(150):
        plan = random_plan(rng)
        judge = Judge.of(plan, strictness)
        judge = follow(judge, lawful_order(rng, plan))
        assert judge.finished
        assert judge.frame == plan.end
        assert judge.omission() is None


@pytest.mark.parametrize("strictness", Strictness)
def test_pinches_made_at_once_are_right(strictness: Strictness) -> None:
    rng = random.Random(12)
    for _ in range(150):
        plan = random_plan(rng)
        judge = Judge.of(plan, strictness)
        for stroke in plan.strokes:
            verdict = judge.judge(tuple(rng.sample(stroke, len(stroke))))
            assert verdict.judgement is Judgement.RIGHT
            assert (verdict.slip, verdict.mend, verdict.part) == (None, (), False)
            judge = judge.after(verdict)
        assert judge.finished


def test_a_hand_in_any_possible_order_is_never_wrong() -> None:
    rng = random.Random(13)
    for _ in range(300):
        plan = random_plan(rng)
        judge = Judge.of(plan, Strictness.BEADS)
        while not judge.finished:
            verdict = judge.judge((any_possible(rng, judge),))
            assert verdict.is_right and verdict.kept
            judge = judge.after(verdict)
        assert judge.frame == plan.end


@pytest.mark.parametrize("theirs", CONVENTIONS, ids=str)
@pytest.mark.parametrize("ours", CONVENTIONS, ids=str)
def test_another_schools_order_is_never_wrong(theirs: Conventions, ours: Conventions) -> None:
    rng = random.Random(14)
    for _ in range(40):
        terms = [Decimal(rng.randrange(10**5)) for _ in range(3)]
        judge = Judge.of(plan_sum(terms, ours), Strictness.BEADS)
        for stroke in plan_sum(terms, theirs).strokes:
            verdict = judge.judge(stroke)
            assert verdict.is_right and verdict.slip is None
            judge = judge.after(verdict)
        assert judge.finished


def test_out_of_turn_is_put_back_where_order_is_asked() -> None:
    rng = random.Random(15)
    out_of_turn = 0
    for _ in range(150):
        plan = random_plan(rng)
        judge = Judge.of(plan, Strictness.ORDER)
        while not judge.finished:
            move = any_possible(rng, judge)
            verdict = judge.judge((move,))
            after = judge.after(verdict)
            if any(covers(wanted, move) for wanted in judge.progress.allowed):
                assert verdict.judgement is Judgement.RIGHT
            else:
                out_of_turn += 1
                assert verdict.judgement is Judgement.OTHER_ORDER
                assert not verdict.kept
                assert after == judge
                after = follow(judge, judge.progress.left_in_step[:1])
            judge = after
        assert judge.frame == plan.end
    assert out_of_turn > 500


def all_moves() -> list[BeadMove]:
    return [BeadMove(rod, change) for rod in (-1, 0, 1, 2, 3) for change in CHANGES]


def expected(frame: Frame, left: list[Stroke], move: BeadMove) -> Judgement:
    """The verdict by the strokes that are left, in order."""
    if not beads_allow(frame, move):
        return Judgement.WRONG
    if any(covers(wanted, move) for wanted in left[0] if left):
        return Judgement.RIGHT
    later = [wanted for stroke in left[1:] for wanted in stroke]
    known = any(covers(wanted, move) for wanted in later)
    return Judgement.OTHER_ORDER if known else Judgement.WRONG


def check_wrong(judge: Judge, move: BeadMove, verdict: Verdict, end: Frame) -> None:
    assert verdict.slip is not None
    assert not verdict.kept
    assert judge.after(verdict) == judge
    made = judge.frame.apply(move) if beads_allow(judge.frame, move) else judge.frame
    assert made.apply_all(verdict.mend) == end, "the mend leads to the end of the step"
    assert verdict.mend == shortest_mend(made, end)


EVERYWHERE = [*product((1, 4, 5, 9, 0), [Strictness.BEADS]), (9, Strictness.ORDER)]


@pytest.mark.parametrize(("left_digit", "strictness"), EVERYWHERE)
def test_every_bead_move_at_every_point_of_every_fact(
    left_digit: int, strictness: Strictness
) -> None:
    for plan in one_rod_plans(left_digit):
        moves = [move for stroke in plan.strokes for move in stroke]
        judge = Judge.of(plan, strictness)
        for done in range(len(moves)):
            check_every_move(plan, judge)
            judge = follow(judge, moves[done : done + 1])
        for move in all_moves():
            verdict = judge.judge((move,))
            assert verdict.judgement is Judgement.WRONG
            check_wrong(judge, move, verdict, plan.end)


def check_every_move(plan: Plan, judge: Judge) -> None:
    at = judge.progress.at
    left = [judge.progress.remaining(at), *plan.strokes[at + 1 :]]
    for move in all_moves():
        verdict = judge.judge((move,))
        assert verdict.judgement is expected(judge.frame, left, move), f"{plan}: {move}"
        if verdict.judgement is Judgement.WRONG:
            check_wrong(judge, move, verdict, plan.end)
        else:
            assert verdict.slip is None
            assert verdict.mend == ()


def test_earth_beads_one_at_a_time_are_right_and_remarked() -> None:
    rng = random.Random(16)
    parts = 0
    for _ in range(100):
        plan = random_plan(rng)
        judge = Judge.of(plan, Strictness.ORDER)
        for move in lawful_order(rng, plan):
            count = 1 if move.is_heaven else move.beads
            single = BeadMove(move.rod, move.change // count)
            for nth in range(count):
                verdict = judge.judge((single,))
                assert verdict.judgement is Judgement.RIGHT
                assert verdict.part == (nth < count - 1)
                parts += verdict.part
                judge = judge.after(verdict)
        assert judge.finished
    assert parts > 100


def test_the_answer_alone_is_finished_when_it_is_shown() -> None:
    rng = random.Random(17)
    for _ in range(60):
        plan = random_plan(rng, terms=2)
        judge = Judge.of(plan, Strictness.ANSWER)
        for move in shortest_mend(plan.start, plan.end):
            verdict = judge.judge((move,))
            assert verdict.kept
            judge = judge.after(verdict)
        assert judge.frame == plan.end
        assert judge.finished


def test_a_bead_kept_wrong_names_its_slip_and_the_way_back() -> None:
    plan = plan_sum([Decimal(7), Decimal(8)], at_least=3)
    judge = follow(Judge.of(plan, keep_wrong=True), plan.steps[0].moves)
    verdict = judge.judge((BeadMove(0, -1),))
    assert verdict.part and verdict.is_right
    verdict = judge.judge((BeadMove(1, 2),))
    assert (verdict.slip, verdict.kept) == (Slip.WRONG_COUNT, True)
    judge = follow(judge.after(verdict), verdict.mend)
    assert judge.frame == plan.end
    assert judge.finished
