"""The leaf that is printed on, and places on it. All lengths are in millimetres, y down."""

from typing import NamedTuple

from frame.sheets.recipe import Leaf

MARGIN, TOP, BOTTOM = 16.0, 13.0, 12.0
"""White around all that is printed: left and right, above, and below."""
SIZES = {Leaf.A4: (210.0, 297.0), Leaf.LETTER: (215.9, 279.4)}


class Area(NamedTuple):
    """An upright rectangle on a leaf."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.w

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.y + self.h

    @property
    def middle(self) -> float:
        """Halfway between its left and right edges."""
        return self.x + self.w / 2


def size_of(leaf: Leaf, is_wide: bool) -> tuple[float, float]:
    """Width and height of a leaf, or of one that lies on its long edge."""
    width, height = SIZES[leaf]
    return (height, width) if is_wide else (width, height)


def printed_area(leaf: Leaf, is_wide: bool) -> Area:
    """What is printed on of a leaf."""
    width, height = size_of(leaf, is_wide)
    return Area(MARGIN, TOP, width - 2 * MARGIN, height - TOP - BOTTOM)
