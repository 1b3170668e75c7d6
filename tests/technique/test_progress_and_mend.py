"""Every way through a plan comes to its end; the shortest mend is as short as can be."""

from collections import deque
from collections.abc import Sequence
from decimal import Decimal
from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from reference_hand import Beads

from frame.technique.addition import plan_sum
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.conventions import Carry, Conventions, Remove
from frame.technique.mend import shortest_mend
from frame.technique.plan import Plan
from frame.technique.progress import Progress

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


def moves_of(strokes: Sequence[Stroke]) -> Stroke:
    return tuple(move for stroke in strokes for move in stroke)


def followed(progress: Progress, move: BeadMove) -> Progress:
    after = progress.follow(move)
    assert after is not None, f"{move} is not of {progress.next_stroke} on {progress.frame}"
    assert after.frame == progress.frame.apply(move)
    return after


@given(plans, st.data())
def test_every_allowed_order_comes_to_the_end(plan: Plan, data: st.DataObject) -> None:
    progress, made = Progress.begin(plan), 0
    while not progress.finished:
        move = data.draw(st.sampled_from(sorted(progress.next_stroke)))
        progress = followed(progress, move)
        made += 1
    assert made == sum(map(len, plan.strokes))
    assert progress.frame == plan.end
    assert progress.next_stroke == ()
    assert (progress.next_stroke, progress.left_in_step, progress.left_in_line) == ((), (), ())


def worth(moves: Stroke) -> int:
    return sum(move.change * 10**move.rod for move in moves)


@given(plans, st.data())
def test_beads_moved_a_few_at_a_time_come_to_the_end(plan: Plan, data: st.DataObject) -> None:
    progress = Progress.begin(plan)
    for line in plan.lines:
        left = worth(moves_of(line.strokes))
        while progress.step_index < line.last:
            assert worth(progress.left_in_line) == left
            move = part(data, data.draw(st.sampled_from(sorted(progress.next_stroke))))
            progress = followed(progress, move)
            left -= worth((move,))
        assert left == 0
    assert progress.finished
    assert progress.frame == plan.end


@given(plans)
def test_what_is_left_shrinks_move_by_move(plan: Plan) -> None:
    """Of a number, which is a line of the work, and of the digit under way."""
    progress = Progress.begin(plan)
    for line in plan.lines:
        everything = moves_of(line.strokes)
        for done, move in enumerate(everything):
            assert progress.left_in_line == everything[done:]
            assert moves_of([*progress.strokes_left]) == everything[done:]
            assert progress.step is plan.steps[progress.step_index]
            assert progress.left_in_step == progress.left_in_line[: len(progress.left_in_step)]
            assert progress.step.moves[-len(progress.left_in_step) :] == progress.left_in_step
            progress = followed(progress, move)
    assert progress.step is None
    assert progress.step_index == len(plan.steps)


@given(plans, st.data())
def test_a_plan_begun_with_some_strokes_done_is_where_they_lead(
    plan: Plan, data: st.DataObject
) -> None:
    done = data.draw(st.integers(0, len(plan.strokes)))
    progress = Progress.begin(plan)
    for move in moves_of(plan.strokes[:done]):
        progress = followed(progress, move)
    begun = Progress.begin(plan, done)
    assert begun.frame == progress.frame
    assert begun.next_stroke == progress.next_stroke
    assert [*begun.strokes_left] == [*progress.strokes_left]
    assert (begun.step, begun.step_index) == (progress.step, progress.step_index)


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
