"""Which recorded clips speak a text: the index of clips, and the longest runs of words they have.

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
        whole = self.find(normal(text), speed)
        if whole:
            return ((whole,),)
        spoken = (
            tuple(clip for _, clip in self._runs(normal(sentence), speed) if clip)
            for sentence in sentences(text)
        )
        return tuple(filter(None, spoken))

    def pieces(self, text: str, speed: str = PLAIN) -> tuple[Clip, ...]:
        """The clips that speak a text: the whole, else its sentences, else runs of words, the
        longest first."""
        return tuple(clip for phrase in self.phrases(text, speed) for clip in phrase)

    def missing(self, text: str, speed: str = PLAIN) -> tuple[str, ...]:
        """The words of a text that no clip covers, in order."""
        if self.find(normal(text), speed):
            return ()
        runs = (run for one in sentences(text) for run in self._runs(normal(one), speed))
        return tuple(words for words, clip in runs if clip is None)

    def entries(self, speed: str) -> Iterator[tuple[str, Clip]]:
        """Every clip of a speed's own table with its words."""
        for words in self._table(speed):
            clip = self.find(words, speed)
            if clip:
                yield words, clip

    def _runs(self, words: str, speed: str) -> Iterator[tuple[str, Clip | None]]:
        """The words cut into the longest runs that have a clip; a word that none has by itself."""
        left = words.split()
        while left:
            for size in range(len(left), 0, -1):
                run = " ".join(left[:size])
                clip = self.find(run, speed)
                if clip or size == 1:
                    yield run, clip
                    left = left[size:]
                    break

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
