"""A plan: the bead moves of a trained hand, in which order, and how far they are done."""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from types import MappingProxyType
from typing import NamedTuple

from frame.technique.beads import (
    BeadMove,
    Frame,
    Stroke,
    covers,
    parse_stroke,
    parts_of,
    stroke_text,
    without,
)
from frame.technique.conventions import USUAL, Conventions
from frame.technique.operation import Operation
from frame.technique.reading import read


class Technique(StrEnum):
    """How one digit is worked on its rod."""

    DIRECT = "direct"
    FIVE = "five"
    TEN = "ten"
    TEN_FIVE = "ten-five"
    BORROW = "borrow"
    """A 1 borrowed beyond the frame's number, which goes below zero. No bead is set for it."""


class Step(NamedTuple):
    """One digit worked on one rod, with the carry or borrow that it causes.

    `strokes` are in the convention's order; the two moves of a pinch have no order between
    them. `change` is the signed digit. `ripple` counts the 9s a carry, or the 0s a borrow, ran
    over. `owed` is the rod of a 1 borrowed beyond the number (10 ** owed), None when there is
    none. `span` is the highest and lowest rod of the result so far, None where it takes the whole
    frame; a highest rod below the lowest is no result yet.
    """

    operation: Operation
    rod: int
    change: int
    technique: Technique
    ripple: int
    strokes: tuple[Stroke, ...]
    owed: int | None = None
    span: tuple[int, int] | None = None

    @property
    def digit(self) -> int:
        """The digit worked, without its sign."""
        return abs(self.change)

    @property
    def moves(self) -> Stroke:
        """All bead moves of the step, in order."""
        return tuple([move for stroke in self.strokes for move in stroke])


OnWith = Callable[[Frame, Step, Conventions], "Plan | None"]
"""How work goes on from a frame with another trial digit on a step's rod."""


@dataclass(frozen=True)
class Plan:
    """The steps from a start frame to a result. `str` and `parse_strokes` are inverse.

    `remainder` is what a division or a root leaves over. Where a step sets a trial digit that the
    hand may choose otherwise, `on_with` answers how to go on from a frame with another digit on
    the step's rod, None where that digit can't be gone on with.
    """

    start: Frame
    steps: tuple[Step, ...]
    result: Decimal
    conventions: Conventions = USUAL
    remainder: Decimal | None = None
    on_with: "OnWith | None" = field(default=None, compare=False, repr=False)

    def __str__(self) -> str:
        return " ".join(map(stroke_text, self.strokes))

    @cached_property
    def strokes(self) -> tuple[Stroke, ...]:
        """Every stroke of every step, in order."""
        return tuple(stroke for step in self.steps for stroke in step.strokes)

    @cached_property
    def step_of(self) -> tuple[int, ...]:
        """For each stroke, the index of its step."""
        return tuple(i for i, step in enumerate(self.steps) for _ in step.strokes)

    @cached_property
    def span_of(self) -> tuple[range, ...]:
        """For each step, the indices of its strokes."""
        spans, first = [], 0
        for step in self.steps:
            spans.append(range(first, first + len(step.strokes)))
            first += len(step.strokes)
        return tuple(spans)

    @cached_property
    def rest_of_step(self) -> tuple[Stroke, ...]:
        """For each stroke, the moves from it to the end of its step."""
        rests: list[Stroke] = []
        for step in reversed(self.steps):
            rest: Stroke = ()
            for stroke in reversed(step.strokes):
                rest = stroke + rest
                rests.append(rest)
        return tuple(reversed(rests))

    @cached_property
    def fence_of(self) -> tuple[int, ...]:
        """For each stroke, the first one that may not be made before its operation is whole.

        The numbers of a column may be worked in any order; a product must be whole before the
        next one.
        """
        fences: list[int] = []
        for index in range(len(self.strokes) - 1, -1, -1):
            is_last = index + 1 == len(self.strokes)
            fences.append(index + 1 if is_last or self._is_fenced(index) else fences[-1])
        return tuple(reversed(fences))

    def _is_fenced(self, index: int) -> bool:
        """Whether another line of work begins after a stroke."""
        one, other = (self.steps[self.step_of[at]].operation for at in (index, index + 1))
        return one != other and not one.act.goes_with(other.act)

    @cached_property
    def places(self) -> Mapping[BeadMove, tuple[int, ...]]:
        """For each bead move, the strokes of which it makes all or a part."""
        found: dict[BeadMove, list[int]] = {}
        for index, stroke in enumerate(self.strokes):
            for move in stroke:
                for part in parts_of(move):
                    found.setdefault(part, []).append(index)
        return {part: tuple(indices) for part, indices in found.items()}

    @cached_property
    def end(self) -> Frame:
        """The frame when every move is made."""
        return self.start.apply_all(tuple(m for stroke in self.strokes for m in stroke))

    def reading(self, step: Step, frame: Frame) -> Decimal:
        """The result so far on the frame after a step, with the result's sign."""
        shown = frame if step.span is None else frame.only(*step.span)
        number = read(shown, step.owed)
        return -number if step.span is not None and self.result < 0 else number

    def cut(self, ends: Sequence[int]) -> "tuple[Plan, ...]":
        """The plan in pieces, each from the frame after the one before. `ends` count the steps up
        to the end of each piece but the last."""
        pieces: list[Plan] = []
        begin, frame, number = 0, self.start, read(self.start)
        for end in ends:
            steps, start = self.steps[begin:end], frame
            for step in steps:
                frame = frame.apply_all(step.moves)
                number = self.reading(step, frame)
            pieces.append(Plan(start, steps, number, self.conventions))
            begin = end
        return (*pieces, replace(self, start=frame, steps=self.steps[begin:]))

    def begin(self) -> "Progress":
        """The plan with nothing done yet."""
        return Progress(self, self.start)

    def frames(self) -> Iterator[tuple[Step, Frame]]:
        """Each step with the frame after it."""
        frame = self.start
        for step in self.steps:
            frame = frame.apply_all(step.moves)
            yield step, frame


