"""Records what the tool can speak, with a speech engine, into sprites and tables of clips.

Run it by hand, in an environment with the program and ``pip install hibari-tts==0.2.1 soundfile``::

    python assets/voice/render.py            record what is new or changed, remove what is unused
    python assets/voice/render.py --check    list every line without a clip; exit status 1 if any
    python assets/voice/render.py --into DIR record all of it there, to listen to it first

A sprite is one Ogg Vorbis file of clips that are used together, with a short silence between
them. It is recorded anew as a whole when one of its texts, or this recipe, changes. The same
texts come out as the same samples every time, before they are encoded.

What children of four to six hear is spoken calmly: each clip is rendered, measured, and rendered
again at the engine's speed that brings it near CALM.
"""

import argparse
import sys
from collections.abc import Iterator, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(ROOT))

from frame.course.draft import read_course  # noqa: E402
from frame.course.lesson import in_order  # noqa: E402
from frame.course.spoken import (  # noqa: E402
    Group,
    heard_by_young,
    number_groups,
    spoken_groups,
)
from frame.language.catalogue import load_words  # noqa: E402
from frame.language.speech import PLAIN, QUICK, RATE, Clips, normal  # noqa: E402

LANGUAGE = "en"
FOLDER = HERE / LANGUAGE

RECIPE = "hibari-tts 0.2.1, recipe 2"
"""Change it when the same texts should sound otherwise: every sprite is recorded anew."""
PACE = {PLAIN: 0.9, QUICK: 1.3}
"""The engine's own speed setting: 1 is its usual one. See recognised.md for how it is chosen.
Above 1.33 a number gets a quarter shorter at once, and pocketsphinx takes one in six for others."""
CALM = 130
"""Words a minute of what young children hear."""
CALM_NEAR = 0.05
"""As a share of CALM: so near is near enough."""
SLOWEST, SLOWEST_SHORT = 0.55, 0.72
"""The slowest that the engine is set for it; the second for a clip of FEW_WORDS or fewer, of which
words a minute tell little."""
FEW_WORDS = 3
MOST_CLIPS = 30
SPELLED = {"four": "four."}
"""Texts that the engine says better when they are written otherwise."""
ENDED = (QUICK,)
"""Speeds at which each text is given an end mark: the last sound is then not cut short."""

BETWEEN = 0.1
"""Seconds of silence between two clips of a sprite, so that the codec's blur crosses no cut."""
LEAD = 0.015
TAIL = {PLAIN: 0.045, QUICK: 0.035}
"""Seconds kept before and after what can be heard."""
HEARD = 10 ** (-42 / 20)
"""What is heard: a share of the loudest 5 ms."""
LEVEL = 10 ** (-20 / 20)
"""The mean level of what is heard, of the full scale."""
PEAK = 10 ** (-5 / 20)
"""The highest sample before encoding."""
HIGHEST = 10 ** (-3.3 / 20)
"""The highest sample after encoding, which adds a little to some."""
MOST_TRIES = 5
COMPRESSION = 1.0
"""Of the encoder, 0 to 1: about 31 kbit/s."""


class Sprite(NamedTuple):
    """A file to record: its name, its texts, those of them that are spoken calmly, and the digest
    of all that makes its samples."""

    name: str
    speed: str
    texts: tuple[str, ...]
    calm: frozenset[str] = frozenset()

    @property
    def digest(self) -> str:
        """Changes with any text, the speed and the recipe."""
        settings = (
            RECIPE,
            PACE[self.speed],
            (CALM, CALM_NEAR, SLOWEST, SLOWEST_SHORT, FEW_WORDS),
            BETWEEN,
            LEAD,
            TAIL[self.speed],
            HEARD,
            LEVEL,
            PEAK,
            HIGHEST,
            COMPRESSION,
        )
        spelled = [(spelling(text, self.speed), text in self.calm) for text in self.texts]
        return sha256(repr((settings, spelled)).encode()).hexdigest()[:16]


def spelling(text: str, speed: str) -> str:
    """A text as the engine is given it."""
    spelled = SPELLED.get(text, text)
    return f"{spelled}." if speed in ENDED and spelled[-1].isalnum() else spelled


def wanted_groups(speed: str) -> Iterator[tuple[Group, frozenset[str]]]:
    """All that is spoken at a speed, at the quick one calls alone; and of each group those texts
    that are spoken calmly, by their words. Numbers are in no such text."""
    words = load_words(ROOT / "assets" / "words" / f"{LANGUAGE}.toml")
    for group in number_groups(words):
        yield group, frozenset()
    if speed == QUICK:
        calls = (group for group in spoken_groups(words, ()) if group.name == "words-call")
        yield from ((group, frozenset()) for group in calls)
        return
    lessons = in_order(tuple(read_course(ROOT / "lessons").by_id.values()))
    young = heard_by_young(words, lessons)
    yield from ((group, young) for group in spoken_groups(words, lessons))


