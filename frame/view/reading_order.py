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
    """A sign, and the script a font must know of to draw it; empty where it needs none."""

    text: str
    script: str


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
    order = _turned(levels)
    return [Sign(mirrored[at], script_of(signs[at])) for at in order]


def script_of(sign: str) -> str:
    """The script a font must know of to draw a sign."""
    return _SCRIPTS.get(unicodedata.name(sign[0], "").partition(" ")[0], "")


def _direction(sign: str) -> str:
    """L or R for letters, N for digits, nothing for what goes with its neighbours."""
    kind = unicodedata.bidirectional(sign[0])
    return "R" if kind in _RIGHT_TO_LEFT else "N" if kind in _NUMBER else "L" * (kind == "L")


def _levels(directions: Sequence[str]) -> list[int]:
    """How deep each sign is nested: even ones run to the right, odd ones to the left."""
    letters = [one for one in directions if one in ("L", "R")]
    base = "R" if letters[:1] == ["R"] else "L"
    before, known = base, []
    for one in directions:
        before = one if one in ("L", "R") else before
        known.append("L" if one == "N" and before == "L" else one)
    levels, at = [], 0
    for kind, group in groupby(known):
        count = len(list(group))
        here = kind or _between(known, at, at + count, base)
        at += count
        if base == "L":
            level = {"L": 0, "R": 1, "N": 2}[here]
        else:
            level = {"L": 2, "R": 1, "N": 2}[here]
        levels += [level] * count
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
