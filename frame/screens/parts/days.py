"""A day as it is written."""

from datetime import date

from frame.language.catalogue import Words


def day_text(words: Words, day: date) -> str:
    """Day, month and year."""
    month = words.listed("day.months")[day.month - 1]
    return words.text("day.written", day=day.day, month=month, year=day.year)
