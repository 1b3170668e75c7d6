"""Fields of a table in a lesson file: each taken as what the format asks, or reported."""

import re
from collections.abc import Collection, Sequence
from dataclasses import replace
from decimal import Decimal

from frame.course.lesson import Line, Mark
from frame.course.nodes import Listing, Node, Refused, Table, Word
from frame.course.problems import Report
from frame.technique.expression import (
    Calculation,
    Expected,
    ExpressionError,
    Sum,
    parse_calculation,
)
from frame.technique.facts import ALL_FACTS

MOST_IN_LINE = 90
MOST_IN_SUM = 300
"""Characters of a column of fifteen numbers of sixteen digits, with a little room."""
MOST_IN_ID = 60
MOST_IN_NUMBER = 40

_SECONDS = re.compile(r"(0|[1-9][0-9]*)(\.[0-9]{1,2})?")
_SIGNED = re.compile(r"-(0|[1-9][0-9]*)(\.[0-9]+)?|(0|[1-9][0-9]*)\.[0-9]+")
"""A number that is below zero or has a point; whole ones are looked at more closely."""
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_UNDEFINED = {Expected.NOT_ZERO: "divisor", Expected.NOT_NEGATIVE: "root"}
"""The problems of what is written like a calculation and comes to nothing."""
# A hyphen within a word is spoken as it is; any other is a minus.
_UNSPEAKABLE = re.compile(r"[0-9+−=×÷]|(?<![^\W\d])-|-(?![^\W\d])")


