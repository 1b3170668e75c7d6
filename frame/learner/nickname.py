"""What a learner may be called: any name that can be written, in any script."""

import unicodedata
from collections.abc import Sequence

from frame.language.signs import is_unseen, signs_of

MOST_SIGNS = 24
_MOST_CHARACTERS = 16
"""Of one sign: the longest that are in use, families and flags of regions, have eleven."""
_WHOLE = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "ħ": "h", "ŧ": "t", "ı": "i", "æ": "ae", "œ": "oe",
     "þ": "th"}
)  # fmt: skip
"""Letters that Unicode takes apart into none, as keyboards without them write them. Common
practice, no source."""
_SPACES = ("Cc", "Zl", "Zp", "Zs")


def typed_name(text: str) -> str:
    """What of a text may stand where a name is typed: no line breaks, nothing that turns the
    direction of writing, no space before it or next to another, at most MOST_SIGNS signs."""
    return "".join(sign[:_MOST_CHARACTERS] for sign in _fit_signs(text)[:MOST_SIGNS])


def is_too_long(text: str) -> bool:
    """Whether of a text more signs may stand in a name than it has at most."""
    return len(_fit_signs(text)) > MOST_SIGNS


def nickname_of(text: str, otherwise: str) -> str:
    """The name that a text is; `otherwise` where nothing of it can be seen.

    >>> nickname_of("  Mary \\n Ann ", "Otter"), nickname_of(" ", "Otter")
    ('Mary Ann', 'Otter')
    """
    name = typed_name(text).strip()
    return name if any(_is_seen(char) for char in name) else otherwise


def search_key(text: str) -> str:
    """By what a name is found that is typed: without case and accents."""
    text = unicodedata.normalize("NFD", unicodedata.normalize("NFC", text).casefold())
    return "".join(char for char in text if _kind(char) not in ("Mn", "Cf")).translate(_WHOLE)


def called(name: str, names: Sequence[str]) -> list[int]:
    """The places of the names that somebody means who types one whole: those that are the same, or
    else so but for case, or but for accents; else those that only begin so."""
    for key in (str, str.casefold, search_key):
        if found := [at for at, one in enumerate(names) if key(one) == key(name)]:
            return found
    return beginning(name, names)


def beginning(typed: str, names: Sequence[str]) -> list[int]:
    """The places of the names that begin as what is typed, else of those of which that is a later
    word, else of those that have one that begins so; with an accent that is typed, rather than with
    another one."""
    has_accent = search_key(typed) != typed.casefold()
    keys = (str.casefold, search_key) if has_accent else (search_key,)
    for begins in (_begins, _has_word, _begins_word):
        for key in keys:
            if found := [at for at, one in enumerate(names) if begins(key(one), key(typed))]:
                return found
    return []


def _begins(name: str, typed: str) -> bool:
    return name.startswith(typed)


def _has_word(name: str, typed: str) -> bool:
    return f" {typed} " in f"{name} "


def _begins_word(name: str, typed: str) -> bool:
    return f" {typed}" in name


def _fit_signs(text: str) -> tuple[str, ...]:
    """The signs of a text that may stand in a name, however many."""
    text = unicodedata.normalize("NFC", text)
    text = "".join(" " if _kind(char) in _SPACES else char for char in text if _is_kept(char))
    while "  " in text:
        text = text.replace("  ", " ")
    return signs_of(text.lstrip(" "))


def _is_kept(char: str) -> bool:
    """Whether a character may stand in a name. One that is given to nothing may be a letter of a
    later version of Unicode, but for those that never will be."""
    if _kind(char) == "Cn":
        return ord(char) & 0xFFFE != 0xFFFE and not "\ufdd0" <= char <= "\ufdef"
    return is_unseen(char) or _kind(char) not in ("Cf", "Cs")


def _is_seen(char: str) -> bool:
    """Whether a character alone makes a name."""
    return not is_unseen(char) and _kind(char)[0] not in "MZ"


def _kind(char: str) -> str:
    return unicodedata.category(char)
