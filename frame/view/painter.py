"""Draws a frame on a given surface; the only module that draws beads.

Works without a display: it never converts a surface.
"""

from dataclasses import dataclass, replace
from functools import cache

import pygame

from frame.technique.beads import BeadMove
from frame.technique.fingers import Finger
from frame.view.geometry import Bead, Box, Layout, Point, Pose, alike
from frame.view.sprites import (
    Kept,
    blit_corners,
    paint_badge,
    paint_bead,
    paint_disc,
    paint_outline,
)
from frame.view.theme import BeadColours, Colour, Theme

FADES = (1.0, 0.6, 0.3, 0.15)
"""The opacities by which beads fade while a learner needs them less and less."""

MOST_SPRITES = 160
MOST_GROUNDS = 4
ROD_IN_BEAD_WIDTHS = 0.05
CORNER_IN_BORDERS = 0.85
INNER_CORNER_IN_BORDERS = 0.3
BADGE_IN_BEAD_HEIGHTS = 0.62
HOLE_IN_BEAD_HEIGHTS = 0.4
SMALLEST_BADGE = 16


@dataclass(frozen=True, slots=True)
class Appearance:
    """How much of a frame is drawn.

    `marks` are the indices of the rods with a unit mark. Without `tint` beads in use look as
    those at rest; `opacity` (0 to 1) makes all beads pale, those of the `faded` rods palest;
    `shown` limits the beads to those rods. A `covered` frame is only a field with the unit
    marks; with `traces` a bead shows on it while it is on its way.
    """

    marks: tuple[int, ...] = ()
    tint: bool = True
    opacity: float = 1.0
    faded: frozenset[int] = frozenset()
    shown: frozenset[int] | None = None
    covered: bool = False
    traces: bool = False


@cache
def painter_of(theme: Theme) -> "Painter":
    """The painter of a theme. It keeps its beads while another theme is looked at."""
    return Painter(theme)


