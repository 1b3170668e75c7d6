"""What comes to the board from elsewhere: an agenda or a text let go on it, a pasted column."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from frame.course.agenda import Item, items_of, read_items
from frame.course.problems import Problem, problem_text, read_words
from frame.language.catalogue import Words
from frame.resources import ASSETS


class Arrival(NamedTuple):
    """Items, or none where there is a problem; and what is told of them."""

    items: tuple[Item, ...]
    note: str


def of_text(text: str, words: Words) -> Arrival:
    """A column of sums."""
    return _arrival(*items_of(text), words)


def of_file(path: Path, words: Words) -> Arrival:
    """An agenda, or a text with a column of sums."""
    return _arrival(*read_items(path, path.name), words)


def _arrival(items: Sequence[Item], problems: Sequence[Problem], words: Words) -> Arrival:
    """Of what has problems the first is told, and nothing comes."""
    if problems:
        wording = read_words(ASSETS / "words" / "problems.en.toml")
        # A pasted column has no file, and so no name before line and column.
        return Arrival((), problem_text(problems[0], wording).removeprefix(":"))
    note = words.text("board.added", count=len(items)) if items else words.text("board.nothing")
    return Arrival(tuple(items), note)
