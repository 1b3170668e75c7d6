"""Partners of five and ten, asked for as 5 - 3 or 10 - 3."""

from decimal import Decimal

from frame.practice.exercises import Exercise, Kind
from frame.sheets.recipe import Recipe
from frame.technique.calculation import Sum

WHOLES = (5, 10)
_RODS = 2


def partners(recipe: Recipe) -> tuple[Exercise, ...]:
    """Every partner that the recipe's facts need, all without facts."""
    wanted = {_partner(fact) for fact in recipe.facts}
    every = ((whole, known) for whole in WHOLES for known in range(1, whole))
    return tuple(_asked(*one) for one in every if not wanted or one in wanted)


def _partner(fact: str) -> tuple[int, int]:
    """The whole that a fact makes up and the number it is for; (0, 0) where it has no partner."""
    family, _, number = fact.rpartition("-")
    whole = 10 if "-ten" in family else 5 if "-five" in family else 0
    return (whole, int(number)) if whole else (0, 0)


def _asked(whole: int, known: int) -> Exercise:
    return Exercise(Kind.SUM, Sum((Decimal(whole), Decimal(-known))), rods=_RODS, own=True)
