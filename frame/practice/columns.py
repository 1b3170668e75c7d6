"""Columns of any numbers of so many digits, as they are called and flashed."""

from decimal import Decimal
from random import Random

MOST_DIGITS = 14
MOST_ROWS = 15
"""The longest numbers, and the most of them, that are asked for in one column; their sum takes 16
rods. Our own bounds."""
MOST_CALLED_DIGITS = 16
"""The longest numbers that are called, as in the published formats; the sum takes 17 rods."""

_LESS_OFTEN = 0.4
"""How often a number is taken away where that is possible and asked for."""


def draw_column(
    digits: int, count: int, random: Random, *, minus: bool = False, shortest: int = 0
) -> tuple[Decimal, ...]:
    """`count` whole numbers of exactly `digits` digits, drawn evenly; where `shortest` is given, of
    from so many to `digits`, each length as often. No partial sum is below 0.

    With `minus` at least one number is taken away, and never the first.
    """
    column: list[int] = []
    for left in range(count - 1, -1, -1):
        so_far = sum(column)
        is_owed = left == 0 and min(column, default=0) > 0
        longest = min(digits, len(str(so_far))) if minus and is_owed else digits
        length = random.randint(shortest, longest) if shortest else digits
        least, beyond = 10 ** (length - 1), 10**length
        less = minus and column and so_far >= least
        if less and (is_owed or random.random() < _LESS_OFTEN):
            column.append(-random.randrange(least, min(so_far + 1, beyond)))
        else:
            column.append(random.randrange(least, beyond))
    return tuple(map(Decimal, column))


def rods_needed(digits: int, count: int) -> int:
    """How many rods hold the sum of any `count` numbers of so many digits."""
    return len(str(count * (10**digits - 1)))
