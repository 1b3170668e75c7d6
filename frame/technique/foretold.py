"""Facts of a calculation that its numbers tell, without a plan.

Where many numbers are drawn and few are fit, to plan each would take for ever. What comes out,
found by arithmetic, tells which digits are tried too large: of each the largest is tried, and one
is too large when the rest does not hold its whole product.
"""

from collections.abc import Iterator
from decimal import Decimal, localcontext
from itertools import accumulate
from math import isqrt

from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.planning import answer_of
from frame.technique.reading import EXACT, decimals, figures

_MOST_FACTOR = 3
_MOST_DIVISOR = 2

FORETOLD = frozenset({
    "multiply-1", "multiply-2", "multiply-3", "skip-zero", "signs", "divide-1", "divide-2",
    "remainder", "unit-rod", "revise-down", "halve", "root-digit", "root-revise", "below-zero",
    "give-back",
})  # fmt: skip
"""What `foretold` tells of work as it is usual, with no trial digit that was asked for."""


def foretold(calculation: Calculation) -> frozenset[str]:
    """Those of FORETOLD that a calculation needs: all of them that are among its facts."""
    match calculation:
        case Sum():
            return frozenset(_below_zero(calculation))
        case Product():
            return of_numbers(calculation, calculation.result, None)
    answer = answer_of(calculation)
    found = of_numbers(calculation, answer.result, answer.remainder)
    if isinstance(calculation, Root):
        return found | frozenset(_of_root(calculation, answer.worked))
    too_large = _is_tried_too_large(calculation, answer.worked)
    return found | {"revise-down"} if too_large else found


def of_numbers(
    calculation: Product | Quotient | Root, result: Decimal, remainder: Decimal | None
) -> frozenset[str]:
    """What a product, a quotient or a root needs by the looks of its numbers and of what it comes
    to, besides the facts of its plan."""
    found: set[str] = set()
    if any(map(decimals, (*calculation.numbers, result))):
        found.add("unit-rod")
    if any(number < 0 for number in calculation.numbers):
        found.add("signs")
    if remainder:
        found.add("remainder")
    if isinstance(calculation, Product):
        found |= set(_of_product(calculation))
    if isinstance(calculation, Quotient):
        divisor, _ = figures(calculation.divisor)
        found.add(f"divide-{min(len(divisor), _MOST_DIVISOR)}")
    return frozenset(found)


def _of_product(calculation: Product) -> Iterator[str]:
    some, others = (figures(number)[0] for number in calculation.numbers)
    if len(some) > 1 or len(others) > 1:
        yield f"multiply-{min(len(others), _MOST_FACTOR)}"
    if "0" in some + others:
        yield "skip-zero"


def _below_zero(calculation: Sum) -> Iterator[str]:
    with localcontext(EXACT):
        totals = list(accumulate(calculation.terms))
    below = [total < 0 for total in totals]
    if any(below):
        yield "below-zero"
        if not all(below[below.index(True) :]):
            yield "give-back"


def _is_tried_too_large(calculation: Quotient, worked: int) -> bool:
    """Whether some digit of a quotient worked to so many decimals is: each is tried on what the
    first two digits of the rest hold of the divisor's first."""
    (some, place), (others, other_place) = map(figures, calculation.numbers)
    divisor, first, unit = int(others), int(others[0]), 10 ** (len(others) - 1)
    highest, lowest = place - other_place, -worked
    shift = place + 1 - len(some) - (lowest + other_place + 1 - len(others))
    rest = int(some) * 10**shift if shift >= 0 else int(some) // 10**-shift
    for power in range(highest - lowest, -1, -1):
        part = rest // 10**power
        digit = part // divisor
        if digit and min(9, part // unit // first) > digit:
            return True
        rest -= digit * divisor * 10**power
    return False


def _of_root(calculation: Root, worked: int) -> Iterator[str]:
    """Whether anything is left to halve, a digit comes after the first, one is tried too large."""
    with localcontext(EXACT):
        shifted = calculation.radicand.scaleb(2 * worked)
    radicand = int(shifted)
    root = str(isqrt(radicand))
    if shifted != int(root[0]) ** 2 * 100 ** (len(root) - 1):
        yield "halve"
    for at in range(1, len(root)):
        left = len(root) - 1 - at
        so_far = int(root[:at])
        rest = 5 * (radicand - so_far**2 * 100 ** (left + 1)) // 100**left
        if root[at] != "0":
            yield "root-digit"
        part = rest // 100
        trial = min(9, part // 10 ** (at - 1) // int(root[0])) if part >= so_far else 0
        if 100 * trial * so_far + 5 * trial**2 > rest:
            yield "root-revise"
