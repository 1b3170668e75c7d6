"""Themes: contrast by the WCAG 2.2 formula, and colours told apart without seeing all hues."""

from itertools import combinations

import pytest
from contrast import PAIRS, SHAPE, contrast, role
from each import each_row

from frame.view.theme import LIGHT, THEMES, type_size, unit

WHITE = (255, 255, 255)
themes = pytest.mark.parametrize("name", THEMES)

# Machado, Oliveira & Fernandes 2009, severity 1.0, on linear RGB; the numbers from memory.
CANNOT_SEE = {
    "no loss": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def linear(channel):
    c = channel / 255
    return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4


def seen_lab(colour, matrix):
    """CIE L*a*b* (D65) of an sRGB colour as an eye with that loss sees it."""
    rgb = [linear(channel) for channel in colour]
    seen = [min(max(sum(m * c for m, c in zip(row, rgb, strict=True)), 0), 1) for row in matrix]
    to_xyz = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
    x, y, z = (
        (sum(m * c for m, c in zip(row, seen, strict=True)) / white)
        for row, white in zip(to_xyz, (0.9505, 1.0, 1.089), strict=True)
    )
    fx, fy, fz = (t ** (1 / 3) if t > 0.008856 else 7.787 * t + 16 / 116 for t in (x, y, z))
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def difference(one, other, matrix):
    pair = zip(seen_lab(one, matrix), seen_lab(other, matrix), strict=True)
    return sum((a - b) ** 2 for a, b in pair) ** 0.5


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    # Worked out from the formula of WCAG 2.2, "contrast ratio" and "relative luminance".
    [
        ((0, 0, 0), WHITE, 21.0),
        ((0x77, 0x77, 0x77), WHITE, 4.4781),
        ((0x76, 0x76, 0x76), WHITE, 4.5422),
        ((0x59, 0x59, 0x59), WHITE, 7.0047),
        ((0x94, 0x94, 0x94), WHITE, 3.0335),
        ((255, 0, 0), WHITE, 3.9985),
        ((0, 0, 255), WHITE, 8.5925),
        ((255, 255, 0), (0, 0, 0), 19.5560),
        (WHITE, WHITE, 1.0),
    ],
)
def test_contrast(one, other, ratio):
    assert contrast(one, other) == pytest.approx(ratio, abs=5e-5)
    assert contrast(other, one) == contrast(one, other)


@themes
@each_row("pair", PAIRS)
def test_every_pair_in_use_holds_its_contrast(name, pair):
    theme = THEMES[name]
    ratio = contrast(role(theme, pair.foreground), role(theme, pair.background))
    assert ratio >= pair.minimum, f"{ratio:.2f}"


@themes
@pytest.mark.parametrize("loss", CANNOT_SEE)
def test_signs_and_beads_are_told_apart_by_every_eye(name, loss):
    theme, matrix = THEMES[name], CANNOT_SEE[loss]
    for facet in ("face", "upper", "lower"):
        used, rest = (role(theme, f"bead_{kind}.{facet}") for kind in ("used", "rest"))
        assert difference(used, rest, matrix) >= 20, facet
    for one, other in combinations((theme.hint, theme.right, theme.mending), 2):
        assert difference(one, other, matrix) >= 15, (one, other)


@themes
def test_the_outline_of_an_animal_is_seen_before_every_flag(name):
    for flag in THEMES[name].flags:
        assert all(contrast(colour, LIGHT.ink) >= SHAPE for colour in flag)


@themes
def test_without_the_tint_beads_look_as_at_rest(name):
    theme = THEMES[name]
    assert theme.bead(used=True, tint=False) == theme.bead(used=False)
    assert theme.bead(used=True) != theme.bead(used=False)


@pytest.mark.parametrize(
    ("height", "sizes"), [(1080, [24, 32, 49, 81, 130]), (480, [11, 14, 22, 36, 58])]
)
def test_type_sizes_follow_the_window(height, sizes):
    assert [type_size(step, height) for step in range(5)] == sizes
    assert type_size(0, height, 2.0) == pytest.approx(2 * sizes[0], abs=1)


def test_a_unit_is_a_ninetieth_of_the_height():
    assert unit(720) == 8