def wanted_sprites(speed: str) -> Iterator[Sprite]:
    """The groups cut into files of at most MOST_CLIPS clips."""
    seen: set[str] = set()
    for group, young in wanted_groups(speed):
        texts = [text for text in group.texts if normal(text) not in seen]
        seen.update(map(normal, texts))
        parts = range(0, len(texts), MOST_CLIPS)
        for first in parts:
            number = f"-{first // MOST_CLIPS + 1}" if len(parts) > 1 else ""
            name = f"{speed}-{group.name}{number}.ogg"
            part = tuple(texts[first : first + MOST_CLIPS])
            yield Sprite(name, speed, part, frozenset(t for t in part if normal(t) in young))


def trimmed(wave: np.ndarray, speed: str) -> np.ndarray:
    """What can be heard of a wave, eased in and out."""
    size = RATE // 200
    frames = wave[: len(wave) // size * size].reshape(-1, size)
    level = np.sqrt((frames**2).mean(axis=1))
    heard = np.flatnonzero(level > HEARD * level.max())
    lead, tail = round(LEAD * RATE), round(TAIL[speed] * RATE)
    first = max(0, heard[0] * size - lead)
    last = min(len(wave), (heard[-1] + 1) * size + tail)
    return eased(wave[first:last].copy(), lead, tail // 2)


def eased(wave: np.ndarray, rise: int, fall: int) -> np.ndarray:
    """The wave with its first and last samples brought to zero along half a cosine."""
    wave[:rise] *= 0.5 - 0.5 * np.cos(np.pi * np.arange(rise) / rise)
    wave[-fall:] *= 0.5 + 0.5 * np.cos(np.pi * np.arange(1, fall + 1) / fall)
    return wave


def levelled(wave: np.ndarray) -> np.ndarray:
    """The wave at LEVEL, measured where something is heard, with its peaks held below PEAK."""
    size = RATE // 50
    frames = wave[: max(1, len(wave) // size) * size].reshape(-1, min(size, len(wave)))
    power = (frames**2).mean(axis=1)
    mean = np.sqrt(power[power > power.max() / 100].mean())
    return limited(wave * LEVEL / mean)


def limited(wave: np.ndarray) -> np.ndarray:
    """The wave turned down smoothly around each peak that would be above PEAK."""
    reach = RATE // 100
    needed = np.minimum(1.0, PEAK / np.maximum(np.abs(wave), PEAK))
    wide = np.pad(needed, 2 * reach, mode="edge")
    lowest = np.lib.stride_tricks.sliding_window_view(wide, 2 * reach + 1).min(axis=1)
    window = np.hanning(2 * reach + 3)[1:-1]
    return wave * np.convolve(lowest, window / window.sum(), mode="valid")


def rendered(engine: Any, text: str, speed: str, pace: float) -> np.ndarray:
    """What the engine makes of a text at a pace of its own, trimmed."""
    seed = int.from_bytes(sha256(text.encode()).digest()[:4], "big")
    wave = engine(spelling(text, speed), speed=pace, seed=seed).astype(np.float64)
    return trimmed(wave, speed)


def calmly(engine: Any, text: str) -> np.ndarray:
    """A text near CALM words a minute, or as slow as it may be; one that is slower by itself stays
    as it is."""
    count = len(normal(text).split())
    slowest = SLOWEST_SHORT if count <= FEW_WORDS else SLOWEST
    pace = PACE[PLAIN]
    wave = rendered(engine, text, PLAIN, pace)
    for _ in range(MOST_TRIES):
        share = CALM * len(wave) / (60 * RATE * count)
        wanted = min(PACE[PLAIN], max(slowest, pace * share))
        if abs(share - 1) < CALM_NEAR or wanted == pace:
            break
        pace = wanted
        wave = rendered(engine, text, PLAIN, pace)
    return wave


def spoken(engine: Any, text: str, speed: str, *, is_calm: bool = False) -> np.ndarray:
    """One clip: rendered whole, trimmed, levelled."""
    wave = calmly(engine, text) if is_calm else rendered(engine, text, speed, PACE[speed])
    return levelled(wave)


def record(engine: Any, sprite: Sprite, folder: Path) -> list[str]:
    """Write a sprite; the lines of its clips for the table."""
    clips = [
        spoken(engine, text, sprite.speed, is_calm=text in sprite.calm) for text in sprite.texts
    ]
    starts = written(folder / sprite.name, clips)
    return [
        f"{sprite.name} {start} {len(clip)}\t{normal(text)}"
        for text, clip, start in zip(sprite.texts, clips, starts, strict=True)
    ]


def written(path: Path, clips: list[np.ndarray]) -> list[int]:
    """Encode clips into a file, turning down each whose peak the encoder raised above HIGHEST:
    the first sample of each."""
    import soundfile

    silence = np.zeros(round(BETWEEN * RATE))
    sizes = [len(clip) + len(silence) for clip in clips]
    starts = [len(silence) + sum(sizes[:at]) for at in range(len(clips))]
    gains = np.ones(len(clips))
    for _ in range(MOST_TRIES):
        louder = [gain * clip for gain, clip in zip(gains, clips, strict=True)]
        wave = np.concatenate([silence, *[part for clip in louder for part in (clip, silence)]])
        soundfile.write(
            path, wave, RATE, format="OGG", subtype="VORBIS", compression_level=COMPRESSION
        )
        decoded, _ = soundfile.read(path)
        ends = [start + len(clip) for start, clip in zip(starts, clips, strict=True)]
        parts = zip(starts, ends, strict=True)
        peaks = np.array([np.abs(decoded[start:end]).max() for start, end in parts])
        if peaks.max() <= HIGHEST:
            return starts
        gains *= np.minimum(1.0, 0.97 * HIGHEST / peaks)
    raise ValueError(f"{path.name} stays too loud")


def kept_lines(speed: str, folder: Path) -> dict[str, list[str]]:
    """The table as it is: the lines of each sprite, its head first."""
    path, kept = folder / f"{speed}.txt", dict[str, list[str]]()
    for line in path.read_text("utf-8").splitlines() if path.is_file() else ():
        if line.startswith("#"):
            name = line.split()[1]
            kept[name] = []
        kept[name].append(line)
    return kept


def head(sprite: Sprite) -> str:
    """The line of the table that tells how a sprite was made."""
    return f"# {sprite.name} {sprite.digest}"


def is_recorded(sprite: Sprite, kept: dict[str, list[str]], folder: Path) -> bool:
    """Whether the sprite is there as it should be."""
    return kept.get(sprite.name, [""])[0] == head(sprite) and (folder / sprite.name).is_file()


def record_all(speed: str, folder: Path) -> set[str]:
    """Bring the sprites and the table of a speed up to date; the names of its sprites."""
    engine: Any = None
    kept, sprites, lines = kept_lines(speed, folder), list(wanted_sprites(speed)), list[str]()
    for sprite in sprites:
        if is_recorded(sprite, kept, folder):
            lines += kept[sprite.name]
            continue
        if engine is None:
            from hibari import Hibari

            engine = Hibari()
        print(sprite.name, flush=True)
        lines += [head(sprite), *record(engine, sprite, folder)]
    (folder / f"{speed}.txt").write_text("\n".join([*lines, ""]), "utf-8", newline="\n")
    return {sprite.name for sprite in sprites}


def remove_unused(used: set[str]) -> None:
    """Remove sprites that no table names."""
    for path in sorted(FOLDER.glob("*.ogg")):
        if path.name not in used:
            print(f"removed {path.name}")
            path.unlink()


def missing(speed: str) -> Iterator[str]:
    """Every text without a clip of its own, and every sprite whose texts or recipe changed."""
    clips, kept = Clips(FOLDER), kept_lines(speed, FOLDER)
    have = {words for words, _ in clips.entries(speed)}
    for sprite in wanted_sprites(speed):
        lacking = [text for text in sprite.texts if normal(text) not in have]
        yield from lacking
        if not lacking and not is_recorded(sprite, kept, FOLDER):
            yield f"{sprite.name} is to be recorded anew"


def main(arguments: Sequence[str]) -> int:
    """Record or check; the exit status."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="only list what has no clip")
    parser.add_argument("--into", metavar="DIR", type=Path, default=FOLDER, help="record there")
    asked = parser.parse_args(arguments)
    if asked.check:
        lines = [line for speed in PACE for line in missing(speed)]
        print(*lines, sep="\n", end="\n" if lines else "")
        return 1 if lines else 0
    asked.into.mkdir(parents=True, exist_ok=True)
    used = set().union(*[record_all(speed, asked.into) for speed in PACE])
    if asked.into == FOLDER:
        remove_unused(used)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
