"""Numbers and rods in English words. The words are in the words file, the grammar is here, and
nothing of either in the technique model, which shows no word."""

from decimal import Decimal
from typing import Protocol

from frame.technique.reading import plain

THIN_SPACE = "\u202f"


class WordLists(Protocol):
    """What gives the lists of number words, by dotted key."""

    def listed(self, key: str) -> tuple[str, ...]:
        """The words of one list."""


def number_words(number: Decimal | int, words: WordLists) -> str:
    """The number as it is read out: "minus five", "fifty point two".

    Raises ValueError from 10 ** 36 on.
    """
    text = plain(Decimal(number))
    whole, _, decimals = text.lstrip("-").partition(".")
    minus, point = words.listed("number.signs")
    said = [minus] if text.startswith("-") else []
    said += _whole(int(whole), words)
    if decimals:
        said += [point, *(words.listed("number.small")[int(digit)] for digit in decimals)]
    return " ".join(said)


def _whole(number: int, words: WordLists) -> list[str]:
    """A whole number, group by group of three digits."""
    scales = words.listed("number.scales")
    if number >= 1000 ** len(scales):
        raise ValueError(f"{number} has no name; the largest is below 10 ** {3 * len(scales)}")
    if number == 0:
        return [words.listed("number.small")[0]]
    said: list[str] = []
    for index in range(len(scales) - 1, -1, -1):
        group = number // 1000**index % 1000
        if group:
            said += [*_below_thousand(group, words), *([scales[index]] if index else [])]
    return said


def _below_thousand(number: int, words: WordLists) -> list[str]:
    small, tens = words.listed("number.small"), words.listed("number.tens")
    hundreds, rest = divmod(number, 100)
    said = [small[hundreds], words.listed("number.hundred")[0]] if hundreds else []
    if 0 < rest < len(small):
        said.append(small[rest])
    elif rest:
        ten, one = divmod(rest, 10)
        said.append(f"{tens[ten]}-{small[one]}" if one else tens[ten])
    return said


def rod_name(rod: int, words: WordLists) -> str:
    """The name of a rod's place, -35 to 35: "tens", "hundred thousands", "tenths"."""
    kind = "place.whole" if rod >= 0 else "place.parts"
    thousands, within = divmod(abs(rod), 3)
    if not thousands:
        return words.listed(kind)[within]
    scale = words.listed(f"{kind}_scales")[thousands - 1]
    return f"{words.listed('place.of_scale')[within]} {scale}".strip()


def place_figures(rod: int) -> str:
    """The worth of a bead on a rod in figures: "1 000" (with a thin space), "0.1"."""
    return grouped(plain(Decimal(10) ** rod))


def grouped(digits: str) -> str:
    """A plain number with thin spaces between groups of three and a true minus.

    >>> grouped("-12345") == "−12\u202f345"
    True
    """
    sign, rest = ("−", digits[1:]) if digits.startswith("-") else ("", digits)
    whole, point, parts = rest.partition(".")
    head = len(whole) % 3
    groups = ([whole[:head]] if head else []) + [
        whole[at : at + 3] for at in range(head, len(whole), 3)
    ]
    return sign + THIN_SPACE.join(groups) + point + parts
