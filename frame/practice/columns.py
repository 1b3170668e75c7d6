"""Columns of any numbers of so many digits, as they are called and flashed."""

from decimal import Decimal
from random import Random


def draw_column(
    digits: int, count: int, random: Random, *, minus: bool = False
) -> tuple[Decimal, ...]:
    """`count` whole numbers of exactly `digits` digits, the first of them to be set.

    With `minus` about every third is to be taken away, where the sum so far is large enough: no
    partial sum is below 0.
    """
    least, most = (1 if digits == 1 else 10 ** (digits - 1)), 10**digits - 1
    column, total = [], 0
    for _ in range(count):
        number = random.randint(least, most)
        if minus and number <= total and random.random() < 1 / 3:
            number = -number
        column.append(number)
        total += number
    return tuple(map(Decimal, column))


def rods_needed(digits: int, count: int) -> int:
    """How many rods hold the sum of any `count` numbers of so many digits."""
    return len(str(count * (10**digits - 1)))
