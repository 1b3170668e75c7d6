"""Sizes and rates of flashed numbers, against WCAG 2.2 SC 2.3.1 and its own numbers."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.flashing import LEVELS
from frame.view.flash_safety import (
    REFERENCE,
    SAFE_RATE,
    Glyphs,
    Numeral,
    Ruling,
    Viewing,
    blank_seconds,
    flash_verdict,
    is_flash,
    is_saturated_red,
    largest_height,
    least_distance,
    legal_area,
    needs_caution,
    safe_height,
)
from frame.view.theme import THEMES, luminance

INK, SKY, ORANGE = (0x1C, 0x22, 0x30), (0x56, 0xB4, 0xE9), (0xE6, 0x9F, 0x00)
VERMILION = (0xD5, 0x5E, 0x00)
ANDIKA = Glyphs(0.79, 0.79)
THREE = Numeral(3, False, ANDIKA)
REFERENCE_WINDOW = (1024, 768)
COUNT, AREA, REFUSE = Ruling.BY_COUNT, Ruling.BY_AREA, Ruling.REFUSE

numerals = st.builds(
    Numeral,
    st.integers(1, 6),
    st.booleans(),
    st.builds(Glyphs, st.floats(0.6, 1.0), st.floats(0.5, 1.0)),
)
windows = st.tuples(st.integers(320, 3840), st.integers(240, 2160))
viewings = st.one_of(st.just(REFERENCE), st.builds(Viewing, st.floats(0.5, 20)))


def verdict(interval, height, numeral=THREE, **others):
    given_ = {"inks": (SKY, ORANGE), "ground": INK, "window": REFERENCE_WINDOW, **others}
    return flash_verdict(interval, numeral, height, **given_)


@pytest.mark.parametrize(
    ("interval", "blank", "height", "outcome"),
    [
        # Three flashes a second are six changes, at any size: 1/6 s without a blank and 1/3 s
        # with one, and a little, for a second holds both its ends.
        (0.167, False, 600, COUNT),
        (0.166, False, 600, REFUSE),
        (1 / 6, False, 600, REFUSE),
        (0.334, True, 600, COUNT),
        (0.333, True, 600, REFUSE),
        (5.0, True, 600, COUNT),
        # 3 digits of 0.79 and the shift of 0.12 are 2.49 H wide: 93 x 232 px = 21,576 px are
        # less than 21,824; 94 x 235 px = 22,090 px are more.
        (0.133, False, 93, AREA),
        (0.133, False, 94, REFUSE),
        (0.133, True, 93, AREA),
        (0.08, False, 93, AREA),
    ],
)
def test_three_flashes_or_a_quarter_of_the_field(interval, blank, height, outcome):
    assert verdict(interval, height, blank=blank).outcome is outcome


def test_a_refusal_names_what_would_be_allowed():
    told = verdict(0.133, 300)
    assert not told.is_allowed
    assert told.largest_height == 93
    assert verdict(0.133, told.largest_height).is_allowed
    assert told.fastest_rate == pytest.approx(1 / 0.167)
    assert verdict(told.shortest_interval, 300).is_allowed
    assert verdict(0.133, 300, blank=True).shortest_interval == 0.334


def test_the_sign_counts_with_the_digits():
    assert verdict(0.133, 93, Numeral(3, True, ANDIKA)).outcome is REFUSE
    assert verdict(0.133, 81, Numeral(3, True, ANDIKA)).outcome is AREA


@pytest.mark.parametrize(
    ("window", "area"),
    # G176: 341 x 256 px at 1024 x 768, a quarter of them 21,824; in proportion elsewhere, by the
    # side that is the shorter one in proportion.
    [((1024, 768), 21_824), ((2048, 1536), 87_296), ((1920, 1080), 43_157), ((1080, 1920), 24_276)],
)
def test_the_reference_area(window, area):
    assert legal_area(window) == pytest.approx(area, abs=1)


@pytest.mark.parametrize(
    # Ten degrees by seven and a half seen from distance D are 0.1745 D by 0.1309 D. With digits
    # 0.84 H wide (DejaVu Sans) the box of n digits, without a shift, is n * 0.84 * H^2.
    ("digits", "share_of_distance"),
    [(2, 0.0583), (3, 0.0476), (4, 0.0412), (6, 0.0337)],
)
def test_height_by_the_distance(digits, share_of_distance):
    distance = 1_000_000
    viewing = Viewing.of(screen_height=distance, distance=distance)
    numeral = Numeral(digits, False, Glyphs(0.84 - 0.12 / digits, 0.84))
    height = largest_height(numeral, (2_000_000, distance), viewing)
    assert height / distance == pytest.approx(share_of_distance, abs=5e-5)


@pytest.mark.parametrize(
    ("screen_height", "distance", "share"),
    # Worked out from the same: a 24 inch screen and a 27 inch one (16:9) from 24 inches; a
    # projection 100 inches across its corners from 6 and from 10 feet.
    [(11.77, 24, 0.097), (13.24, 24, 0.086), (49.0, 72, 0.070), (49.0, 120, 0.117)],
)
def test_height_in_rooms(screen_height, distance, share):
    numeral = Numeral(3, False, Glyphs(0.80, 0.84))
    height = largest_height(numeral, (19_200, 10_800), Viewing.of(screen_height, distance))
    assert height / 10_800 == pytest.approx(share, abs=6e-4)


@given(numerals, windows, viewings)
def test_the_largest_height_is_allowed_and_one_more_is_not(numeral, window, viewing):
    height = largest_height(numeral, window, viewing)
    area = legal_area(window, viewing)
    width, high = numeral.box(height)
    assert width * high <= area
    width, high = numeral.box(height + 1)
    assert width * high > area


@given(st.floats(0.08, 5), numerals, windows, viewings, st.integers(1, 2000))
def test_a_clamped_height_is_always_allowed(interval, numeral, window, viewing, wanted):
    height = safe_height(wanted, interval, numeral, window, viewing)
    assert height <= wanted
    told = flash_verdict(
        interval, numeral, height, window, inks=(SKY, ORANGE), ground=INK,
        blank=blank_seconds(interval) > 0, viewing=viewing,
    )  # fmt: skip
    assert told.is_allowed


@pytest.mark.parametrize("interval", [0.17, 0.19, 0.199, 0.2, 0.21, 0.25, 0.38, 0.4, 0.42, 0.6])
def test_at_any_size_a_late_change_makes_no_seventh_in_a_second(interval):
    if safe_height(10_000, interval, THREE, REFERENCE_WINDOW) < 10_000:
        assert interval < 0.21
        return
    blank = blank_seconds(interval)
    gaps = [interval - blank, blank] if blank else [interval]
    times = [0.0]
    while len(times) < 12:
        times.append(times[-1] + gaps[(len(times) - 1) % len(gaps)])
    for late in range(5):
        came = list(times)
        came[late] += 0.999 * (times[late + 1] - times[late])
        assert all(came[at + 6] - came[at] > 1 for at in range(6))


@pytest.mark.parametrize(
    # Changes of a tenth of the range of luminance, the darker below 0.80 (WCAG 2.2). Grey 89 has
    # luminance 0.0999, grey 90 0.1022; white falls by 0.1 below grey 243 (0.8963), where grey
    # 231 has 0.7991, grey 232 0.8069.
    ("one", "other", "flashes"),
    [
        ((0, 0, 0), (89, 89, 89), False),
        ((0, 0, 0), (90, 90, 90), True),
        ((231, 231, 231), (255, 255, 255), True),
        ((232, 232, 232), (255, 255, 255), False),
        (SKY, ORANGE, False),
        (INK, SKY, True),
        (INK, ORANGE, True),
    ],
)
def test_what_is_a_flash(one, other, flashes):
    assert is_flash(one, other) is is_flash(other, one) is flashes


def test_what_does_not_flash_may_have_any_size_and_rate():
    assert verdict(0.08, 700, inks=((89, 89, 89),), ground=(0, 0, 0)).outcome is COUNT


@pytest.mark.parametrize(
    ("colour", "is_red"),
    # R / (R + G + B) of 0.80 or more; of vermilion's numbers it is 0.69, of its light 0.86.
    [(VERMILION, True), ((255, 0, 0), True), (ORANGE, False), (SKY, False), ((0, 0, 0), False)],
)
def test_saturated_red(colour, is_red):
    assert is_saturated_red(colour) is is_red
    if is_red:
        told = verdict(5.0, 10, inks=(SKY, colour))
        assert (told.outcome, told.largest_height, told.shortest_interval) == (REFUSE, 0, math.inf)


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_the_two_hues_of_every_theme(theme):
    one, other = theme.flash_one, theme.flash_other
    assert one != other
    assert abs(luminance(one) - luminance(other)) < 0.02
    assert not any(map(is_saturated_red, (one, other, theme.flash_ground)))
    assert luminance(theme.flash_ground) < 0.05


@given(st.floats(0.08, 5))
def test_caution_begins_above_three_a_second(interval):
    assert needs_caution(interval) is (interval < 0.3333333)
    assert not needs_caution(1 / SAFE_RATE)


def test_the_ladder_says_which_levels_need_caution():
    assert [level.number for level in LEVELS if needs_caution(level.setting.interval)] == [
        *range(18, len(LEVELS) + 1)
    ]


def test_a_blank_only_where_it_passes_by_count():
    assert blank_seconds(0.3) == 0
    assert blank_seconds(1.0) > 0.1
    assert blank_seconds(5.0) < 1


@given(numerals, windows)
def test_the_least_distance_is_the_one_that_allows_the_box(numeral, window):
    height = max(4, window[1] // 8)
    distance = least_distance(numeral.box(height), window)
    assert largest_height(numeral, window, Viewing(distance * 1.0001)) >= height
    assert largest_height(numeral, window, Viewing(distance * 0.999)) < height


@pytest.mark.parametrize("wrong", [(0, 1), (1, 0), (-1, 1), (math.nan, 1)])
def test_a_viewing_of_nothing_is_refused(wrong):
    with pytest.raises(ValueError, match="above 0"):
        Viewing.of(*wrong)
