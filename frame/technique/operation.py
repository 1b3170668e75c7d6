"""What a step is a part of: the digit, the product or the revision under way, as one writes it."""

from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple


class Act(StrEnum):
    """What is done with the digits of an operation."""

    SET = "set"
    ADD = "add"
    TAKE = "take"
    BORROW = "borrow"
    RETURN = "return"
    MULTIPLY = "multiply"
    CLEAR = "clear"
    QUOTIENT = "quotient"
    SUBTRACT = "subtract"
    REVISE_DOWN = "revise-down"
    ADD_BACK = "add-back"
    REVISE_UP = "revise-up"
    TAKE_AGAIN = "take-again"
    ROOT = "root"
    HALVE = "halve"
    SUBTRACT_HALF = "subtract-half"
    ROUND = "round"

    @property
    def is_of_column(self) -> bool:
        """Whether it belongs to a column of numbers."""
        return self in _OF_COLUMN

    @property
    def is_trial(self) -> bool:
        """Whether it sets a digit of the result which may have to be revised."""
        return self in (Act.QUOTIENT, Act.ROOT)

    @property
    def is_worked(self) -> bool:
        """Whether digits are added or taken away, with their partners."""
        return self in _WORKED

    @property
    def is_mending(self) -> bool:
        """Whether it revises a trial digit or makes up for what was taken with it."""
        return self.is_revision or self in (Act.ADD_BACK, Act.TAKE_AGAIN)

    @property
    def is_revision(self) -> bool:
        """Whether it makes a trial digit larger or smaller."""
        return self in (Act.REVISE_DOWN, Act.REVISE_UP)


_OF_COLUMN = frozenset({Act.SET, Act.ADD, Act.TAKE, Act.BORROW, Act.RETURN})
_WORKED = frozenset(
    {
        Act.ADD, Act.TAKE, Act.RETURN, Act.MULTIPLY, Act.SUBTRACT, Act.ADD_BACK, Act.TAKE_AGAIN,
        Act.SUBTRACT_HALF,
    }
)  # fmt: skip


class Operation(NamedTuple):
    """One line of the work as it is written on paper.

    `digits` are as written ("47", "28", "06"), `rod` is the place of the first of them. `factors`
    are the two digits of a product, or a trial digit before and after its revision; `of` are the
    rods on which factors stand. `why` is what decides a trial: of a trial digit the part of the
    rest that it is found from and what that is divided by, of a smaller one the product that can't
    be taken and the rest, of a larger one the rest and the divisor that it still holds. `row`
    counts the numbers of a column, or the digits of an operand that does not stand on the frame.
    `taken` counts the digits of the divisor whose products were taken before a revision. `place`
    are, for the first digit of a quotient, the first digits of the dividend and the divisor, which
    decide where it stands.
    """

    act: Act
    digits: str
    rod: int = 0
    factors: tuple[int, ...] = ()
    of: tuple[int, ...] = ()
    why: tuple[Decimal, ...] = ()
    row: int = 0
    taken: int = 0
    place: tuple[Decimal, ...] = ()

    @property
    def number(self) -> Decimal:
        """The digits as a number, wherever on the frame they stand."""
        return Decimal(self.digits)

    def __str__(self) -> str:
        template = _TEXTS.get(self.act, f"{self.act} {{digits}}")
        return template.format(digits=self.digits, factors=self.factors)


_TEXTS = {
    Act.ADD: "+{digits}",
    Act.TAKE: "-{digits}",
    Act.MULTIPLY: "{factors[0]}x{factors[1]}={digits}",
    Act.SUBTRACT: "-{factors[0]}x{factors[1]}={digits}",
    Act.SUBTRACT_HALF: "-{factors[0]}x{factors[1]}/2={digits}",
    Act.REVISE_DOWN: "revise {factors[0]} to {factors[1]}",
    Act.REVISE_UP: "revise {factors[0]} to {factors[1]}",
    Act.ADD_BACK: "add back {digits}",
    Act.TAKE_AGAIN: "take {digits}",
    Act.ROUND: "round",
}
