"""Where on a frame something looks different, so that no more than that is painted anew."""

from collections.abc import Sequence

import pygame

from frame.view.geometry import Bead, Layout, RodOffsets
from frame.view.scrolling import BAR_ROOM


def frame_place(layout: Layout) -> pygame.Rect:
    """All that is seen of the frame, with the bar below it where there is one."""
    x, y, w, h = _box(layout)
    return pygame.Rect(x, y, w, h + (BAR_ROOM if layout.window else 0))


def rod_place(layout: Layout, index: int) -> pygame.Rect:
    """A rod from border to border, as far as it is seen; empty where it is not."""
    x, _, w, _ = layout.rod_box(index)
    box = _box(layout)
    return pygame.Rect(round(x), box.y, round(w), box.h).clip(box)


def beads_place(
    layout: Layout, index: int, beads: Sequence[Bead], offsets: RodOffsets
) -> pygame.Rect:
    """These beads of a rod, outlines and badges included, as far as they are seen."""
    boxes = [layout.bead_box(index, bead, offsets[bead]) for bead in beads]
    top = round(min(box.y for box in boxes))
    bottom = round(max(box.y + box.h for box in boxes))
    column = layout.rod_box(index)
    place = pygame.Rect(round(column.x), top, round(column.w), bottom - top)
    return place.inflate(0, layout.border).clip(_box(layout))


def middles(layout: Layout) -> list[tuple[int, int]]:
    """The index and the middle in pixels of each rod that is seen whole, from the left."""
    box = layout.frame_box
    rods = [(index, layout.rod_box(index)) for index in layout.seen]
    return [
        (index, round(rod.centre[0]))
        for index, rod in rods
        if box.x <= rod.x and rod.x + rod.w <= box.x + box.w
    ]


def _box(layout: Layout) -> pygame.Rect:
    return pygame.Rect(*map(round, layout.frame_box))
