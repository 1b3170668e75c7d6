"""In which order the focus ring goes round places: as one reads, and by arrows to what lies
nearest. On the screens themselves: `test_every_screen.py`."""

from itertools import pairwise

import pygame
from hypothesis import given
from hypothesis import strategies as st

from frame.screens.parts.ring import across, along, rows_of


@st.composite
def grids(draw):
    """Places in rows of any lengths, shaken by less than half their height, and how many each row
    has."""
    rows = draw(st.lists(st.integers(1, 5), min_size=1, max_size=5))
    shake = st.integers(0, 9)
    places = [
        pygame.Rect(30 * column + draw(shake), 40 * row + draw(shake), 20, 20)
        for row, count in enumerate(rows)
        for column in range(count)
    ]
    return draw(st.permutations(places)), rows


@given(grids())
def test_places_are_read_row_by_row_from_the_left(grid):
    places, counts = grid
    rows = rows_of(places)
    assert [len(row) for row in rows] == counts
    for row in rows:
        assert [places[at].left for at in row] == sorted(places[at].left for at in row)
    for upper, lower in pairwise(rows):
        assert max(places[at].top for at in upper) < min(places[at].top for at in lower)


@given(grids())
def test_arrows_lead_to_the_next_of_the_row_and_to_the_nearest_of_the_next_row(grid):
    places, _ = grid
    rows = rows_of(places)
    for index, row in enumerate(rows):
        for column, at in enumerate(row):
            for way in (-1, 1):
                there = column + way
                assert along(places, at, way) == (row[there] if 0 <= there < len(row) else None)
                other = rows[index + way] if 0 <= index + way < len(rows) else []
                wanted = other[min(column, len(other) - 1)] if other else None
                assert across(places, at, way) == wanted
