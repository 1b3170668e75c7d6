"""Whether a task is worth its work: something is to be done in every number, and all are seen."""

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from itertools import accumulate, pairwise

from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum

_IDLE = (0, 1)


def is_fair(calculation: Calculation, may_sink: bool = False) -> bool:
    """Whether there is something to be worked in every number: none undoes the one before, no
    factor is 0 or 1, no quotient its dividend or 1, and no column comes to 0 again and again, nor
    below it, if it may not sink."""
    match calculation:
        case Sum(terms):
            totals = list(accumulate(terms))
            undone = any(one == -other for one, other in pairwise(terms))
            is_long = len(terms) > 1
            is_empty = is_long and (not all(terms) or totals.count(Decimal(0)) > 1)
            return not undone and not is_empty and (may_sink or min(totals) >= 0)
        case Product(one, other):
            return abs(one) not in _IDLE and abs(other) not in _IDLE
        case Quotient(dividend, divisor):
            return abs(divisor) != 1 and abs(dividend) != abs(divisor) and bool(calculation.result)
        case Root(radicand):
            return radicand not in _IDLE


def is_varied(column: Sequence[int | Decimal]) -> bool:
    """Whether no number comes twice running, be it added or taken away, for the second is hardly
    seen or heard as another; and none fills more than a third of the rows, rounded up."""
    sizes = [abs(number) for number in column]
    is_repeated = any(one == other for one, other in pairwise(sizes))
    most = -(-len(sizes) // 3)
    return not is_repeated and all(often <= most for often in Counter(sizes).values())
