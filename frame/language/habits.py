"""Habits in words: one sentence that says what is to be done."""

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.verdicts import pair_line
from frame.language.wording import Listener
from frame.technique.faulty import Site
from frame.technique.habits import Habit

_PARTNERS_OF = {Habit.WRONG_PARTNER: 10, Habit.WRONG_PARTNER_OF_FIVE: 5}


def habit_line(site: Site, words: Words, listener: Listener) -> Line:
    """What is told of a habit that showed at a site."""
    whole = _PARTNERS_OF.get(site.habit)
    if whole is not None:
        return pair_line(whole, site.digit, whole - site.digit, words, listener)
    return words.line(f"habit.{site.habit}.{listener}")
