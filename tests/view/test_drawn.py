"""The drawings of the harbour: of one hand, standing on one ground, each told from all others."""

import re
from itertools import combinations

import pytest
from contrast import SHAPE, contrast
from pilot import the_pictures

from frame.drawn import ANIMALS, DRAWN, SCENERY, THINGS
from frame.view.pictures import ROLES
from frame.view.theme import LIGHT, THEMES, luminance

SMALL, LARGE = 24, 256
GREYS_APART = 2.0
"""As for portraits."""
PLACES_APART = 48
"""Of the 576 of a small drawing."""
themes = pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)


def file_of(name):
    return the_pictures().folder / f"{name}.svg"


def blended(colour, ground):
    share = colour[3] / 255
    pairs = zip(colour, ground, strict=False)
    return tuple(round(over * share + under * (1 - share)) for over, under in pairs)


def greys(name, theme, *, outline=False, size=SMALL):
    """How bright a drawing is at each place, on the theme's ground."""
    shown = the_pictures().drawn(name, size, theme.drawn, outline=outline)
    places = ((x, y) for y in range(size) for x in range(size))
    return [luminance(blended(shown.get_at(place), theme.ground)) for place in places]


@pytest.mark.parametrize("name", DRAWN)
def test_a_drawing_has_no_colours_but_those_of_roles(name):
    text = file_of(name).read_text(encoding="utf-8")
    allowed = {"#{:02X}{:02X}{:02X}".format(*getattr(LIGHT.drawn, role)) for role in ROLES}
    painted = re.findall(r'(?:fill|stroke)="([^"]*)"', text)
    assert painted
    assert set(painted) <= allowed | {"none"}


def test_roles_have_colours_of_their_own_in_files():
    """Else one could not become another colour than the other."""
    assert len({getattr(LIGHT.drawn, role) for role in ROLES}) == len(ROLES)


@pytest.mark.parametrize("name", DRAWN)
@pytest.mark.parametrize("size", [18, 24, 96])
def test_a_drawing_is_as_large_as_asked(name, size):
    assert the_pictures().drawn(name, size, LIGHT.drawn).get_size() == (size, size)


@pytest.mark.parametrize("name", [*THINGS, *SCENERY])
def test_a_drawing_stands_on_its_lowest_edge_and_is_not_cut(name):
    shown = the_pictures().drawn(name, LARGE, LIGHT.drawn)
    seen = shown.get_bounding_rect()
    assert 246 <= seen.bottom <= 254
    assert seen.left > 0
    assert seen.top > 0
    assert seen.right < LARGE


@pytest.mark.parametrize("name", THINGS)
def test_things_are_about_as_wide_as_one_another(name):
    assert the_pictures().drawn(name, LARGE, LIGHT.drawn).get_bounding_rect().w >= 0.7 * LARGE


@themes
@pytest.mark.parametrize("outline", [False, True])
def test_small_drawings_are_told_apart_without_any_hue(theme, outline):
    seen = {name: greys(name, theme, outline=outline) for name in DRAWN}
    for one, other in combinations(DRAWN, 2):
        lights = [sorted(pair) for pair in zip(seen[one], seen[other], strict=True)]
        least = 1.5 if outline else GREYS_APART
        apart = [high for low, high in lights if (high + 0.05) / (low + 0.05) >= least]
        assert len(apart) >= PLACES_APART, (one, other, len(apart))


@themes
def test_lines_are_seen_on_all_they_stand_on(theme):
    for line in (theme.drawn.ink, theme.drawn.quiet):
        for under in (theme.ground, theme.card, theme.field):
            assert contrast(line, under) >= SHAPE
    assert contrast(theme.drawn.quiet, theme.drawn.hollow) >= SHAPE


@themes
@pytest.mark.parametrize("name", [*THINGS, *ANIMALS])
def test_lines_of_a_small_drawing_are_not_lost(theme, name):
    """Somewhere as strong as the colour itself, though a line of the file would be half a pixel."""
    for outline, colour in ((False, theme.drawn.ink), (True, theme.drawn.quiet)):
        seen = greys(name, theme, outline=outline, size=18)
        ground, line = luminance(theme.ground), luminance(colour)
        farthest = max(seen, key=lambda grey: abs(grey - ground))
        assert abs(farthest - ground) >= 0.8 * abs(line - ground)


def test_an_outline_is_hollow_and_quiet():
    drawn = LIGHT.drawn
    solid, outline = (the_pictures().drawn("crate", 96, drawn, outline=o) for o in (False, True))
    board = (48, 28)
    assert tuple(solid.get_at(board)[:3]) == drawn.wood
    assert tuple(outline.get_at(board)[:3]) == drawn.hollow


def test_a_drawing_that_is_not_there_is_an_error():
    with pytest.raises(FileNotFoundError):
        the_pictures().drawn("walrus", 64, LIGHT.drawn)
