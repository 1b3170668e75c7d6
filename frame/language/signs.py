"""The signs of a text as a person counts them: an accent, a vowel mark or the parts of an emoji
belong to the sign before.

The standard library lacks the property that Unicode's UAX 29 cuts grapheme clusters by; general
categories come to the same but for rare letters of a few scripts. A package would load its tables
at every start.
"""

import unicodedata

ZERO_WIDTH_JOINER = "\u200d"
_JOINERS = "\u200c\u200d"
_MARKS = ("Mn", "Mc", "Me")
_VIRAMA = 9
"""The combining class of what takes a letter's vowel away, so that the next is written with it."""
_WRITTEN_WITH = ("DEVANAGARI", "BENGALI", "GUJARATI", "ORIYA", "TELUGU", "MALAYALAM", "KHMER")
"""The scripts in which it is so, by UAX 29 rule GB9c."""
_TAILS = "\u0e33\u0eb3\uff9e\uff9f"
"""Letters by their category that go with the one before: Thai and Lao am, half-width kana marks."""


def signs_of(text: str) -> tuple[str, ...]:
    """The signs of a text; joined they are the text.

    >>> signs_of("Zoe\\u0308!"), len(signs_of("👩🏽‍🚀🇳🇴"))
    (('Z', 'o', 'ë', '!'), 2)
    """
    signs: list[str] = []
    for char in text:
        if signs and _goes_on(signs[-1], char):
            signs[-1] += char
        else:
            signs.append(char)
    return tuple(signs)


def is_unseen(char: str) -> bool:
    """Whether a character only tells how others are drawn: joiners, and what picks a variant."""
    return char in _JOINERS or "\ufe00" <= char <= "\ufe0f" or _is_tag(char)


def _goes_on(sign: str, char: str) -> bool:
    """Whether a character belongs to the sign before it."""
    if unicodedata.category(sign[0]) in ("Cc", "Zl", "Zp"):
        return False
    return (
        unicodedata.category(char) in _MARKS
        or char in _JOINERS
        or char in _TAILS
        or _is_tag(char)
        or "\U0001f3fb" <= char <= "\U0001f3ff"  # the colour of a skin
        or _is_joined(sign, char)
        or (len(sign) == 1 and _is_region(sign) and _is_region(char))
        or (_is_late_jamo(char) and unicodedata.name(sign[-1], "").startswith("HANGUL"))
    )


def _is_joined(sign: str, char: str) -> bool:
    """Whether a picture is joined to that before, or a letter written with that before."""
    kind = unicodedata.category(char)
    if kind == "So":
        return sign[-1] == ZERO_WIDTH_JOINER
    last = sign.rstrip(_JOINERS)[-1:]
    if kind != "Lo" or not last or unicodedata.combining(last) != _VIRAMA:
        return False
    return unicodedata.name(char, "").startswith(_WRITTEN_WITH)


def _is_tag(char: str) -> bool:
    return "\U000e0020" <= char <= "\U000e007f"


def _is_region(char: str) -> bool:
    """Whether two such make a flag."""
    return "\U0001f1e6" <= char <= "\U0001f1ff"


def _is_late_jamo(char: str) -> bool:
    """Whether it is a vowel or a last consonant of a Hangul syllable spelt out."""
    return "\u1160" <= char <= "\u11ff" or "\ud7b0" <= char <= "\ud7fb"
