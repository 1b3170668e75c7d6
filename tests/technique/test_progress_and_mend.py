"""Every way through a plan comes to its end; the shortest mend is as short as can be."""

from collections import deque
from decimal import Decimal
from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from reference_hand import Beads

from frame.technique.addition import plan_sum
from frame.technique.beads import BeadMove, Frame
from frame.technique.conventions import Carry, Conventions, Remove
from frame.technique.mend import shortest_mend
from frame.technique.plan import Plan

CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)

terms = st.lists(st.integers(-(10**14) + 1, 10**14 - 1).map(Decimal), min_size=1, max_size=6)
conventions = st.builds(Conventions, st.sampled_from(Carry), st.sampled_from(Remove))
plans = st.builds(plan_sum, terms, conventions)


def part(data: st.DataObject, move: BeadMove) -> BeadMove:
    """The move, or some of its earth beads."""
    if move.is_heaven:
        return move
    sign = 1 if move.change > 0 else -1
    return BeadMove(move.rod, sign * data.draw(st.integers(1, move.beads)))


@given(plans, st.data())
def test_every_allowed_order_comes_to_the_end(plan: Plan, data: st.DataObject) -> None:
    progress, made = plan.begin(), 0
    while not progress.finished:
        move = data.draw(st.sampled_from(sorted(progress.allowed)))
        index = progress.find(move)
        assert index == progress.at
        progress = progress.make(index, move)
        made += 1
    assert made == sum(map(len, plan.strokes))
    assert progress.frame == plan.end
    assert progress.allowed == frozenset()
    assert progress.left_in_line == ()


@given(plans, st.data())
def test_beads_moved_a_few_at_a_time_come_to_the_end(plan: Plan, data: st.DataObject) -> None:
    progress = plan.begin()
    while not progress.finished:
        left = sum(move.change * 10 ** (move.rod) for move in progress.left_in_line)
        move = part(data, data.draw(st.sampled_from(sorted(progress.allowed))))
        progress = progress.make(progress.at, move)
        after = sum(m.change * 10**m.rod for m in progress.left_in_line)
        assert after == left - move.change * 10**move.rod
    assert progress.frame == plan.end


@given(plans)
def test_what_is_left_shrinks_move_by_move(plan: Plan) -> None:
    progress = plan.begin()
    everything = tuple(move for stroke in plan.strokes for move in stroke)
    for done, move in enumerate(everything):
        assert progress.left_in_line == everything[done:]
        assert progress.step is plan.steps[progress.step_index]
        index = progress.find(move)
        assert index is not None
        progress = progress.make(index, move)
    assert progress.step is None
    assert progress.step_index == len(plan.steps)


def distances(start: tuple[int, int]) -> dict[tuple[int, int], int]:
    """How many bead moves each state of two rods is away, by a search over all hundred."""
    away = {start: 0}
    queue = deque([start])
    while queue:
        state = queue.popleft()
        for at, change in product((0, 1), CHANGES):
            beads = Beads(state[at])
            if not beads.allows(change):
                continue
            beads.push(change)
            after = (beads.shown, state[1]) if at == 0 else (state[0], beads.shown)
            if after not in away:
                away[after] = away[state] + 1
                queue.append(after)
    return away


def test_a_mend_is_the_shortest_of_all_on_two_rods() -> None:
    states = list(product(range(10), range(10)))
    for start in states:
        away = distances(start)
        assert len(away) == 100
        frame = Frame("".join(map(str, start)), 1)
        for wanted in states:
            mend = shortest_mend(frame, Frame("".join(map(str, wanted)), 1))
            assert len(mend) == away[wanted]
            assert frame.apply_all(mend).digits == "".join(map(str, wanted))


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=31))
def test_a_mend_reaches_the_wanted_frame(rods: list[tuple[int, int]]) -> None:
    wrong = Frame("".join(str(digit) for digit, _ in rods), 0)
    wanted = Frame("".join(str(digit) for _, digit in rods), 0)
    mend = shortest_mend(wrong, wanted)
    assert wrong.apply_all(mend) == wanted
    assert [move.rod for move in mend] == sorted((m.rod for m in mend), reverse=True)
