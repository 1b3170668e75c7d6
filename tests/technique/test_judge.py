"""The judge lets every lawful hand through and stops every other move, on all 180 facts."""

import random
from collections import deque
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import product

import pytest
from each import each_row
from proofs import some_daily
from random_hands import CHANGES, CONVENTIONS, any_possible, beads_allow, random_plan
from reference_hand import Beads

from frame.technique.addition import plan_on, plan_sum
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.conventions import Conventions, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.judge import Judge, Judgement, Verdict
from frame.technique.mend import shortest_mend
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.slips import Slip


def one_rod_plans(left: int, carries: bool = True, others: bool = True) -> Iterator[Plan]:
    """Every digit put to every digit on the rod beside `left`: those that carry or borrow, and the
    others, which leave it alone."""
    for digit, number, sign in product(range(10), range(1, 10), (1, -1)):
        if carries if digit + sign * number not in range(10) else others:
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


@each_row("theirs", CONVENTIONS)
@each_row("ours", CONVENTIONS)
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
            if any(covers(wanted, move) for wanted in judge.progress.next_stroke):
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


State = tuple[int, ...]
"""What each rod of a frame shows, the highest first."""


@cache
def beads_to(end: State) -> dict[State, int]:
    """How many single beads every state is away from the end, by a search over all states."""
    away, queue = {end: 0}, deque([end])
    while queue:
        state = queue.popleft()
        for after in beside(state):
            if after not in away:
                away[after] = away[state] + 1
                queue.append(after)
    return away


@cache
def beside(state: State) -> tuple[State, ...]:
    """Every state that is one bead away."""
    found = []
    for at, change in product(range(len(state)), (-5, -1, 1, 5)):
        beads = Beads(state[at])
        if beads.allows(change):
            beads.push(change)
            found.append((*state[:at], beads.shown, *state[at + 1 :]))
    return tuple(found)


def state_of(frame: Frame) -> State:
    return tuple(map(int, frame.digits))


def end_of(plan: Plan) -> State:
    """What the rods show when the one digit is worked; below zero a 1 is borrowed on the tens."""
    (*_, step) = plan.steps
    number = int(plan.start.digits) + step.change
    return tuple(map(int, f"{number % 10 if number < 0 else number:03}"))


def is_lawful(frame: Frame, move: BeadMove, end: State) -> bool:
    """Whether some lawful way to work the digit goes on with the move. Own rod and carry in any
    order, each deck straight to where it ends: so the lawful ways are the shortest, bead by bead,
    and no other."""
    if not beads_allow(frame, move):
        return False
    away = beads_to(end)
    return away[state_of(frame.apply(move))] == away[state_of(frame)] - move.beads


def expected(plan: Plan, frame: Frame, next_stroke: Stroke, move: BeadMove) -> Judgement:
    """The verdict by the beads that lead to the end, and by the convention's next stroke."""
    if not is_lawful(frame, move, end_of(plan)):
        return Judgement.WRONG
    is_next = any(covers(wanted, move) for wanted in next_stroke)
    return Judgement.RIGHT if is_next else Judgement.OTHER_ORDER


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
    are_others_tried = left_digit == 1 or strictness is Strictness.ORDER
    check_every_fact(one_rod_plans(left_digit, others=are_others_tried), strictness)


@pytest.mark.proof
@pytest.mark.parametrize("left_digit", [4, 5, 9, 0])
def test_where_nothing_is_carried_it_is_so_beside_any_rod(left_digit: int) -> None:
    check_every_fact(one_rod_plans(left_digit, carries=False), Strictness.BEADS)


def check_every_fact(plans: Iterator[Plan], strictness: Strictness) -> None:
    for plan in plans:
        judge = Judge.of(plan, strictness)
        for stroke in plan.strokes:
            for done in range(len(stroke)):
                check_every_move(plan, judge, stroke[done:])
                judge = follow(judge, stroke[done : done + 1])
        check_nothing_is_left(plan, judge)


