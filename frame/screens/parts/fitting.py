"""Long texts cut to what can be read of them: names of files, paths, problems."""

import os

import pygame

from frame.view.theme import type_size
from frame.view.widgets import Brushes

_MOST_IN_NAME = 36
_SMALLER = 0.85
"""By how much a long text is written smaller before it is cut."""


def short_name(path: str | os.PathLike[str]) -> str:
    """The name of a file as it can be shown; of a long one both ends."""
    return middle_cut(printable(os.path.basename(path)), _MOST_IN_NAME)


def printable(text: str) -> str:
    """The text with a mark for each sign that cannot be shown."""
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in text)


def middle_cut(text: str, most: int) -> str:
    """The text, or its two ends with dots between them, in at most so many characters."""
    if len(text) <= most:
        return text
    half = (most - 1) // 2
    return f"{text[: most - 1 - half]}…{text[len(text) - half :]}"


def fitting(
    brushes: Brushes, text: str, place: pygame.Rect, step: int, *, bold: bool = False
) -> str:
    """As many words of a text as can be read in a place, with dots for the rest."""
    lettering = brushes.lettering
    pixels = round(_SMALLER * type_size(step, brushes.surface.get_height()))
    most = place.h // lettering.height(pixels)

    def short(word: str) -> str:
        length = len(word)
        while length > 1 and lettering.width(middle_cut(word, length), pixels, bold) > place.w:
            length -= 1
        return middle_cut(word, length)

    words = [short(word) for word in text.split(" ")]
    for count in range(len(words), 0, -1):
        shown = " ".join(words[:count]) + (" …" if count < len(words) else "")
        if len(lettering.wrapped(shown, pixels, place.w, bold)) <= most:
            return shown
    return words[0]
