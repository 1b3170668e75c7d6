"""Fonts that have the letters which the bundled family lacks: those of the system.

Nothing is looked for before the first such letter, and then only once for each.
"""

import warnings
from collections.abc import Iterator
from contextlib import suppress
from functools import cached_property, lru_cache
from typing import Any

import pygame

from frame.language.signs import is_unseen

_PREFERRED = (
    "notosans", "notocoloremoji", "applecoloremoji", "segoeuiemoji", "nirmalaui", "segoeui",
    "arialunicodems", "hiraginosansgb", "yugothic", "meiryo", "microsoftyahei", "malgungothic",
    "applesdgothicneo", "pingfang", "dejavusans", "freesans", "droidsansfallback",
)  # fmt: skip
"""What names such fonts have begin so, the more legible ones first; then comes any other. From
memory of what systems bring along."""
_PROBED = 64
"""Pixels at which a font is asked what it has."""


class SystemFonts:
    """The fonts there are on this computer, by the letters they have."""

    def __init__(self) -> None:
        self._found = lru_cache(maxsize=1000)(self._find)

    def find(self, sign: str, word: str) -> str | None:
        """The path of a font that has all of a word, else of a sign in it, else the sign's first
        character; None where there is none."""
        return self._found(word) or self._found(sign) or self._found(sign[0])

    def all_having(self, text: str) -> Iterator[str]:
        """The paths of all fonts that have all of a text, those preferred first."""
        return (path for path in self._paths if has_all(path, text))

    def _find(self, text: str) -> str | None:
        return next(self.all_having(text), None)

    @cached_property
    def _paths(self) -> tuple[str, ...]:
        """The files of all fonts, those preferred first."""
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # That no fonts can be listed is no trouble.
            names = pygame.font.get_fonts()
            ranked = sorted(names, key=lambda name: (_rank(name), len(name), name))
            return tuple(filter(None, map(pygame.font.match_font, ranked)))


def _rank(name: str) -> int:
    """Where a font stands; last those whose letters are all of one width."""
    ranks = (at for at, start in enumerate(_PREFERRED) if name.startswith(start))
    return len(_PREFERRED) + 1 if "mono" in name else next(ranks, len(_PREFERRED))


def has_all(path: str, text: str) -> bool:
    """Whether a font has every character of a text that is seen."""
    return all(is_unseen(char) or _has(path, char) for char in text)


@lru_cache(maxsize=4000)
def _has(path: str, char: str) -> bool:
    """Whether a font has a character. A font that can't be opened has none."""
    with suppress(pygame.error, OSError, RuntimeError, ValueError):
        font = _opened(path)
        size = _PROBED if font.scalable else font.get_sizes()[0][3]
        return font.get_metrics(char, size)[0] is not None
    return False


@lru_cache(maxsize=8)
def _opened(path: str) -> Any:
    """A font to be asked which letters it has, which those that draw them can't be."""
    # Most windows never need it.
    import pygame.freetype

    pygame.freetype.init()
    return pygame.freetype.Font(path, _PROBED, ucs4=True)
