"""The sounds: soft at their start, never loud, of one body, and made by their script."""

import importlib.util
import math
import struct
import wave
from pathlib import Path

import pytest

from frame.resources import ASSETS

FOLDER = ASSETS / "sounds"
NAMES = ("click", "settle", "right")
FULL = 32_767
LEAST_ATTACK = 0.002
"""Seconds to nine tenths of the first swell."""
MOST_PEAK = -14.0
"""Decibels below full scale, at the full level; the usual one is a quarter of it."""
MOMENT = 0.05
"""Seconds in which loudness is measured."""


def read(name: str, folder: Path = FOLDER) -> tuple[int, list[int]]:
    """The samples a second of a sound, and its samples."""
    with wave.open(str(folder / f"{name}.wav"), "rb") as sound:
        assert (sound.getnchannels(), sound.getsampwidth()) == (1, 2)
        count = sound.getnframes()
        return sound.getframerate(), list(struct.unpack(f"<{count}h", sound.readframes(count)))


def decibels(level: float) -> float:
    return 20 * math.log10(level / FULL)


def peak(name: str) -> float:
    return decibels(max(map(abs, read(name)[1])))


def loudness(name: str) -> float:
    """The loudest moment."""
    rate, samples = read(name)
    size = round(MOMENT * rate)
    moments = [samples[at : at + size] for at in range(0, max(1, len(samples) - size), size // 10)]
    means = [math.sqrt(sum(one * one for one in part) / len(part)) for part in moments]
    return decibels(max(means))


@pytest.mark.parametrize("name", NAMES)
def test_a_sound_swells_before_it_is_loud_and_ends_in_silence(name: str) -> None:
    rate, samples = read(name)
    swell = [abs(one) for one in samples[: round(0.1 * rate)]]
    attack = next(at for at, one in enumerate(swell) if one >= 0.9 * max(swell)) / rate
    assert attack >= LEAST_ATTACK
    assert samples[0] == samples[-1] == 0


@pytest.mark.parametrize("name", NAMES)
def test_no_sound_is_loud(name: str) -> None:
    assert peak(name) <= MOST_PEAK


def test_what_is_right_is_no_louder_than_a_click_and_a_settling_bead_softer() -> None:
    assert peak("right") <= peak("click")
    assert loudness("right") <= loudness("click")
    assert peak("settle") < peak("click")


def note(name: str, since: float) -> float:
    """The strongest frequency from a moment on, by the sums of sines a tenth of a tone apart."""
    rate, samples = read(name)
    part = samples[round(since * rate) :][: round(MOMENT * rate)]

    def strength(hertz: float) -> float:
        turn = 2 * math.pi * hertz / rate
        cosines = sum(one * math.cos(turn * at) for at, one in enumerate(part))
        sines = sum(one * math.sin(turn * at) for at, one in enumerate(part))
        return math.hypot(cosines, sines)

    return max((440 * 2 ** (step / 60) for step in range(-60, 180)), key=strength)


def test_what_is_right_is_the_settling_and_the_click_an_octave_lower() -> None:
    first, second = note("right", 0.0), note("right", 0.14)
    assert note("settle", 0.0) / first == pytest.approx(2, rel=0.03)
    assert note("click", 0.0) / second == pytest.approx(2, rel=0.03)


def test_the_files_are_those_that_the_script_makes(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("make_sounds", FOLDER / "make_sounds.py")
    assert spec is not None and spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    script.make_all(tmp_path)
    for name in NAMES:
        assert read(name, tmp_path) == read(name)
