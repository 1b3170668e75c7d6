"""The flash meter, on sequences whose verdict one works out by hand from WCAG 2.2, SC 2.3.1."""

import numpy as np
import pytest
from flash_meter import (
    LINEAR,
    Field,
    channels_of,
    chromaticity,
    field_from_seat,
    field_of_reference,
    luminance,
    metered,
)

BLACK, WHITE, RED = (0, 0, 0), (255, 255, 255), (255, 0, 0)
SKY, ORANGE, VERMILLION = (0x56, 0xB4, 0xE9), (0xE6, 0x9F, 0x00), (0xD5, 0x5E, 0x00)
FIELD = field_of_reference(768 / 4)
"""Of a picture of 256 x 192: 341 x 256 quartered, and quicker to meter."""
SIZE = (75, 100)
"""Height and width: larger than the field, so that the field has places to move to."""
EVERYWHERE = (0, 0, *SIZE)
"""Top, left, bottom and right."""


def grey(light):
    """The grey whose relative luminance comes nearest."""
    return (int(np.abs(LINEAR - light).argmin()),) * 3


def painted(ground, *spots, size=SIZE):
    picture = np.empty((*size, 3), dtype=np.uint8)
    picture[:] = ground
    for (top, left, bottom, right), colour in spots:
        picture[top:bottom, left:right] = colour
    return picture


def turned(transitions, spots=(EVERYWHERE,), colours=(BLACK, WHITE), ground=BLACK):
    """Pictures in which the spots change colour so many times."""
    return [
        painted(ground, *((spot, colours[number % 2]) for spot in spots))
        for number in range(transitions + 1)
    ]


def even(pictures):
    """Onsets that spread the pictures evenly over one second."""
    return np.linspace(0, 1, len(pictures) + 1)[:-1]


def meter(pictures, onsets=None, field=FIELD, **how):
    return metered(even(pictures) if onsets is None else onsets, pictures, field, **how)


def of_field(share, left=0, top=0):
    """A spot that takes such a share of the field and lies within it."""
    return (top, left, top + round(share * FIELD.height), left + FIELD.width)


def test_the_field():
    assert field_of_reference(768) == (341, 256)
    assert field_of_reference(1080) == (479, 360)
    # 15-inch screen of 1024 x 768, 12 by 9 inches, seen from 22 inches: WCAG's estimate.
    assert field_from_seat(22, 12 / 1024) == pytest.approx((341, 256), rel=0.05)
    width, height = field_from_seat(1.0, 0.0001)
    assert width * height * 0.0001**2 / 4 == pytest.approx(0.006, rel=0.05), "steradians"


@pytest.mark.parametrize(
    ("colour", "light"),
    [(BLACK, 0.0), (WHITE, 1.0), (RED, 0.2126), ((0, 255, 0), 0.7152), (SKY, 0.405),
     (ORANGE, 0.416), ((119, 119, 119), 0.1845)],
)  # fmt: skip
def test_relative_luminance(colour, light):
    assert luminance(channels_of(np.array(colour))) == pytest.approx(light, abs=6e-4)


@pytest.mark.parametrize(
    ("colour", "hue"),
    # CIE 1976 u'v' of the sRGB primaries and of D65, as commonly published.
    [(WHITE, (0.1978, 0.4683)), (RED, (0.4507, 0.5229)), ((0, 255, 0), (0.1250, 0.5625)),
     ((0, 0, 255), (0.1754, 0.1579)), (BLACK, (0.1978, 0.4683))],
)  # fmt: skip
def test_chromaticity(colour, hue):
    assert chromaticity(channels_of(np.array(colour))) == pytest.approx(hue, abs=3e-4)


@pytest.mark.parametrize(
    ("transitions", "too_much"), [(0, False), (1, False), (6, False), (7, True), (8, True)]
)
def test_three_flashes_in_a_second_are_the_most(transitions, too_much):
    found = meter(turned(transitions))
    assert found.too_much is too_much
    assert found.general.flashes == (transitions / 2 if transitions > 1 else 0)
    assert found.red.flashes == 0 and found.red.share == 0


@pytest.mark.parametrize(("share", "too_much"), [(0.20, False), (0.24, False), (0.26, True)])
@pytest.mark.parametrize(("left", "top"), [(0, 0), (15, 40)])
def test_a_quarter_of_the_field_is_the_most(share, too_much, left, top):
    found = meter(turned(8, [of_field(share, left, top)]))
    assert found.too_much is too_much
    assert found.general.share == pytest.approx(share, abs=0.008)
    assert found.general.flashes == (4 if too_much else 0)


