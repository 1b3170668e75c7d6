"""What is heard: beads that meet, a soft chime, the speaking voice, and called numbers.

Silent where there is no audio device. The mixer runs at the clips' own 24 kHz, so that cutting and
joining them needs no conversion; the beads' clicks lose nothing that is missed. A text with a word
that no clip has is spoken by the optional engine, or not at all.
"""

from pathlib import Path
from typing import Protocol

import pygame

from frame.language.speech import PIECE_GAP, RATE, SENTENCE_GAP, Clips
from frame.view.clips import SAMPLE_BYTES, ClipStore, silence
from frame.view.live import open_live

VOLUMES = {"off": 0.0, "quiet": 0.25, "normal": 0.6}
"""Shares of the full level. The usual one is quiet; a head set is never driven hard."""

_SPEECH, _CALL = 0, 1
_CHANNELS = 10


class Sounds(Protocol):
    """What can be heard."""

    def play(self, name: str) -> None:
        """Play `click`, `settle` or `right`."""

    def set_volume(self, volume: str) -> None:
        """Set `off`, `quiet` or `normal`."""

    def say(self, text: str) -> float:
        """Speak a text instead of what is being said: how long it is in seconds, about so where
        the live engine speaks it; 0.0 when nothing is spoken."""

    def hush(self) -> None:
        """Stop speaking."""

    def play_call(self, samples: bytes) -> float:
        """Play called numbers from their start, and say nothing else: their length in seconds;
        0.0 when nothing is heard."""

    def pause_call(self) -> None:
        """Hold the call."""

    def resume_call(self) -> None:
        """Go on with the call where it was held."""

    def stop_call(self) -> None:
        """End the call."""


class Silence:
    """The silent twin, for a computer without an audio device."""

    def play(self, name: str) -> None:
        """Play nothing."""

    def set_volume(self, volume: str) -> None:
        """Nothing to set."""

    def say(self, text: str) -> float:
        """Speak nothing: 0.0."""
        return 0.0

    def hush(self) -> None:
        """Nothing to stop."""

    def play_call(self, samples: bytes) -> float:
        """Play nothing: 0.0."""
        return 0.0

    def pause_call(self) -> None:
        """Nothing to hold."""

    def resume_call(self) -> None:
        """Nothing to go on with."""

    def stop_call(self) -> None:
        """Nothing to end."""


class Voice:
    """The sounds on the audio device. Speech and calls have a channel each."""

    def __init__(self, folder: Path, clips_folder: Path) -> None:
        """Open the device and load the sounds. Raises pygame.error without a device."""
        pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
        pygame.mixer.set_num_channels(_CHANNELS)
        pygame.mixer.set_reserved(_CALL + 1)
        self.clips = Clips(clips_folder)
        self.store = ClipStore(clips_folder)
        self._live = open_live()
        self._turn = 0
        self._sounds = {
            path.stem: pygame.mixer.Sound(str(path)) for path in sorted(folder.glob("*.wav"))
        }
        self._long: dict[int, pygame.mixer.Sound] = {}
        self.set_volume("quiet")

    def play(self, name: str) -> None:
        """Play a sound."""
        self._sounds[name].play()

    def set_volume(self, volume: str) -> None:
        """Set how loud every sound is, and what is being said."""
        self._level = VOLUMES[volume]
        for sound in (*self._sounds.values(), *self._long.values()):
            sound.set_volume(self._level)

    def say(self, text: str) -> float:
        """Speak a text instead of what is being said; see `Sounds`."""
        self.hush()
        if not self._level:
            return 0.0
        if not self.clips.missing(text):
            return self._play_long(_SPEECH, self._spoken(text))
        if self._live is None:
            return 0.0
        turn = self._turn
        return self._live.speak(text, lambda samples: self._say_late(samples, turn))

    def hush(self) -> None:
        """Stop speaking, and what is still to be spoken."""
        self._turn += 1
        pygame.mixer.Channel(_SPEECH).stop()

    def play_call(self, samples: bytes) -> float:
        """Play called numbers, and say nothing else; see `Sounds`."""
        self.hush()
        self.stop_call()
        return self._play_long(_CALL, samples) if self._level else 0.0

    def pause_call(self) -> None:
        """Hold the call."""
        pygame.mixer.Channel(_CALL).pause()

    def resume_call(self) -> None:
        """Go on with the call where it was held."""
        pygame.mixer.Channel(_CALL).unpause()

    def stop_call(self) -> None:
        """End the call."""
        pygame.mixer.Channel(_CALL).stop()

    def _spoken(self, text: str) -> bytes:
        phrases = (self.store.samples(one, PIECE_GAP) for one in self.clips.phrases(text))
        return silence(SENTENCE_GAP).join(phrases)

    def _say_late(self, samples: bytes, turn: int) -> None:
        """Speak what was rendered meanwhile, unless something else came since."""
        if turn == self._turn and self._level and pygame.mixer.get_init():
            self._play_long(_SPEECH, samples)

    def _play_long(self, channel: int, samples: bytes) -> float:
        """Play samples on a channel of their own: their length in seconds."""
        if not samples:
            return 0.0
        sound = self._long[channel] = pygame.mixer.Sound(buffer=samples)
        sound.set_volume(self._level)
        pygame.mixer.Channel(channel).play(sound)
        return len(samples) / SAMPLE_BYTES / RATE


def open_sounds(folder: Path, clips_folder: Path) -> Sounds:
    """The sounds, or the silent twin where there is no audio device."""
    try:
        return Voice(folder, clips_folder)
    except pygame.error:
        return Silence()
