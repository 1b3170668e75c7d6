"""The work as it is written on paper beside a frame: a line for each product and trial digit."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from frame.practice.work import Help, Work
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Progress

_SIGNS = {
    Act.MULTIPLY: "+",
    Act.ADD_BACK: "+",
    Act.SUBTRACT: "−",
    Act.SUBTRACT_HALF: "−",
    Act.TAKE_AGAIN: "−",
}
_UNWRITTEN = frozenset({Act.CLEAR, Act.ROUND})
"""What is done on the frame, and leaves no line on paper."""


class WrittenLine(NamedTuple):
    """One line of the work. `digits` may hold a point; `rod` is the place of the first digit.

    `factors` are the two digits of a product, or a trial digit before and after its revision;
    `of` are the rods on which factors stand. One line at most is current: the one being worked.
    """

    act: Act
    digits: str
    rod: int
    factors: tuple[int, ...] = ()
    of: tuple[int, ...] = ()
    is_current: bool = False

    @property
    def sign(self) -> str:
        """What stands before the digits: a plus, a true minus, or nothing."""
        return _SIGNS.get(self.act, "")

    @property
    def places(self) -> tuple[tuple[int, str], ...]:
        """Each digit with the rod it stands on, from the left."""
        figures = self.digits.replace(".", "")
        return tuple((self.rod - index, digit) for index, digit in enumerate(figures))


def written_work(work: Work) -> tuple[WrittenLine, ...]:
    """What is written beside the frame of an exercise now: nothing where beads are not seen, the
    line to come only where the tool leads the hand or has been asked for the rule."""
    if work.exercise.rung.is_unseen or work.exercise.by_answer or work.judge is None:
        return ()
    ahead = work.exercise.rung.is_led or work.level >= Help.TEACH
    return written_lines(way_of(work), ahead=ahead)


def way_of(work: Work) -> tuple[Progress, ...]:
    """How far each plan was followed, in order; the last of them is followed now. A hand that
    chooses another trial digit goes on with another plan."""
    states = [(touch.judge.progress, touch.verdict.progress) for touch in work.touches]
    every = [progress for pair in states for progress in pair]
    if work.judge is not None:
        every.append(work.judge.progress)
    return tuple([*run][-1] for _, run in groupby(every, key=lambda one: id(one.plan)))


def written_lines(way: Sequence[Progress], *, ahead: bool) -> tuple[WrittenLine, ...]:
    """The lines of work done so far, oldest first; with `ahead` the line to come is there before
    it is begun."""
    lines: list[WrittenLine] = []
    for progress, after in zip(way, [*way[1:], None], strict=True):
        lines += _lines(progress, ahead=ahead and after is None)
        if after is not None:
            lines = [line for line in lines if not line.is_current]
            lines += _chosen(progress, after)
    return tuple(lines)


def _lines(progress: Progress, *, ahead: bool) -> Iterator[WrittenLine]:
    """The lines of one plan: those done, and that being worked."""
    for operation, span in _spans(progress.plan):
        is_done = span.stop <= progress.at
        is_here = progress.at in span and (ahead or _is_begun(progress, span))
        if _is_written(operation) and (is_done or is_here):
            yield WrittenLine(*operation[:5], is_current=not is_done)


def _spans(plan: Plan) -> Iterator[tuple[Operation, range]]:
    """Each operation with the indices of its strokes."""
    pairs = zip(plan.steps, plan.span_of, strict=True)
    for operation, steps in groupby(pairs, key=lambda pair: pair[0].operation):
        spans = [span for _, span in steps]
        yield operation, range(spans[0].start, spans[-1].stop)


def _is_begun(progress: Progress, span: range) -> bool:
    return progress.at > span.start or any(index in span for index in progress.left)


def _is_written(operation: Operation) -> bool:
    return not operation.act.is_of_column and operation.act not in _UNWRITTEN


def _chosen(progress: Progress, after: Progress) -> Iterator[WrittenLine]:
    """The trial digit that the hand chose in the place of the plan's."""
    step, steps = progress.step, after.plan.steps
    if step is None or not step.operation.act.is_trial:
        return
    digit = after.plan.start.digit(step.rod)
    if digit and not (steps and steps[0].operation == step.operation):
        yield WrittenLine(step.operation.act, str(digit), step.rod)