@pytest.mark.parametrize(
    ("one", "other", "too_much"),
    [
        (0.20, 0.29, False), (0.20, 0.31, True), (0.0, 0.09, False), (0.0, 0.11, True),
        (0.82, 1.0, False), (0.78, 1.0, True), (0.81, 0.99, False), (0.79, 0.90, True),
    ],
)  # fmt: skip
def test_a_tenth_of_luminance_counts_where_the_darker_is_below_four_fifths(one, other, too_much):
    assert meter(turned(8, colours=(grey(one), grey(other)))).too_much is too_much


def test_colours_of_one_luminance_may_alternate_at_any_size():
    assert not meter(turned(30, colours=(SKY, ORANGE))).too_much
    assert meter(turned(30, colours=(SKY, BLACK))).general.too_much


def equal_green(red):
    """A green as light as that red of so much of the channel."""
    light = float(luminance(channels_of(np.array((red, 0, 0)))))
    return (0, int(np.abs(LINEAR - light / 0.7152).argmin()), 0)


@pytest.mark.parametrize(
    ("colours", "too_much"),
    [
        ((RED, equal_green(255)), True),
        ((RED, grey(0.2126)), True),
        ((VERMILLION, (0, 0x9A, 0x80)), True),
        ((RED, (255, 60, 60)), False),  # as red, but by less than 0.2 of u'v'
        (((255, 110, 90), (0, 170, 220)), False),  # 0.21 apart, and red is 0.795 of the first
    ],
)
def test_saturated_red_counts_without_a_change_of_luminance(colours, too_much):
    found = meter(turned(8, colours=colours))
    assert not found.general.too_much
    assert found.red.too_much is found.too_much is too_much
    assert found.red.flashes == (4 if too_much else 0)
    assert not meter(turned(6, colours=colours)).too_much


def test_red_that_stays_does_not_flash():
    green, red = (painted(equal_green(255)), painted(RED))
    assert meter([green, red] + 8 * [red, painted((250, 0, 0))]).red == (0, 0)
    assert meter([red, green] + 8 * [green, painted((0, 140, 0))]).red == (0, 0)
    assert meter([red] + 8 * [green, painted((0, 0, 255))]).red == (0, 0)


def test_red_flashes_too_are_counted_by_their_area():
    colours = (RED, equal_green(255))
    small, large = (
        meter(turned(8, [of_field(share)], colours, ground=equal_green(255)))
        for share in (0.24, 0.26)
    )
    assert not small.too_much and large.red.too_much


def test_red_is_found_at_the_end_of_a_fade():
    steps = [(255, level, level) for level in range(0, 256, 15)]
    ways = [steps, steps[::-1]]
    shown = [painted(colour, size=(8, 8)) for turn in range(8) for colour in ways[turn % 2]]
    assert meter(shown, field=Field(10, 10)).red.too_much


def lit(*lights):
    return [painted(BLACK, (EVERYWHERE, grey(light))) for light in lights]


@pytest.mark.parametrize("extra", [(0.85, 1.0), (1.0,)])
def test_changes_among_bright_lights_neither_count_nor_hide_others(extra):
    assert meter(lit(*extra, *3 * (0.7, 1.0), 0.85)).general.flashes == 3
    assert meter(lit(*extra, *3 * (0.7, 1.0), 0.7, 0.85)).general.flashes == 4


SINKING = [0.5 - 0.02 * turn - down for turn in range(8) for down in (0, 0.11, 0.135)]


@pytest.mark.parametrize("lights", [SINKING, [0.65 - light for light in SINKING]])
def test_a_change_is_measured_from_the_very_peak_or_valley(lights):
    assert meter(lit(*lights)).general.flashes == 7.5


def test_areas_apart_add_up():
    one, other = (0, 0, 64, 12), (0, 73, 64, 85)
    assert not meter(turned(8, [one])).too_much
    assert meter(turned(8, [one, other])).too_much


