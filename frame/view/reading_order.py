"""In which order signs stand on a line, from its left: scripts that are written from the right are
turned round, numbers within them are not.

This is Unicode's bidirectional algorithm (UAX 9, rules W, N and L2) as far as names need it, which
have no signs that turn the direction. Letters are joined and vowels put in their place by the font
itself, once it is told which script it writes.
"""

import unicodedata
from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from frame.language.signs import signs_of

_RIGHT_TO_LEFT = ("R", "AL")
_NUMBER = ("EN", "AN")
_LEVELS = {"L": {"L": 0, "R": 1, "N": 2}, "R": {"L": 2, "R": 1, "N": 2}}
"""How deep what runs to the right, to the left, and a number are nested in a line of either."""
_MIRRORED = str.maketrans("()[]{}<>«»", ")(][}{><»«")
_SCRIPTS = {
    "ARABIC": "Arab", "HEBREW": "Hebr", "SYRIAC": "Syrc", "THAANA": "Thaa", "NKO": "Nkoo",
    "DEVANAGARI": "Deva", "BENGALI": "Beng", "GURMUKHI": "Guru", "GUJARATI": "Gujr",
    "ORIYA": "Orya", "TAMIL": "Taml", "TELUGU": "Telu", "KANNADA": "Knda", "MALAYALAM": "Mlym",
    "SINHALA": "Sinh", "THAI": "Thai", "LAO": "Laoo", "TIBETAN": "Tibt", "MYANMAR": "Mymr",
    "KHMER": "Khmr", "MONGOLIAN": "Mong", "HANGUL": "Hang",
}  # fmt: skip
"""The scripts a font must know of, by how Unicode calls their letters: ISO 15924 codes."""


class Sign(NamedTuple):
    """A sign, the script a font must know of to draw it, empty where it needs none, and the word
    it is part of."""

    text: str
    script: str
    word: str


def in_order(text: str) -> list[Sign]:
    """The signs of a line as they stand from left to right.

    >>> "".join(sign.text for sign in in_order("אב 12 c"))
    'c 12 בא'
    """
    signs = signs_of(text)
    levels = _levels([_direction(sign) for sign in signs])
    mirrored = [
        sign.translate(_MIRRORED) if level % 2 else sign
        for sign, level in zip(signs, levels, strict=True)
    ]
    words = _words(signs)
    return [Sign(mirrored[at], _script_of(signs[at]), words[at]) for at in _turned(levels)]


def runs_left(text: str) -> bool:
    """Whether a line is written from the right."""
    return _base([_direction(sign) for sign in signs_of(text)]) == "R"


def _base(directions: Sequence[str]) -> str:
    """The direction of a line: that of its first letter."""
    return next((one for one in directions if one in ("L", "R")), "L")


def _words(signs: Sequence[str]) -> list[str]:
    """For each sign the word it is part of; a space is one by itself."""
    words: list[str] = []
    for is_space, group in groupby(signs, str.isspace):
        word = list(group)
        words += word if is_space else ["".join(word)] * len(word)
    return words


def _script_of(sign: str) -> str:
    return _SCRIPTS.get(unicodedata.name(sign[0], "").partition(" ")[0], "")


def _direction(sign: str) -> str:
    """L or R for letters, N for digits, nothing for what goes with its neighbours."""
    kind = unicodedata.bidirectional(sign[0])
    return "R" if kind in _RIGHT_TO_LEFT else "N" if kind in _NUMBER else "L" * (kind == "L")


def _levels(directions: Sequence[str]) -> list[int]:
    """How deep each sign is nested: even ones run to the right, odd ones to the left."""
    base = _base(directions)
    before, known = base, []
    for one in directions:
        before = one if one in ("L", "R") else before
        known.append("L" if one == "N" and before == "L" else one)
    levels, at = [], 0
    for kind, group in groupby(known):
        count = len(list(group))
        here = kind or _between(known, at, at + count, base)
        at += count
        levels += [_LEVELS[base][here]] * count
    return levels


def _between(known: Sequence[str], start: int, end: int, base: str) -> str:
    """The direction of what goes with its neighbours: theirs where they agree, a number counting
    as of the right; else that of the line."""
    before = known[start - 1] if start else base
    after = known[end] if end < len(known) else base
    sides = {"R" if side == "N" else side for side in (before, after)}
    return sides.pop() if len(sides) == 1 else base


def _turned(levels: Sequence[int]) -> list[int]:
    """The places of signs in the order in which they are drawn."""
    order = list(range(len(levels)))
    for level in range(max(levels, default=0), 0, -1):
        at = 0
        while at < len(order):
            end = at
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[at:end] = reversed(order[at:end])
            at = max(end, at + 1)
    return order
