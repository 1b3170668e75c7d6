"""Scenes of the harbour: within their place in any shape, the same each time, with a sun at an
end."""

from itertools import combinations

import pygame
import pytest
from pilot import the_pictures

from frame.drawn import DRAWN, MOST_IN_SCENE
from frame.view.scene_picture import paint_scene
from frame.view.theme import LIGHT, THEMES

SCENES = [
    ("boat", "crate", "otter"),
    ("crane", "stack"),
    ("ferry", "lamp", "heron", "lighthouse"),
    ("whale",),
    ("ticket",),
    ("lighthouse",),
]
PLACES = [(600, 200), (320, 240), (200, 300), (61, 43), (24, 24)]
scenes = pytest.mark.parametrize("names", SCENES, ids="-".join)
places = pytest.mark.parametrize("size", PLACES, ids=str)
AROUND = 40


def painted(names, size, theme=LIGHT, *, is_end=False):
    """The scene in a place with empty ground around it; the place, and what was taken of it."""
    width, height = size
    surface = pygame.Surface((width + 2 * AROUND, height + 2 * AROUND))
    surface.fill(theme.ground)
    place = pygame.Rect((AROUND, AROUND), size)
    taken = paint_scene(surface, the_pictures(), theme, names, place, is_end=is_end)
    return surface, place, taken


def touched(surface, theme=LIGHT):
    """The smallest rectangle outside of which there is only ground."""
    mask = pygame.mask.from_threshold(surface, theme.ground, (1, 1, 1))
    mask.invert()
    rects = mask.get_bounding_rects()
    return rects[0].unionall(rects[1:])


@scenes
@places
@pytest.mark.parametrize("is_end", [False, True])
def test_a_scene_stays_within_its_place(names, size, is_end):
    surface, place, taken = painted(names, size, is_end=is_end)
    assert place.contains(taken)
    assert taken.inflate(2, 2).contains(touched(surface))


@scenes
@places
def test_a_scene_fills_its_place_one_way_or_the_other(names, size):
    surface, place, _ = painted(names, size)
    seen = touched(surface)
    assert max(seen.w / place.w, seen.h / place.h) >= 0.65


@scenes
@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_an_end_is_told_from_any_other_scene(names, theme):
    usual, end = (painted(names, (320, 240), theme, is_end=is_end)[0] for is_end in (False, True))
    places = [(x, y) for x in range(0, 400, 4) for y in range(0, 320, 4)]
    assert sum(usual.get_at(place) != end.get_at(place) for place in places) >= 20


@scenes
def test_nothing_of_a_scene_moves(names):
    one, other = (painted(names, (320, 240))[0] for _ in range(2))
    assert pygame.image.tobytes(one, "RGB") == pygame.image.tobytes(other, "RGB")


def test_a_crane_is_larger_than_an_animal_and_that_than_a_crate():
    """In one scene they have one scale, so that what is beside it says how large each is."""
    pictures, asked = the_pictures(), {}

    class Watched:
        def drawn(self, name, size, colours):
            asked[name] = size
            return pictures.drawn(name, size, colours)

    surface = pygame.Surface((600, 200))
    paint_scene(surface, Watched(), LIGHT, ("crate", "otter", "crane"), surface.get_rect())
    assert asked["crate"] < asked["otter"] < asked["crane"]


@pytest.mark.parametrize("size", PLACES[:3], ids=str)
def test_scenes_of_others_are_told_apart(size):
    shown = [painted((name,), size)[0] for name in DRAWN]
    assert not any(
        pygame.image.tobytes(one, "RGB") == pygame.image.tobytes(other, "RGB")
        for one, other in combinations(shown, 2)
    )


@places
def test_as_many_as_a_scene_may_have_have_room(size):
    widest = ("ferry", "crane", "stall", "shed")
    assert len(widest) == MOST_IN_SCENE
    surface, place, _ = painted(widest, size)
    assert place.contains(touched(surface))
