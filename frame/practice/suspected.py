"""What was likely behind one wrong answer of which no bead was seen, and the hand that leads to
it."""

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from frame.practice.answers import hand_of, possible_answers
from frame.practice.suspects import AT_ONCE, NAMED, Given, explanation, weigh
from frame.technique.beads import Stroke
from frame.technique.calculation import Calculation, Sum
from frame.technique.conventions import Conventions
from frame.technique.faulty import Site
from frame.technique.habits import Habit

MOST_PAST = 20
"""So many answers before it are minded: what is older hardly counts, and would take long."""


class Suspected(NamedTuple):
    """Where the habit showed, and the strokes of a hand with it that comes to the answer; of
    columns that begin on a cleared frame alone, since all else may stand on other rods."""

    site: Site
    hand: tuple[Stroke, ...]


def suspected(
    calculation: Calculation, answer: Decimal, past: Sequence[Given], conventions: Conventions
) -> Suspected | None:
    """What is behind an answer, after those of the past, oldest first; None where nothing is likely
    enough to be told."""
    is_at_once = bool(past) and past[-1].days_ago <= AT_ONCE
    given = Given(calculation, answer, before=past[-1].answer if is_at_once else None)
    before = [one._replace(items_ago=one.items_ago + 1) for one in past[-MOST_PAST:]]
    weighed = weigh([*before, given], conventions)
    found = explanation(given, weighed, conventions)
    if not found or found[0][1] < NAMED:
        return None
    site = found[0][0]
    if not isinstance(calculation, Sum) or site.habit is Habit.NOT_CLEARED:
        return Suspected(site, ())
    runs = possible_answers(calculation, conventions, frozenset({site.habit}))
    led = next((one for one in runs if one.number == answer and site in one.used), None)
    if led is None:
        return Suspected(site, ())
    return Suspected(site, hand_of(calculation, conventions, frozenset({site.habit}), led.uses))
