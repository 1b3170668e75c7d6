"""Which recorded clips speak a text: the index of clips, and the fewest runs of words they have.

A language's folder holds its clips in a few sprites, sound files of many clips each, and a table
for each speed. A line of a table names a clip: sprite, first sample, samples, words; a line with
`#` tells how a sprite was made. No sound is opened here.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

RATE = 24_000
"""Samples a second of every clip; they are mono, 16 bits each."""

SENTENCE_GAP = 0.35
"""Seconds of silence between two sentences, a usual pause in reading aloud (common practice)."""
PIECE_GAP = 0.06
"""Seconds between two clips of one sentence."""

PLAIN = "plain"
QUICK = "quick"
SPEEDS = (PLAIN, QUICK)
"""How fast the clips of a table speak: unhurried, or as fast as can still be made out."""

_NO_WORD = re.compile(r"[^\w'-]|(?<!\w)['-]|['-](?!\w)")
_SENTENCE_END = re.compile(r"(?<=[.!?…])[\"”’)]*\s+")


def normal(text: str) -> str:
    """The words of a text, the key of its clip: lower case, single spaces, no punctuation.

    Hyphens and apostrophes within words stay.

    >>> normal("Yes: twenty-one!  That’s it.")
    "yes twenty-one that's it"
    """
    return " ".join(_NO_WORD.sub(" ", text.lower().replace("’", "'")).split())


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text, each with its end mark.

    >>> sentences("Not yet. Which rod?")
    ('Not yet.', 'Which rod?')
    """
    return tuple(part for part in _SENTENCE_END.split(text.strip()) if normal(part))


def names_in_turn(text: str, numbers: Iterable[str]) -> bool:
    """Whether a text names all these numbers, one after another. Another word may stand within
    one, as in "five hundred and six".

    >>> names_in_turn("Set five, then add two. Two beads are free.", ["five", "two"])
    True
    >>> names_in_turn("Seven come, so three away. Put two, five away.", ["five", "seven"])
    False
    """
    named = (r" (?:\S+ )?".join(map(re.escape, normal(one).split())) for one in numbers)
    pattern = ".*".join(rf"(?<!\S){one}(?!\S)" for one in named)
    return re.search(pattern, normal(text)) is not None


class Clip(NamedTuple):
    """A recorded run of words: its sprite's file name, its first sample there, its samples."""

    sprite: str
    start: int
    length: int


class _Run(NamedTuple):
    """Words that are spoken together, and their clip; None for a word without one."""

    words: str
    clip: Clip | None


class _Way(NamedTuple):
    """A way to speak the end of a sentence, and its cost: words without a clip, words spoken at
    another speed than was asked for, clips."""

    cost: tuple[int, int, int] = (0, 0, 0)
    runs: tuple[_Run, ...] = ()

    def after(self, run: _Run, is_own: bool) -> "_Way":
        """The way with a run before it."""
        missing, borrowed, clips = self.cost
        if run.clip is None:
            missing += 1
        elif not is_own:
            borrowed += run.words.count(" ") + 1
        return _Way((missing, borrowed, clips + 1), (run, *self.runs))


@dataclass
class Clips:
    """The clips of one language; a table is read when its speed is first asked for."""

    folder: Path
    _tables: dict[str, Mapping[str, str]] = field(default_factory=dict, repr=False)

    def find(self, words: str, speed: str = PLAIN) -> Clip | None:
        """The clip of exactly these words, in the form that `normal` gives, at this speed; the
        plain one where the speed has none, and None where there is none at all."""
        place = self._table(speed).get(words) or self._table(PLAIN).get(words)
        if place is None:
            return None
        sprite, start, length = place.split()
        return Clip(sprite, int(start), int(length))

    def phrases(self, text: str, speed: str = PLAIN) -> tuple[tuple[Clip, ...], ...]:
        """The clips of each sentence of a text; one phrase where a clip has the whole text.

        Words without a clip are left out: ask `missing` for them.
        """
        spoken = (tuple(run.clip for run in runs if run.clip) for runs in self._cut(text, speed))
        return tuple(filter(None, spoken))

    def pieces(self, text: str, speed: str = PLAIN) -> tuple[Clip, ...]:
        """The clips that speak a text: the whole, else its sentences, else the fewest runs of
        words."""
        return tuple(clip for phrase in self.phrases(text, speed) for clip in phrase)

    def missing(self, text: str, speed: str = PLAIN) -> tuple[str, ...]:
        """The words of a text that no clip covers, in order."""
        return tuple(run.words for runs in self._cut(text, speed) for run in runs if not run.clip)

    def entries(self, speed: str) -> Iterator[tuple[str, Clip]]:
        """Every clip of a speed's own table with its words."""
        for words in self._table(speed):
            clip = self.find(words, speed)
            if clip:
                yield words, clip

    def _cut(self, text: str, speed: str) -> list[tuple[_Run, ...]]:
        """The text cut into runs: itself where it has a clip at this speed, else by sentence."""
        whole = normal(text)
        if self._has_own(whole, speed):
            return [(_Run(whole, self.find(whole, speed)),)]
        return [self._runs(normal(one), speed) for one in sentences(text)]

    def _runs(self, text: str, speed: str) -> tuple[_Run, ...]:
        """The words of a sentence cut into runs that have a clip; a word that none has by itself.

        Of all ways to cut it, found from its end: the fewest words without a clip, then the fewest
        at another speed, then the fewest clips, then the longest first.
        """
        words = text.split()
        best = {len(words): _Way()}
        for start in range(len(words) - 1, -1, -1):
            ends = range(len(words), start, -1)
            runs = (" ".join(words[start:end]) for end in ends)
            ways = (
                best[end].after(_Run(run, clip), self._has_own(run, speed))
                for end, run in zip(ends, runs, strict=True)
                if (clip := self.find(run, speed)) or end == start + 1
            )
            best[start] = min(ways, key=lambda way: way.cost)
        return best[0].runs

    def _has_own(self, words: str, speed: str) -> bool:
        """Whether these words are recorded at this speed itself."""
        return words in self._table(speed)

    def _table(self, speed: str) -> Mapping[str, str]:
        if speed not in self._tables:
            self._tables[speed] = _read(self.folder / f"{speed}.txt")
        return self._tables[speed]


def _read(path: Path) -> Mapping[str, str]:
    """The place of every clip by its words; empty where there is no table."""
    if not path.is_file():
        return {}
    lines = path.read_text(encoding="utf-8").splitlines()
    entries = (line.split("\t", 1) for line in lines if line and line[0] != "#")
    return {words: place for place, words in entries}
