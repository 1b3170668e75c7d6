"""Tickets on rails: all of them in their place, whatever the window."""

from itertools import combinations, pairwise

import pygame
from hypothesis import given
from hypothesis import strategies as st

from frame.screens.parts.hanging import hang, per_page


@st.composite
def hung(draw):
    """The place for tickets in a window, and a ninetieth of its shorter side."""
    width, height = draw(st.integers(320, 3840)), draw(st.integers(240, 2160))
    area = pygame.Rect(width // 50, height // 5, width * 24 // 25, height * 3 // 4)
    return area, min(width, height) / 90


@given(window=hung(), count=st.integers(1, 70))
def test_tickets_hang_in_order_below_their_rails_and_apart(window, count):
    area, one = window
    places = hang(area, count, 44, one).places
    rails = hang(area, count, 44, one).rails
    assert len(places) == count
    for before, after in pairwise(places):
        assert (before.top, before.left) < (after.top, after.left)
    for place in places:
        assert area.inflate(2, 2).contains(place)
        assert any(rail.bottom <= place.top for rail in rails)
    for place, rail in ((place, rail) for place in places for rail in rails):
        assert not place.colliderect(rail)
    for place, other in combinations(places, 2):
        assert not place.inflate(-2, -2).colliderect(other)


@given(window=hung(), count=st.integers(1, 70), below=st.integers(0, 60))
def test_a_page_never_has_more_than_there_are_and_pages_are_even(window, count, below):
    area, one = window
    on_page = per_page(area, below, count, 44, one)
    assert 1 <= on_page <= count
    pages = -(-count // on_page)
    assert count > (pages - 1) * on_page


@given(window=hung(), count=st.integers(1, 70))
def test_what_hangs_on_one_page_is_large_enough(window, count):
    area, one = window
    if per_page(area, 0, count, 44, one) == count > 1:
        assert min(min(place.size) for place in hang(area, count, 44, one).places) >= 43
