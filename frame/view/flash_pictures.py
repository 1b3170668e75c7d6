"""A column of numbers as pictures, ready before the first is shown."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from pathlib import Path

import pygame

from frame.practice.flashing import FlashSetting
from frame.view.flash_safety import (
    REFERENCE,
    SHIFT,
    FlashRefused,
    Glyphs,
    Numeral,
    Viewing,
    WindowSize,
    blank_seconds,
    flash_verdict,
    safe_height,
)
from frame.view.lettering import Lettering
from frame.view.theme import LIGHT, Theme

HEIGHT_SHARE = 0.24
"""The digits' height as a share of the window's, where nothing bids it be smaller."""

WIDTH_SHARE = 0.9
"""The most of the window's width that a number takes."""

MARK_SHARE = 0.12
"""The mark's height as a share of the digits'."""

MINUS = "−"
_DIGITS = "0123456789"
_MEASURED_AT = 400


@dataclass(frozen=True, slots=True)
class FlashPictures:
    """One picture for each number, all as large as `rect`, their place in the window.

    `blank` is the empty place, `ready` bears the mark that the eye rests on before the first
    number. `height` is the digits' height in pixels, as `flash_safety` allows it.
    """

    rect: pygame.Rect
    surfaces: tuple[pygame.Surface, ...]
    blank: pygame.Surface
    ready: pygame.Surface
    height: int


class DigitFont:
    """The font whose digits are `height` pixels high or a little less, and where they stand."""

    def __init__(self, lettering: Lettering, height: int) -> None:
        fonts = lettering.fonts
        size = round(height * _MEASURED_AT / _ink(fonts, _MEASURED_AT).h) + 2
        while size > 1 and _ink(fonts, size).h > height:
            size -= 1
        self.font = _font(fonts, size)
        self.top = _ink(fonts, size).top

    def paint(self, text: str, picture: pygame.Surface, shift: int, theme: Theme, hue: int) -> None:
        """Paint a number into a picture, its last digit `shift` pixels from the right."""
        colour = (theme.flash_one, theme.flash_other)[hue % 2]
        written = self.font.render(text, True, colour)
        picture.blit(written, (picture.get_width() - shift - written.get_width(), -self.top))


@lru_cache(maxsize=1)
def glyphs(lettering: Lettering) -> Glyphs:
    """The widths of digits and minus. Measuring takes some 20 ms, and a page of settings asks at
    each touch."""
    font = _font(lettering.fonts, _MEASURED_AT)
    height = _ink(lettering.fonts, _MEASURED_AT).h
    widest = max(font.size(digit)[0] for digit in _DIGITS)
    return Glyphs(widest / height, font.size(MINUS)[0] / height)


def prerender(
    column: Sequence[Decimal], setting: FlashSetting, window_size: WindowSize, viewing: Viewing,
    lettering: Lettering, theme: Theme = LIGHT, interval: float | None = None,
) -> FlashPictures:  # fmt: skip
    """The pictures of a column, as large as is wanted and allowed.

    Hues take turns, and a number equal to the one before it shifts aside. `interval` is the true
    one, where it differs from the setting's. Raises ValueError where no height is allowed, or a
    number is longer than the setting says.
    """
    if any(abs(number) >= 10**setting.digits for number in column):
        raise ValueError(f"a number has more than {setting.digits} digits")
    numeral = Numeral(setting.digits, setting.minus, glyphs(lettering))
    pace = interval or setting.interval
    height = digit_height(numeral, pace, window_size, viewing)
    verdict = flash_verdict(
        pace, numeral, max(1, height), window_size, inks=(theme.flash_one, theme.flash_other),
        ground=theme.flash_ground, blank=blank_seconds(pace) > 0, viewing=viewing,
    )  # fmt: skip
    if height < 1 or not verdict.is_allowed:
        raise FlashRefused(verdict)
    rect = pygame.Rect((0, 0), numeral.box(height))
    rect.center = window_size[0] // 2, window_size[1] // 2
    font, shift = DigitFont(lettering, height), round(SHIFT * height)
    blank = pygame.Surface(rect.size)
    blank.fill(theme.flash_ground)
    surfaces = []
    for hue, (number, is_aside) in enumerate(zip(column, _asides(column), strict=True)):
        surfaces.append(blank.copy())
        font.paint(_text(number), surfaces[-1], 0 if is_aside else shift, theme, hue)
    return FlashPictures(rect, tuple(surfaces), blank, _ready(blank, theme), height)


def digit_height(
    numeral: Numeral, interval: float, window: WindowSize, viewing: Viewing = REFERENCE
) -> int:
    """The digits' height in pixels: as wanted, as fits the window, as is allowed."""
    width = numeral.box(1000)[0] / 1000
    wanted = int(min(HEIGHT_SHARE * window[1], WIDTH_SHARE * window[0] / width))
    return safe_height(wanted, interval, numeral, window, viewing)


def _asides(column: Sequence[Decimal]) -> list[bool]:
    """For each number, whether it stands aside: equal neighbours never stand alike."""
    asides: list[bool] = []
    for at, number in enumerate(column):
        asides.append(at > 0 and column[at - 1] == number and not asides[-1])
    return asides


def _text(number: Decimal) -> str:
    return f"{MINUS if number < 0 else ''}{abs(number)}"


def _ready(blank: pygame.Surface, theme: Theme) -> pygame.Surface:
    side = max(5, round(MARK_SHARE * blank.get_height()))
    fine = pygame.Surface((8 * side, 8 * side))
    fine.fill(theme.flash_ground)
    pygame.draw.circle(fine, theme.flash_one, (4 * side, 4 * side), 4 * side)
    mark = pygame.transform.smoothscale(fine, (side, side))
    picture = blank.copy()
    picture.blit(mark, mark.get_rect(center=picture.get_rect().center))
    return picture


def _font(fonts: Path, pixels: int) -> pygame.font.Font:
    return pygame.font.Font(str(fonts / "Andika-Regular.ttf"), pixels)


@lru_cache(maxsize=64)
def _ink(fonts: Path, pixels: int) -> pygame.Rect:
    """Where the digits' ink lies in a line of a size. Large ones are long to measure."""
    written = _font(fonts, pixels).render(_DIGITS, True, (255, 255, 255))
    return written.get_bounding_rect()
