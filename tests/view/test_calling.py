"""A mixed call: its numbers are found by their samples, evenly spaced, and played so."""

import os
import subprocess
import sys
from array import array
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from random import Random

import pygame
import pytest
from shipped import the_words

import frame
from frame.language.speech import PLAIN, QUICK, RATE, Clips
from frame.practice.cues import JOIN, CallPace, CueKind, call_cues
from frame.resources import ASSETS
from frame.view.calling import mix
from frame.view.clips import SAMPLE_BYTES, ClipStore

FOLDER = ASSETS / "voice" / "en"
WORDS = the_words()
CLIPS = Clips(FOLDER)
STORE = ClipStore(FOLDER, most=100)

LONG = [Decimal(Random(4).randrange(10**13, 10**14)) for _ in range(15)]
MIXED_SIGNS = [Decimal(n) for n in (47, 305, -12, 960, -8, 77, 1204)]

PLAYS = """
import sys, time
from decimal import Decimal
import pygame
from frame.language.catalogue import load_words
from frame.practice.cues import CallPace, call_cues
from frame.resources import ASSETS
from frame.view.calling import mix
from frame.view.voice import Voice
folder = ASSETS / "voice" / "en"
voice = Voice(ASSETS / "sounds", folder)
words = the_words()
cues = call_cues([Decimal(n) for n in sys.argv[1:]], words, voice.clips, CallPace(gap=0.7))
voice.set_volume("normal")
voice.play_call(mix(cues, voice.store))
while pygame.mixer.get_busy():
    time.sleep(0.01)
pygame.mixer.quit()
"""


@pytest.fixture(scope="module", autouse=True)
def mixer() -> Iterator[None]:
    pygame.mixer.quit()
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    yield
    pygame.mixer.quit()


def spoken_alone(term: Decimal, speed: str) -> bytes:
    """The samples of one number, put together without cues."""
    return STORE.samples(CLIPS.pieces(WORDS.number(term), speed), JOIN[speed])


def places_in(sound: bytes, parts: Sequence[bytes]) -> list[int]:
    """The first sample of each part, searched from the end of the one before."""
    found, at = [], 0
    for part in parts:
        place = sound.find(part, at)
        assert place >= 0, f"part {len(found)} is not there"
        found.append(place // SAMPLE_BYTES)
        at = place + len(part)
    return found


def gaps_of(places: Sequence[int], parts: Sequence[bytes]) -> list[int]:
    """The samples from the end of each part to the next."""
    ends = [place + len(part) // SAMPLE_BYTES for place, part in zip(places, parts, strict=True)]
    return [after - end for after, end in zip(places[1:], ends, strict=False)]


@pytest.mark.parametrize("speed", [PLAIN, QUICK])
@pytest.mark.parametrize("terms", [LONG, MIXED_SIGNS])
@pytest.mark.parametrize("gap", [0.0, 0.3337, 1.5])
def test_numbers_are_evenly_spaced_to_the_sample(
    terms: list[Decimal], speed: str, gap: float
) -> None:
    cues = call_cues(terms, WORDS, CLIPS, CallPace(speed, gap))
    parts = [spoken_alone(term, speed) for term in terms]
    places = places_in(mix(cues, STORE), parts)
    assert gaps_of(places, parts) == [round(gap * RATE)] * (len(terms) - 1)
    assert [cue.start for cue in cues if cue.kind is CueKind.NUMBER] == places


def test_between_the_cues_there_is_silence() -> None:
    cues = call_cues(MIXED_SIGNS, WORDS, CLIPS, CallPace())
    sound = mix(cues, STORE)
    assert len(sound) == SAMPLE_BYTES * cues[-1].end
    for before, after in pairwise(cues):
        between = sound[SAMPLE_BYTES * before.end : SAMPLE_BYTES * after.start]
        assert not any(between)
    assert [cue.kind for cue in cues].count(CueKind.NUMBER) == len(MIXED_SIGNS)


def test_a_call_of_nothing_is_no_sound() -> None:
    assert mix((), STORE) == b""


def softened(samples: bytes, level: float) -> bytes:
    """Samples as SDL's mixer turns them down: by 128ths, towards zero."""
    volume = int(level * 128)
    return array("h", [int(sample * volume / 128) for sample in array("h", samples)]).tobytes()


@pytest.mark.proof
@pytest.mark.parametrize("terms", [LONG, MIXED_SIGNS])
def test_what_the_device_is_given_is_as_evenly_spaced(terms: list[Decimal], tmp_path: Path) -> None:
    """SDL's disk driver writes to a file what it would give to a device."""
    played = tmp_path / "played.raw"
    root = str(Path(frame.__file__).parents[1])
    environment = {
        **os.environ, "PYTHONPATH": root, "SDL_AUDIODRIVER": "disk",
        "SDL_DISKAUDIOFILE": str(played), "SDL_DISKAUDIODELAY": "0",
    }  # fmt: skip
    command = [sys.executable, "-c", PLAYS, *map(str, terms)]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    parts = [softened(spoken_alone(term, PLAIN), 0.6) for term in terms]
    places = places_in(played.read_bytes(), parts)
    assert gaps_of(places, parts) == [round(0.7 * RATE)] * (len(terms) - 1)
