"""From what the user wrote to a sum and its plan; every error is a refusal."""

from frame.commands.output import Refusal
from frame.language.catalogue import Words
from frame.technique.addition import plan_sum
from frame.technique.beads import MOST_RODS
from frame.technique.expression import ExpressionError, Sum, parse_sum
from frame.technique.plan import Conventions, Plan
from frame.technique.reading import NumberError, decimals, whole_digits

_OTHER_OPERATIONS = ("'×'", "'÷'", "'*'", "'/'", "'x'", "'X'", "':'", "'√'", "'·'")


def parsed(text: str, words: Words) -> Sum:
    """The sum that the user wrote. Raises Refusal."""
    try:
        column = parse_sum(text)
    except ExpressionError as error:
        where = words.text("cli.column", number=error.where)
        other = error.found in _OTHER_OPERATIONS
        expected = words.text("cli.only_sums") if other else error.expected
        raise Refusal(where, error.found, expected) from None
    digits = max(whole_digits(term) + decimals(term) for term in column.terms)
    if digits > MOST_RODS:
        found = words.text("cli.number_of_digits", count=digits)
        raise Refusal(words.text("cli.expression"), found, words.text("cli.fitting"))
    return column


def planned(column: Sum, conventions: Conventions, rods: int | None, words: Words) -> Plan:
    """The plan for the sum on a cleared frame. Raises Refusal when it does not fit."""
    try:
        return plan_sum(column.terms, conventions, rods)
    except NumberError as error:
        raise Refusal(words.text("cli.expression"), str(error), words.text("cli.fitting")) from None
