"""What comes to the board from elsewhere: an agenda or a text let go on it, a pasted column."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from frame.course.agenda import SUFFIXES, Item, as_sum, column_of, is_column, items_of, read_items
from frame.course.draft import read_file
from frame.course.problems import LessonError, Problem
from frame.language.catalogue import Words
from frame.learner.computer import Pasted
from frame.screens.parts.problem import problem_line


class Arrival(NamedTuple):
    """Items, or none where there is a problem, and what is told of them. A `column` of numbers may
    be one sum, or a list of numbers to be read: then that is to be asked first."""

    items: tuple[Item, ...] = ()
    note: str = ""
    column: str = ""


def of_text(text: str, words: Words, name: str = "") -> Arrival:
    """A column of sums, of a file with this name. One of numbers with a minus among them can only
    be one sum."""
    items, problems = items_of(text)
    if is_column(text):
        return _arrival(*as_sum(text), words) if problems else Arrival(column=text)
    return _arrival(items, [replace(one, file=name) for one in problems], words)


def of_column(text: str, words: Words, pasted: Pasted) -> Arrival:
    """A column of numbers, as one sum or as a list. It is told how it would be the other."""
    is_sum = pasted is Pasted.SUM
    arrival = _arrival(*(as_sum(text) if is_sum else items_of(text)), words)
    told, count = arrival.note, len(column_of(text))
    if arrival.items:
        told = words.text("board.added_sum" if is_sum else "board.added_list", count=count)
    other = words.text("board.again_list" if is_sum else "board.again_sum")
    return Arrival(arrival.items, f"{told} {other}")


def of_file(path: Path, words: Words) -> Arrival:
    """An agenda, or a text with a column of sums."""
    if path.suffix.lower() not in SUFFIXES:
        try:
            return of_text(read_file(path).decode("utf-8", "replace"), words, path.name)
        except LessonError:
            pass  # What can't be read is told like a problem of an agenda.
    return _arrival(*read_items(path, path.name), words)


def _arrival(items: Sequence[Item], problems: Sequence[Problem], words: Words) -> Arrival:
    """Of what has problems the first is told, and nothing comes."""
    if problems:
        return Arrival(note=problem_line(problems[0]))
    note = words.text("board.added", count=len(items)) if items else words.text("board.nothing")
    return Arrival(tuple(items), note)
