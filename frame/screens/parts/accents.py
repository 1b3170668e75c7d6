"""The accents of a letter, for letters that are touched.

They are those of Europe's Latin alphabets, as Unicode has them, and each is found by a search for
its letter. What has two accents is left to keyboards and input methods.
"""

import unicodedata
from functools import cache

from frame.learner.nickname import search_key

_LETTERS = (*range(0xC0, 0x180), *range(0x218, 0x21C))
"""Unicode's blocks Latin-1 Supplement and Latin Extended-A, and what Romanian has beyond them."""
_ACUTE = "\u0301"


def next_form(letter: str) -> str:
    """The letter with the accent that comes after its own, and after the last one without; nothing
    for what has none.

    >>> next_form("e"), next_form("É"), next_form("ł"), next_form("7")
    ('é', 'È', 'l', '')
    """
    plain = search_key(letter)
    forms = _forms(plain.upper() if letter.isupper() else plain)
    return forms[(forms.index(letter) + 1) % len(forms)] if letter in forms else ""


@cache
def _forms(plain: str) -> tuple[str, ...]:
    """A letter and its accented forms, that with an acute first, as the commonest."""
    first = unicodedata.normalize("NFC", plain + _ACUTE)
    accented = (chr(at) for at in _LETTERS if _is_form(chr(at), plain))
    forms = sorted(accented, key=lambda one: (one != first, one))
    return (plain, *forms) if forms else ()


def _is_form(letter: str, plain: str) -> bool:
    """Whether a letter is a plain one with an accent, and not one that only looks so."""
    has_one = len(plain) == 1 and len(unicodedata.normalize("NFD", letter)) <= 2
    is_itself = unicodedata.normalize("NFKC", letter) == letter != plain
    is_alike = search_key(letter) == plain.casefold() and letter.isupper() == plain.isupper()
    return has_one and is_itself and is_alike