def check_every_move(plan: Plan, judge: Judge, next_stroke: Stroke) -> None:
    for move in all_moves():
        verdict = judge.judge((move,))
        wanted = expected(plan, judge.frame, next_stroke, move)
        assert verdict.judgement is wanted, f"{plan.start}: {plan}: {move} on {judge.frame}"
        if wanted is Judgement.WRONG:
            check_wrong(judge, move, verdict, plan.end)
        else:
            assert verdict.slip is None
            assert verdict.mend == ()


def check_nothing_is_left(plan: Plan, judge: Judge) -> None:
    assert judge.finished
    assert state_of(judge.frame) == end_of(plan)
    for move in all_moves():
        verdict = judge.judge((move,))
        assert verdict.judgement is Judgement.WRONG, f"{plan.start}: {plan}: {move} at the end"
        check_wrong(judge, move, verdict, plan.end)


@pytest.mark.parametrize("left_digit", some_daily((1, 4, 5, 9, 0), (4, 9)))
def test_every_bead_move_at_every_point_of_a_way_of_the_hands_own(left_digit: int) -> None:
    """Own rod and carry in any order, a few beads at a time."""
    check_own_ways(one_rod_plans(left_digit, others=left_digit == 1))


@pytest.mark.proof
@pytest.mark.parametrize("left_digit", [4, 5, 9, 0])
def test_where_nothing_is_carried_a_way_of_ones_own_is_judged_alike(left_digit: int) -> None:
    check_own_ways(one_rod_plans(left_digit, carries=False))


def check_own_ways(plans: Iterator[Plan]) -> None:
    rng = random.Random(21)
    for plan in plans:
        judge = Judge.of(plan)
        while not judge.finished:
            lawful = [move for move in all_moves() if is_lawful(judge.frame, move, end_of(plan))]
            for move in all_moves():
                verdict = judge.judge((move,))
                about = f"{plan.start}: {plan}: {move} on {judge.frame}"
                assert verdict.is_right is (move in lawful), about
                assert verdict.is_right is (verdict.slip is None), about
            judge = judge.after(judge.judge((rng.choice(lawful),)))
        check_nothing_is_left(plan, judge)


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
    judge = judge.after(verdict)
    for move in verdict.mend:
        verdict = judge.judge((move,))
        assert verdict.is_right and verdict.kept, move
        judge = judge.after(verdict)
    assert judge.frame == plan.end
    assert judge.finished


@pytest.mark.parametrize("text", ["0", "0 + 0", "38 + 47", "5 - 8", "12 x 3", "84 / 4"])
def test_a_bead_left_lying_when_all_is_done_only_goes_back(text: str) -> None:
    """So it is where there was nothing to do at all."""
    plan = plan_of(parse_calculation(text))
    judge = Judge.of(plan, keep_wrong=True)
    for stroke in plan.strokes:
        judge = follow(judge, stroke)
    lowest = plan.start.lowest
    heaven = BeadMove(lowest, -5 if judge.frame.digit(lowest) >= 5 else 5)
    verdict = judge.judge((heaven,))
    assert (verdict.slip, verdict.kept) == (Slip.EXTRA_MOVE, True)
    assert verdict.mend == (heaven.inverse,)
    judge = judge.after(verdict)
    assert not judge.finished
    assert judge.progress.next_stroke == verdict.mend
    judge = follow(judge, verdict.mend)
    assert judge.finished
    assert judge.frame == plan.end


@pytest.mark.parametrize("smaller", [3, 5, 7])
def test_where_a_planner_tells_of_no_other_trials_its_own_digit_alone_is_tried(
    smaller: int,
) -> None:
    """3588 by 46: 35 by 4 is 8. With a smaller digit the work does not go on."""
    plan = replace(plan_of(parse_calculation("3588 / 46")), trials=None)
    judge = Judge.of(plan)
    setting, trial = plan.lines[0], plan.lines[1].steps[0]
    for stroke in setting.strokes:
        judge = follow(judge, stroke)
    assert judge.progress.tracks[0].lawful_digits(judge.frame) == range(8, 9)
    other = judge.frame.with_digit(trial.rod, smaller)
    judge = follow(judge, shortest_mend(judge.frame, other))
    assert judge.progress.step == trial
    assert {move.rod for move in judge.progress.left_in_line} == {trial.rod}
