"""From what the user wrote to a calculation and its plan; every error is a refusal."""

from dataclasses import dataclass, replace

from frame.commands.output import Place, Refusal
from frame.language.catalogue import Words
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import USUAL, Conventions
from frame.technique.expression import (
    MOST_CHARACTERS,
    Calculation,
    Expected,
    ExpressionError,
    Sum,
    parse_calculation,
)
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.reading import RodsError, decimals, whole_digits


@dataclass(frozen=True, slots=True)
class Ways:
    """How a calculation is to be worked: the school's ways, the rods of the frame or None for as
    many as it takes, and the decimals of a product, quotient or root or None where not asked."""

    conventions: Conventions = USUAL
    rods: int | None = None
    places: int | None = None


MOST_SHOWN = 40
"""How many characters of what was found are shown."""


def worked(text: str, ways: Ways, words: Words) -> tuple[Calculation, Plan]:
    """The calculation that the user wrote, and its plan. Raises Refusal."""
    calculation = parsed(text, words)
    if ways.places is not None:
        if isinstance(calculation, Sum):
            facts = ("--places", str(calculation), words.text("cli.expected.rounded"))
            raise Refusal(*facts)
        calculation = replace(calculation, places=ways.places)
    return calculation, planned(calculation, ways.conventions, ways.rods, words)


def parsed(text: str, words: Words) -> Calculation:
    """The calculation that the user wrote. Raises Refusal."""
    try:
        calculation = parse_calculation(text)
    except ExpressionError as error:
        where = words.text("cli.column", number=error.where)
        place = None if error.expected is Expected.SHORTER else Place(text, error.where)
        raise Refusal(where, _found(error, words), _expected(error, words), place) from None
    digits = max(whole_digits(number) + decimals(number) for number in calculation.numbers)
    if digits > MOST_RODS:
        found = words.text("cli.number_of_digits", count=digits)
        raise _unfitting(found, words)
    return calculation


def _found(error: ExpressionError, words: Words) -> str:
    if error.expected is Expected.SHORTER:
        return words.text("cli.characters", count=int(error.found))
    if len(error.found) > MOST_SHOWN:
        return repr(error.found[:MOST_SHOWN] + "...")
    return repr(error.found) if error.found else words.text("cli.the_end")


def _expected(error: ExpressionError, words: Words) -> str:
    return words.text(f"cli.expected.{error.expected}", most=MOST_CHARACTERS)


def planned(
    calculation: Calculation, conventions: Conventions, rods: int | None, words: Words
) -> Plan:
    """The plan for the calculation on a cleared frame. Raises Refusal when it does not fit."""
    try:
        return plan_of(calculation, conventions, rods)
    except RodsError as error:
        found = words.text("cli.needs_rods", needed=error.needed, most=error.most)
        raise _unfitting(found, words) from None


def _unfitting(found: str, words: Words) -> Refusal:
    return Refusal(words.text("cli.expression"), found, words.text("cli.fitting", most=MOST_RODS))
