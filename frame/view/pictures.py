"""The drawn pictures: animals and signs, crisp at any size."""

import io
import re
from functools import lru_cache
from pathlib import Path

import pygame

from frame.view.theme import Colour

_UNKNOWN = "newcomer"
_INK = "#1C2230"
_SIZE = re.compile(r'width="\d+" height="\d+"')


class Pictures:
    """Loads SVG pictures from a folder and keeps them by size."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._names = {one.stem for one in folder.glob("*.svg")}
        self.get = lru_cache(maxsize=80)(self._load)

    def _load(self, name: str, size: int, ink: Colour | None = None) -> pygame.Surface:
        """The picture, `size` pixels square; a sign is drawn in `ink`. A portrait that is not
        there, as one of a later version, is that of a newcomer."""
        if ink is None and name not in self._names:
            name = _UNKNOWN
        text = (self.folder / f"{name}.svg").read_text(encoding="utf-8")
        text = _SIZE.sub(f'width="{size}" height="{size}"', text, count=1)
        if ink is not None:
            text = text.replace(_INK, "#{:02X}{:02X}{:02X}".format(*ink))
        return pygame.image.load(io.BytesIO(text.encode()), f"{name}.svg")
