"""What the last row of a room can read, and how large numbers flash before its first row."""

import gc
import json
import math
from decimal import Decimal
from itertools import cycle, islice

import pygame
import pytest
from each import each_row
from flash_meter import Field, field_from_seat, metered
from flash_stages import Recorder
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.learner.settings import (
    DIAGONALS,
    SEATS,
    ScreenShape,
    Settings,
    settings_from,
    settings_to,
)
from frame.practice.flashing import INTERVAL, FlashSetting, Schedule
from frame.resources import ASSETS
from frame.view import flash_safety as safety
from frame.view.classroom import (
    LEAST_ANGLE,
    PREFERRED_ANGLE,
    SUM_SHARE,
    TEXT_SHARE,
    Classroom,
    Legibility,
    classroom_of,
    legibility,
    reference_distance,
)
from frame.view.flash_pictures import digit_height, prerender
from frame.view.flash_run import READY, play
from frame.view.flash_safety import REFERENCE, Glyphs, Numeral
from frame.view.lettering import Lettering
from frame.view.theme import LIGHT

WINDOW = (800, 480)
THREE = Numeral(3, False, Glyphs(0.79, 0.79))
FASTEST = INTERVAL[0]
FINEST = 120
"""Pixels of the field's width from which on pixels are left out, evenly."""
EASY, JUST, NOT = Legibility.EASY, Legibility.JUST, Legibility.NOT


few = settings(max_examples=40)


@st.composite
def rooms(draw):
    nearest, farthest = sorted(draw(st.tuples(st.floats(1, 15), st.floats(1, 15))))
    return Classroom(draw(st.floats(0.6, 5)), nearest, farthest, draw(st.floats(1.2, 2.4)))


shares = st.floats(0.005, 0.5)
numerals = st.builds(Numeral, st.integers(1, 6), st.booleans(), st.just(THREE.glyphs))
windows = st.sampled_from([(800, 480), (1024, 768), (1280, 720), (1920, 1080), (600, 900)])


# Angles

OLD, LESS_WIDE, WIDE = 4 / 3, 16 / 10, 16 / 9


@pytest.mark.parametrize(
    ("room", "share", "angle", "read"),
    # A minute of arc is pi / 10,800: a size of h from F is h / F * 3437.75 minutes. A picture is
    # 3/5 of its diagonal high at 4:3, 10 / sqrt(356) = 0.5300 at 16:10, 9 / sqrt(337) = 0.4903
    # at 16:9.
    [
        # 5 m * 0.6 = 3 m; 4 % are 0.12 m; 0.12 / 15 = 0.008.
        (Classroom(5.0, 2, 15, OLD), 0.04, 27.50, EASY),
        # 2 m * 0.6 = 1.2 m; 10 % are 0.12 m; 0.12 / 6 = 0.02.
        (Classroom(2.0, 2, 6, OLD), 0.10, 68.75, EASY),
        # 1 m * 0.53 = 0.53 m; 4 % are 0.0212 m; 0.0212 / 5 = 0.00424.
        (Classroom(1.0, 1, 5, LESS_WIDE), 0.04, 14.58, NOT),
        # 2.5 m * 0.4903 = 1.2257 m; 4 % are 0.04903 m; 0.04903 / 7 = 0.007004; 10 % 0.01751.
        (Classroom(2.5, 2, 7, WIDE), 0.04, 24.08, EASY),
        (Classroom(2.5, 2, 7, WIDE), 0.10, 60.19, EASY),
        # 1.2257 m; 0.04903 / 10 = 0.004903.
        (Classroom(2.5, 2, 10, WIDE), 0.04, 16.85, JUST),
        # 100 inches = 2.54 m * 0.4903 = 1.2453 m; 3.9 % are 0.04857 m; 0.04857 / 7.6 = 0.00639.
        (Classroom(2.54, 2, 7.6, WIDE), 0.039, 21.97, JUST),
        # 0.6 m * 0.4903 = 0.2942 m; 10 % are 0.02942 m; 0.02942 / 15 = 0.001961.
        (Classroom(0.6, 1, 15, WIDE), 0.10, 6.74, NOT),
        # From the picture's own height half of it is seen: 2 * atan(1/4) = 28.072 degrees.
        (Classroom(5.0, 3, 3, OLD), 0.50, 1684.35, EASY),
    ],
)
def test_what_the_farthest_seat_sees(room, share, angle, read):
    assert room.angle(share) == pytest.approx(angle, abs=0.006)
    assert room.legibility(share) is read


