"""The judge lets every lawful hand through and stops every other move, on all 180 facts."""

import random
from collections.abc import Iterator
from decimal import Decimal
from itertools import product

import pytest
from reference_hand import Beads

from frame.technique.addition import plan_on, plan_sum
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.judge import Judge, Judgement, Strictness, Verdict
from frame.technique.mend import shortest_mend
from frame.technique.plan import Carry, Conventions, Plan, Remove
from frame.technique.slips import Slip

CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
CONVENTIONS = [Conventions(carry, remove) for carry, remove in product(Carry, Remove)]


def random_plan(rng: random.Random, terms: int = 6, digits: int = 5) -> Plan:
    numbers = [rng.randrange(10 ** rng.randint(1, digits)) for _ in range(rng.randint(2, terms))]
    column = [Decimal(numbers[0]), *(rng.choice([1, -1]) * Decimal(n) for n in numbers[1:])]
    return plan_sum(column, rng.choice(CONVENTIONS), at_least=3)


def one_rod_plans(left: int) -> Iterator[Plan]:
    for digit, number, sign in product(range(10), range(1, 10), (1, -1)):
        yield plan_on(Frame(f"0{left}{digit}", 2), Decimal(sign * number))


def beads_allow(frame: Frame, move: BeadMove) -> bool:
    return frame.has(move.rod) and Beads(frame.digit(move.rod)).allows(move.change)


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


def any_possible(rng: random.Random, judge: Judge) -> BeadMove:
    """Some move left that the beads allow; a part of one where none is possible as a whole."""
    left = list(judge.progress.left_in_plan)
    rng.shuffle(left)
    for move in left:
        if beads_allow(judge.frame, move):
            return move
    for move in left:
        if not move.is_heaven:
            one = BeadMove(move.rod, 1 if move.change > 0 else -1)
            if beads_allow(judge.frame, one):
                return one
    raise AssertionError(f"no way on: {judge.progress.left_in_plan} on {judge.frame}")


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


PRESS_RODS = (-1, 0, 0, 0, 1, 1, 2, 3)


def random_stroke(rng: random.Random) -> Stroke:
    rod = rng.choice(PRESS_RODS)
    if rng.random() < 0.1:
        pair = (BeadMove(rod, rng.choice((5, -5))), BeadMove(rod, rng.choice(CHANGES[1:-1])))
        return pair if rng.random() < 0.5 else pair[::-1]
    return (BeadMove(rod, rng.choice(CHANGES)),)


def next_stroke(rng: random.Random, judge: Judge) -> Stroke:
    """Mostly what is left, in no order; sometimes anything at all."""
    left = judge.progress.left_in_plan
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
    """Doing what is left, in its order or as the beads allow, shows the right result."""
    rng = random.Random(0)
    for _ in range(200):
        if judge.progress.finished:
            break
        verdict = judge.judge((any_possible(rng, judge),))
        assert verdict.is_right
        judge = judge.after(replace_order(judge, verdict))
    assert judge.finished
    assert judge.frame == plan.end


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
