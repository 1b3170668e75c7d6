"""How large the numbers of an exercise are, and how wide a frame their work takes."""

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import product

from frame.practice.columns import rods_needed
from frame.practice.families import Family
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.conventions import USUAL, Conventions
from frame.technique.planning import plan_of


@dataclass(frozen=True, slots=True)
class Size:
    """How large numbers are. Columns have `terms` numbers of up to `digits` digits, the first of up
    to `first` (0 for as many); where they are `exact`, of just so many. A product has `digits` by
    `by` digits; so have quotient and divisor, and the root has `digits`. Numbers with a point have
    `places` decimals."""

    digits: int = 1
    first: int = 0
    terms: int = 2
    by: int = 1
    places: int = 1
    exact: bool = False


@lru_cache(maxsize=256)
def rods_for(family: Family, size: Size, conventions: Conventions = USUAL) -> int:
    """How many rods hold any work of a family with numbers of a size, as it is usual, which says
    what it needs, and as a school works it."""
    if family is Family.BELOW_ZERO:
        needed = rods_needed(size.digits, size.terms) + 1  # For the 1 that is borrowed.
    elif family.grows:
        needed = rods_needed(size.digits, size.terms) if family.room_above else size.digits
    else:
        works = product(_largest(family, size), {USUAL, conventions})
        needed = max(len(plan_of(*work).start.digits) for work in works)
    return max(family.least_rods, needed)


def _largest(family: Family, size: Size) -> tuple[Calculation, ...]:
    """The work of a family that takes most room."""
    some, by = Decimal(10**size.digits - 1), Decimal(10**size.by - 1)
    if family is Family.MULTIPLY:
        return (Product(some, by),)
    if family is Family.DIVIDE:
        return (Quotient(some * by + by - 1, by),)
    if family is Family.ROOT:
        return (Root(some * some + 2 * some),)
    shifted, shifted_by = some.scaleb(-size.places), by.scaleb(-size.places)
    return (
        Sum((shifted,) * size.terms),
        *(Product(shifted, by), Product(some, shifted_by), Product(shifted, shifted_by)),
        Quotient((some * by).scaleb(-size.places), by),
        Quotient(some - 1, by, size.places),  # By nines it never comes out even.
    )
