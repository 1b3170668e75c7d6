"""The samples of recorded clips, cut from their sprites. The mixer must be open."""

from collections import OrderedDict
from collections.abc import Sequence
from pathlib import Path

import pygame

from frame.language.speech import RATE, Clip

SAMPLE_BYTES = 2
MOST_SPRITES = 8
"""So many sprites stay decoded: half a minute to a minute each, 3 MB at most."""


def silence(seconds: float) -> bytes:
    """Samples of silence."""
    return bytes(SAMPLE_BYTES * round(seconds * RATE))


class ClipStore:
    """Cuts clips from the sprites of one folder; keeps those last used decoded.

    A sprite takes about 20 ms to decode; `load` can do so beforehand, in a thread.
    """

    def __init__(self, folder: Path, most: int = MOST_SPRITES) -> None:
        self._folder = folder
        self._most = most
        self._sprites: OrderedDict[str, bytes] = OrderedDict()

    def load(self, sprite: str) -> bytes:
        """The samples of a sprite: mono, signed 16 bits, RATE a second.

        Raises FileNotFoundError, or pygame.error for what is no sound.
        """
        samples = self._sprites.get(sprite)
        if samples is None:
            samples = pygame.mixer.Sound(str(self._folder / sprite)).get_raw()
        self._sprites[sprite] = samples
        self._sprites.move_to_end(sprite)
        while len(self._sprites) > self._most:
            self._sprites.popitem(last=False)
        return samples

    def cut(self, clip: Clip) -> bytes:
        """The samples of one clip. Raises as `load` does."""
        first = clip.start * SAMPLE_BYTES
        return self.load(clip.sprite)[first : first + clip.length * SAMPLE_BYTES]

    def samples(self, clips: Sequence[Clip], gap: float) -> bytes:
        """The samples of clips one after another, `gap` seconds of silence between them."""
        return silence(gap).join(map(self.cut, clips))