@pytest.mark.parametrize(
    ("heights", "angle", "share"),
    # h / H = F / H * angle / 3437.75: six heights away 22 minutes are 6 * 0.0063995 = 3.84 %,
    # 16 minutes 6 * 0.0046542 = 2.79 %; four away 2.56 and 1.86 %; twenty away 12.80 %.
    [(6, 22, 0.0384), (6, 16, 0.0279), (4, 22, 0.0256), (4, 16, 0.0186), (20, 22, 0.1280)],
)
def test_the_smallest_share_that_is_read(heights, angle, share):
    room = Classroom(5.0, 1, 3.0 * heights, OLD)  # 3 m high
    assert room.share(angle) == pytest.approx(share, abs=5e-5)


@pytest.mark.parametrize(
    ("angle", "read"),
    # ISO 9241-3: 20 to 22 minutes are preferred, 16 the least.
    [(60, EASY), (22, EASY), (21.99, JUST), (16, JUST), (15.99, NOT), (0, NOT)],
)
def test_how_well_an_angle_is_read(angle, read):
    assert legibility(angle) is read


def test_text_and_sum_where_the_last_row_sits_six_heights_away():
    room = Classroom(5.0, 6, 18, OLD)  # 3 m high
    assert (room.legibility(TEXT_SHARE), room.legibility(SUM_SHARE)) == (JUST, EASY)
    assert room.legibility(TEXT_SHARE / 2) is NOT


@pytest.mark.parametrize("height", [480, 720, 1080, 2160])
def test_the_shares_are_those_of_capitals_and_digits_as_they_are_drawn(height):
    pygame.font.init()
    lettering = Lettering(ASSETS / "fonts")
    for text, step, share in (("H", 2, TEXT_SHARE), ("8", 4, SUM_SHARE)):
        surface = pygame.Surface((height, height), pygame.SRCALPHA)
        lettering.draw(surface, text, surface.get_rect(), step, (0, 0, 0), window=height)
        drawn = surface.get_bounding_rect(min_alpha=128).h / height
        assert share - 1 / height <= drawn <= share * 1.1 + 1 / height


@few
@given(rooms(), shares, st.floats(1.01, 3))
def test_farther_is_smaller_and_larger_is_larger(room, share, times):
    angle = room.angle(share)
    farther = Classroom(room.diagonal, room.nearest, times * room.farthest, room.aspect)
    larger = Classroom(times * room.diagonal, room.nearest, room.farthest, room.aspect)
    wider = Classroom(room.diagonal, room.nearest, room.farthest, times * room.aspect)
    assert max(farther.angle(share), wider.angle(share)) < angle
    assert min(larger.angle(share), room.angle(times * share)) > angle
    assert farther.share() > room.share() > larger.share()


@few
@given(rooms(), st.floats(1, 120))
def test_the_share_of_an_angle_is_seen_at_it(room, angle):
    assert room.angle(room.share(angle)) == pytest.approx(angle)
    assert room.share(LEAST_ANGLE) < room.share(PREFERRED_ANGLE)


@pytest.mark.parametrize(
    "wrong",
    [(0, 1, 2), (-1, 1, 2), (2, 0, 2), (2, 3, 2.9), (2, 1, math.inf), (math.nan, 1, 2),
     (2, 1, 2, 0), (2, math.nan, 2)],
)  # fmt: skip
def test_an_impossible_room_is_refused(wrong):
    with pytest.raises(ValueError, match=r"measures of a room|nearest seat"):
        Classroom(*wrong)


# Flashed numbers


