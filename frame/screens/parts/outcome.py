"""What a screen that goes asks of the one below it."""

from typing import NamedTuple


class Next(NamedTuple):
    """What follows this lesson."""

    lesson_id: str
