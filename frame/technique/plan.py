"""A plan: the bead moves of a trained hand, in which order, and the lines of work they make."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import Enum, StrEnum, auto
from functools import cached_property
from typing import NamedTuple, Protocol

from frame.technique.beads import Frame, Stroke, parse_stroke, stroke_text
from frame.technique.conventions import USUAL, Conventions
from frame.technique.operation import Act, Operation
from frame.technique.reading import read


class Technique(StrEnum):
    """How one digit is worked on its rod."""

    DIRECT = "direct"
    FIVE = "five"
    TEN = "ten"
    TEN_FIVE = "ten-five"
    BORROW = "borrow"
    """A 1 borrowed beyond the frame's number, which goes below zero. No bead is set for it; beads
    move only when a larger 1 must take its place."""


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


class Freedom(Enum):
    """How the digits of a line may be worked."""

    ANY_ORDER = auto()
    """Those of a number that stays at zero or above: ones first as well."""
    IN_ORDER = auto()
    """From the highest: products, and numbers below zero. With any order allowed, a third of all
    products one rod off would begin like a right one."""
    DIGIT = auto()
    """A trial digit or its revision: another digit may be chosen, and changed until the next line
    is begun."""


@dataclass(frozen=True)
class WorkLine:
    """One line of work: a number of a column, the operands, a product, a trial digit. It is whole
    before the next one begins.

    `parts` are the strokes to make of each step, all of them or what is left. `index` counts the
    lines of a plan, `last` is the index of the plan's step after the line's last one.
    """

    index: int
    last: int
    steps: tuple[Step, ...]
    parts: tuple[tuple[Stroke, ...], ...]
    freedom: Freedom

    @cached_property
    def strokes(self) -> tuple[Stroke, ...]:
        """Every stroke to make, in order."""
        return tuple([stroke for part in self.parts for stroke in part])

    @cached_property
    def step_of(self) -> tuple[int, ...]:
        """For each stroke, the index of its step within the line."""
        return tuple([at for at, part in enumerate(self.parts) for _ in part])

    @property
    def operation(self) -> Operation:
        """What its first step belongs to."""
        return self.steps[0].operation


class Trials(Protocol):
    """What else a hand may choose at a line whose freedom is DIGIT."""

    def lawful(self, frame: Frame, step: Step) -> range:
        """The digits that the step's rod may show when the work goes on."""

    def on_with(self, frame: Frame, step: Step, conventions: Conventions) -> "Plan | None":
        """How the work goes on from a frame with another digit on the step's rod; None where it
        can't."""


class Orders(Protocol):
    """The same work by other schools' orders of its lines."""

    def plans(self) -> "tuple[Plan, ...]":
        """The plans, on the same frame."""


@dataclass(frozen=True)
class Plan:
    """The steps from a start frame to a result. `str` and `parse_strokes` are inverse.

    `remainder` is what a division or a root leaves over. `trials` tells what else a hand may try,
    `orders` how other schools order the lines: both are the planner's own word.
    """

    start: Frame
    steps: tuple[Step, ...]
    result: Decimal
    conventions: Conventions = USUAL
    remainder: Decimal | None = None
    trials: Trials | None = field(default=None, compare=False, repr=False)
    orders: Orders | None = field(default=None, compare=False, repr=False)

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
    def lines(self) -> tuple[WorkLine, ...]:
        """The lines of the work, in order."""
        return tuple(_lines(self.steps))

    @cached_property
    def fork(self) -> int:
        """The index of the first line after the setting of the operands."""
        acts = (line.operation.act for line in self.lines)
        return next((at for at, act in enumerate(acts) if act is not Act.SET), len(self.lines))

    @cached_property
    def others(self) -> "tuple[Plan, ...]":
        """Plans of the same work that take its lines in another school's order."""
        plans = self.orders.plans() if self.orders else ()
        return tuple(plan for plan in plans if plan.steps != self.steps)

    @cached_property
    def end(self) -> Frame:
        """The frame when every move is made."""
        return self.start.apply_all(tuple(m for stroke in self.strokes for m in stroke))

    def reading(self, step: Step, frame: Frame) -> Decimal:
        """The result so far on the frame after a step, with the result's sign."""
        shown = frame if step.span is None else frame.only(*step.span)
        number = read(shown, step.owed)
        return -number if step.span is not None and self.result < 0 else number

    def begin_at(self, step: int) -> "Plan":
        """The plan without its first steps, from the frame after them."""
        start = self.start
        for done in self.steps[:step]:
            start = start.apply_all(done.moves)
        return replace(self, start=start, steps=self.steps[step:])

    def frames(self) -> Iterator[tuple[Step, Frame]]:
        """Each step with the frame after it."""
        frame = self.start
        for step in self.steps:
            frame = frame.apply_all(step.moves)
            yield step, frame


def line_of(index: int, last: int, steps: Sequence[Step], freedom: Freedom) -> WorkLine:
    """A line of whole steps."""
    return WorkLine(index, last, tuple(steps), tuple([step.strokes for step in steps]), freedom)


def _lines(steps: Sequence[Step]) -> Iterator[WorkLine]:
    first, index = 0, 0
    for last in range(1, len(steps) + 1):
        if last == len(steps) or _ends_line(steps[last - 1], steps[last]):
            group = steps[first:last]
            yield line_of(index, last, group, _freedom(group))
            first, index = last, index + 1


def _ends_line(step: Step, following: Step) -> bool:
    """Whether another line begins with the step that follows."""
    one, other = step.operation, following.operation
    if one.act.is_of_column and other.act.is_of_column:
        return one.row != other.row
    return one != other


def _freedom(steps: Sequence[Step]) -> Freedom:
    act = steps[0].operation.act
    if act.is_trial or act.is_revision:
        return Freedom.DIGIT
    is_below = any(step.owed is not None or step.technique is Technique.BORROW for step in steps)
    return Freedom.ANY_ORDER if act.is_of_column and not is_below else Freedom.IN_ORDER


def parse_strokes(text: str) -> tuple[Stroke, ...]:
    """The strokes written one after another. Raises IllegalMove for a text that is none.

    >>> [stroke_text(s) for s in parse_strokes("0:+4 0:+5 0:-2")]
    ['0:+4', '0:+5', '0:-2']
    """
    return tuple(map(parse_stroke, text.split()))
