"""Blocks, which follow one another down a page and on to the next."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise, product
from typing import NamedTuple

from frame.printing.leaf import Area
from frame.printing.pen import Pen

Draw = Callable[[Pen, Area], None]
"""Draws something in an area."""
_MOST_LEAD = 7.0
"""What the gap between two blocks may grow by, to fill a page."""
_BELOW_HEADING = 3.5
_LOW = 20.0
"""What is lower, as a line with its answer, is not left alone by those it belongs to; a band of
columns stands well by itself."""


class Block(NamedTuple):
    """What is not parted by the end of a page: its height, how it is drawn and the least gap above
    it. A heading `leads`: it stands on the page of what follows, close to it."""

    height: float
    draw: Draw
    gap: float = 5.0
    leads: bool = False


class Page(NamedTuple):
    """What stands on a page between its head and its foot. One that `is_wide` lies on its long
    edge; one that `is_back` has no head."""

    draw: Draw
    is_wide: bool = False
    is_back: bool = False


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


def pages_of(
    blocks: Iterable[Block], height: float, is_wide: bool = False, most_lead: float = _MOST_LEAD
) -> list[Page]:
    """Pages of that height with all blocks, the gaps of which grow to fill them. What stands below
    a heading is kept together, and no line alone, where that takes no page more."""
    some = list(blocks)
    ways = product((True, False), (_by_sections, _parted))
    pages = min((list(parted(some, height, pairs)) for pairs, parted in ways), key=len)
    _pair_last(pages, height)
    lead = min([most_lead, *(_lead(page, height) for page in pages)])
    return [Page(_below_one_another(page, lead), is_wide) for page in pages]


def _side_by_side(cells: Sequence[Draw], across: int, beside: float) -> Draw:
    def draw(pen: Pen, area: Area) -> None:
        pitch = (area.w + beside) / across
        for index, cell in enumerate(cells):
            cell(pen, Area(area.x + index * pitch, area.y, pitch - beside, area.h))

    return draw


def _below_one_another(blocks: Sequence[Block], lead: float) -> Draw:
    def draw(pen: Pen, area: Area) -> None:
        y = area.y
        for index, block in enumerate(blocks):
            y += _gap(blocks, index, lead)
            block.draw(pen, Area(area.x, y, area.w, block.height))
            y += block.height

    return draw


def _gap(blocks: Sequence[Block], index: int, lead: float) -> float:
    """The gap above a block of a page."""
    if not index:
        return 0
    return _BELOW_HEADING if blocks[index - 1].leads else blocks[index].gap + lead


def _lead(blocks: Sequence[Block], height: float) -> float:
    """What each gap of a page may grow by."""
    growing = sum(not block.leads for block in blocks[:-1])
    return (height - _height(blocks)) / growing if growing else _MOST_LEAD


def _height(blocks: Sequence[Block]) -> float:
    return sum(block.height + _gap(blocks, index, 0) for index, block in enumerate(blocks))


def _by_sections(blocks: Sequence[Block], height: float, pairs: bool) -> Iterator[list[Block]]:
    """Pages on which a heading has all below it that has room on one."""
    page: list[Block] = []
    for section in _sections(blocks):
        if page and _height(section) <= height < _height([*page, *section]):
            yield page
            page = []
        *full, page = _parted([*page, *section], height, pairs)
        yield from full
    if page:
        yield page


def _sections(blocks: Sequence[Block]) -> Iterator[Sequence[Block]]:
    """Each heading with what stands below it."""
    starts = [at for at, block in enumerate(blocks) if block.leads or not at]
    for first, last in pairwise([*starts, len(blocks)]):
        yield blocks[first:last]


def _parted(blocks: Iterable[Block], height: float, pairs: bool) -> Iterator[list[Block]]:
    """Pages as full as can be; with `pairs` no heading has a single line at the end of one."""
    page: list[Block] = []
    for block in blocks:
        if page and _height([*page, block]) > height:
            count = len(page) - _held(page, block, pairs) or len(page)
            yield page[:count]
            page = page[count:]
        page.append(block)
    if page:
        yield page


def _held(page: Sequence[Block], block: Block, pairs: bool) -> int:
    """How many of the last blocks of a page go on with the next one."""
    *_, before, last = [None, *page]
    if last.leads:
        return 1
    is_alone = before is not None and before.leads and _is_line(last) and _is_line(block)
    return 2 if pairs and is_alone else 0


def _is_line(block: Block) -> bool:
    return not block.leads and block.height < _LOW


def _pair_last(pages: Sequence[list[Block]], height: float) -> None:
    """The last line below a heading gets the one before it from the page before, where there is
    room, and others are left there."""
    for page, following in pairwise(pages):
        last, *others = following
        is_alone = _is_line(last) and (not others or others[0].leads)
        can_part = len(page) > 2 and all(map(_is_line, page[-3:]))
        if is_alone and can_part and _height([page[-1], *following]) <= height:
            following.insert(0, page.pop())
