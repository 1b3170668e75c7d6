"""Pages filled with blocks, none parted by the end of one and no heading alone."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise, product, takewhile
from typing import NamedTuple

from frame.printing.blocks import Block, Draw
from frame.printing.leaf import Area
from frame.printing.pen import Pen

_MOST_LEAD = 7.0
"""What the gap between two blocks may grow by, to fill a page."""
_BELOW_HEADING = 3.5
_LOW = 20.0
"""What is lower, as a line with its answer, is not left alone by those it belongs to; a band of
columns stands well by itself."""


class Page(NamedTuple):
    """What stands on a page between its head and its foot. One that `is_wide` lies on its long
    edge; one that `is_back` has no head."""

    draw: Draw
    is_wide: bool = False
    is_back: bool = False


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
    """Each heading, or one below another, with what stands below it."""
    is_below = (True, *(not block.leads for block in blocks))
    starts = [at for at, block in enumerate(blocks) if not at or (block.leads and is_below[at])]
    for first, last in pairwise([*starts, len(blocks)]):
        yield blocks[first:last]


def _parted(blocks: Iterable[Block], height: float, pairs: bool) -> Iterator[list[Block]]:
    """Pages as full as can be; with `pairs` no heading has a single line at the end of one."""
    page: list[Block] = []
    for block in blocks:
        if page and _height([*page, block]) > height:
            count = len(page) - _held(page, block, pairs) or len(page)
            yield page[:count]
            page = _begun(page[:count], [*page[count:], block], height)
        else:
            page.append(block)
    if page:
        yield page


def _begun(page: Sequence[Block], following: list[Block], height: float) -> list[Block]:
    """What follows a page: where that goes on, the last heading comes again if there is room."""
    again = [block._replace(draw=block.again) for block in page if block.leads and block.again]
    if following[0].leads or not again:
        return following
    begun = [again[-1], *following]
    return begun if _height(begun) <= height else following


def _held(page: Sequence[Block], block: Block, pairs: bool) -> int:
    """How many of the last blocks of a page go on with the next one."""
    headings = _last_headings(page)
    if headings or not pairs or not (_is_line(page[-1]) and _is_line(block)):
        return headings
    headings = _last_headings(page[:-1])
    return headings + 1 if headings else 0


def _last_headings(blocks: Sequence[Block]) -> int:
    """How many headings the blocks end with."""
    return sum(1 for _ in takewhile(lambda block: block.leads, reversed(blocks)))


def _is_line(block: Block) -> bool:
    return not block.leads and block.height < _LOW


def _pair_last(pages: Sequence[list[Block]], height: float) -> None:
    """The last line below a heading gets the one before it from the page before, where there is
    room, and others are left there."""
    for page, following in pairwise(pages):
        at = int(following[0].draw is following[0].again)
        last, *others = following[at:]
        is_alone = _is_line(last) and (not others or others[0].leads)
        can_part = len(page) > 2 and all(map(_is_line, page[-3:]))
        if is_alone and can_part and _height([page[-1], *following]) <= height:
            following.insert(at, page.pop())
