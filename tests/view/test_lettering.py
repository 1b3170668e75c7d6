"""Names of any letters and any length are drawn, inside their place, whatever fonts there are."""

import pygame
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.language.signs import signs_of
from frame.learner.nickname import nickname_of
from frame.resources import ASSETS
from frame.view.lettering import Lettering
from frame.view.system_fonts import SystemFonts, has_all

INK = (0, 0, 0)
NAMES = (
    "Anna", "Дмитрий", "Ελένη", "שרה לוי", "محمد", "प्रिया", "さくら", "민준", "🦦 Ola",
    "W" * 24, "国" * 24, "\U0010fffd",
)  # fmt: skip


@pytest.fixture(scope="module", params=["family alone", "with the system's"])
def lettering(request):
    pygame.font.init()
    lettering = Lettering(ASSETS / "fonts")
    if request.param != "family alone":
        lettering.use(SystemFonts())
    return lettering


def drawn(lettering, text, size=(200, 60), **how):
    surface = pygame.Surface(size, pygame.SRCALPHA)
    lettering.draw(surface, text, surface.get_rect(), 0, INK, window=900, **how)
    return surface


@pytest.mark.parametrize("name", NAMES)
def test_a_name_leaves_ink(lettering, name):
    assert drawn(lettering, name, cut=True).get_bounding_rect().w > 0


@pytest.mark.parametrize("bold", [True, False])
@pytest.mark.parametrize("name", NAMES)
def test_a_line_takes_the_width_that_is_told(lettering, name, bold):
    for window in (500, 1000, 2500):
        surface = pygame.Surface((4000, 200), pygame.SRCALPHA)
        box = surface.get_rect()
        place = lettering.draw(surface, name, box, 0, INK, bold=bold, window=window)
        pixels, _ = lettering.fitted(name, round(0.022 * window), box.size, bold)
        assert abs(place.w - lettering.width(name, pixels, bold)) <= 1


@settings(max_examples=150)
@given(text=st.text(max_size=40), width=st.integers(1, 200))
def test_whatever_is_typed_is_drawn_and_cut(lettering, text, width):
    name = nickname_of(text, "Otter")
    drawn(lettering, name, (width, 40), cut=True)
    _, lines = lettering.fitted(name, 20, (width, 40), cut=True)
    whole = "".join(lines).replace(" ", "")
    assert whole == name.replace(" ", "") or lines[-1].endswith("…")


@given(
    name=st.text(st.sampled_from("Wm国 éशि"), min_size=1, max_size=24), width=st.integers(60, 300)
)
def test_a_name_that_is_cut_fits(lettering, name, width):
    name = nickname_of(name, "Otter")
    pixels, lines = lettering.fitted(name, 16, (width, 50), cut=True)
    assert all(lettering.width(line, pixels) <= width for line in lines)
    assert lettering.height(pixels) * len(lines) <= 50
    if lines[-1].endswith("…"):
        kept = "".join(lines).rstrip("…").replace(" ", "")
        assert name.replace(" ", "").startswith(kept)
        assert signs_of(name.replace(" ", ""))[: len(signs_of(kept))] == signs_of(kept)


def test_what_no_font_has_is_a_box_for_each_sign():
    pygame.font.init()
    lettering = Lettering(ASSETS / "fonts")
    one, two = (drawn(lettering, "国" * count).get_bounding_rect().w for count in (1, 2))
    assert one < two < 3 * one


def test_the_fonts_of_the_system_are_asked_for_only_where_a_letter_is_missing(monkeypatch):
    asked = []
    monkeypatch.setattr("pygame.font.get_fonts", lambda: asked.append(1) or [])
    lettering = Lettering(ASSETS / "fonts")
    assert lettering.use(SystemFonts()) is False
    for text in ("Ann", "Zoë Дмитрий", "12 − 3 × 4 ÷ 2 …", "Łukasz’s"):
        drawn(lettering, text)
    assert not asked
    drawn(lettering, "国")
    drawn(lettering, "国国")
    assert asked == [1]


def test_letters_that_were_lacking_when_the_fonts_came_are_told():
    lettering = Lettering(ASSETS / "fonts")
    drawn(lettering, "国")
    assert lettering.use(SystemFonts()) is True
    assert lettering.use(SystemFonts()) is False


def test_the_system_has_only_what_it_has():
    fonts = SystemFonts()
    for sign in "אعक日😀한":
        path = fonts.find(sign, sign)
        assert path is None or has_all(path, sign)


@pytest.mark.parametrize("path", ["no/such/font.ttf", str(ASSETS / "fonts" / "OFL.txt")])
def test_what_is_no_font_has_no_letters(path):
    assert not has_all(path, "a")


@pytest.mark.parametrize(
    ("name", "lines"),
    [("Maximilian-Alexander", ["Maximilian-", "Alexander"]), ("Anna - Bo", ["Anna - Bo"]),
     ("Anne-Marie Maximilian", ["Anne-Marie", "Maximilian"])],
)  # fmt: skip
def test_a_name_breaks_behind_its_hyphen_rather_than_within_a_word(lettering, name, lines):
    wide = max(lettering.width(line, 16) for line in lines) + 2
    assert lettering.fitted(name, 16, (wide, 60), cut=True) == (16, lines)


def test_a_word_is_made_smaller_before_it_is_broken(lettering):
    wide = lettering.width("Josephine", 16)
    pixels, lines = lettering.fitted("Josephine", 24, (wide, 80), cut=True)
    assert (pixels >= 15, lines) == (True, ["Josephine"])
