"""Sprites: even beads, hairlines between them, and a store that does not grow."""

import pygame
import pytest

from frame.view.sprites import Kept, paint_bead, paint_outline
from frame.view.theme import LIGHT

SIZES = [(9, 5), (25, 14), (34, 19), (77, 43), (78, 43), (149, 82)]


def alpha(sprite):
    width, height = sprite.get_size()
    return [[sprite.get_at((x, y))[3] for x in range(width)] for y in range(height)]


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_a_bead_is_as_wide_on_its_left_as_on_its_right(width, height):
    rows = alpha(paint_bead(width, height, LIGHT.bead_rest, 1.0))
    assert all(row == row[::-1] for row in rows)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_a_hairline_parts_a_bead_from_the_next(width, height):
    rows = alpha(paint_bead(width, height, LIGHT.bead_used, 1.0))
    assert max(rows[0]) == 255 and max(rows[-1]) == 0
    assert max(max(row[0] for row in rows), 1) > 128, "the widest row reaches the edge"


def test_a_pale_bead_is_as_opaque_as_told():
    assert max(map(max, alpha(paint_bead(40, 22, LIGHT.bead_used, 0.3)))) == round(0.3 * 255)


def count(sprite, colour):
    width, height = sprite.get_size()
    places = ((x, y) for x in range(width) for y in range(height))
    return sum(tuple(sprite.get_at(place)) == (*colour, 255) for place in places)


def test_a_dashed_outline_has_gaps_in_its_colour_but_not_in_its_rim():
    colours = (LIGHT.mending, LIGHT.field)
    solid, dashed = (paint_outline(80, 44, 6, colours, dash) for dash in (False, True))
    assert 0.3 < count(dashed, LIGHT.mending) / count(solid, LIGHT.mending) < 0.7
    assert alpha(dashed) == alpha(solid)


def test_kept_surfaces_are_few_and_painted_once():
    kept, painted = Kept(2), []

    def get(key):
        def paint():
            painted.append(key)
            return pygame.Surface((1, 1))

        kept.get(key, paint)

    for key in "aabacab":
        get(key)
    assert painted == list("abcb")