def test_areas_add_up_though_they_change_at_other_moments():
    spots = (0, 0, 64, 12), (0, 15, 64, 27)
    shown = [
        painted(BLACK, *((spot, (BLACK, WHITE)[(number + delay) // 2 % 2])
                         for delay, spot in enumerate(spots)))
        for number in range(15)
    ]  # fmt: skip
    found = meter(shown)
    assert found.general.share > 0.25 and found.general.flashes == 0 and found.too_much


def test_areas_further_apart_than_the_field_do_not_add_up():
    spots = [(0, 0, 64, 12), (0, 88, 64, 100)]
    assert not meter(turned(8, spots)).too_much


def test_flashes_add_up_though_they_fall_on_other_pixels_each_time():
    spots = [(0, 0, 64, 22), (0, 25, 64, 47), (0, 50, 64, 72)]
    shown = [painted(BLACK)]
    for number in range(6):
        shown += [painted(BLACK, (spots[number % 3], WHITE)), painted(BLACK)]
    found = meter(shown)
    assert found.general.share == 0 and found.general.flashes == 6 and found.too_much


def test_a_wipe_is_no_flash():
    shown = [painted(BLACK, ((0, 0, 75, 10 * number), WHITE)) for number in range(11)]
    assert meter(shown).general == (0, 0)


def test_a_fade_is_one_transition():
    levels = [*range(0, 256, 15), *range(240, 0, -15)]
    fade = [painted(BLACK, (EVERYWHERE, (level,) * 3)) for level in levels]
    assert meter(fade * 3).general.flashes == 3
    assert meter(fade * 4).too_much


def test_ripples_upon_a_fade_do_not_count():
    lights = np.linspace(0.1, 0.7, 40) + np.tile([0.0, 0.04], 20)
    assert meter(lit(*lights)).general.flashes == 0


def test_the_second_may_begin_anywhere():
    calm, quick = [0.0, 1.2, 2.4], [3.55 + 0.12 * number for number in range(8)]
    assert int(quick[0]) != int(quick[-1]), "the flashes lie across a whole second"
    assert meter(turned(10), calm + quick).general.flashes == 4


def test_a_second_holds_both_its_ends():
    for interval, too_much in (1 / 6, True), (0.167, False):
        assert meter(turned(20), [number * interval for number in range(21)]).too_much is too_much


def test_flashes_slower_than_three_a_second_may_go_on_for_long():
    found = meter(turned(100), [number / 5.9 for number in range(101)])
    assert not found.too_much and found.general.flashes == 3


BARS = [(10, 20, 60, 28), (10, 70, 60, 78), (10, 20, 18, 78), (52, 20, 60, 78)]
"""An upright 0 drawn with bars: 58 by 50 pixels outside, 42 by 34 inside."""


@pytest.mark.parametrize("field", [Field(58, 50), FIELD])
def test_only_the_ink_counts(field):
    found = meter(turned(8, BARS), field=field)
    ink = 58 * 50 - 42 * 34
    assert found.general.share == pytest.approx(ink / (field.width * field.height))


def test_a_container_counts_as_a_whole():
    found = meter(turned(8, BARS), field=Field(100, 58), contained=True)
    assert found.general == (4, 0.5)
    assert meter(turned(6, BARS), field=Field(100, 58), contained=True).general == (3, 0)


def test_a_container_holds_all_that_ever_flash_and_nothing_else():
    corners, still = ((10, 20, 12, 22), (40, 60, 42, 62)), ((0, 0, 5, 5), WHITE)
    shown = [painted(BLACK, still)]
    for number in range(5):
        shown += [painted(BLACK, still, (corners[number % 2], WHITE)), painted(BLACK, still)]
    assert meter(shown, contained=True).general.share == 32 * 42 / (FIELD.width * FIELD.height)
    assert not meter(shown).too_much
    hues = [painted(BLACK, (EVERYWHERE, colour)) for colour in (SKY, ORANGE) * 8]
    assert meter(hues, contained=True).general == (0, 0)


def test_a_container_larger_than_the_field_fills_it():
    assert meter(turned(8, [(0, 0, 1, 1), (70, 90, 75, 100)]), contained=True).general == (4, 1)


def test_the_field_moves_over_the_picture():
    assert meter(turned(8, [(53, 71, 63, 91)]), field=Field(20, 10)).general.share == 1.0


def test_a_part_of_the_window_says_the_same_as_the_whole():
    spot = (20, 15, 50, 80)
    whole = turned(8, [spot])
    assert meter(whole) == meter([picture[15:60, 10:85] for picture in whole])


def test_the_reference_at_its_own_size():
    size, field = (768, 1024), field_of_reference(768)
    for width, too_much in ((147, False), (149, True)):  # a quarter is 21,824 pixels
        spots = [((300, 500, 447, 500 + width), WHITE)]
        shown = [painted(BLACK, *spots[: number % 2], size=size) for number in range(8)]
        assert meter(shown, field=field).too_much is too_much