class Fields:
    """The fields of one table. What is wrong with one is reported and it counts as absent."""

    def __init__(self, table: Table, report: Report, known: Sequence[str]) -> None:
        self.mark = table.mark
        self.report = report
        self._values = {key.text: value for key, value in table.pairs}
        self._marks = {key.text: key.mark for key, _ in table.pairs}
        for key, _ in table.pairs:
            if key.text not in known:
                report.add_unknown(key.mark, "unknown-key", key.text, known)

    def __contains__(self, key: str) -> bool:
        return key in self._values

    def mark_of(self, key: str) -> Mark:
        """The place of a key, or of the table where it has none such."""
        return self._marks.get(key, self.mark)

    def value_mark(self, key: str) -> Mark:
        """The place of the value of a key that is there."""
        return self._values[key].mark

    def require(self, *keys: str) -> bool:
        """Whether every key is there; each that is not is reported."""
        missing = [key for key in keys if key not in self._values]
        for key in missing:
            self.report.add(self.mark, "missing-key", key=key)
        return not missing

    def word(self, key: str, wanted: str) -> Word | None:
        """The value as a word that is not empty, or None."""
        return self._word(self._values.get(key), wanted)

    def text(self, key: str, most: int, wanted: str = "sentence") -> str | None:
        """The value as a text of at most so many characters, or None."""
        word = self.word(key, wanted)
        if word is None:
            return None
        text = " ".join(word.text.split())
        if len(text) > most:
            self.report.add(word.mark, "long", count=len(text), most=most)
        return text

    def id(self, key: str) -> str | None:
        """The value as an id, or None."""
        word = self.word(key, "id")
        if word is None:
            return None
        if len(word.text) > MOST_IN_ID or not _ID.fullmatch(word.text):
            self.report.add(word.mark, "id", found=word.text)
            return None
        return word.text

    def one_of(self, key: str, choice: Collection[str]) -> str | None:
        """The value as one word of the choice, or None."""
        word = self.word(key, "word")
        return None if word is None else self._chosen(word, "unknown-word", choice)

    def items(self, key: str, wanted: str, may_be_empty: bool = False) -> tuple[Node, ...]:
        """The nodes of the list at a key; none where there is no list."""
        listing = self._values.get(key)
        if isinstance(listing, Listing) and (listing.items or may_be_empty):
            return listing.items
        if listing is not None:
            report_kind(self.report, listing, wanted)
        return ()

    def table(self, key: str, known: Sequence[str]) -> "Fields | None":
        """The fields of the table at a key, or None."""
        return fields_of(self._values[key], self.report, known)

    def facts(self, key: str, may_be_empty: bool = True) -> dict[str, Mark]:
        """The facts in the list at a key, each with its place; none where there is no list."""
        found: dict[str, Mark] = {}
        for item in self.items(key, "facts", may_be_empty):
            word = self._word(item, "fact")
            if word is None or self._chosen(word, "unknown-fact", ALL_FACTS) is None:
                continue
            if word.text in found:
                self.report.add(word.mark, "twice", found=word.text, line=found[word.text].line)
            found.setdefault(word.text, word.mark)
        return found

    def words(self, key: str, choice: Collection[str], most: int) -> tuple[str, ...]:
        """The words of the choice in the list at a key, at most so many."""
        items = self.items(key, "names")
        if len(items) > most:
            self.report.add(items[most].mark, "many", count=len(items), most=most)
        words = (self._word(item, "word") for item in items[:most])
        chosen = (self._chosen(word, "unknown-word", choice) for word in words if word)
        return tuple(filter(None, chosen))

    def number(self, key: str, least: int, most: int, code: str = "number") -> int | None:
        """The value as a whole number from `least` to `most`, or None; `code` is the problem of
        what is no number."""
        word = self.word(key, "number")
        if word is None:
            return None
        digits = word.text
        if not (digits.isascii() and digits.isdigit()):
            self.report.add(word.mark, code, found=digits)
        elif digits != "0" and digits.startswith("0"):
            plain = digits.lstrip("0") or "0"
            self.report.add(word.mark, "zeros", found=digits, nearest=plain)
        elif len(digits) > len(str(most)) or not least <= int(digits) <= most:
            self.report.add(word.mark, "range", found=digits, least=least, most=most)
        else:
            return int(digits)
        return None

    def decimal(self, key: str, least: int, most: int) -> Decimal | None:
        """The value as a number from `least` to `most`, such as 12, 3.5 or -4, or None."""
        word = self.word(key, "number")
        if word is None:
            return None
        if not _SIGNED.fullmatch(word.text):
            whole = self.number(key, least, most, "decimal")
            return None if whole is None else Decimal(whole)
        if len(word.text) <= MOST_IN_NUMBER and least <= (number := Decimal(word.text)) <= most:
            return number
        self.report.add(word.mark, "range", found=word.text, least=least, most=most)
        return None

    def seconds(self, key: str, least: Decimal, most: Decimal) -> float | None:
        """The value as seconds from `least` to `most`, such as 1.5, or None."""
        word = self.word(key, "number")
        if word is None:
            return None
        if _SECONDS.fullmatch(word.text) and least <= Decimal(word.text) <= most:
            return float(word.text)
        self.report.add(word.mark, "seconds", found=word.text, least=str(least), most=str(most))
        return None

    def calculation(
        self, key: str, most_places: int, most_signs: int = MOST_IN_SUM
    ) -> Calculation | None:
        """The value as a column of two or more numbers, a product, a quotient or a root, or None.
        A quotient or root with `places` is rounded to so many decimals."""
        word = self.word(key, "sum")
        if word is None:
            return None
        if len(word.text) > most_signs:
            self.report.add(word.mark, "long", count=len(word.text), most=most_signs)
            return None
        try:
            calculation = parse_calculation(word.text)
        except ExpressionError as error:
            shift = error.where - 1 if word.is_plain else 0
            mark = Mark(word.mark.line, word.mark.column + shift)
            self.report.add(mark, _UNDEFINED.get(error.expected, "sum"), found=word.text)
            return None
        if isinstance(calculation, Sum):
            if len(calculation.terms) < 2:
                self.report.add(word.mark, "sum", found=word.text)
                return None
            if "places" in self:
                self.report.add(self.mark_of("places"), "places", found=word.text)
            return calculation
        places = self.number("places", 0, most_places) if "places" in self else None
        return replace(calculation, places=places)

    def line(self) -> Line | None:
        """The sentence of `say` and `speak`, or None where there is none."""
        spoken = self.text("speak", 2 * MOST_IN_LINE)
        if "say" not in self:
            if "speak" in self:
                self.report.add(self.mark_of("speak"), "speak-alone")
            return None
        shown = self.text("say", MOST_IN_LINE)
        if shown is None:
            return None
        if "speak" not in self and (sign := _UNSPEAKABLE.search(shown)):
            self.report.add(self.mark_of("say"), "speak", found=sign[0])
        return Line(shown, spoken or shown)

    def _word(self, node: Node | None, wanted: str) -> Word | None:
        if node is None or isinstance(node, Refused):
            return None
        if isinstance(node, Word) and node.text.strip():
            return node
        report_kind(self.report, node, wanted)
        return None

    def _chosen(self, word: Word, code: str, choice: Collection[str]) -> str | None:
        if word.text in choice:
            return word.text
        self.report.add_unknown(word.mark, code, word.text, choice)
        return None


def fields_of(node: Node, report: Report, known: Sequence[str]) -> Fields | None:
    """The fields of a node that is a table, or None."""
    if isinstance(node, Table):
        return Fields(node, report, known)
    report_kind(report, node, "table")
    return None


def report_kind(report: Report, node: Node, wanted: str) -> None:
    """A node that is of another kind than the one wanted is reported; one refused is not."""
    if not isinstance(node, Refused):
        report.add(node.mark, "kind", kind=_kind(node), wanted=wanted)


def _kind(node: Node) -> str:
    if isinstance(node, Listing):
        return "list" if node.items else "empty-list"
    if isinstance(node, Table):
        return "table"
    return "words" if isinstance(node, Word) and node.text.strip() else "nothing"
