"""A frame of more rods than fit: which of them are seen, the bar below it, and what moves it.

It is for the free frame, whose rods are to be touched: beyond 27 they would be too narrow for it in
a usual window. Other frames are seen whole, whatever their width.
"""

from dataclasses import dataclass

from frame.view.geometry import Box, Layout, Point

BAR_HEIGHT = 10
BAR_ROOM = 18
"""Pixels kept free below such a frame; together with its lower border they can be touched."""
TURN_MARGIN = 1
"""So many rods beside the one that is worked are seen too."""


def fitted(
    area: tuple[float, float, float, float], rods: int, units: int, narrow: bool, least: int
) -> Layout:
    """The frame in an area: whole, or where its rods would be narrower than `least` pixels a
    window of it with room for the bar."""
    layout = Layout.fit(area, rods, units, narrow, least)
    if not layout.window:
        return layout
    x, y, w, h = area
    lower = Layout.fit((x, y, w, h - BAR_ROOM), rods, units, narrow, least)
    return lower if lower.window else Layout.fit(area, rods, units, narrow)


def revealing(layout: Layout, index: int) -> Layout:
    """The layout with a rod and those beside it in sight. Where it must be moved for that, most
    of what is seen lies on the far side, where the work goes on."""
    if not layout.window or not 0 <= index < layout.rods:
        return layout
    shown, first = layout.window // layout.spacing, -(-layout.scroll // layout.spacing)
    margin = min(TURN_MARGIN, (shown - 1) // 2)
    if first + margin <= index < first + shown - margin:
        return layout
    third = max(margin, shown // 3)
    start = index - third if index >= first + shown - margin else index + third + 1 - shown
    return layout.scrolled(start * layout.spacing)


def bar_box(layout: Layout) -> Box:
    """The bar below a window of a frame, as long as the window."""
    box = layout.frame_box
    top = box.y + box.h + (BAR_ROOM - BAR_HEIGHT) / 2
    return Box(box.x + layout.border, top, layout.window, BAR_HEIGHT)


def thumb_box(layout: Layout) -> Box:
    """The part of the bar that stands for the rods that are seen."""
    bar, whole = bar_box(layout), layout.rods * layout.spacing
    left = bar.x + bar.w * layout.scroll / whole
    return Box(left, bar.y, bar.w * layout.window / whole, bar.h)


@dataclass
class Panning:
    """A finger that moves the window: the border goes along with it, on the bar the thumb does.

    `held` is the finger, where it came down and how much was left out at the left then, and how
    far the window moves for a pixel of the finger's way; None while there is none.
    """

    held: tuple[int, Point, int, float] | None = None

    def press(self, finger: int, at: Point, layout: Layout) -> bool:
        """A finger comes down. Whether it takes hold of the window."""
        by = _grip(at, layout)
        if by:
            self.held = finger, at, layout.scroll, by
        return bool(by)

    def drag(self, finger: int, at: Point, layout: Layout) -> Layout | None:
        """The layout for where the finger is now, None where it does not hold the window."""
        if self.held is None or self.held[0] != finger:
            return None
        _, start, scroll, by = self.held
        return layout.scrolled(scroll + by * (at[0] - start[0]))

    def release(self, finger: int, at: Point, layout: Layout) -> Layout | None:
        """The layout when the finger leaves: whole rods are seen. None as for `drag`."""
        dragged = self.drag(finger, at, layout)
        if dragged is None:
            return None
        self.held = None
        return dragged.scrolled(round(dragged.scroll / layout.spacing) * layout.spacing)


def _grip(at: Point, layout: Layout) -> float:
    """How far the window moves for a pixel of a finger's way from a place, 0 where it does not:
    on the frame's upper and lower border the frame goes along, on the bar its thumb does."""
    box, inner = layout.frame_box, layout.inner_box
    if not layout.window or not box.x <= at[0] < box.x + box.w:
        return 0.0
    if box.y <= at[1] < inner.y or inner.y + inner.h <= at[1] < box.y + box.h:
        return -1.0
    is_bar = box.y + box.h <= at[1] < box.y + box.h + BAR_ROOM
    return layout.rods * layout.spacing / layout.window if is_bar else 0.0