def quick(viewing, numeral=THREE, window=WINDOW):
    return digit_height(numeral, FASTEST, window, viewing)


def test_the_geometry_is_that_of_the_nearest_seat():
    assert Classroom(5.0, 6, 15, OLD).viewing.distance == pytest.approx(2.0)  # 6 m before 3 m


def test_the_reference_is_two_and_a_half_heights_away():
    # sqrt(21,824 / 0.0057106) = 1954.9 px from 768 px.
    assert reference_distance((1024, 768)) == pytest.approx(2.5454, abs=1e-4)


@pytest.mark.parametrize(
    ("room", "heights"),
    # 3 m high. Nearer than the reference's 2.545 heights the nearest seat decides; else the
    # reference, where the last row reads its 12 %, which it does up to 0.12 / 0.0064 = 19 heights.
    [
        (Classroom(5.0, 3, 9, OLD), 1.0),
        (Classroom(5.0, 7.5, 9, OLD), 2.5),
        (Classroom(5.0, 9, 9, OLD), None),
        (Classroom(5.0, 9, 55, OLD), None),
        # The nearest seat 3 heights away, and the last row, 30 away, would need 19 %.
        (Classroom(5.0, 9, 90, OLD), 3.0),
    ],
)
def test_whose_eyes_decide(room, heights):
    distance = room.flash_viewing(THREE, WINDOW).distance
    assert distance == (heights and pytest.approx(heights))


def test_no_larger_than_the_last_row_needs_to_read_with_ease():
    # 22 minutes from 25 heights are 16 %: 76.8 of 480 pixels, and at most two more.
    room = Classroom(5.0, 30, 75, OLD)
    assert quick(REFERENCE) < 77 <= quick(room.flash_viewing(THREE, WINDOW)) <= 78
    assert quick(room.viewing) > 100


@few
@given(rooms(), numerals, windows)
def test_the_nearest_seat_comes_first(room, numeral, window):
    height = quick(room.flash_viewing(numeral, window), numeral, window)
    assert height <= quick(room.viewing, numeral, window)
    usual = quick(REFERENCE, numeral, window)
    if height > usual:
        assert room.legibility(usual / window[1]) is not EASY
        assert height <= math.ceil(room.share(PREFERRED_ANGLE) * window[1]) + 1


@few
@given(rooms(), numerals, windows, st.floats(1.01, 3))
def test_a_nearer_first_row_never_makes_numbers_larger(room, numeral, window, times):
    nearer = Classroom(room.diagonal, room.nearest / times, room.farthest, room.aspect)
    one, other = (quick(each.flash_viewing(numeral, window), numeral, window)
                  for each in (nearer, room))  # fmt: skip
    assert one <= other


@few
@given(rooms(), numerals, windows, st.floats(1.01, 3))
def test_a_farther_last_row_never_makes_numbers_smaller(room, numeral, window, times):
    farther = Classroom(room.diagonal, room.nearest, times * room.farthest, room.aspect)
    one, other = (quick(each.flash_viewing(numeral, window), numeral, window)
                  for each in (farther, room))  # fmt: skip
    assert one >= other


@pytest.fixture(scope="module")
def lettering():
    pygame.display.init()
    pygame.font.init()
    gc.freeze()  # each run collects first, and need not look through all that tests have loaded
    yield Lettering(ASSETS / "fonts")
    gc.unfreeze()


