"""Which exercise tells most of what is still in question: the one whose answer is expected to
narrow the suspects most (information gain, in bits)."""

from collections.abc import Mapping
from decimal import Decimal
from math import log2

from frame.practice.answers import Habits, chances
from frame.practice.suspects import SLIP, Weighed
from frame.technique.calculation import Calculation
from frame.technique.conventions import USUAL, Conventions

_LEAST = 0.01
"""Suspects that are less likely are in question no more."""
_MOST = 12
_UNKNOWN_RATE = 0.5


def gain(weighed: Weighed, calculation: Calculation, conventions: Conventions = USUAL) -> float:
    """How many bits the answer to an exercise is expected to tell of the suspects."""
    ranked = sorted(weighed.suspects.items(), key=lambda one: one[1], reverse=True)[:_MOST]
    expected = [
        (chance, _expected(calculation, conventions, habits))
        for habits, chance in ranked
        if chance >= _LEAST
    ]
    expected.append((weighed.unknown, {calculation.result: 1 - _UNKNOWN_RATE, None: _UNKNOWN_RATE}))
    total = sum(chance for chance, _ in expected)
    mixed: dict[Decimal | None, float] = {}
    for chance, answers in expected:
        for answer, share in answers.items():
            mixed[answer] = mixed.get(answer, 0.0) + chance / total * share
    return _bits(mixed) - sum(chance / total * _bits(answers) for chance, answers in expected)


def _expected(
    calculation: Calculation, conventions: Conventions, habits: Habits
) -> Mapping[Decimal | None, float]:
    """The answers of a suspect; None stands for what no habit leads to."""
    found: dict[Decimal | None, float] = {
        answer: (1 - SLIP) * share
        for answer, share in chances(calculation, conventions, habits).items()
    }
    found[None] = max(0.0, 1 - sum(found.values()))
    return found


def _bits(chances: Mapping[Decimal | None, float]) -> float:
    return -sum(share * log2(share) for share in chances.values() if share > 0)
