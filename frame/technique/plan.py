"""A plan: the bead moves of a trained hand, in which order, and how far they are done."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from types import MappingProxyType
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame, Stroke, parse_stroke, stroke_text


class Technique(StrEnum):
    """How one digit is worked on its rod."""

    DIRECT = "direct"
    FIVE = "five"
    TEN = "ten"
    TEN_FIVE = "ten-five"
    BORROW = "borrow"
    """A 1 borrowed beyond the frame's number, which goes below zero. No bead is set for it."""


class Carry(StrEnum):
    """Whether the carry follows the partner of ten or comes before it. Schools differ."""

    LAST = "last"
    FIRST = "first"


class Remove(StrEnum):
    """Whether 6 to 9 leave a rod earth then heaven, or in one opening pinch. Schools differ."""

    RUN = "run"
    PINCH = "pinch"


class Strictness(StrEnum):
    """What is asked: the answer alone, the right beads in any order, or the school's order."""

    ANSWER = "answer"
    BEADS = "beads"
    ORDER = "order"


@dataclass(frozen=True, slots=True)
class Conventions:
    """What schools do differently; handed to every planner."""

    carry: Carry = Carry.LAST
    remove: Remove = Remove.RUN


USUAL = Conventions()
"""Carry last, and 6 to 9 taken away earth then heaven."""


class Step(NamedTuple):
    """One digit worked on one rod, with the carry or borrow that it causes.

    `strokes` are in the convention's order; the two moves of a pinch have no order between
    them. `change` is the signed digit. `ripple` counts the 9s a carry, or the 0s a borrow, ran
    over. `owed` is the rod of a 1 borrowed beyond the number (10 ** owed), None when there is
    none.
    """

    operation: str
    rod: int
    change: int
    technique: Technique
    ripple: int
    strokes: tuple[Stroke, ...]
    owed: int | None = None

    @property
    def digit(self) -> int:
        """The digit worked, without its sign."""
        return abs(self.change)

    @property
    def moves(self) -> Stroke:
        """All bead moves of the step, in order."""
        return tuple([move for stroke in self.strokes for move in stroke])


@dataclass(frozen=True)
class Plan:
    """The steps from a start frame to a result. `str` and `parse_strokes` are inverse."""

    start: Frame
    steps: tuple[Step, ...]
    result: Decimal
    conventions: Conventions = USUAL

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
    def places(self) -> Mapping[BeadMove, tuple[int, ...]]:
        """For each bead move, the strokes of which it makes all or a part."""
        found: dict[BeadMove, list[int]] = {}
        for index, stroke in enumerate(self.strokes):
            for move in stroke:
                for part in _parts(move):
                    found.setdefault(part, []).append(index)
        return {part: tuple(indices) for part, indices in found.items()}

    @cached_property
    def end(self) -> Frame:
        """The frame when every move is made."""
        return self.start.apply_all(tuple(m for stroke in self.strokes for m in stroke))

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


def _parts(move: BeadMove) -> Stroke:
    """The moves that make all or a part of one: three beads can move one, two or three at once."""
    if move.is_heaven:
        return (move,)
    sign = 1 if move.change > 0 else -1
    return tuple(BeadMove(move.rod, sign * beads) for beads in range(1, move.beads + 1))


def _covers(left: BeadMove, move: BeadMove) -> bool:
    """Whether `move` makes all or a part of what is `left`."""
    if left == move:
        return True
    is_same_deck = left.rod == move.rod and left.is_heaven == move.is_heaven
    return is_same_deck and 0 < move.change / left.change <= 1


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

    def remaining(self, index: int) -> Stroke:
        """What is left of a stroke."""
        return () if index < self.at else self.left.get(index, self.plan.strokes[index])

    @property
    def allowed(self) -> frozenset[BeadMove]:
        """The moves the convention allows next: iterate it, count it, ask `move in it`.

        Where moves made out of turn stand in their way, it is the first later moves that the
        beads allow.
        """
        for index in range(self.at, len(self.plan.strokes)):
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
        """The first stroke of which `move` makes all or a part, or None."""
        indices = self.plan.places.get(move, ())
        for index in indices[bisect_left(indices, self.at) :]:
            if any(_covers(left, move) for left in self.remaining(index)):
                return index
        return None

    def make(self, index: int, move: BeadMove) -> "Progress":
        """The progress after `move`, a part of stroke `index`. Raises IllegalMove."""
        rest = tuple(part for left in self.remaining(index) for part in _less(left, move))
        left = {**self.left, index: rest}
        at = self.at
        while left.get(at) == ():
            del left[at]
            at += 1
        return Progress(self.plan, self.frame.apply(move), at, left)


def _less(left: BeadMove, move: BeadMove) -> Stroke:
    """What is left of one move after `move` made all, a part or nothing of it."""
    if not _covers(left, move):
        return (left,)
    rest = left.change - move.change
    return (BeadMove(left.rod, rest),) if rest else ()
