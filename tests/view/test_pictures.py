"""Portraits: told apart by every eye, and shown whatever name a file has for one."""

from itertools import combinations

import pygame
import pytest
from pilot import the_pictures

from frame.learner.looks import ANIMALS, FLAGS, Portrait
from frame.view.theme import THEMES, luminance

PICTURES = [Portrait(animal, flag).picture for animal in ANIMALS for flag in FLAGS]
GREYS_APART = 2.0
"""By which a place is brighter in one portrait than in another, as a contrast. No source: within a
flag the contrast is that of shapes, 3 to 1."""


def grey(picture, theme):
    """How bright a portrait is at each place of a grid, as seen without any hue."""
    shown = the_pictures().portrait(picture, 48, THEMES[theme].flags)
    places = [(x, y) for x in range(1, 48, 3) for y in range(1, 48, 3)]
    return [luminance(tuple(shown.get_at(place)[:3])) for place in places]


@pytest.mark.parametrize("theme", THEMES)
def test_sixty_portraits_are_told_apart_without_any_hue(theme):
    seen = {picture: grey(picture, theme) for picture in PICTURES}
    assert len(seen) == 60
    for one, other in combinations(PICTURES, 2):
        lights = [sorted(pair) for pair in zip(seen[one], seen[other], strict=True)]
        apart = [high for low, high in lights if (high + 0.05) / (low + 0.05) >= GREYS_APART]
        assert len(apart) >= 8, (one, other)


@pytest.mark.parametrize("name", ["walrus", "", "../fonts/OFL", "x" * 5000, "a\0b", "icon-eye.svg"])
def test_a_portrait_that_is_not_there_is_that_of_a_newcomer(name):
    flags = THEMES["light"].flags
    found, usual = (the_pictures().portrait(one, 64, flags) for one in (name, "newcomer"))
    assert pygame.image.tobytes(found, "RGBA") == pygame.image.tobytes(usual, "RGBA")


def test_a_sign_that_is_not_there_is_an_error():
    with pytest.raises(FileNotFoundError):
        the_pictures().get("icon-walrus", 64, (0, 0, 0))