class Painter:
    """Draws frames in one theme. Every drawing answers the rectangle that it changed."""

    def __init__(self, theme: Theme) -> None:
        self.theme = theme
        self._sprites = Kept(MOST_SPRITES)
        self._grounds = Kept(MOST_GROUNDS)

    def draw_frame(
        self, surface: pygame.Surface, layout: Layout, pose: Pose, look: Appearance
    ) -> pygame.Rect:
        """Draws the whole frame with its beads in a pose; of one that is seen in part, what lies
        beyond is for the surface's clip to leave out."""
        surface.blit(self._ground(layout, look), _rect(layout.whole_box))
        for index in range(layout.rods):
            self._draw_beads(surface, layout, index, pose, look)
        return _rect(layout.frame_box)

    def prepare(self, layout: Layout) -> None:
        """Paints ahead what the first touch on a frame will need, so that it is seen at once."""
        scratch = pygame.Surface((1, 1))
        rest = Pose(((0.0, 1.0, 1.0, 1.0, 1.0),) * layout.rods)
        self.draw_touched(scratch, layout, 0, Bead.HEAVEN, rest)
        self.draw_mending(scratch, layout, 0, Bead.HEAVEN, rest)

    def draw_trace(
        self, surface: pygame.Surface, layout: Layout, index: int, bead: Bead, offset: float
    ) -> pygame.Rect:
        """Draws one bead as a pale shape, as it shows on a covered frame while it moves."""
        face = self.theme.trace
        trace = BeadColours(face, face, face, self.theme.mark_covered)
        return self._blit_bead(surface, layout.bead_box(index, bead, offset), trace, 1.0)

    def draw_hint(
        self,
        surface: pygame.Surface,
        layout: Layout,
        move: BeadMove,
        pose: Pose,
        finger: Finger,
        rest: Pose | None = None,
    ) -> pygame.Rect:
        """Draws a badge with an arrow on the bead to touch for a move.

        `rest` is the pose in which the beads rest, where they are seen in another one: the badge
        is on the bead to touch then, and rides along with it.
        The badge of the index finger is round, that of the thumb a rounded square.
        """
        index = layout.units - move.rod
        bead = (rest or pose).bead_to_touch(index, move.change)
        box = layout.bead_box(index, bead, pose.rods[index][bead])
        size = alike(max(SMALLEST_BADGE, box.h * BADGE_IN_BEAD_HEIGHTS), layout.spacing)
        is_up = (move.change < 0) == move.is_heaven
        at = pygame.Rect(0, 0, size, size).move(_corner(box.centre, size))
        at.clamp_ip(_rect(layout.whole_box))
        return surface.blit(self.badge(size, finger, is_up=is_up), at)

    def badge(self, size: int, finger: Finger, *, is_up: bool) -> pygame.Surface:
        """The badge that stands for a finger and a direction, `size` pixels wide and high."""
        theme, key = self.theme, ("badge", size, finger, is_up)
        return self._sprites.get(
            key, lambda: paint_badge(size, finger, is_up, theme.hint, theme.hint_ink)
        )

    def bead(self, width: int, height: int, *, used: bool) -> pygame.Surface:
        """A bead as a picture of its own, for progress strings."""
        return self._bead(width, height, self.theme.bead(used=used), 1.0)

    def draw_touched(
        self, surface: pygame.Surface, layout: Layout, index: int, bead: Bead, pose: Pose
    ) -> pygame.Rect:
        """Draws an outline around a bead: a finger is on it."""
        return self._draw_outline(surface, layout, index, bead, pose, self.theme.focus, False)

    def draw_known(
        self, surface: pygame.Surface, layout: Layout, index: int, bead: Bead, pose: Pose
    ) -> pygame.Rect:
        """Draws a bead as at rest, with a hole: what it stands for is known, and was not done."""
        box = layout.bead_box(index, bead, pose.rods[index][bead])
        size = alike(max(4, round(box.h * HOLE_IN_BEAD_HEIGHTS)), round(box.h))
        self._blit_bead(surface, box, self.theme.bead(used=False), 1.0)
        disc = self._disc(size, self.theme.field)
        return surface.blit(disc, _corner(box.centre, size))

    def draw_lit(
        self, surface: pygame.Surface, layout: Layout, index: int, bead: Bead, pose: Pose
    ) -> pygame.Rect:
        """Draws a badge on a bead that has something to show: its arrow points ahead."""
        box = layout.bead_box(index, bead, pose.rods[index][bead])
        size = alike(max(SMALLEST_BADGE, box.h * BADGE_IN_BEAD_HEIGHTS), layout.spacing)
        badge = pygame.transform.rotate(self.badge(size, Finger.INDEX, is_up=True), -90)
        return surface.blit(badge, _corner(box.centre, size))

    def draw_mending(
        self, surface: pygame.Surface, layout: Layout, index: int, bead: Bead, pose: Pose
    ) -> pygame.Rect:
        """Draws a dashed outline around a bead: it needs mending."""
        return self._draw_outline(surface, layout, index, bead, pose, self.theme.mending, True)

    def draw_focus(self, surface: pygame.Surface, layout: Layout, index: int) -> pygame.Rect:
        """Draws the focus ring around one rod, within its column."""
        column = _rect(layout.rod_box(index))
        width = max(2, round(layout.bead_height / 20))
        radius = max(width + 1, _inner_corner_radius(layout))
        self._fill_ring(surface, column, radius, width, self.theme.focus)
        return column

    def draw_pointed(self, surface: pygame.Surface, layout: Layout, index: int) -> pygame.Rect:
        """Draws a hint-coloured ring with an ink edge around one rod: look here."""
        column = _rect(layout.rod_box(index))
        width = max(2, round(layout.bead_height / 14))
        radius = max(3 * width, round(layout.border * INNER_CORNER_IN_BORDERS))
        self._fill_ring(surface, column, radius, 2 * width, self.theme.hint_ink)
        edge = max(1, width // 2)
        inner = column.inflate(-2 * edge, -2 * edge)
        self._fill_ring(surface, inner, radius - edge, 2 * width - 2 * edge, self.theme.hint)
        return column

    def _draw_outline(
        self,
        surface: pygame.Surface,
        layout: Layout,
        index: int,
        bead: Bead,
        pose: Pose,
        colour: Colour,
        dashed: bool,
    ) -> pygame.Rect:
        box = _rect(layout.bead_box(index, bead, pose.rods[index][bead]))
        beside = (layout.spacing - layout.bead_width) // 2
        thick = 2 * max(1, min(beside, max(2, round(layout.bead_height / 22))))
        box.inflate_ip(thick, thick)
        colours = (colour, self.theme.field)
        sprite = self._sprites.get(
            ("outline", box.size, colour, dashed),
            lambda: paint_outline(box.w, box.h, thick, colours, dashed),
        )
        return surface.blit(sprite, box)

    def _draw_beads(
        self, surface: pygame.Surface, layout: Layout, index: int, pose: Pose, look: Appearance
    ) -> None:
        offsets = pose.rods[index]
        if look.shown is not None and index not in look.shown:
            return
        for bead, box in layout.bead_boxes(index, offsets):
            if not look.covered:
                used = (offsets[bead] > 0.5) == bead.is_heaven
                colours = self.theme.bead(used=used, tint=look.tint)
                opacity = FADES[-1] if index in look.faded else look.opacity
                self._blit_bead(surface, box, colours, opacity)
            elif look.traces and 0 < offsets[bead] < 1:
                self.draw_trace(surface, layout, index, bead, offsets[bead])

    def _blit_bead(
        self, surface: pygame.Surface, box: Box, colours: BeadColours, opacity: float
    ) -> pygame.Rect:
        at = _rect(box)
        return surface.blit(self._bead(at.w, at.h, colours, opacity), at)

    def _bead(self, w: int, h: int, colours: BeadColours, opacity: float) -> pygame.Surface:
        key = ("bead", w, h, colours, opacity)
        return self._sprites.get(key, lambda: paint_bead(w, h, colours, opacity))

    def _ground(self, layout: Layout, look: Appearance) -> pygame.Surface:
        size = (layout.rods, layout.spacing, layout.bead_height)
        key = (size, look.marks, look.covered)
        paint = self._paint_covered if look.covered else self._paint_ground
        return self._grounds.get(key, lambda: paint(_at_origin(layout), look.marks))

    def _paint_ground(self, layout: Layout, marks: tuple[int, ...]) -> pygame.Surface:
        theme, inner = self.theme, _rect(layout.inner_box)
        ground = pygame.Surface(layout.whole_box[2:], pygame.SRCALPHA)
        self._fill_rounded(
            ground, ground.get_rect(), round(layout.border * CORNER_IN_BORDERS), theme.frame
        )
        self._fill_rounded(
            ground, inner, round(layout.border * INNER_CORNER_IN_BORDERS), theme.field
        )
        width = alike(max(1, round(layout.bead_width * ROD_IN_BEAD_WIDTHS)), layout.spacing)
        for index in range(layout.rods):
            middle = _rect(layout.rod_box(index))
            ground.fill(theme.rod, middle.inflate(width - middle.w, 0))
        ground.fill(theme.beam, _rect(layout.beam_box))
        self._draw_marks(ground, layout, marks, 0.6, theme.mark)
        return ground

    def _paint_covered(self, layout: Layout, marks: tuple[int, ...]) -> pygame.Surface:
        theme, beam = self.theme, _rect(layout.beam_box)
        ground = pygame.Surface(layout.whole_box[2:], pygame.SRCALPHA)
        radius = _corner_radius(layout)
        self._fill_rounded(ground, ground.get_rect(), radius, theme.field_covered)
        thin = alike(max(1, round(beam.h * 0.4)), beam.h)
        ground.fill(theme.beam_covered, beam.inflate(0, thin - beam.h))
        self._draw_marks(ground, layout, marks, 0.8, theme.mark_covered)
        return ground

    def _draw_marks(
        self,
        surface: pygame.Surface,
        layout: Layout,
        marks: tuple[int, ...],
        share: float,
        colour: Colour,
    ) -> None:
        size = alike(max(2, round(layout.beam * share)), layout.beam)
        disc = self._disc(size, colour)
        for index in marks:
            middle = layout.rod_box(index).centre[0], layout.beam_box.centre[1]
            surface.blit(disc, _corner(middle, size))

    def _disc(self, size: int, colour: Colour, hole: int = 0) -> pygame.Surface:
        key = ("disc", size, colour, hole)
        return self._sprites.get(key, lambda: paint_disc(size, colour, hole))

    def _fill_rounded(
        self, surface: pygame.Surface, box: pygame.Rect, radius: int, colour: Colour
    ) -> None:
        surface.fill(colour, box.inflate(-2 * radius, 0))
        surface.fill(colour, box.inflate(0, -2 * radius))
        blit_corners(surface, box, self._disc(2 * radius, colour))

    def _fill_ring(
        self, surface: pygame.Surface, box: pygame.Rect, radius: int, width: int, colour: Colour
    ) -> None:
        for side in (box.left, box.right - width):
            surface.fill(colour, (side, box.top + radius, width, box.h - 2 * radius))
        for side in (box.top, box.bottom - width):
            surface.fill(colour, (box.left + radius, side, box.w - 2 * radius, width))
        blit_corners(surface, box, self._disc(2 * radius, colour, 2 * (radius - width)))


def _rect(box: Box) -> pygame.Rect:
    return pygame.Rect(*map(round, box))


def _corner(centre: Point, size: int) -> tuple[int, int]:
    """The top left corner of a square around a point."""
    return round(centre[0] - size / 2), round(centre[1] - size / 2)


def _at_origin(layout: Layout) -> Layout:
    return replace(layout, x=layout.border, y=layout.border, window=0, scroll=0)


def _corner_radius(layout: Layout) -> int:
    return round(layout.border * CORNER_IN_BORDERS)


def _inner_corner_radius(layout: Layout) -> int:
    return round(layout.border * INNER_CORNER_IN_BORDERS)
