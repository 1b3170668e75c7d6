"""Probes: exercises drawn one at a time to find out what somebody knows."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from random import Random

from frame.practice.drawing import ExerciseError, Request, draw
from frame.practice.exercises import Exercise, plan_for
from frame.practice.families import Family, family_of_fact
from frame.practice.numbers import can_need
from frame.practice.sizes import Size, rods_for
from frame.technique.conventions import USUAL, Conventions

_NARROW = (
    Size(1), Size(1, terms=3), Size(2), Size(3), Size(4), Size(1, by=2), Size(1, by=3),
)  # fmt: skip
"""From small to large; the first that can need a fact asks hardly anything besides."""
_COLUMNS = (
    Size(2, terms=3), Size(3, terms=3), Size(3, terms=4), *(Size(4, terms=4),) * 2,
    *(Size(4, terms=6),) * 3,
)  # fmt: skip
_NUMBERS = (Size(3), Size(5), *(Size(7),) * 6)


def narrow_probe(
    fact: str, known: frozenset[str], random: Random, conventions: Conventions = USUAL
) -> Exercise | None:
    """An item that needs a fact, little besides, and nothing that is not `known`."""
    sizes = (size for size in _NARROW if _suits(fact, size))
    drawn = (_item(fact, known, size, random, conventions) for size in sizes)
    return next(filter(None, drawn), None)


def wide_probes(
    fact: str,
    known: frozenset[str],
    random: Random,
    conventions: Conventions = USUAL,
    digits: int = 7,
) -> Iterator[Exercise]:
    """Items of numbers of up to so many digits that need a fact, many others besides, and nothing
    that is not `known`: long numbers, columns, or work a digit longer than it need be."""
    for size in _wide_sizes(fact):
        if size.digits <= digits:
            item = _item(fact, known, size, random, conventions)
            if item:
                yield item


def _wide_sizes(fact: str) -> tuple[Size, ...]:
    family = family_of_fact(fact)
    if family.grows:
        return _COLUMNS if family.is_of_sums else _NUMBERS
    if fact == "place-product":
        return ()  # What is multiplied by more digits needs another fact instead.
    least = next(size for size in _NARROW if can_need(fact, size))
    return (replace(least, digits=least.digits + 1),) * 2


@lru_cache(maxsize=256)
def seconds_of(exercise: Exercise) -> float:
    """About how many seconds an item takes: a measure to compare items by, and a guess. Kept for
    those of late, since whoever weighs them asks again and again."""
    plan = plan_for(exercise, USUAL)
    return _TO_BEGIN + (_A_STROKE * len(plan.strokes) if plan else _TO_TYPE)


_TO_BEGIN, _A_STROKE, _TO_TYPE = 4.0, 1.0, 2.0


def _suits(fact: str, size: Size) -> bool:
    family = family_of_fact(fact)
    if family is Family.COLUMNS:
        return size.digits >= family.least_rods  # Fewer are tried in vain for long.
    return size.by == 1 if family.grows else can_need(fact, size)


def _item(
    fact: str, known: frozenset[str], size: Size, random: Random, conventions: Conventions
) -> Exercise | None:
    family = family_of_fact(fact)
    request = Request(
        facts=(fact,), known=known, count=1, terms=size.terms, digits=size.digits, by=size.by,
        rods=rods_for(family, size, conventions),
    )  # fmt: skip
    try:
        return draw(request, random)[0]
    except ExerciseError:
        return None
