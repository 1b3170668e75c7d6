"""Draws a frame that is worked: its beads, and what is marked on its beads and rods."""

from dataclasses import replace
from typing import NamedTuple

import pygame

from frame.technique.beads import BeadMove
from frame.technique.fingers import finger_of
from frame.view.geometry import Bead, Box, Layout, Pose
from frame.view.painter import Appearance, Painter
from frame.view.scrolling import bar_box, thumb_box


class Seen(NamedTuple):
    """All that is seen of a frame: its beads as they stand and as they `rest`, the bead that is
    `touched`, the one to be mended, those `counted`, the moves with a badge, and the indices of the
    rods with a ring. During a preview a badge rides along; else it waits for beads that are on
    their way, since where they rest says which of them a move touches."""

    layout: Layout
    pose: Pose
    rest: Pose
    look: Appearance
    touched: tuple[int, Bead] | None = None
    mending: BeadMove | None = None
    counted: tuple[tuple[int, Bead], ...] = ()
    hints: tuple[BeadMove, ...] = ()
    pointed: int | None = None
    focus: int | None = None
    is_preview: bool = False

    def strays(self, index: int) -> bool:
        """Whether beads of a rod are seen elsewhere than they are."""
        return self.pose.rods[index] != self.rest.rods[index]


def draw_field(surface: pygame.Surface, painter: Painter, seen: Seen) -> None:
    """Draw what lies within the surface's clip, and nothing beyond what is seen of the frame."""
    clip, layout = surface.get_clip(), seen.layout
    if layout.window:
        _draw_bar(surface, painter, layout)
    within = clip.clip(_rect(layout.frame_box))
    if within.w and within.h:
        surface.set_clip(within)
        _draw_frame(surface, painter, seen, within)
        surface.set_clip(clip)


def _draw_frame(surface: pygame.Surface, painter: Painter, seen: Seen, within: pygame.Rect) -> None:
    shown = seen.layout.indices_between(within.left, within.right)
    shown = shown if seen.look.shown is None else shown & seen.look.shown
    painter.draw_frame(surface, seen.layout, seen.pose, replace(seen.look, shown=shown))
    if not seen.look.covered:
        _draw_marks(surface, painter, seen)
    if seen.focus is not None:
        painter.draw_focus(surface, seen.layout, seen.focus)


def _draw_marks(surface: pygame.Surface, painter: Painter, seen: Seen) -> None:
    """What is marked on beads and rods: touched, to be mended, to be moved, to be looked at."""
    layout, pose = seen.layout, seen.pose
    if seen.touched:
        painter.draw_touched(surface, layout, *seen.touched, pose)
    if seen.mending:
        index = layout.units - seen.mending.rod
        bead = seen.rest.bead_to_touch(index, seen.mending.change)
        painter.draw_mending(surface, layout, index, bead, pose)
    for index, bead in seen.counted:
        painter.draw_touched(surface, layout, index, bead, pose)
    for move in seen.hints:
        if seen.is_preview or not seen.strays(layout.units - move.rod):
            painter.draw_hint(surface, layout, move, pose, finger_of(move), seen.rest)
    if seen.pointed is not None:
        painter.draw_pointed(surface, layout, seen.pointed)


def _draw_bar(surface: pygame.Surface, painter: Painter, layout: Layout) -> None:
    """The bar below the frame: the part of the frame that is seen is strong."""
    bar, thumb = _rect(bar_box(layout)), _rect(thumb_box(layout))
    line = bar.inflate(0, 2 - bar.h)
    surface.fill(painter.theme.soft_ink, line)
    pygame.draw.rect(surface, painter.theme.ink, thumb, border_radius=thumb.h // 2)


def _rect(box: Box) -> pygame.Rect:
    return pygame.Rect(*map(round, box))
