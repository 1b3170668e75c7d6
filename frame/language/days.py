"""A day as it is written and said."""

from datetime import date

from frame.language.catalogue import Words
from frame.language.lines import Line


def day_line(words: Words, day: date) -> Line:
    """Day, month and year."""
    month = words.listed("day.months")[day.month - 1]
    return words.line("day.written", day=day.day, month=month, year=day.year)


def day_text(words: Words, day: date) -> str:
    """The same as it is written."""
    return day_line(words, day).show
