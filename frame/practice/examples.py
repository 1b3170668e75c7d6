"""For each item one small exercise that asks for it, as the trained hand works it."""

from dataclasses import replace
from decimal import Decimal

from frame.practice.exercises import Exercise, Kind
from frame.practice.items import CELLS, PRODUCTS, Cell
from frame.practice.rungs import Rung
from frame.technique.conventions import USUAL, Conventions
from frame.technique.expression import Calculation, Quotient, Sum, parse_calculation
from frame.technique.planning import plan_of

LEAST_RODS = 2
"""A single rod is hardly seen to be a frame."""

_PROCEDURES = {
    "ripple-add": "99 + 1",
    "ripple-sub": "100 - 1",
    "place-product": "3 x 2",
    "multiply-1": "12 x 3",
    "multiply-2": "2 x 12",
    "multiply-3": "2 x 112",
    "skip-zero": "3 x 102",
    "signs": "-3 x 2",
    "divide-1": "8 / 2",
    "divide-2": "24 / 12",
    "place-quotient": "10 / 2",
    "place-quotient-far": "6 / 2",
    "revise-down": "30 / 15",
    "revise-up": "8 / 2",
    "remainder": "7 / 2",
    "decimals": "1.5 + 2.2",
    "unit-rod": "0.2 x 3",
    "round": "2 / 3",
    "below-zero": "1 - 3",
    "give-back": "1 - 2 + 9",
    "root": "sqrt 9",
    "halve": "sqrt 121",
    "root-digit": "sqrt 144",
    "root-revise": "sqrt 324",
}
_TRIAL = {"revise-up": 3}
"""The digit that is tried first."""
_PLACES = {"round": 1}
"""To so many places the result is rounded."""
_SHOWN = {"tens": 40, "hundreds": 300, "thousands": 2000, "digit-0": 10}
_CLEARED = 57

_CELLS = {str(cell): cell for cell in CELLS}
_TEXTS = {**{str(one): f"{one.lesser} x {one.greater}" for one in PRODUCTS}, **_PROCEDURES}


def example_of(item: str, conventions: Conventions = USUAL) -> Exercise:
    """The exercise for an item. What is read is set. Raises KeyError for what is no item."""
    if item in _CELLS or item in _TEXTS:
        calculation, trial = _calculation(item), _TRIAL.get(item, 0)
        rods = len(plan_of(calculation, conventions, at_least=LEAST_RODS).start.digits)
        return Exercise(Kind.SUM, calculation, Rung.WATCH, rods, trial=trial)
    number = Decimal(_CLEARED if item == "clear" else _number(item))
    rods = max(LEAST_RODS, len(str(number)))
    kind = Kind.CLEAR if item == "clear" else Kind.SET
    return Exercise(kind, Sum((number,)), Rung.WATCH, rods)


def _calculation(item: str) -> Calculation:
    if item in _CELLS:
        return _sum_of(_CELLS[item])
    calculation = parse_calculation(_TEXTS[item])
    if item in _PLACES and isinstance(calculation, Quotient):
        return replace(calculation, places=_PLACES[item])
    return calculation


def _sum_of(cell: Cell) -> Sum:
    """The sum of a digit and what is worked on it; where a ten is borrowed, there is one."""
    first = cell.digit + (10 if cell.digit + cell.change < 0 else 0)
    return Sum((Decimal(first), Decimal(cell.change)))


def _number(item: str) -> int:
    """The number that is set for a digit or a place."""
    _, _, what = item.partition("-")
    _, _, digit = what.rpartition("-")
    return _SHOWN[what] if what in _SHOWN else int(digit)
