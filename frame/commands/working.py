"""From what the user wrote to a sum and its plan; every error is a refusal."""

from frame.commands.output import Refusal
from frame.language.catalogue import Words
from frame.technique.addition import plan_sum
from frame.technique.beads import MOST_RODS
from frame.technique.expression import MOST_CHARACTERS, Expected, ExpressionError, Sum, parse_sum
from frame.technique.plan import Conventions, Plan
from frame.technique.reading import RodsError, decimals, whole_digits

_OTHER_OPERATIONS = frozenset("×÷*/xX:√·")


def parsed(text: str, words: Words) -> Sum:
    """The sum that the user wrote. Raises Refusal."""
    try:
        column = parse_sum(text)
    except ExpressionError as error:
        where = words.text("cli.column", number=error.where)
        raise Refusal(where, _found(error, words), _expected(error, words)) from None
    digits = max(whole_digits(term) + decimals(term) for term in column.terms)
    if digits > MOST_RODS:
        found = words.text("cli.number_of_digits", count=digits)
        raise Refusal(words.text("cli.expression"), found, words.text("cli.fitting"))
    return column


def _found(error: ExpressionError, words: Words) -> str:
    if error.expected is Expected.SHORTER:
        return words.text("cli.characters", count=int(error.found))
    return repr(error.found) if error.found else words.text("cli.the_end")


def _expected(error: ExpressionError, words: Words) -> str:
    if error.expected is Expected.SHORTER:
        return words.text("cli.at_most_characters", count=MOST_CHARACTERS)
    if error.expected is Expected.NUMBER:
        return words.text("cli.a_number")
    if error.found in _OTHER_OPERATIONS:
        return words.text("cli.only_sums")
    return words.text("cli.a_operation")


def planned(column: Sum, conventions: Conventions, rods: int | None, words: Words) -> Plan:
    """The plan for the sum on a cleared frame. Raises Refusal when it does not fit."""
    try:
        return plan_sum(column.terms, conventions, rods)
    except RodsError as error:
        found = words.text("cli.needs_rods", needed=error.needed, most=error.most)
        raise Refusal(words.text("cli.expression"), found, words.text("cli.fitting")) from None
