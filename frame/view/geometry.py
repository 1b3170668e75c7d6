"""Where beads stand on a frame and on the screen.

Frame units: the unit is one rod spacing, the same on both axes; the origin is the inner top
left corner of the frame, so that rod `i` (counted from 0 at the left) spans x from i to i + 1.
Every length of a layout is a whole number of pixels, so that equal things look equal.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from frame.technique.places import unit_marks as unit_marks
from frame.technique.places import usual_units as usual_units
from frame.view.pose import Bead as Bead
from frame.view.pose import Pose as Pose
from frame.view.pose import RodOffsets as RodOffsets
from frame.view.pose import pose_of as pose_of

Point = tuple[float, float]
"""x to the right and y down, in pixels or in frame units."""

SPACING_IN_BEAD_WIDTHS = 1.16
BEAD_HEIGHT_IN_WIDTHS = 0.55
NARROW_BEAD_HEIGHT_IN_WIDTHS = 0.8
BORDER_IN_BEAD_HEIGHTS = 14 / 57
BEAM_IN_BEAD_HEIGHTS = 10 / 57
HEAVEN_DECK_BEADS = 2
EARTH_DECK_BEADS = 5
SMALLEST_SPACING = 6
SMALLEST_BEAM = 4
SMALLEST_BORDER = 4


class Box(NamedTuple):
    """An upright rectangle in pixels; a pygame Rect can be made of it."""

    x: float
    y: float
    w: float
    h: float

    @property
    def centre(self) -> Point:
        """The point in its middle."""
        return self.x + self.w / 2, self.y + self.h / 2

    def holds(self, point: Point, reach: float = 0.0) -> bool:
        """Whether the point lies in the box or less than `reach` pixels outside it."""
        x, y = point
        across = self.x - reach <= x < self.x + self.w + reach
        return across and self.y - reach <= y < self.y + self.h + reach


def alike(length: float, other: int) -> int:
    """The whole number nearest to a length that is even or odd as `other` is, not 0.

    Lengths that share a middle line must agree in this, or one is off by half a pixel.
    """
    parity = other % 2
    return max(2 * round((length - parity) / 2) + parity, 2 - parity)


@dataclass(frozen=True, slots=True)
class Layout:
    """A frame placed on the screen; all fields are whole pixels but `rods` and `units`.

    `x`, `y` is the inner top left corner; `units` the index of the unit rod. Where there is a
    `window`, no more of the rods than so many pixels is seen, after the first `scroll` ones;
    what lies beyond is neither drawn nor touched.
    """

    rods: int
    units: int
    x: int
    y: int
    spacing: int
    bead_width: int
    bead_height: int
    border: int
    beam: int
    window: int = 0
    scroll: int = 0

    @classmethod
    def fit(
        cls, area: tuple[float, float, float, float], rods: int, units: int, narrow: bool = False,
        least: int = 0,
    ) -> "Layout":  # fmt: skip
        """The largest layout of a whole frame, border and all, in the middle of the area.

        `area` is x, y, width, height in pixels; `narrow` beads are taller for their width,
        which makes a frame of many rods less of a strip. Where rods would be narrower than
        `least`, the layout is a window of rods as wide as that, the leftmost ones. In an area too
        small for any frame the smallest one overlaps the area's edges.
        """
        x, y, width, height = area
        spacing = _spacing_bound(width / rods, height, narrow)
        layout = cls._of_spacing(rods, units, spacing, narrow)
        while spacing > SMALLEST_SPACING and not layout._fits(width, height):
            spacing -= 1
            layout = cls._of_spacing(rods, units, spacing, narrow)
        if spacing < least:
            layout = layout._windowed(least, width, height) or layout
        box = layout.frame_box
        left = int(x + (width - box.w) / 2) + layout.border
        top = int(y + (height - box.h) / 2) + layout.border
        return replace(layout, x=left, y=top)

    @classmethod
    def _of_spacing(cls, rods: int, units: int, spacing: int, narrow: bool) -> "Layout":
        width = alike(spacing / SPACING_IN_BEAD_WIDTHS, spacing)
        height = round(spacing * _bead_height(narrow))
        beam = alike(max(SMALLEST_BEAM, height * BEAM_IN_BEAD_HEIGHTS), spacing)
        border = max(SMALLEST_BORDER, round(height * BORDER_IN_BEAD_HEIGHTS))
        return cls(rods, units, 0, 0, spacing, width, height, border, beam)

    def _windowed(self, spacing: int, width: float, height: float) -> "Layout | None":
        """As many rods of this spacing as fit, with beads as tall as fit; None where the height
        allows no such beads."""
        for narrow in (True, False):
            layout = self._of_spacing(self.rods, self.units, spacing, narrow)
            shown = int((width - 2 * layout.border) // spacing)
            layout = replace(layout, window=max(shown, 1) * spacing)
            if layout._fits(width, height):
                return layout
        return None

    def _fits(self, width: float, height: float) -> bool:
        box = self.frame_box
        return box.w <= width and box.h <= height

    def to_frame(self, point: Point) -> Point:
        """The point in frame units of a place on the screen: rods to the right, and as far down,
        from the inner top left corner."""
        return (point[0] - self.x) / self.spacing, (point[1] - self.y) / self.spacing

    @property
    def inner_box(self) -> Box:
        """Both decks and the beam, without the border."""
        decks = (HEAVEN_DECK_BEADS + EARTH_DECK_BEADS) * self.bead_height
        return Box(self.x, self.y, self.rods * self.spacing, decks + self.beam)

    @property
    def whole_box(self) -> Box:
        """The whole frame with its border, seen or not."""
        x, y, w, h = self.inner_box
        return Box(x - self.border, y - self.border, w + 2 * self.border, h + 2 * self.border)

    @property
    def frame_box(self) -> Box:
        """The frame with its border, as far as it is seen."""
        x, y, w, h = self.whole_box
        return Box(x + self.scroll, y, self.window + 2 * self.border if self.window else w, h)

    @property
    def seen(self) -> range:
        """The indices of the rods of which something is seen."""
        if not self.window:
            return range(self.rods)
        last = self.scroll + self.window - 1
        return range(self.scroll // self.spacing, last // self.spacing + 1)

    def scrolled(self, pixels: float) -> "Layout":
        """The layout with so many pixels of rods, or as many as can be, left out at the left."""
        most = self.rods * self.spacing - self.window if self.window else 0
        at = min(max(round(pixels), 0), most)
        return replace(self, x=self.x + self.scroll - at, scroll=at)

    @property
    def beam_box(self) -> Box:
        """The beam, from border to border."""
        top = self.y + HEAVEN_DECK_BEADS * self.bead_height
        return Box(self.x, top, self.rods * self.spacing, self.beam)

    def rod_box(self, index: int) -> Box:
        """One rod's column in both decks, one rod spacing wide."""
        inner = self.inner_box
        return Box(self.x + index * self.spacing, self.y, self.spacing, inner.h)

    def bead_box(self, index: int, bead: Bead, offset: float) -> Box:
        """One bead's place; whole pixels whenever the offset is 0 or 1."""
        top = self.y + offset * self.bead_height
        if not bead.is_heaven:
            beads_above = HEAVEN_DECK_BEADS + bead - Bead.EARTH_1
            top += self.beam + beads_above * self.bead_height
        left = self.x + index * self.spacing + (self.spacing - self.bead_width) // 2
        return Box(left, top, self.bead_width, self.bead_height)

    def bead_boxes(self, index: int, offsets: RodOffsets) -> Iterator[tuple[Bead, Box]]:
        """The beads of one rod with their places, heaven bead first."""
        return ((bead, self.bead_box(index, bead, offsets[bead])) for bead in Bead)

    def indices_between(self, left: int, right: int) -> frozenset[int]:
        """The rods of which something lies from one pixel column up to another."""
        first, last = ((at - self.x) // self.spacing for at in (left, right - 1))
        return frozenset(range(max(first, 0), min(last, self.rods - 1) + 1))

    def rod_at(self, point: Point, reach: float = 0.0) -> int | None:
        """The index of the rod under a place on the screen, or None off the frame as it is seen.

        The border belongs to the rods beside it, and so do `reach` pixels around it.
        """
        if not self.frame_box.holds(point, reach):
            return None
        return min(max(int((point[0] - self.x) // self.spacing), self.seen[0]), self.seen[-1])

    def is_heaven_deck(self, point: Point) -> bool:
        """Whether a place on the screen lies above the middle of the beam."""
        return point[1] < self.beam_box.centre[1]

    def bead_at(self, point: Point, pose: Pose, reach: float = 0.0) -> tuple[int, Bead] | None:
        """The rod index and bead whose hit cell holds a place on the screen, or None.

        A hit cell is one rod spacing wide and takes the bead and half of the gap beside it;
        the cells of a rod leave no hole, so a touch within the frame always means a bead.
        """
        index = self.rod_at(point, reach)
        if index is None:
            return None
        if self.is_heaven_deck(point):
            return index, Bead.HEAVEN
        beads = list(self.bead_boxes(index, pose.rods[index]))[Bead.EARTH_1 :]
        for (bead, box), (_, below) in pairwise(beads):
            if point[1] < (box.y + box.h + below.y) / 2:
                return index, bead
        return index, Bead.EARTH_4

    def on_beam(self, point: Point, reach: float = 0.0) -> bool:
        """Whether a place on the screen lies on the beam or less than `reach` pixels off it."""
        return self.beam_box.holds(point, reach)


def _bead_height(narrow: bool) -> float:
    """The height of a bead in frame units, before it is rounded to whole pixels."""
    slimness = NARROW_BEAD_HEIGHT_IN_WIDTHS if narrow else BEAD_HEIGHT_IN_WIDTHS
    return slimness / SPACING_IN_BEAD_WIDTHS


def _spacing_bound(width: float, height: float, narrow: bool) -> int:
    """A rod spacing that is not below the largest that fits a width for each rod and a height."""
    decks = HEAVEN_DECK_BEADS + EARTH_DECK_BEADS
    tallest = height / decks + 1
    return max(SMALLEST_SPACING, int(min(width, tallest / _bead_height(narrow))))
