"""Blocks, of which pages are made, and how much room is taken in them."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from frame.printing.leaf import Area
from frame.printing.pen import Pen

Draw = Callable[[Pen, Area], None]
"""Draws something in an area."""


class Block(NamedTuple):
    """What is not parted by the end of a page: its height, how it is drawn and the least gap above
    it. A heading `leads`: it stands on the page of what follows, close to it, and is drawn
    `again` where that goes on on another page, if at all."""

    height: float
    draw: Draw
    gap: float = 5.0
    leads: bool = False
    again: Draw | None = None


class Ease(NamedTuple):
    """How much room is taken: the size of figures, from rod to rod of a frame, the height to write
    an answer in, and the least width for one beside its sum."""

    size: float
    spacing: float
    answer: float
    beside: float = 20.0


EASES = (Ease(16, 8.4, 11.0), Ease(15, 7.2, 10.3), Ease(14, 6.0, 9.6), Ease(14, 6.0, 9.6, 14.0))
"""At ease first; closer where that saves a page."""


def grid(
    cells: Sequence[Draw], across: int, height: float, gap: float, beside: float = 0.0
) -> Iterator[Block]:
    """Cells side by side, so many in a block, with white between them."""
    for first in range(0, len(cells), across):
        yield Block(height, _side_by_side(cells[first : first + across], across, beside), gap)


def _side_by_side(cells: Sequence[Draw], across: int, beside: float) -> Draw:
    def draw(pen: Pen, area: Area) -> None:
        pitch = (area.w + beside) / across
        for index, cell in enumerate(cells):
            cell(pen, Area(area.x + index * pitch, area.y, pitch - beside, area.h))

    return draw
