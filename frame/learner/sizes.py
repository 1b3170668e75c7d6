"""How large an exercise is: by how many digits its numbers have, and how many there are."""

from typing import NamedTuple

from frame.technique.expression import Calculation, ExpressionError, Sum, parse_calculation
from frame.technique.reading import decimals, whole_digits


class Extent(NamedTuple):
    """`digits` of the longest number, those after the point counted; `terms` are the numbers of a
    column, 0 where it is no column. Both are 0 where the exercise is not known."""

    digits: int = 0
    terms: int = 0


def size_of(calculation: Calculation) -> Extent:
    """The size of a calculation."""
    numbers = calculation.numbers
    digits = max((whole_digits(number) + decimals(number) for number in numbers), default=0)
    return Extent(max(1, digits), len(numbers) if isinstance(calculation, Sum) else 0)


def size_of_text(text: str) -> Extent:
    """The size of the exercise that was kept as this text."""
    try:
        return size_of(parse_calculation(text))
    except ExpressionError:
        return Extent()