def parse_strokes(text: str) -> tuple[Stroke, ...]:
    """The strokes written one after another. Raises IllegalMove for a text that is none.

    >>> [stroke_text(s) for s in parse_strokes("0:+4 0:+5 0:-2")]
    ['0:+4', '0:+5', '0:-2']
    """
    return tuple(map(parse_stroke, text.split()))


class Progress(NamedTuple):
    """How far a plan is done: the frame now, the first stroke not finished, and what is left of
    strokes that were begun or made out of turn.

    A stroke of three beads may be made as one and two, so a stroke can be left in part.
    """

    plan: Plan
    frame: Frame
    at: int = 0
    left: Mapping[int, Stroke] = MappingProxyType({})

    @property
    def finished(self) -> bool:
        """Whether every move is made."""
        return self.at >= len(self.plan.strokes)

    @property
    def step_index(self) -> int:
        """The index of the step under way; the number of steps when all is done."""
        return len(self.plan.steps) if self.finished else self.plan.step_of[self.at]

    @property
    def step(self) -> Step | None:
        """The step under way, or None when all is done."""
        return None if self.finished else self.plan.steps[self.plan.step_of[self.at]]

    @property
    def fence(self) -> int:
        """The first stroke that may not be made yet; the number of strokes when all may be."""
        return len(self.plan.strokes) if self.finished else self.plan.fence_of[self.at]

    @property
    def another_way(self) -> "Progress | None":
        """The progress with the trial digit that the rod under work shows, where it is another
        than the plan's and the work can go on with it."""
        step = self.step
        on_with = self.plan.on_with
        if step is None or on_with is None or not step.operation.act.is_trial:
            return None
        is_tried = self.frame.digit(step.rod) > 0
        plan = on_with(self.frame, step, self.plan.conventions) if is_tried else None
        return plan.begin() if plan is not None else None

    def remaining(self, index: int) -> Stroke:
        """What is left of a stroke."""
        return () if index < self.at else self.left.get(index, self.plan.strokes[index])

    @property
    def allowed(self) -> frozenset[BeadMove]:
        """The moves the convention allows next: iterate it, count it, ask `move in it`.

        Where moves made out of turn stand in their way, it is the first later moves that the
        beads allow.
        """
        for index in range(self.at, self.fence):
            if possible := frozenset(filter(self.frame.can, self.remaining(index))):
                return possible
        return frozenset()

    @property
    def left_in_step(self) -> Stroke:
        """What is left of the step under way, in order."""
        if self.finished:
            return ()
        if not self.left:
            return self.plan.rest_of_step[self.at]
        span = self.plan.span_of[self.plan.step_of[self.at]]
        first = max(span.start, self.at)
        return tuple([move for index in range(first, span.stop) for move in self.remaining(index)])

    @property
    def left_in_plan(self) -> Stroke:
        """What is left of the whole plan, in order."""
        indices = range(self.at, len(self.plan.strokes))
        return tuple(move for index in indices for move in self.remaining(index))

    @property
    def has_gone_ahead(self) -> bool:
        """Whether moves of steps after the one under way were made out of turn."""
        index = self.step_index
        return any(self.plan.step_of[stroke] > index for stroke in self.left)

    def find(self, move: BeadMove) -> int | None:
        """The first stroke that may be made of which `move` makes all or a part, or None."""
        indices, fence = self.plan.places.get(move, ()), self.fence
        for index in indices[bisect_left(indices, self.at) :]:
            if index >= fence:
                return None
            if any(covers(left, move) for left in self.remaining(index)):
                return index
        return None

    def make(self, index: int, move: BeadMove) -> "Progress":
        """The progress after `move`, a part of stroke `index`. Raises IllegalMove."""
        rest = tuple(part for left in self.remaining(index) for part in without(left, move))
        left = {**self.left, index: rest}
        at = self.at
        while left.get(at) == ():
            del left[at]
            at += 1
        return Progress(self.plan, self.frame.apply(move), at, left)
