"""What a screen that goes asks of the one below it, or tells it."""

from typing import NamedTuple


class Next(NamedTuple):
    """What follows this lesson."""

    lesson_id: str


class Begin(NamedTuple):
    """This lesson is to be begun."""

    lesson_id: str


class NextGiven(NamedTuple):
    """What a tutor gave under this id is to be begun."""

    id: str


class Left(NamedTuple):
    """A set was left before its end: how many exercises were right at once, of those worked."""

    right: int
    worked: int
