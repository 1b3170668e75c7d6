"""Blocks go down a page and on to the next, none cut and none alone that leads."""

from hypothesis import given
from hypothesis import strategies as some

from frame.printing.blocks import EASES, Block
from frame.printing.leaf import Area
from frame.printing.paging import Page, pages_of
from frame.printing.pen import Pen

HEIGHT = 100.0
AREA = Area(10, 20, 50, HEIGHT)
LEAST_ANSWER = 9.0


def drawn(page: Page) -> list[tuple[float, float]]:
    """The top and bottom of each block of a page."""
    SEEN.clear()
    page.draw(None, AREA)  # type: ignore[arg-type]
    return list(SEEN)


SEEN: list[tuple[float, float]] = []


def block(height: float, gap: float = 5.0, leads: bool = False) -> Block:
    def draw(pen: Pen, area: Area) -> None:
        SEEN.append((area.y, area.bottom))

    return Block(height, draw, gap, leads)


@given(some.lists(some.floats(1, HEIGHT), min_size=1, max_size=30), some.sampled_from((0, 5, 9)))
def test_all_blocks_stand_on_pages_and_none_overlaps(heights: list[float], gap: float) -> None:
    pages = pages_of([block(height, gap) for height in heights], HEIGHT)
    tops = [drawn(page) for page in pages]
    assert [round(end - top, 6) for page in tops for top, end in page] == [
        round(height, 6) for height in heights
    ]
    for page in tops:
        ends = [AREA.y, *(end for _, end in page)]
        assert all(top >= end - 1e-6 for (top, _), end in zip(page, ends[:-1], strict=True))
        assert ends[-1] <= AREA.bottom + 1e-6


def test_where_nothing_stands_there_is_no_page() -> None:
    assert pages_of([], HEIGHT) == []


def test_a_heading_goes_on_with_what_it_leads() -> None:
    pages = pages_of([block(80), block(8, leads=True), block(40)], HEIGHT)
    assert [len(drawn(page)) for page in pages] == [1, 2]


def test_what_stands_below_a_heading_is_not_parted_where_that_takes_no_page_more() -> None:
    section = [block(8, leads=True), block(20), block(20)]
    pages = pages_of([block(25), block(25), *section], HEIGHT)
    assert [len(drawn(page)) for page in pages] == [2, 3]
    long = pages_of([block(25), block(25), *section, *section], HEIGHT)
    assert sum(len(drawn(page)) for page in long) == 8
    assert len(long) == 2, "but rather than a page more"


def counts(*blocks: Block) -> list[int]:
    """How many blocks stand on each page."""
    return [len(drawn(page)) for page in pages_of(blocks, HEIGHT)]


def test_what_goes_on_begins_with_the_last_heading_that_comes_again() -> None:
    def again(pen: Pen, area: Area) -> None:
        SEEN.append((0.0, 0.0))

    first = block(8, leads=True)._replace(again=again)
    pages = pages_of([first, block(8, leads=True), *[block(25)] * 5], HEIGHT)
    assert [drawn(page).count((0.0, 0.0)) for page in pages] == [0, 1]
    assert drawn(pages[1])[0] == (0.0, 0.0)


def test_no_line_stands_alone_below_its_heading_where_that_takes_no_page_more() -> None:
    heading, line = block(8, leads=True), block(12)
    assert counts(block(60), heading, *[line] * 5) == [1, 6]
    assert counts(block(60), heading, *[line] * 6) == [3, 5], "rather than a page more"
    assert counts(block(60), heading, line, heading, block(60)) == [3, 2], (
        "where it is all there is"
    )


def test_no_last_line_stands_alone_where_its_page_has_room_for_another() -> None:
    heading, line = block(8, leads=True), block(15)
    assert counts(heading, *[line] * 5) == [4, 2]
    assert counts(heading, *[line] * 5, heading, block(40)) == [4, 4]
    assert counts(heading, *[line] * 5, heading, block(60)) == [5, 3], "rather than a page more"


def test_a_band_of_columns_may_stand_alone() -> None:
    heading = block(8, leads=True)
    assert counts(block(50), heading, *[block(25)] * 4) == [3, 3]


def test_gaps_grow_alike_on_all_pages() -> None:
    first, second = map(drawn, pages_of([block(30)] * 5, HEIGHT))
    assert first[1][0] - first[0][1] == second[1][0] - second[0][1] == 5.0


def test_there_is_always_room_to_write() -> None:
    assert min(ease.answer for ease in EASES) >= LEAST_ANSWER
    assert {14 <= ease.size <= 18 for ease in EASES} == {True}