def flashing_before(room, setting, lettering, nearer=1):
    """What the meter finds in the run of a column whose numbers change as many pixels as can be,
    where the nearest eye, or one so many times nearer, has its ten degrees."""
    sign = -1 if setting.minus else 1
    numbers = cycle([Decimal("8" * setting.digits), sign * Decimal("1" * setting.digits)])
    column = tuple(islice(numbers, setting.count))
    numeral = Numeral(setting.digits, setting.minus, THREE.glyphs)
    viewing = room.flash_viewing(numeral, WINDOW)
    pictures = prerender(column, setting, WINDOW, viewing, lettering, LIGHT)
    seen = field_from_seat(room.nearest / nearer, room.height / WINDOW[1])
    step = max(1, seen.width // FINEST)
    film = Recorder(step, None, None, math.inf)
    play(film, pictures, Schedule.of(setting), "plain", ready=READY)
    field = Field(seen.width // step, seen.height // step)
    return metered(film.onsets, film.pictures, field, contained=True)


METERED = {
    "near": Classroom(2.5, 1.0, 7.0),
    "usual": Classroom(2.5, 2.5, 7.0),
    "beyond the reference": Classroom(0.6, 1.0, 15.0),
    "largest": Classroom(5.0, 1.0, 15.0, OLD),
    "far": Classroom(0.6, 15.0, 15.0),
}


QUICK = FlashSetting(3, 20, FASTEST)


@pytest.mark.parametrize("name", METERED)
@pytest.mark.parametrize(
    "setting", [QUICK, FlashSetting(6, 20, FASTEST, True), FlashSetting(3, 9, safety.CALM_CHANGE)]
)
def test_no_classroom_flashes_too_much(name, setting, lettering):
    found = flashing_before(METERED[name], setting, lettering)
    assert not found.too_much, found


@pytest.mark.parametrize("name", ["near", "usual", "beyond the reference", "largest"])
def test_from_half_the_distance_it_would_be_too_much(name, lettering):
    assert flashing_before(METERED[name], QUICK, lettering, nearer=2).too_much


# Settings


def test_there_is_no_classroom_until_somebody_sets_one():
    assert classroom_of(Settings()) is None
    assert classroom_of(Settings(classroom=True)) == Classroom(2.5, 2.5, 7.0, 16 / 9)


@pytest.mark.parametrize(
    ("shape", "high"), [("16:9", 2.4513), ("16:10", 2.65), ("4:3", 3.0)]
)  # 5 m * 0.4903, * 0.53, * 0.6
def test_the_height_follows_the_shape(shape, high):
    chosen = Settings(classroom=True, screen_diagonal=5.0, screen_shape=ScreenShape(shape))
    assert classroom_of(chosen).height == pytest.approx(high, abs=1e-4)


def test_every_step_makes_a_room_and_is_kept_through_text():
    for diagonal in DIAGONALS:
        for nearest, farthest in zip(SEATS, SEATS[1:] + SEATS[-1:], strict=True):
            for shape in ScreenShape:
                one = Settings(
                    classroom=True, screen_diagonal=diagonal, screen_shape=shape,
                    nearest_seat=nearest, farthest_seat=farthest,
                )  # fmt: skip
                assert settings_from(json.loads(json.dumps(settings_to(one)))) == one
                assert classroom_of(one).nearest == nearest


@each_row(
    ("name", "value"),
    [
        ("classroom", 1), ("classroom", "yes"), ("classroom", None),
        ("screen_diagonal", 0.0), ("screen_diagonal", 2.51), ("screen_diagonal", -2.5),
        ("screen_diagonal", 3), ("screen_diagonal", "2.5"), ("screen_diagonal", math.nan),
        ("screen_diagonal", math.inf), ("screen_shape", "1:1"), ("screen_shape", 1.78),
        ("nearest_seat", 0.0), ("nearest_seat", 1.2), ("nearest_seat", True),
        ("farthest_seat", 100.0), ("farthest_seat", []),
    ],
)  # fmt: skip
def test_odd_measures_take_their_default(name, value):
    assert settings_from({name: value}) == Settings()
    others = settings_to(Settings(left_handed=True))
    assert settings_from({**others, name: value}) == Settings(left_handed=True)


def test_seats_that_contradict_one_another_take_both_defaults():
    found = settings_from({"nearest_seat": 9.0, "farthest_seat": 2.0, "classroom": True})
    assert found == Settings(classroom=True)
    assert settings_from({"nearest_seat": 9.0}) == Settings()
    same = settings_from({"nearest_seat": 3.0, "farthest_seat": 3.0})
    assert (same.nearest_seat, same.farthest_seat) == (3.0, 3.0)
