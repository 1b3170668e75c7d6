"""The sounds: beads that meet, and a soft chime. Silent where there is no audio device."""

from pathlib import Path
from typing import Protocol

import pygame

VOLUMES = {"off": 0.0, "quiet": 0.25, "normal": 0.6}
"""Shares of the full level. The usual one is quiet; a head set is never driven hard."""


class Sounds(Protocol):
    """What can be heard."""

    def play(self, name: str) -> None:
        """Play `click`, `settle` or `right`."""

    def set_volume(self, volume: str) -> None:
        """Set `off`, `quiet` or `normal`."""


class Silence:
    """The silent twin, for a computer without an audio device."""

    def play(self, name: str) -> None:
        """Play nothing."""

    def set_volume(self, volume: str) -> None:
        """Nothing to set."""


class Voice:
    """The sounds on the audio device."""

    def __init__(self, folder: Path) -> None:
        """Open the device and load the sounds. Raises pygame.error without a device."""
        pygame.mixer.init(44100, -16, 1, 256)
        self._sounds = {
            path.stem: pygame.mixer.Sound(str(path)) for path in sorted(folder.glob("*.wav"))
        }

    def play(self, name: str) -> None:
        """Play a sound."""
        self._sounds[name].play()

    def set_volume(self, volume: str) -> None:
        """Set how loud every sound is."""
        for sound in self._sounds.values():
            sound.set_volume(VOLUMES[volume])


def open_sounds(folder: Path) -> Sounds:
    """The sounds, or the silent twin where there is no audio device."""
    try:
        return Voice(folder)
    except pygame.error:
        return Silence()
