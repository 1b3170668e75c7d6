"""Text on the screen: one family, sizes relative to the window, wrapped and never cut."""

from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pygame

from frame.view.theme import Colour, type_size

_SMALLEST_SHARE = 0.55
_KEPT = 400
SMALL_PIXELS = 18


class Lettering:
    """Draws text in the bundled family. `watch`, if given, is told every text and its place."""

    def __init__(
        self, fonts: Path, watch: Callable[[str, pygame.Rect], None] | None = None
    ) -> None:
        self.fonts = fonts
        self.watch = watch
        self._font = lru_cache(maxsize=64)(self._load)
        self._picture = lru_cache(maxsize=_KEPT)(self._render)
        self._fitting = lru_cache(maxsize=_KEPT)(self._fit)

    def _load(self, pixels: int, bold: bool) -> pygame.font.Font:
        name = "Andika-Bold.ttf" if bold else "Andika-Regular.ttf"
        return pygame.font.Font(str(self.fonts / name), pixels)

    def _render(self, text: str, pixels: int, bold: bool, colour: Colour) -> pygame.Surface:
        fine = _fineness(pixels)
        picture = self._font(fine * pixels, bold).render(text, True, colour)
        if fine == 1:
            return picture
        size = -(-picture.get_width() // fine), -(-picture.get_height() // fine)
        return pygame.transform.smoothscale(picture, size)

    def width(self, text: str, pixels: int, bold: bool = False) -> int:
        """How wide the text is, in pixels."""
        fine = _fineness(pixels)
        return -(-int(self._font(fine * pixels, bold).size(text)[0]) // fine)

    def height(self, pixels: int) -> int:
        """How high a line of this size is drawn, closer than the family's wide leading."""
        return round(pixels * 1.3)

    def wrapped(self, text: str, pixels: int, width: float, bold: bool = False) -> list[str]:
        """The text in lines no wider than `width`, broken between words."""
        lines: list[str] = []
        for word in text.split(" "):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer, pixels, bold) <= width:
                lines[-1] = longer
            else:
                lines.append(word)
        return lines

    def shortened(self, text: str, pixels: int, width: float, bold: bool = False) -> str:
        """As many words of the text as fit on a line, with dots for the rest."""
        words = text.split(" ")
        if self.width(text, pixels, bold) <= width:
            return text
        while words and self.width(" ".join([*words, "…"]), pixels, bold) > width:
            words.pop()
        return " ".join([*words, "…"])

    def fitted(
        self, text: str, pixels: int, size: tuple[float, float], bold: bool = False
    ) -> tuple[int, list[str]]:
        """The size, `pixels` or smaller, at which the text fits, and its lines there."""
        return self._fitting(text, pixels, (size[0], size[1]), bold)

    def _fit(
        self, text: str, pixels: int, size: tuple[float, float], bold: bool
    ) -> tuple[int, list[str]]:
        for smaller in range(pixels, max(1, round(pixels * _SMALLEST_SHARE)) - 1, -1):
            lines = self.wrapped(text, smaller, size[0], bold)
            widest = max(self.width(line, smaller, bold) for line in lines)
            if widest <= size[0] and self.height(smaller) * len(lines) <= size[1]:
                return smaller, lines
        return smaller, lines

    def draw(
        self, surface: pygame.Surface, text: str, box: pygame.Rect, step: int, colour: Colour,
        *, bold: bool = False, align: str = "left", scale: float = 1.0, window: int | None = None,
    ) -> pygame.Rect:  # fmt: skip
        """Draw the text within a box, wrapped and if need be smaller; the place it took.

        `step` is one of the five sizes; `align` is left, centre or right; the lines stand in
        the middle of the box's height.
        """
        is_seen = surface.get_clip().colliderect(box)
        if not text or not is_seen or not box.w or not box.h:
            return pygame.Rect(box.topleft, (0, 0))
        pixels = type_size(step, window or surface.get_height(), scale)
        pixels, lines = self.fitted(text, pixels, box.size, bold)
        leading = self.height(pixels)
        top = box.centery - leading * len(lines) / 2
        places = []
        for number, line in enumerate(lines):
            middle = round(top + leading * (number + 0.5))
            places.append(self._draw_line(surface, line, box, middle, pixels, bold, colour, align))
        return places[0].unionall(places[1:])

    def _draw_line(
        self, surface: pygame.Surface, line: str, box: pygame.Rect, middle: int, pixels: int,
        bold: bool, colour: Colour, align: str,
    ) -> pygame.Rect:  # fmt: skip
        picture = self._picture(line, pixels, bold, colour)
        place = picture.get_rect()
        place.centery = middle
        if align == "centre":
            place.centerx = box.centerx
        elif align == "right":
            place.right = box.right
        else:
            place.left = box.left
        if place.colliderect(surface.get_clip()):
            surface.blit(picture, place)
        # The family's line is higher than its letters; what counts as taken is the letters.
        taken = place.inflate(0, self.height(pixels) - place.h)
        if self.watch:
            self.watch(line, taken)
        return taken


def _fineness(pixels: int) -> int:
    """How many times larger text is painted before it is shrunk: fitted to the pixels of a small
    size, an i would lose its dot."""
    return 3 if pixels < SMALL_PIXELS else 1
