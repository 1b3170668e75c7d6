"""Text on the screen: one family, sizes relative to the window, wrapped; cut where nothing else
helps, as with a long name.

Names, which anybody may choose, are written by another font of the system where the family lacks
their letters.
"""

import re
from collections.abc import Callable
from contextlib import suppress
from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

import pygame

from frame.language.signs import signs_of
from frame.view.reading_order import Sign, in_order
from frame.view.system_fonts import SystemFonts, has_all
from frame.view.theme import Colour, type_size

_SMALLEST_SHARE = 0.55
_SMALLEST_CUT = 0.7
"""A text that has to be cut is not made smaller than this."""
_KEPT = 400
_WIDTHS_OF_A_TEXT = 10
"""Laying out asks for many more widths than there are texts to be seen."""
SMALL_PIXELS = 18
_BOX_WIDTH = 0.6
"""What stands for a sign that no font has, in shares of the type's size."""
_DOTS = "…"
_SPACES, _WITH_HYPHENS = re.compile("( )"), re.compile(r"( |(?<=\w-)(?=\w))")


class Piece(NamedTuple):
    """A part of a line that one font draws: the path of another than the family, None where there
    is none; and the script it must know of."""

    text: str
    font: Path | str | None
    script: str = ""


class Lettering:
    """Draws text in the bundled family. `watch`, if given, is told every text and its place. What
    the family lacks is a box, unless there are `others` to look in. Of the texts asked for last,
    `most` at the most, it keeps how they fit."""

    def __init__(
        self,
        fonts: Path,
        watch: Callable[[str, pygame.Rect], None] | None = None,
        most: int = _KEPT,
    ) -> None:
        self.fonts = fonts
        self._family = fonts / "Andika-Regular.ttf", fonts / "Andika-Bold.ttf"
        self.watch = watch
        self.others: SystemFonts | None = None
        self._lacks = False
        self._font = lru_cache(maxsize=64)(self._load)
        self._picture = lru_cache(maxsize=_KEPT)(self._render)
        self._fitting = lru_cache(maxsize=most)(self._fit)
        self._cut = lru_cache(maxsize=most)(self._cut_up)
        self._width = lru_cache(maxsize=_WIDTHS_OF_A_TEXT * most)(self._measure)

    def use(self, others: SystemFonts) -> bool:
        """Look for letters in these fonts, too; whether some that were drawn were lacking."""
        self.others, lacked, self._lacks = others, self._lacks, False
        for kept in (self._picture, self._fitting, self._cut, self._width):
            kept.cache_clear()
        return lacked

    def _load(self, path: Path | str, pixels: int, script: str) -> pygame.font.Font:
        font = pygame.font.Font(str(path), pixels)
        if script:
            with suppress(pygame.error):  # Then its letters stand side by side.
                font.set_script(script)
        return font

    def _cut_up(self, line: str, bold: bool) -> tuple[Piece, ...]:
        """The pieces of a line, from its left."""
        family = self._family[bold]
        if line.isascii() or all(has_all(str(family), char) for char in line):
            return (Piece(line, family),)
        pieces = (Piece(one.text, self._found(one, bold), one.script) for one in in_order(line))
        return tuple(
            Piece("".join(piece.text for piece in group), *facts)
            for facts, group in groupby(pieces, lambda piece: piece[1:])
        )

    def _found(self, sign: Sign, bold: bool) -> Path | str | None:
        """The font that has a sign: the family where it has all of the word, else one that has."""
        family = self._family[bold]
        if has_all(str(family), sign.word):
            return family
        self._lacks = self._lacks or self.others is None
        found = self.others.find(sign.text, sign.word) if self.others else None
        is_whole = found is not None and has_all(found, sign.word)
        return family if has_all(str(family), sign.text) and not is_whole else found

    def _render(self, text: str, pixels: int, bold: bool, colour: Colour) -> pygame.Surface:
        fine = _fineness(pixels)
        picture = self._line(text, fine * pixels, bold, colour)
        if fine == 1:
            return picture
        size = -(-picture.get_width() // fine), -(-picture.get_height() // fine)
        return pygame.transform.smoothscale(picture, size)

    def _line(self, text: str, pixels: int, bold: bool, colour: Colour) -> pygame.Surface:
        """A line with all its pieces on one base line."""
        pieces, usual = self._cut(text, bold), self._font(self._family[bold], pixels, "")
        if [piece.font for piece in pieces] == [self._family[bold]]:
            return usual.render(text, True, colour)
        size = self._width(text, pixels, bold), usual.get_height()
        line, left = pygame.Surface(size, pygame.SRCALPHA), 0
        for piece in pieces:
            picture, ascent = self._drawn(piece, pixels, colour)
            top = min(usual.get_ascent() - ascent, size[1] - picture.get_height())
            line.blit(picture, (left, max(0, top)))
            left += self._width_of(piece, pixels)
        return line

    def _drawn(self, piece: Piece, pixels: int, colour: Colour) -> tuple[pygame.Surface, int]:
        """A piece, and how much of it is above its base line."""
        size = self._width_of(piece, pixels), self._high(piece, pixels)
        if piece.font is None:
            return _boxes(len(signs_of(piece.text)), size, pixels, colour), size[1]
        font = self._font(piece.font, pixels, piece.script)
        picture = font.render(piece.text, True, colour)
        ascent = round(font.get_ascent() * size[1] / max(1, font.get_height()))
        if picture.get_size() != size:
            picture = pygame.transform.smoothscale(picture, size)
        return picture, ascent

    def _high(self, piece: Piece, pixels: int) -> int:
        """How high a piece is drawn: other families no higher than a line."""
        if piece.font is None:
            return round(0.75 * pixels)
        high = self._font(piece.font, pixels, piece.script).get_height()
        return high if piece.font in self._family else min(high, self.height(pixels))

    def _width_of(self, piece: Piece, pixels: int) -> int:
        if piece.font is None:
            return len(signs_of(piece.text)) * max(4, round(_BOX_WIDTH * pixels))
        wide, high = self._font(piece.font, pixels, piece.script).size(piece.text)
        shrunk = self._high(piece, pixels) / max(1, high)
        return round(wide * min(1.0, shrunk))

    def _measure(self, text: str, pixels: int, bold: bool) -> int:
        return sum(self._width_of(piece, pixels) for piece in self._cut(text, bold))

    def width(self, text: str, pixels: int, bold: bool = False) -> int:
        """How wide the text is, in pixels."""
        fine = _fineness(pixels)
        return -(-self._width(text, fine * pixels, bold) // fine)

    def height(self, pixels: int) -> int:
        """How high a line of this size is drawn, closer than the family's wide leading."""
        return round(pixels * 1.3)

    def wrapped(
        self, text: str, pixels: int, width: float, bold: bool = False, *, hyphens: bool = False
    ) -> list[str]:
        """The text in lines no wider than `width`, broken between words, and behind `hyphens`."""
        if self.width(text, pixels, bold) <= width:
            return [text]
        first, *others = (_WITH_HYPHENS if hyphens else _SPACES).split(text)
        lines = [first]
        for gap, word in zip(others[::2], others[1::2], strict=True):
            longer = f"{lines[-1]}{gap}{word}"
            if self.width(longer, pixels, bold) <= width:
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
        self, text: str, pixels: int, size: tuple[float, float], bold: bool = False,
        cut: bool = False,
    ) -> tuple[int, list[str]]:  # fmt: skip
        """The size, `pixels` or smaller, at which the text fits, and its lines there; where it may
        well be `cut`, not so small. Dots stand for what does not fit."""
        return self._fitting(text, pixels, (size[0], size[1]), bold, cut)

    def _fit(
        self, text: str, pixels: int, size: tuple[float, float], bold: bool, cut: bool
    ) -> tuple[int, list[str]]:
        least = max(1, round(pixels * _SMALLEST_SHARE))
        for smaller in range(pixels, least - 1, -1):
            if not self._may_fit(text, smaller, size, bold):
                continue
            lines = self.wrapped(text, smaller, size[0], bold, hyphens=cut)
            widest = max(self.width(line, smaller, bold) for line in lines)
            if widest <= size[0] and self.height(smaller) * len(lines) <= size[1]:
                return smaller, lines
        if cut:
            smaller = max(smaller, round(pixels * _SMALLEST_CUT))
        lines = self.wrapped(text, smaller, size[0], bold, hyphens=cut)
        return smaller, self._cut_short(lines, smaller, size, bold)

    def _may_fit(self, text: str, pixels: int, size: tuple[float, float], bold: bool) -> bool:
        """Whether a text may fit, told by its length alone: it need not be broken where not."""
        most = int(size[1] // self.height(pixels))
        # At the end of each line but the last a space is dropped, narrower than a line is high.
        return self.width(text, pixels, bold) <= most * size[0] + max(0, most - 1) * pixels

    def _cut_short(
        self, lines: list[str], pixels: int, size: tuple[float, float], bold: bool
    ) -> list[str]:
        """As much of these lines as fits, broken within words, with dots for the rest."""
        most = max(1, int(size[1] // self.height(pixels)))
        broken = [part for line in lines for part in self._broken(line, pixels, size[0], bold)]
        if len(broken) <= most:
            return broken
        last = signs_of(broken[most - 1])
        while last and self.width("".join((*last, _DOTS)), pixels, bold) > size[0]:
            last = last[:-1]
        return [*broken[: most - 1], f"{''.join(last).rstrip()}{_DOTS}"]

    def _broken(self, word: str, pixels: int, width: float, bold: bool) -> list[str]:
        """A word in parts that are no wider than this, or have one sign."""
        parts: list[str] = []
        for sign in signs_of(word):
            if parts and self.width(parts[-1] + sign, pixels, bold) <= width:
                parts[-1] += sign
            else:
                parts.append(sign)
        return parts

    def draw(
        self, surface: pygame.Surface, text: str, box: pygame.Rect, step: int, colour: Colour,
        *, bold: bool = False, align: str = "left", scale: float = 1.0, window: int | None = None,
        cut: bool = False,
    ) -> pygame.Rect:  # fmt: skip
        """Draw the text within a box, wrapped and if need be smaller; the place it took.

        `step` is one of the five sizes; `align` is left, centre or right; the lines stand in
        the middle of the box's height. What may well be `cut` is not made so small for it.
        """
        is_seen = surface.get_clip().colliderect(box)
        if not text or not is_seen or not box.w or not box.h:
            return pygame.Rect(box.topleft, (0, 0))
        pixels = type_size(step, window or surface.get_height(), scale)
        pixels, lines = self.fitted(text, pixels, box.size, bold, cut)
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


def _boxes(count: int, size: tuple[int, int], pixels: int, colour: Colour) -> pygame.Surface:
    """An empty box for each sign that no font has."""
    picture, wide, thick = pygame.Surface(size, pygame.SRCALPHA), size[0] // count, pixels // 16
    for at in range(count):
        box = pygame.Rect(at * wide, 0, wide, size[1]).inflate(-wide // 4, 0)
        pygame.draw.rect(picture, colour, box, max(1, thick))
    return picture
