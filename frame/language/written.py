"""Words for the lines of written work: products, trial digits and their revision."""

from decimal import Decimal

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.technique.calculation import Calculation
from frame.technique.operation import Act, Operation

_SIGNS = {Act.ADD: "+", Act.TAKE: "−"}


_PRINTED = {" x ": " × ", " / ": " ÷ ", "sqrt ": "√", "-": "−"}


def written_out(calculation: Calculation) -> str:
    """The calculation with the signs that are used in print: "37 × 432", "√1764"."""
    text = str(calculation)
    for sign, printed in _PRINTED.items():
        text = text.replace(sign, printed)
    return text


def operation_text(operation: Operation, words: Words) -> str:
    """What a step is a part of: "set 38", "+47", "borrow 100", "7 × 4 = 28"."""
    if sign := _SIGNS.get(operation.act):
        return f"{sign}{grouped(operation.digits)}"
    facts: dict[str, str | int | Decimal] = {
        "digits": operation.digits,
        "number": operation.number,
        **_factors(operation),
    }
    return words.text(f"operation.{operation.act}", **facts)


def line_label(operation: Operation, words: Words) -> str:
    """What the digits of a line come from, as written beside them: "3 × 4", "31 ÷ 4"."""
    facts: dict[str, str | int | Decimal] = {"number": operation.number, **_factors(operation)}
    return words.text(_key("written", operation), **facts | _why(operation))


def work_line(operation: Operation, words: Words) -> Line:
    """What a line of work asks for, as a sentence: "27 does not hold 48: make the 6 a 5."."""
    facts: dict[str, Decimal] = {"number": operation.number, **_factors(operation)}
    return words.line(_key("work", operation), **facts | _why(operation))


def _key(section: str, operation: Operation) -> str:
    """The key of the words for a line; the first digit of a root is found otherwise than others,
    and a digit that is tried for no reason has none to tell."""
    if operation.act.is_trial and not operation.why:
        return f"{section}.tried"
    if operation.act.is_revision and not operation.why:
        return f"{section}.revised"
    is_first = operation.act is Act.ROOT and len(operation.why) == 1
    return f"{section}.{'first-root' if is_first else operation.act}"


def _why(operation: Operation) -> dict[str, Decimal]:
    """What decides a trial digit."""
    if not operation.why:
        return {}
    return {"here": operation.why[0], "there": operation.why[-1]}


def _factors(operation: Operation) -> dict[str, Decimal]:
    """The two factors of a product, or a digit before and after its revision."""
    return {
        name: Decimal(one) for name, one in zip(("one", "other"), operation.factors, strict=False)
    }
