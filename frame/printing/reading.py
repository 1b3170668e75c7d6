"""Frames to be read, frames to be drawn on, and one to move fingers over."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from frame.practice.exercises import Exercise, Kind
from frame.printing.beads import (
    NUMBER_BEAD,
    Looks,
    draw_frame,
    draw_number,
    shape_of,
    size_of,
    width_of,
)
from frame.printing.blocks import Block, Ease, grid
from frame.printing.columns import Numbered
from frame.printing.figures import figures
from frame.printing.leaf import Area
from frame.printing.pen import EDGE, Pen, Type
from frame.technique.beads import Frame
from frame.technique.places import frame_for, usual_units
from frame.technique.reading import decimals, whole_digits
from frame.view.geometry import pose_of

_FEW_RODS, _NARROW, _KEY = 4, 6.4, 4.2
"""More rods than a few have at most that much from rod to rod; what they have on the key."""
_MOST_ACROSS = 5
_BESIDE = 7.0
_LEAST_WIDE = 22.0
_NUMBER = Type(16)
_HEAD = NUMBER_BEAD[1] + 2.0
_GAP = 2.5
_FINGER_RODS = 13


@dataclass(frozen=True)
class _Frames:
    """How the frames of a section are laid out. Without room for an `answer` those to be
    drawn on have beads."""

    rods: int
    spacing: float
    answer: float = 0.0

    @property
    def is_key(self) -> bool:
        """Whether nothing is to be written."""
        return not self.answer

    @property
    def height(self) -> float:
        """Of a frame with what stands above and below it."""
        frame = size_of(shape_of(self.rods, self.rods - 1, self.spacing))[1]
        return _HEAD + frame + self.answer

    def across(self, width: float) -> int:
        """How many stand side by side."""
        needed = max(width_of(self.rods, self.spacing), _LEAST_WIDE) + _BESIDE
        return max(1, min(_MOST_ACROSS, int((width + _BESIDE) // needed)))


def frame_blocks(tasks: Sequence[Numbered], width: float, ease: Ease) -> Iterator[Block]:
    """The frames with what is asked above, and below each a line to write on."""
    rods = _rods(tasks)
    most = min(ease.spacing, _NARROW) if rods > _FEW_RODS else ease.spacing
    spacing = min(most, width / width_of(rods, 1))
    return _blocks(tasks, _Frames(rods, spacing, ease.answer), width)


def set_frame_blocks(tasks: Sequence[Numbered], width: float) -> Iterator[Block]:
    """The same frames, with their numbers set."""
    rods = _rods(tasks)
    spacing = min(_KEY, width / width_of(rods, 1))
    return _blocks(tasks, _Frames(rods, spacing), width)


def finger_block(width: float) -> Block:
    """A frame over all that width, with its beads at rest."""
    units = usual_units(_FINGER_RODS)
    shape = shape_of(_FINGER_RODS, units, width / width_of(_FINGER_RODS, 1))
    size = size_of(shape)
    pose = pose_of(Frame.cleared(_FINGER_RODS, units))

    def draw(pen: Pen, area: Area) -> None:
        draw_frame(pen, shape, (area.middle - size[0] / 2, area.y), Looks(pose, is_pale=True))

    return Block(size[1], draw)


def _blocks(tasks: Sequence[Numbered], frames: _Frames, width: float) -> Iterator[Block]:
    cells = [partial(_draw, number, task, frames) for number, task in tasks]
    return grid(cells, frames.across(width), frames.height, gap=5.0, beside=_BESIDE)


def _rods(tasks: Sequence[Numbered]) -> int:
    """The rods that hold all numbers of the tasks."""
    return max(max(task.rods, _least_rods(task)) for _, task in tasks)


def _least_rods(task: Exercise) -> int:
    return max(whole_digits(task.number), 1) + decimals(task.number)


def _draw(number: int, task: Exercise, frames: _Frames, pen: Pen, area: Area) -> None:
    is_set = task.kind is Kind.SET
    _draw_asked(pen, area, number, figures(task.number).text if is_set else "")
    frame = frame_for(task.number, frames.rods)
    shape = shape_of(frames.rods, frame.units, frames.spacing)
    looks = Looks(None if is_set and not frames.is_key else pose_of(frame))
    wide = size_of(shape)[0]
    draw_frame(pen, shape, (area.middle - wide / 2, area.y + _HEAD), looks)
    if not frames.is_key:
        half = max(wide, _LEAST_WIDE) / 2
        start, end = area.middle - half, area.middle + half
        pen.line((start, area.bottom), (end, area.bottom), 0.25, EDGE)


def _draw_asked(pen: Pen, area: Area, number: int, text: str) -> None:
    """The number of the task and the one that is to be set, if any, in the middle."""
    wide = NUMBER_BEAD[0] + (pen.width(text, _NUMBER) + _GAP if text else 0)
    left = area.middle - wide / 2
    draw_number(pen, number, (left, area.y))
    foot = area.y + (NUMBER_BEAD[1] + _NUMBER.capital) / 2
    pen.write(text, (left + NUMBER_BEAD[0] + _GAP, foot), _NUMBER)
