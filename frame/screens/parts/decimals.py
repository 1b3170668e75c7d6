"""Measured and chosen values as they are told."""

from decimal import Decimal


def to_hundredths(value: float) -> Decimal:
    """The value with two places at most.

    >>> [str(to_hundredths(value)) for value in (0.125, 1.5, 60.0)]
    ['0.12', '1.5', '60']
    """
    return Decimal(f"{value:.2f}".rstrip("0").rstrip("."))
