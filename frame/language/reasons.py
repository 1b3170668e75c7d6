"""Sentences for why a step is done."""

from decimal import Decimal

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.written import work_line
from frame.technique.operation import Operation
from frame.technique.reasons import Reason, Why, of_place

_NAMES = {
    Why.FAR: ("here", "there"),
    Why.NEAR: ("here", "there"),
    Why.ONES: ("rod",),
    Why.PRODUCT_PLACE: ("one", "other", "digit"),
    Why.OUTGROWN: ("before",),
    Why.READS_BELOW: ("shown", "below", "owed"),
}


def led_line(line: Operation, words: Words) -> Line:
    """What a line of work asks for; of the first digit of a quotient also why it stands there."""
    asked = work_line(line, words)
    if not line.place:
        return asked
    return words.line("verdict.then", what=reason_line(of_place(line), words), act=asked)


def reason_line(reason: Reason, words: Words) -> Line:
    """The reason as a sentence: "38 does not hold 68: one rod left of it."."""
    if reason.why is Why.LINE:
        return work_line(reason.line, words)
    facts: dict[str, Decimal] = {"number": reason.line.number}
    facts |= dict(zip(_NAMES.get(reason.why, ()), reason.numbers, strict=True))
    return words.line(f"reason.{reason.why}", **facts)
