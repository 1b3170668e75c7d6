"""The work of an exercise as one writes it on paper: a line for each product and trial digit.

It is not kept but worked out from the touches, also where the hand tried another digit and another
plan took over. What is not done yet is written only where the tool leads or helps, but for
operands, revisions and what is added back.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of_fact
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.technique.expression import Sum
from frame.technique.operation import Act, Operation
from frame.technique.plan import Freedom, Plan
from frame.technique.progress import Progress
from frame.technique.reading import read

_UNWRITTEN = frozenset({Act.ADD, Act.TAKE, Act.CLEAR})


class WrittenLine(NamedTuple):
    """A line of written work. `digits` stand on the rods from `rod` on; `is_done` tells that its
    beads are moved."""

    operation: Operation
    digits: str
    rod: int
    is_done: bool

    @property
    def rods(self) -> range:
        """The rods it touches, highest first."""
        return range(self.rod, self.rod - len(self.digits), -1)


def is_written(exercise: Exercise) -> bool:
    """Whether its work is written beside the frame."""
    return exercise.kind is Kind.SUM and (
        not isinstance(exercise.sum, Sum) or "below-zero" in exercise.facts
    )


def are_written(facts: tuple[str, ...]) -> bool:
    """Whether exercises drawn for these facts are written beside the frame."""
    usual = (Family.DECIMALS,)
    families = {family_of_fact(fact) for fact in facts}
    return any(not family.grows and family not in usual for family in families)


def has_lines(plan: Plan) -> bool:
    """Whether anything of a plan is written beside the frame, but what is set."""
    unwritten = _UNWRITTEN | {Act.SET}
    return any(step.operation.act not in unwritten for step in plan.steps)


def written_lines(work: Work) -> tuple[WrittenLine, ...]:
    """The lines so far, oldest first; the last is the one in work where it may be seen."""
    if work.is_silent or work.judge is None or work.exercise.kind is not Kind.SUM:
        return ()
    return lines_of(_states(work), lambda act: _is_shown(work, act))


def lines_of(
    states: Iterable[Progress], is_shown: Callable[[Act], bool] = lambda act: True
) -> tuple[WrittenLine, ...]:
    """The lines of work that went through these states, the last being where it stands, oldest
    first; then the one in work where such an act is shown before it is done.

    Of a plan with so many strokes done: `lines_of([Progress.begin(plan, strokes)])`.
    """
    states = list(states)
    done = [_line(operation, is_done=True) for operation in _done(states)]
    if states and done and _is_about_to_borrow(states[-1]) and not is_shown(Act.BORROW):
        done.pop()
    now = states[-1].step if states else None
    if now is None or now.operation.act in _UNWRITTEN or not is_shown(now.operation.act):
        return tuple(done)
    return (*done, _line(now.operation, is_done=False))


def unused_line(work: Work) -> WrittenLine | None:
    """How a frame below zero is read, where it is not yet to be read by the learner."""
    is_told = work.exercise.rung.is_led or work.level or work.finished
    if not is_told or work.judge is None or not isinstance(work.exercise.sum, Sum):
        return None
    return unused_at(work.judge.progress)


def unused_at(progress: Progress) -> WrittenLine | None:
    """How the frame of a column below zero is read: on each rod the beads not used, and one more on
    the last rod with any in use. None where it is not below zero."""
    done, frame = progress.plan.steps[: progress.step_index], progress.frame
    owed = done[-1].owed if done and done[-1].span is None else None
    if owed is None or read(frame, owed) >= 0:
        return None
    rods = range(owed - 1, frame.lowest - 1, -1)
    missing = 10 ** len(rods) - int("".join(str(frame.digit(rod)) for rod in rods) or 0)
    digits = str(missing).zfill(len(rods))[-len(rods) :]
    return WrittenLine(Operation(Act.BORROW, digits, owed - 1), digits, owed - 1, True)


def _is_shown(work: Work, act: Act) -> bool:
    """Whether the line in work may be seen before it is done. Whatever is shown, operands must
    stand in their places, and what was done before calls for a revision."""
    is_asked_for = act is Act.SET or act.is_mending
    return work.exercise.rung.is_led or work.level >= Help.TEACH or is_asked_for


def _is_about_to_borrow(progress: Progress) -> bool:
    """Whether a 1 is borrowed for the very step to come: without a bead, it counts as done."""
    before = progress.plan.steps[: progress.step_index]
    return bool(before) and before[-1].operation.act is Act.BORROW and not before[-1].moves


def _done(states: Sequence[Progress]) -> Iterator[Operation]:
    """The operations that are done, each once; operands that are set are seen."""
    last: Operation | None = None
    for operation in _of_steps(states):
        if operation != last and operation.act not in _UNWRITTEN and operation.act is not Act.SET:
            yield operation
        last = operation


def _states(work: Work) -> Iterator[Progress]:
    """The progress before each touch, and now."""
    for touch in work.touches:
        yield touch.judge.progress
    if work.judge is not None:
        yield work.judge.progress


def _of_steps(states: Iterable[Progress]) -> Iterator[Operation]:
    """The operations of the steps done. Another plan takes over where the hand has chosen another
    digit or order; the digit that it chose is then a line of its own."""
    trail = _trail(states)
    for before, now in pairwise(trail):
        orders = before.plan.orders
        if orders is not None and now.plan.orders is orders:
            continue  # The same work in another order: what was done is among its own lines.
        yield from _until(before)
        step, way = before.step, before.way
        if step is not None and way is not None and way.freedom is Freedom.DIGIT:
            yield _chosen(step.operation, now.plan.start.digit(step.rod))
    if trail:
        yield from _until(trail[-1])


def _trail(states: Iterable[Progress]) -> list[Progress]:
    """The last state on each plan that was gone by; a plan that was left again is none."""
    trail: list[Progress] = []
    for now in states:
        plans: list[Plan] = [one.plan for one in trail]
        here = next((at for at, plan in enumerate(plans) if plan is now.plan), len(trail))
        trail = [*trail[:here], now]
    return trail


def _chosen(operation: Operation, digit: int) -> Operation:
    """A trial or a revision with the digit that the hand has chosen, for no reason of its own."""
    if operation.act.is_trial:
        return operation._replace(digits=str(digit), why=())
    factors = (operation.factors[0], digit)
    return operation._replace(digits=str(digit), factors=factors)


def _until(progress: Progress) -> Iterator[Operation]:
    """The operations of which the last step is done."""
    steps, at = progress.plan.steps, progress.step_index
    under_way = steps[at].operation if at < len(steps) else None
    return (step.operation for step in steps[:at] if step.operation != under_way)


def _line(operation: Operation, *, is_done: bool) -> WrittenLine:
    digits = operation.digits.replace(".", "")
    if operation.act in (Act.BORROW, Act.RETURN):
        digits = digits.lstrip("0")  # Of a tenth, the nought before the point stands on no rod.
    return WrittenLine(operation, digits, operation.rod, is_done)
