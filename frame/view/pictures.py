"""The drawn pictures: the harbour, animals before their flags, and signs, crisp at any size."""

import io
import re
from functools import lru_cache
from pathlib import Path

import pygame

from frame.learner.looks import Portrait, portrait_of
from frame.view.theme import LIGHT, Colour, Drawn, FlagColours, Flags

_UNKNOWN = "newcomer"
_INK = "#1C2230"
_ANIMAL_SHARE = 0.84
"""Of the side of its flag."""
_STRIPES, _CHECKS = 7, 6
"""As many across a flag."""
_ARM = 0.2
"""How wide a cross's arms are, in shares of the flag."""
_SIZE = re.compile(r'width="\d+" height="\d+"')
_COLOUR = re.compile(r"#[0-9A-F]{6}")
_SIDE, _LINE = 256, 6
"""Of a drawing, and how wide its lines are, in its own units."""
_LEAST_LINE = 1.25
"""So many pixels wide is a line of a small drawing."""
LINE = _LINE / _SIDE
"""How wide a drawing's lines are, in shares of its side."""
ROLES = Drawn._fields[:-2]
"""What a drawing's file has colours of: those of the light theme."""


class Pictures:
    """Loads SVG pictures from a folder and keeps them by size."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.get = lru_cache(maxsize=80)(self._load)
        self.drawn = lru_cache(maxsize=160)(self._drawn)
        self.portrait = lru_cache(maxsize=160)(self._portrait)

    def _load(self, name: str, size: int, ink: Colour | None = None) -> pygame.Surface:
        """The picture, `size` pixels square; a sign is drawn in `ink`."""
        text = self._text(name)
        return _rendered(text if ink is None else text.replace(_INK, _code(ink)), size)

    def _drawn(self, name: str, size: int, colours: Drawn, outline: bool = False) -> pygame.Surface:
        """One of `frame.drawn.DRAWN`, `size` pixels square, standing on its lowest edge. An
        `outline` has quiet lines and nothing within. Lines are never too thin to be seen."""
        line = max(_LINE, _LEAST_LINE * _SIDE / size)
        text = self._text(name).replace(f'stroke-width="{_LINE}"', f'stroke-width="{line:g}"')
        painted = _painted(colours, outline=outline)
        return _rendered(_COLOUR.sub(lambda found: painted[found[0]], text), size)

    def _text(self, name: str) -> str:
        return (self.folder / f"{name}.svg").read_text(encoding="utf-8")

    def _portrait(self, picture: str, size: int, flags: Flags) -> pygame.Surface:
        """A learner's picture, `size` pixels square: the animal before its flag. One that is not
        there, as one of a later version, is that of a newcomer."""
        shown = portrait_of(picture) or Portrait(_UNKNOWN)
        surface = _flag(shown.flag, size, getattr(flags, shown.flag))
        high = round(_ANIMAL_SHARE * size)
        animal = self.get(shown.animal, high)
        surface.blit(animal, animal.get_rect(midbottom=(size // 2, size)))
        return surface


def _rendered(text: str, size: int) -> pygame.Surface:
    """The picture that an SVG's text is, `size` pixels square."""
    return svg(_SIZE.sub(f'width="{size}" height="{size}"', text, count=1))


def svg(text: str) -> pygame.Surface:
    """The picture that an SVG's text is."""
    return pygame.image.load(io.BytesIO(text.encode()), "picture.svg")


def _painted(colours: Drawn, *, outline: bool) -> dict[str, str]:
    """The colour that each colour of a drawing's file becomes."""
    if outline:
        hollow = dict.fromkeys(ROLES, colours.hollow) | {"ink": colours.quiet}
        colours = colours._replace(**hollow)
    return {_code(getattr(LIGHT.drawn, role)): _code(getattr(colours, role)) for role in ROLES}


def _code(colour: Colour) -> str:
    return "#{:02X}{:02X}{:02X}".format(*colour)


def _flag(flag: str, size: int, colours: FlagColours) -> pygame.Surface:
    """A flag, square."""
    surface = pygame.Surface((size, size), pygame.SRCALPHA)
    surface.fill(colours.ground)
    for left, top, width, height in _figure(flag):
        right, bottom = round((left + width) * size), round((top + height) * size)
        place = pygame.Rect(round(left * size), round(top * size), 0, 0)
        place.size = right - place.left, bottom - place.top
        surface.fill(colours.figure, place)
    return surface


def _figure(flag: str) -> list[tuple[float, float, float, float]]:
    """What is on a flag: left, top, width and height of its parts, in shares of its side."""
    if flag == "halves":
        return [(0.5, 0, 0.5, 1)]
    if flag == "stripes":
        return [(0, at / _STRIPES, 1, 1 / _STRIPES) for at in range(0, _STRIPES, 2)]
    if flag == "cross":
        return [(0.5 - _ARM / 2, 0, _ARM, 1), (0, 0.5 - _ARM / 2, 1, _ARM)]
    if flag == "checks":
        one = 1 / _CHECKS
        places = ((row, column) for row in range(_CHECKS) for column in range(_CHECKS))
        return [(c * one, r * one, one, one) for r, c in places if (r + c) % 2]
    return []
