"""Lines to cut along, around and between pieces of one size that fill a page row by row."""

from frame.printing.leaf import Area
from frame.printing.pen import EDGE, Pen


def draw_cuts(pen: Pen, area: Area, across: int, down: int, count: int) -> None:
    """Draw them for so many pieces of a page that has room for some across and some down."""
    width, height = area.w / across, area.h / down
    rows, last = -(-count // across), (count - 1) % across + 1
    widest = min(count, across)
    for row in range(rows + 1):
        y = area.y + row * height
        so_far = last if row == rows else widest
        pen.dashed((area.x, y), (area.x + so_far * width, y), EDGE)
    for column in range(widest + 1):
        x = area.x + column * width
        depth = rows if column <= last else rows - 1
        pen.dashed((x, area.y), (x, area.y + depth * height), EDGE)
