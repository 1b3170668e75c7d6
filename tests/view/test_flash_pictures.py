"""The pictures of flashed numbers: one size, nothing cut, equal neighbours told apart."""

from decimal import Decimal
from itertools import pairwise
from random import Random

import pygame
import pytest
from proofs import some_daily

from frame.practice.flashing import FlashSetting
from frame.resources import ASSETS
from frame.view.flash_pictures import DigitFont, glyphs, prerender
from frame.view.flash_safety import REFERENCE, FlashRefused, Numeral, Viewing, legal_area
from frame.view.lettering import Lettering
from frame.view.theme import THEMES

WINDOWS = ((800, 480), (1024, 768), (1920, 1080), (1080, 1920), (3840, 2160))


@pytest.fixture(scope="module")
def lettering():
    pygame.font.init()
    return Lettering(ASSETS / "fonts")


def prerendered(lettering, numbers, setting, window=(1024, 768), **others):
    column = tuple(map(Decimal, numbers))
    return prerender(column, setting, window, others.pop("viewing", REFERENCE), lettering, **others)


def ink_of(picture, pictures):
    """The rectangle of all that differs from the blank."""
    mask = pygame.mask.from_threshold(picture, pictures.blank.get_at((0, 0)), (1, 1, 1))
    mask.invert()
    rects = mask.get_bounding_rects()
    return rects[0].unionall(rects[1:])


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("minus", [False, True])
@pytest.mark.parametrize("digits", some_daily([1, 3, 6], [1, 6]))
def test_quick_numbers_fill_their_box_and_are_not_cut(lettering, window, digits, minus):
    setting = FlashSetting(digits, 4, 0.1, minus)
    widest = [int("8" * digits), int("4" * digits), int("4" * digits), int("5" * digits)]
    numbers = [-number for number in widest] if minus else widest
    pictures = prerendered(lettering, numbers, setting, window)
    area = pygame.Rect((0, 0), window)
    assert area.contains(pictures.rect)
    assert abs(pictures.rect.centerx - area.centerx) <= 1
    assert pictures.rect.w * pictures.rect.h <= legal_area(window)
    height, width = pictures.rect.h, pictures.rect.w
    for picture, number in zip(pictures.surfaces, numbers, strict=True):
        assert picture.get_size() == pictures.rect.size
        ink = ink_of(picture, pictures)
        assert height - max(3, height / 25) <= ink.h <= height
        assert width - 0.5 * height <= ink.w < width
        # The same ink as on paper without an edge, but for what is too faint to see.
        text = f"−{-number}" if number < 0 else str(number)
        written = DigitFont(lettering, height).font.render(text, True, (255, 255, 255))
        assert ink.size == pytest.approx(written.get_bounding_rect().size, abs=1)


@pytest.mark.parametrize("number", ["1", "7", "-7", "444", "-444", "888888"])
@pytest.mark.parametrize("interval", [0.1, 2.0])
def test_equal_neighbours_are_visibly_two(lettering, number, interval):
    digits = len(number.lstrip("-"))
    setting = FlashSetting(digits, 5, interval, minus=number.startswith("-"))
    pictures = prerendered(lettering, [number] * 5, setting)
    colours, places = [], []
    for picture in pictures.surfaces:
        ink = ink_of(picture, pictures)
        places.append(ink)
        colours.append(pygame.transform.average_color(picture, ink)[:3])
    for one, other in pairwise(colours):
        assert sum(abs(a - b) for a, b in zip(one, other, strict=True)) > 60
    for one, other in pairwise(places):
        assert abs(one.x - other.x) >= max(2, pictures.height // 10)
        assert one.size == other.size and one.y == other.y


def test_unlike_neighbours_do_not_shift_but_take_turns_in_hue(lettering):
    pictures = prerendered(lettering, [88, 80, 86, 88], FlashSetting(2, 4, 1.0))
    places = [ink_of(picture, pictures) for picture in pictures.surfaces]
    assert len({place.right for place in places}) <= 2
    assert max(place.x for place in places) - min(place.x for place in places) <= 1
    first, second, third, _ = pictures.surfaces
    colours = [pygame.transform.average_color(picture)[:3] for picture in (first, second, third)]
    assert abs(colours[0][2] - colours[2][2]) < abs(colours[0][2] - colours[1][2])


def test_slow_numbers_are_larger_than_quick_ones(lettering):
    quick = prerendered(lettering, [123, 456], FlashSetting(3, 2, 0.13))
    slow = prerendered(lettering, [123, 456], FlashSetting(3, 2, 1.0))
    assert slow.height > 1.5 * quick.height
    near = prerendered(lettering, [123, 456], FlashSetting(3, 2, 0.13), viewing=Viewing(1.0))
    assert near.height < quick.height


def test_the_true_interval_decides(lettering):
    setting = FlashSetting(3, 2, 0.25)
    crowded = prerendered(lettering, [123, 456], setting, interval=0.15)
    assert crowded.height < prerendered(lettering, [123, 456], setting).height


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_blank_and_mark(lettering, theme):
    pictures = prerendered(lettering, [1, 2], FlashSetting(1, 2, 1.0), theme=theme)
    assert pygame.transform.average_color(pictures.blank)[:3] == theme.flash_ground
    mark = ink_of(pictures.ready, pictures)
    assert mark.center == pytest.approx(pictures.blank.get_rect().center, abs=2)
    assert mark.h < pictures.height / 4


def test_nothing_is_shown_where_nothing_is_allowed(lettering):
    with pytest.raises(FlashRefused) as refused:
        prerendered(lettering, [1, 2], FlashSetting(1, 2, 0.1), viewing=Viewing(0.001))
    assert refused.value.verdict.largest_height == 0
    assert 0 < refused.value.verdict.fastest_rate < 10


def test_a_number_that_would_be_cut_is_refused(lettering):
    with pytest.raises(ValueError, match="digits"):
        prerendered(lettering, [12, 345], FlashSetting(2, 2, 1.0))


def test_measured_glyphs_hold_every_number(lettering):
    shape = glyphs(lettering)
    for size in (20, 57, 131, 400):
        font = DigitFont(lettering, size).font
        for digits in range(1, 7):
            setting = FlashSetting(digits, 30, 1.0, minus=True)
            width = Numeral(digits, True, shape).box(size)[0]
            for number in setting.column(Random(size)):
                assert font.size(f"{number}".replace("-", "−"))[0] <= width
