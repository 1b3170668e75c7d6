"""A sum bead by bead: after each step a small frame, with the beads that moved, and its words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.language.printed import printed_parts
from frame.language.reasons import reason_line
from frame.language.wording import finger_text, names_rods, stroke_text, whole_rule
from frame.language.written import operation_text
from frame.printing.beads import (
    NUMBER_BEAD,
    Looks,
    draw_frame,
    draw_number,
    moved_beads,
    rod_middles,
    shape_of,
    size_of,
    width_of,
)
from frame.printing.blocks import Block
from frame.printing.columns import Numbered
from frame.printing.figures import figures
from frame.printing.leaf import Area
from frame.printing.pen import SOFT, Pen, Type
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Conventions
from frame.technique.plan import Plan, Step
from frame.technique.planning import plan_of
from frame.technique.reasons import Reason, reasons_of
from frame.view.geometry import Layout, pose_of

_WIDEST, _WIDEST_OF_MANY = 0.42, 0.62
"""How much of the width a frame takes at most, and one of so many rods that it would be closer than
`_CLOSE` from rod to rod."""
_CLOSE = 5.2
_LEAST_RODS = 3
_SUM, _READING = Type(16), Type(14)
_MOST_AGAIN = 3
"""A sum of more lines stands on its first page alone."""
_SUM_LEFT = NUMBER_BEAD[0] + 3
"""Where the sum begins, right of its number."""
_DONE, _MOVE, _WHY = Type(11, bold=True), Type(10.5), Type(9, grey=SOFT)
_NUMBER, _ROD = Type(9, grey=SOFT), Type(7, grey=SOFT)
_COUNT, _BESIDE, _BELOW = 9.0, 5.0, 3.0
"""The room for the number of a step, right of its frame, and for the numbers of rods below it."""
_ROD_ROOM = 0.85
"""Of the space of a rod, for its number."""
_MOST_BESIDE = 20.0
"""What is read and is wider stands below the frame."""
_READING_HEIGHT = 6.2


class _Line(NamedTuple):
    """A line of text beside a frame."""

    text: str
    kind: Type


class _Told(NamedTuple):
    """A step: its number, the frame before and after it, what that reads, the lines beside."""

    number: int
    before: Frame
    after: Frame
    reading: str
    lines: tuple[_Line, ...]


@dataclass(frozen=True)
class _Strip:
    """How the steps of a plan are laid out: the shape of their frames, whether the rods of these
    are `counted` since they have no names of their own, and how wide what is read is."""

    shape: Layout
    is_counted: bool
    reading: float

    @property
    def frame(self) -> tuple[float, float]:
        """The width of a frame and its height, with the numbers of its rods."""
        width, height = size_of(self.shape)
        return width, height + _BELOW * self.is_counted

    @property
    def is_below(self) -> bool:
        """Whether what is read stands below the frame, and not beside it."""
        return self.reading > _MOST_BESIDE

    @property
    def height(self) -> float:
        """Of a frame with what stands below it."""
        return self.frame[1] + _READING_HEIGHT * self.is_below

    @property
    def left(self) -> float:
        """Where the words begin."""
        beside = 0 if self.is_below else self.reading + _BESIDE
        return _COUNT + self.frame[0] + beside + _BESIDE


def worked_blocks(
    pen: Pen, numbered: Numbered, room: tuple[float, float], words: Words, conventions: Conventions
) -> Iterator[Block]:
    """The task as a heading, on every page unless it is long, and a block for each step of its
    plan. The room is all the width and what there may be at most of it from rod to rod."""
    (number, task), (width, spacing) = numbered, room
    plan = plan_of(task.sum, conventions, at_least=_LEAST_RODS)
    lines = list(pen.filled(printed_parts(task.sum, words), _SUM, width - _SUM_LEFT))
    height = NUMBER_BEAD[1] + 2 + (len(lines) - 1) * _SUM.leading
    draw, again = (partial(_draw_sum, number, lines) for _ in range(2))
    is_long = len(lines) > _MOST_AGAIN
    yield Block(height, draw, gap=7.0, leads=True, again=None if is_long else again)
    strip = _strip(pen, plan, width, spacing)
    for told in _told(pen, plan, width - strip.left, words):
        text_height = sum(line.kind.leading for line in told.lines)
        height = max(strip.height, text_height)
        yield Block(height, partial(_draw_step, told, strip), gap=4.0)


def _strip(pen: Pen, plan: Plan, width: float, spacing: float) -> _Strip:
    rods = len(plan.start.digits)
    close = width * _WIDEST / width_of(rods, 1)
    if close < _CLOSE:
        close = min(_CLOSE, width * _WIDEST_OF_MANY / width_of(rods, 1))
    spacing = min(spacing, close)
    readings = (pen.width(_read(plan, *one), _READING) for one in plan.frames())
    return _Strip(
        shape_of(rods, plan.start.units, spacing),
        not all(map(names_rods, plan.steps)),
        max(readings, default=0),
    )


def _told(pen: Pen, plan: Plan, width: float, words: Words) -> Iterator[_Told]:
    before = plan.start
    steps = zip(plan.frames(), reasons_of(plan), strict=True)
    for number, ((step, after), reasons) in enumerate(steps, 1):
        lines = (
            _Line(part, line.kind)
            for line in _lines(step, plan.start.units, reasons, words)
            for part in pen.wrapped(line.text, line.kind, width)
        )
        yield _Told(number, before, after, _read(plan, step, after), tuple(lines))
        before = after


def _read(plan: Plan, step: Step, after: Frame) -> str:
    """What the frame reads after a step."""
    return figures(plan.reading(step, after)).text


def _lines(step: Step, units: int, reasons: Sequence[Reason], words: Words) -> Iterator[_Line]:
    """What is done and by which rule, each stroke, and why."""
    done, rule = operation_text(step.operation, words), whole_rule(step, words)
    yield _Line(done if rule == done else f"{done}:  {rule}", _DONE)
    for stroke in step.strokes:
        yield _Line(_stroke_text(stroke, step, units, words), _MOVE)
    if not step.strokes:
        yield _Line(words.text("cli.explain.no_move"), _MOVE)
    for reason in reasons:
        yield _Line(reason_line(reason, words).show, _WHY)


def _stroke_text(stroke: Stroke, step: Step, units: int, words: Words) -> str:
    """A stroke with its rod, by its place or, where operands stand, counted from the left, and its
    fingers."""
    if names_rods(step):
        move = stroke_text(stroke, words)
    else:
        move = stroke_text(stroke, words, name_rod=False)
        number = units - stroke[0].rod + 1
        move = words.text("cli.explain.on_rod", move=move, number=number)
    fingers = ", ".join(finger_text(one, words) for one in stroke)
    return words.text("sheet.by_finger", move=move, finger=fingers)


def _draw_sum(number: int, lines: Sequence[str], pen: Pen, area: Area) -> None:
    foot = area.y + (NUMBER_BEAD[1] + _SUM.capital) / 2
    draw_number(pen, number, (area.x, area.y))
    left = area.x + _SUM_LEFT
    for at, text in enumerate(lines):
        kind = pen.fitting(text, _SUM, area.right - left)
        pen.write(text, (left, foot + at * _SUM.leading), kind)


def _draw_step(told: _Told, strip: _Strip, pen: Pen, area: Area) -> None:
    foot = area.y + _DONE.leading * 0.8
    pen.write(str(told.number), (area.x + _COUNT - 3, foot), _NUMBER, 1)
    at = area.x + _COUNT, area.y
    moved = moved_beads(told.before, told.after)
    draw_frame(pen, strip.shape, at, Looks(pose_of(told.after), moved=moved))
    if strip.is_counted:
        kind = pen.fitting("00", _ROD, strip.frame[0] / strip.shape.rods * _ROD_ROOM)
        for rod, middle in enumerate(rod_middles(strip.shape, at), 1):
            pen.write(str(rod), (middle, area.y + strip.frame[1]), kind, 0.5)
    left = area.x + strip.left
    low = area.y + strip.height - 0.6
    pen.write(told.reading, (left - _BESIDE, low if strip.is_below else foot), _READING, 1)
    y = area.y
    for line in told.lines:
        y += line.kind.leading
        pen.write(line.text, (left, y - 0.2 * line.kind.leading), line.kind)
