"""Sums as they are printed: "37 × 432", "3,588 ÷ 46", "√1,764", "38 + 47 − 5"; and as they are
heard."""

from decimal import Decimal

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.technique.expression import Calculation, Product, Quotient, Root, Sum
from frame.technique.reading import plain


def printed_parts(calculation: Calculation, words: Words) -> tuple[str, ...]:
    """A calculation in parts: each number with the sign before it, and to what it is rounded."""
    match calculation:
        case Sum(terms):
            return tuple(signed(term, is_first=not at) for at, term in enumerate(terms))
        case Product(one, other):
            parts: tuple[str, ...] = (printed(one), f"× {_second(other)}")
        case Quotient(one, other):
            parts = printed(one), f"÷ {_second(other)}"
        case Root(one):
            parts = (f"√{printed(one)}",)
    return (*parts, *_rounding(calculation, words))


def printed_sum(calculation: Calculation, words: Words) -> str:
    """A calculation in one line."""
    return " ".join(printed_parts(calculation, words))


def column_heard(column: Sum, words: Words) -> str:
    """The numbers of a column to be heard one after another."""
    first, *others = column.terms
    said = [words.line("lesson.number", number=first)]
    for term in others:
        sign = words.line("rule.minus" if term < 0 else "rule.plus", number=abs(term))
        said.append(words.line("rule.sentence", said=sign))
    return " ".join(line.speak for line in said)


def operation_line(calculation: Product | Quotient | Root, words: Words) -> Line:
    """A product, a quotient or a root, as a sentence."""
    match calculation:
        case Product(one, other):
            return words.line("lesson.product", one=one, other=other)
        case Quotient(one, other):
            return words.line("lesson.quotient", one=one, other=other)
        case Root(one):
            return words.line("lesson.root", one=one)


def sum_line(calculation: Calculation, words: Words) -> Line:
    """A calculation, printed and to be heard."""
    if isinstance(calculation, Sum):
        heard = column_heard(calculation, words)
    else:
        heard = operation_line(calculation, words).speak
    return Line(printed_sum(calculation, words), heard)


def printed(number: Decimal) -> str:
    """A number in groups of three, with a true minus."""
    return grouped(plain(number))


def signed(term: Decimal, *, is_first: bool = False) -> str:
    """A number of a column with its sign; the first has none unless it is below zero."""
    if is_first:
        return printed(term)
    return f"{'−' if term < 0 else '+'} {printed(abs(term))}"


def _second(number: Decimal) -> str:
    return f"({printed(number)})" if number < 0 else printed(number)


def _rounding(calculation: Product | Quotient | Root, words: Words) -> tuple[str, ...]:
    if calculation.places is None:
        return ()
    unit = Decimal(1).scaleb(-calculation.places)
    return (words.text("lesson.nearest", number=plain(unit)),)
