"""What somebody with some habits may answer, and how likely each answer is."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from heapq import heappop, heappush
from typing import NamedTuple

from frame.technique.beads import Stroke
from frame.technique.calculation import Calculation
from frame.technique.conventions import Conventions
from frame.technique.faulty import Choosing, Site, answer_by
from frame.technique.habits import Habit

USE = 0.8
"""A habit shows at so many of the sites where it could. Our own number, no source."""
_MOST_RUNS = 8
"""So many ways to use habits at some sites and not at others are worked out, the likeliest first;
what is left of the chance counts as nothing."""

Habits = frozenset[Habit]


class Possible(NamedTuple):
    """An answer that habits may lead to: how likely, where they showed, and whether they did at
    each of the sites in turn."""

    number: Decimal
    chance: float
    used: tuple[Site, ...]
    uses: tuple[bool, ...]


def possible_answers(
    calculation: Calculation,
    conventions: Conventions,
    habits: Habits,
    before: Decimal | None = None,
) -> tuple[Possible, ...]:
    """The answers of a hand with these habits after the answer before, where that is known, the
    likeliest first; one number may come twice. An empty tuple where the work is not modelled."""
    is_minded = Habit.NOT_CLEARED in habits
    return _possible(calculation, conventions, habits, before if is_minded else None)


@lru_cache(maxsize=512)
def _possible(
    calculation: Calculation, conventions: Conventions, habits: Habits, before: Decimal | None
) -> tuple[Possible, ...]:
    return tuple(_runs(calculation, conventions, habits, before))


def _runs(
    calculation: Calculation, conventions: Conventions, habits: Habits, before: Decimal | None
) -> Iterator[Possible]:
    """The likeliest ways to use habits: at all sites; then not at one, not at another."""
    waiting: list[tuple[float, tuple[bool, ...]]] = [(-1.0, ())]
    for _ in range(_MOST_RUNS):
        if not waiting:
            return
        chance, choices = heappop(waiting)
        choosing = Choosing(habits, choices, before=before)
        answer = answer_by(calculation, conventions, choosing)
        sites = choosing.sites
        uses = (*choices, *[True] * (len(sites) - len(choices)))
        for at in range(len(choices), len(sites)):
            share = USE ** (at - len(choices)) * (1 - USE)
            heappush(waiting, (chance * share, (*uses[:at], False)))
        if answer is not None:
            chance *= USE ** (len(sites) - len(choices))
            used = tuple(one for one, use in zip(sites, uses, strict=True) if use)
            yield Possible(answer.number, -chance, used, uses)


def hand_of(
    calculation: Calculation, conventions: Conventions, habits: Habits, uses: Sequence[bool]
) -> tuple[Stroke, ...]:
    """The strokes of a hand with habits that uses them so."""
    answer = answer_by(calculation, conventions, Choosing(habits, uses))
    return answer.plan.strokes if answer is not None else ()


def chances(
    calculation: Calculation,
    conventions: Conventions,
    habits: Habits,
    before: Decimal | None = None,
) -> Mapping[Decimal, float]:
    """How likely each answer is; of work that is not modelled that it is right."""
    found: dict[Decimal, float] = {}
    for one in possible_answers(calculation, conventions, habits, before):
        found[one.number] = found.get(one.number, 0.0) + one.chance
    return found or {calculation.result: 1.0}
