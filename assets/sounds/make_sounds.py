"""Writes the frame's three sounds beside this file: click, settle and right.

Run it with ``python assets/sounds/make_sounds.py``. It needs the standard library only and a
fixed seed, so the same files come out every time. All three are one wooden bar, cut to other
lengths: a handful of damped modes (sines that die away, the high ones sooner) and, for wood on
wood, a breath of filtered noise. What is right is the settling and the click, an octave lower and
as notes that ring. Each swells over some milliseconds, so that none startles.
"""

import math
import random
import struct
import wave
from dataclasses import dataclass
from pathlib import Path

RATE = 44_100
SEED = 5_141


@dataclass(frozen=True)
class Mode:
    """One damped sine: frequency in hertz, relative level, time to fall to 1/e in seconds."""

    hertz: float
    level: float
    fall: float


@dataclass(frozen=True)
class Knock:
    """A struck body: its modes, a puff of noise, its attack and whole length in seconds."""

    modes: tuple[Mode, ...]
    noise: Mode
    attack: float
    length: float


G, D = 1567.98, 1174.66
"""The notes of a click and, a fourth below, of a bead that settles, in hertz."""
SHORT, LONG = 0.010, 0.060
"""Seconds in which a bead's note and one that rings fall to 1/e."""
PARTIALS = ((1.0, 1.0), (2.0, 0.30), (4.0, 0.10))
"""What sounds of the bar: how often its note, and at what level."""
RINGS_FOR = 6
"""A sound lasts so often as long as its note takes to fall."""
ATTACK = {SHORT: 0.004, LONG: 0.010}
"""Seconds in which each swells."""
CLICK_LEVEL, SETTLE_LEVEL, RIGHT_LEVEL = -15.0, -21.0, -21.5
"""Peaks in decibels below full scale."""


def bar(hertz: float, fall: float) -> Knock:
    """Return the bar of a note."""
    modes = tuple(Mode(times * hertz, level, fall / times) for times, level in PARTIALS)
    noise = Mode(hertz, 0.12 * SHORT / fall, 0.2 * SHORT)
    return Knock(modes, noise, ATTACK[fall], RINGS_FOR * fall)


def smoothed(samples: list[float], cutoff: float) -> list[float]:
    """Return the samples after a one-pole low-pass filter with its corner at cutoff hertz."""
    share = 1.0 - math.exp(-2.0 * math.pi * cutoff / RATE)
    held, out = 0.0, []
    for sample in samples:
        held += share * (sample - held)
        out.append(held)
    return out


def puff(mode: Mode, count: int, chance: random.Random) -> list[float]:
    """Return count samples of dying noise, low-passed twice at the mode's frequency."""
    raw = [chance.uniform(-1.0, 1.0) for _ in range(count)]
    soft = smoothed(smoothed(raw, mode.hertz), mode.hertz)
    top = max(abs(sample) for sample in soft)
    return [s / top * mode.level * math.exp(-i / RATE / mode.fall) for i, s in enumerate(soft)]


def ring(mode: Mode, count: int) -> list[float]:
    """Return count samples of one damped sine that starts at zero."""
    turn = 2.0 * math.pi * mode.hertz / RATE
    return [mode.level * math.sin(turn * i) * math.exp(-i / RATE / mode.fall) for i in range(count)]


def shaped(samples: list[float], attack: float) -> list[float]:
    """Return the samples with a raised-cosine start, and the last third eased down to zero."""
    rise, last = max(1, round(attack * RATE)), len(samples) - 1
    tail = last // 3
    return [sample * eased(i / rise) * eased((last - i) / tail) for i, sample in enumerate(samples)]


def eased(part: float) -> float:
    """Return 0 to 1 along half a cosine for part 0 to 1; 1 beyond."""
    return 0.5 - 0.5 * math.cos(math.pi * min(1.0, part))


def struck(knock: Knock, chance: random.Random) -> list[float]:
    """Return the sound of one knock at no fixed level."""
    count = round(knock.length * RATE)
    layers = [ring(mode, count) for mode in knock.modes]
    layers.append(puff(knock.noise, count, chance))
    return shaped([sum(parts) for parts in zip(*layers, strict=True)], knock.attack)


def laid_over(first: list[float], second: list[float], start: float) -> list[float]:
    """Return first with second added from start seconds on."""
    offset = round(start * RATE)
    out = first + [0.0] * max(0, offset + len(second) - len(first))
    for i, sample in enumerate(second):
        out[offset + i] += sample
    return out


def centred(samples: list[float]) -> list[float]:
    """Return the samples with no mean, taken away under a window so that both ends stay zero."""
    last = len(samples) - 1
    window = [math.sin(math.pi * i / last) ** 2 for i in range(len(samples))]
    lean = sum(samples) / sum(window)
    return [sample - lean * weight for sample, weight in zip(samples, window, strict=True)]


def levelled(samples: list[float], decibels: float) -> list[int]:
    """Return 16-bit samples whose peak lies at decibels below full scale (a negative number)."""
    even = centred(samples)
    gain = 32_767 * 10.0 ** (decibels / 20.0) / max(abs(sample) for sample in even)
    return [round(sample * gain) for sample in even]


def written(path: Path, samples: list[int]) -> None:
    """Write mono 16-bit samples to path as a WAV file."""
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(RATE)
        sound.writeframes(struct.pack(f"<{len(samples)}h", *samples))


def right_answer(chance: random.Random) -> list[float]:
    """Return two soft notes rising a fourth, an octave below those of the beads."""
    low, high = struck(bar(D / 2, LONG), chance), struck(bar(G / 2, LONG), chance)
    return laid_over(low, high, 0.12)


def make_all(folder: Path) -> None:
    """Write click.wav, settle.wav and right.wav into folder."""
    chance = random.Random(SEED)
    click, settle = struck(bar(G, SHORT), chance), struck(bar(D, SHORT), chance)
    written(folder / "click.wav", levelled(click, CLICK_LEVEL))
    written(folder / "settle.wav", levelled(settle, SETTLE_LEVEL))
    written(folder / "right.wav", levelled(right_answer(chance), RIGHT_LEVEL))


if __name__ == "__main__":
    make_all(Path(__file__).resolve().parent)
