"""Where a touch lies on a frame that the hand need not look for."""

from frame.view.geometry import Layout, Point


def felt(at: Point, anchor: Point, layout: Layout) -> Point:
    """The place on the picture that a touch stands for, when `anchor` is the place in the window
    that counts as the beam on the unit rod. It never lies outside what is seen of the frame."""
    x = at[0] - anchor[0] + layout.rod_box(layout.units).centre[0]
    y = at[1] - anchor[1] + layout.beam_box.centre[1]
    box, edge = layout.frame_box, layout.border + 1
    return (
        min(max(x, box.x + edge), box.x + box.w - edge),
        min(max(y, box.y + edge), box.y + box.h - edge),
    )
