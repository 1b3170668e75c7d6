"""What a learner attempted as a table for spreadsheets: comma-separated values by RFC 4180.

A spreadsheet works what begins as a formula, whoever wrote it. So a text that begins with a sign
that OWASP names under "CSV injection", in whatever width, with a true minus or with a mark ' gets a
mark ' before it; taken away, it gives the text back. A number stays one, also below zero, unless it
has more digits than a spreadsheet keeps. Sums have the signs that are used in print, for 8 - 5 or
3 / 4 might become a date.
"""

import csv
import re
from collections.abc import Iterable
from datetime import UTC, datetime
from decimal import Decimal
from typing import NamedTuple, TextIO

from frame.learner.answered import answered
from frame.learner.ids import uuid_of
from frame.learner.rows import Past
from frame.practice.log import Happening, Log
from frame.technique.reading import plain

GUARD = "'"
_FORMULA = tuple("=+-@＝＋－＠−\t\r\n" + GUARD)
_NUMBER = re.compile(r"-?([0-9]+)(?:\.([0-9]+))?")
_MOST_DIGITS = 15
_BETWEEN = "; "
"""Between several in a cell: with a space alone they might be read as one number."""

Value = str | int | float | Decimal | tuple[str, ...] | None


class Row(NamedTuple):
    """The columns."""

    at: str
    sitting: str
    number: int
    origin: str
    lesson: str
    kind: str
    exercise: str
    right_answer: Decimal | None
    remainder: Decimal | None
    answers: tuple[str, ...]
    ended: bool
    right: bool | None
    unaided: bool
    outcome: str | None
    helps: int
    slips: tuple[str, ...]
    looks: int
    seconds: float
    strokes: int | None
    rung: str
    rods: int
    asked: str
    own: bool
    pace: float
    digits: int
    terms: int
    places: int | None
    facts: tuple[str, ...]


def write_table(file: TextIO, attempts: Iterable[Past]) -> int:
    """A head and a row for each attempt go to a file; how many those are."""
    table = csv.writer(file, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    table.writerow(Row._fields)
    count = 0
    for past in attempts:
        table.writerow(map(cell, row_of(past)))
        count += 1
    return count


def row_of(past: Past) -> Row:
    """The row of an attempt. One that was left is neither right nor wrong."""
    asked = answered(past)
    return Row(
        in_utc(past.at), str(uuid_of(past.sitting) or past.sitting), past.number, past.origin,
        past.lesson, past.kind, asked.printed, asked.right, asked.rest, past.answers, past.ended,
        past.right if past.ended else None, past.unaided, past.outcome, past.helps, past.slips,
        past.looks, past.seconds, strokes_in(past.log), past.rung, past.rods, past.asked, past.own,
        past.pace, past.digits, past.terms, past.decimals, tuple(sorted(past.facts)),
    )  # fmt: skip


def in_utc(at: str) -> str:
    """A time of the record in UTC, with a Z behind it."""
    return datetime.fromisoformat(at).astimezone(UTC).isoformat().replace("+00:00", "Z")


def strokes_in(log: Log) -> int | None:
    """How many strokes were made, also those that did not stay; None without a log."""
    return sum(one.what is Happening.STROKE for one in log.entries) if log.entries else None


def cell(value: Value) -> str:
    """A value as it stands in the table; yes is 1 and no is 0."""
    match value:
        case None:
            return ""
        case str():
            return _safe(value)
        case tuple():
            return _safe(_BETWEEN.join(value))
        case Decimal():
            return _safe(plain(value))
        case _:
            return plain(Decimal(str(+value)))


def _safe(text: str) -> str:
    number = _NUMBER.fullmatch(text)
    if number:
        is_kept = len("".join(number.groups(""))) <= _MOST_DIGITS
    else:
        is_kept = not text.startswith(_FORMULA)
    return text if is_kept else GUARD + text
