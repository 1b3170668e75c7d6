"""Fonts of the system for letters that the printed family lacks, such as names may have."""

from frame.view.system_fonts import SystemFonts, has_all

_ENDINGS = (".ttf", ".otf")
_FORBIDDEN = 0x0002
"""The bit by which a font says that it may not be put into a file (OpenType, OS/2, fsType)."""


class OtherFonts:
    """The files of fonts by letters; each letter is looked for once."""

    def __init__(self) -> None:
        self._system = SystemFonts()
        self._found: dict[str, str | None] = {}

    def find(self, letter: str) -> str | None:
        """The path of a font that has a letter and can be put into a file, if there is one: at
        first of those that were found before, so that they stay few."""
        if letter not in self._found:
            before = dict.fromkeys(filter(None, self._found.values()))
            some = (path for path in self._system.all_having(letter) if _can_be_put_in(path))
            had = (path for path in before if has_all(path, letter))
            self._found[letter] = next(had, None) or next(some, None)
        return self._found[letter]


def _can_be_put_in(path: str) -> bool:
    """Whether a file holds one font of outlines that may be passed on."""
    from fontTools.ttLib import TTFont, TTLibError  # type: ignore[import-untyped]

    if not path.lower().endswith(_ENDINGS):
        return False
    try:
        with TTFont(path, lazy=True) as font:
            has_outlines = "glyf" in font or "CFF " in font
            return has_outlines and not font["OS/2"].fsType & _FORBIDDEN
    except (OSError, KeyError, TTLibError):
        return False
