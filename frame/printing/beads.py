"""Frames and beads drawn on a page, by the proportions of those on the screen."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from frame.printing.leaf import Area
from frame.printing.pen import EDGE, INK, MM, REST, WHITE, Pen, Point, Type
from frame.technique.beads import Frame
from frame.view.geometry import Bead, Box, Layout, Pose, pose_of, unit_marks

_FINE = 50
"""Steps of a layout in a millimetre."""
_BORDERS = 0.25
"""The room that the borders of a frame take, in spaces between its rods."""
_ROD = 0.06
"""The width of a rod, in spaces between rods."""
_FLAT_TOP, _FLAT_SIDE = 0.53, 0.08
"""What of a bead's outline is level, in its widths, and upright, in its heights."""
_HAIR = 0.1
_PARTED = 0.09
"""What is left white of a bead's place on the side that is not the beam's, in its heights."""
_DOT = 0.48
"""The radius of a unit dot, in heights of the beam."""
NUMBER_BEAD = (9.4, 5.4)
"""The bead that a task has its number in."""
_NUMBER = Type(8.5)


class Looks(NamedTuple):
    """How the beads of a frame are drawn: not at all without a `pose`; all as at rest where it
    `is_pale`; those that have just `moved` with an arrow, True where up."""

    pose: Pose | None = None
    is_pale: bool = False
    moved: Mapping[tuple[int, Bead], bool] = {}


def shape_of(rods: int, units: int, spacing: float) -> Layout:
    """A frame with that many millimetres from rod to rod."""
    room = (0, 0, spacing * (rods + _BORDERS) * _FINE, 1e6)
    shape = Layout.fit(room, rods, units)
    return replace(shape, x=shape.border, y=shape.border)


def width_of(rods: int, spacing: float) -> float:
    """How wide such a frame is at most."""
    return spacing * (rods + _BORDERS)


def size_of(shape: Layout) -> tuple[float, float]:
    """Width and height of a frame on the page."""
    box = shape.frame_box
    return box.w / _FINE, box.h / _FINE


def rod_middles(shape: Layout, at: Point) -> Iterator[float]:
    """Where the rods of a frame with its upper left corner at a point stand."""
    return (at[0] + shape.rod_box(index).centre[0] / _FINE for index in range(shape.rods))


def draw_frame(pen: Pen, shape: Layout, at: Point, looks: Looks) -> None:
    """Draw a frame with its upper left corner at a point."""
    with pen.shifted(at):
        _draw_ground(pen, shape)
        if looks.pose is not None:
            for index, bead, box, is_used in _placed(shape, looks.pose):
                body = _body(_area(box), bead)
                _draw_bead(pen, body, is_used and not looks.is_pale)
                if (is_up := looks.moved.get((index, bead))) is not None:
                    _draw_arrow(pen, body, is_up, WHITE if is_used else INK)
        _draw_edge(pen, shape)


def _draw_ground(pen: Pen, shape: Layout) -> None:
    """The rods and the beam."""
    wide = _ROD * shape.spacing / _FINE
    for index in range(shape.rods):
        column = _area(shape.rod_box(index))
        pen.fill(Area(column.middle - wide / 2, column.y, wide, column.h), EDGE)
    pen.fill(_area(shape.beam_box), INK)


def _draw_edge(pen: Pen, shape: Layout) -> None:
    """The dots on the beam, which beads may touch, and the border."""
    beam, border = _area(shape.beam_box), shape.border / _FINE
    for index in unit_marks(shape.rods, shape.units):
        middle = _area(shape.rod_box(index)).middle, beam.y + beam.h / 2
        pen.disc(middle, beam.h * _DOT + _HAIR, INK)
        pen.disc(middle, beam.h * _DOT, WHITE)
    x, y, w, h = _area(shape.frame_box)
    pen.outline(Area(x + border / 2, y + border / 2, w - border, h - border), border, INK)


def _area(box: Box) -> Area:
    return Area(*(length / _FINE for length in box))


def _placed(shape: Layout, pose: Pose) -> Iterator[tuple[int, Bead, Box, bool]]:
    for index in range(shape.rods):
        offsets = pose.rods[index]
        for bead, box in shape.bead_boxes(index, offsets):
            yield index, bead, box, (offsets[bead] > 0.5) == bead.is_heaven


def moved_beads(before: Frame, after: Frame) -> dict[tuple[int, Bead], bool]:
    """The beads that stand elsewhere on the second frame, and whether they went up."""
    return {
        (index, bead): new[bead] < old[bead]
        for index, (old, new) in enumerate(
            zip(pose_of(before).rods, pose_of(after).rods, strict=True)
        )
        for bead in Bead
        if old[bead] != new[bead]
    }


def draw_number(pen: Pen, number: int, at: Point) -> None:
    """Draw a bead with a task's number in it, its upper left corner at a point."""
    area = Area(*at, *NUMBER_BEAD)
    pen.shapes([_corners(area)], WHITE, EDGE, 0.25)
    foot = area.y + (area.h + _NUMBER.capital) / 2
    pen.write(str(number), (area.middle, foot), _NUMBER, 0.5)


def draw_letter(pen: Pen, letter: str, area: Area) -> None:
    """Draw a dark bead with a letter in it."""
    kind = Type(0.58 * area.h / MM, bold=True, grey=WHITE)
    pen.shapes([_corners(area)], INK, INK, 0.2)
    pen.write(letter, (area.middle, area.y + (area.h + kind.capital) / 2), kind, 0.5)


def _body(place: Area, bead: Bead) -> Area:
    """What a bead fills of its place, its edge included: it touches the beam, and white parts it
    from the next bead."""
    white = place.h * _PARTED
    top = place.y + _HAIR / 2 + (white if bead.is_heaven else 0)
    return Area(place.x, top, place.w, place.h - _HAIR - white)


def _draw_bead(pen: Pen, body: Area, is_used: bool) -> None:
    fill, edge = (INK, INK) if is_used else (REST, EDGE)
    pen.shapes([_corners(body)], fill, edge, _HAIR)


def _draw_arrow(pen: Pen, area: Area, is_up: bool, grey: float) -> None:
    half, middle = 0.3 * area.h, area.y + area.h / 2
    tip, foot = (middle - half, middle + half) if is_up else (middle + half, middle - half)
    wide = 1.1 * half
    arrow = [(area.middle, tip), (area.middle + wide, foot), (area.middle - wide, foot)]
    pen.shapes([arrow], grey, grey, _HAIR)


def _corners(area: Area) -> list[Point]:
    a, b = area.w * (1 - _FLAT_TOP) / 2, area.h * (1 - _FLAT_SIDE) / 2
    left, top, right, bottom = area.x, area.y, area.right, area.bottom
    return [
        (left + a, top), (right - a, top), (right, top + b), (right, bottom - b),
        (right - a, bottom), (left + a, bottom), (left, bottom - b), (left, top + b),
    ]  # fmt: skip
