"""What is behind a wrong answer, in words: a habit as what is to be done, or what it is off by."""

from decimal import Decimal

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.language.verdicts import pair_line
from frame.language.wording import Listener
from frame.technique.faulty import Site
from frame.technique.habits import Habit
from frame.technique.reading import plain

_PARTNERS_OF = {Habit.WRONG_PARTNER: 10, Habit.WRONG_PARTNER_OF_FIVE: 5}


def habit_line(site: Site, words: Words, listener: Listener) -> Line:
    """What is told of a habit that showed at a site."""
    whole = _PARTNERS_OF.get(site.habit)
    if whole is not None:
        return pair_line(whole, site.digit, whole - site.digit, words, listener)
    return words.line(f"habit.{site.habit}.{listener}")


def off_by_text(difference: Decimal | None, words: Words) -> str:
    """By how much an answer is too much, or below 0 too little; empty where that is not told."""
    if difference is None:
        return ""
    number = grouped(plain(abs(difference)))
    if difference > 0:
        return words.text("marks.told.too_much", number=number)
    return words.text("marks.told.too_little", number=number)
