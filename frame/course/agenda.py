"""What a tutor prepared for the board: a list of items, from YAML or from a pasted column."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from itertools import accumulate
from pathlib import Path

from frame.course.checker import can_be_worked, fits
from frame.course.draft import read_file
from frame.course.fields import MOST_IN_LINE, Fields, fields_of, report_kind
from frame.course.lesson import Mark
from frame.course.loader import LESSON_KEYS, MOST_IN_TITLE, MOST_PLACES, PACES, USUAL_PACE
from frame.course.nodes import MOST_BYTES, Node, Table, Word, read_nodes
from frame.course.problems import LessonError, Problem, Report
from frame.practice.columns import MOST_CALLED_DIGITS, MOST_ROWS
from frame.practice.exercises import Exercise, Kind
from frame.practice.flashing import DIGITS
from frame.practice.rungs import Asked
from frame.technique.beads import MOST_RODS
from frame.technique.expression import Calculation, ExpressionError, Sum, parse_calculation
from frame.technique.reading import decimals, plain, whole_digits


class Task(StrEnum):
    """What is done with an item on the board."""

    SHOW = "show"
    READ = "read"
    CALL = "call"
    FLASH = "flash"


MOST_ITEMS = 100
MOST_IN_NUMBER = {Task.CALL: MOST_CALLED_DIGITS, Task.FLASH: DIGITS[1]}
"""How many digits a called or flashed number has at most."""
MOST_SIGNS = 300
"""How long a sum for the board is at most: fifteen numbers of sixteen digits."""

SUFFIXES = (".yaml", ".yml")
"""How the names of agendas end."""
SUMS = ".txt"
"""How the name of a file ends that is known to hold a column of sums."""
AGENDA_KEYS = ("board", "items")
ITEM_KEYS = {
    Task.SHOW: ("say", "rods", "places", "trial"),
    Task.READ: ("say", "rods"),
    Task.CALL: ("say", "pace", "rods"),
    Task.FLASH: ("say", "pace", "rods"),
}

_FIRST = Mark(1, 1)
_ASKED = {Task.CALL: Asked.CALLED, Task.FLASH: Asked.FLASHED}
_ACTS = tuple(act.value for act in Task)
_BREAK = re.compile(r"\r\n|\n|\r")
_RULE = re.compile(r"[-−–—─━]{2,}|[=═]+|_+")
"""A line drawn under a column."""
_SPACED = re.compile(
    r"(?<![0-9.,'’])(?<![0-9] )[1-9][0-9]{0,2}(?: [0-9]{3})+(?![0-9,'’])(?! [0-9])"
)
"""A number in groups of three with spaces between them."""
_OWN_WORDING = {"empty": "agenda-empty", "documents": "agenda-documents"}
"""Problems of any file that are told otherwise of an agenda than of a lesson."""


@dataclass(frozen=True, slots=True)
class Item:
    """One thing for the board. For READ the sum is a column of the one number.

    `pace` is, in seconds, the gap between called numbers, or how long a flashed number takes.
    Without `rods` the frame has as many as the work needs. `trial` is the digit that is tried
    first, 0 for the one of the technique. `line` is a sentence of the tutor's own to show.
    """

    act: Task
    sum: Calculation
    pace: float = USUAL_PACE
    rods: int | None = None
    trial: int = 0
    line: str = ""

    def __str__(self) -> str:
        return str(self.sum)


@dataclass(frozen=True, slots=True)
class Agenda:
    """Items in their order, under a title. The work of each fits its rods."""

    title: str
    items: tuple[Item, ...]


def read_agenda(content: str | bytes, name: str) -> tuple[Agenda | None, tuple[Problem, ...]]:
    """As much of an agenda as can be read, and the problems; None where it has neither a title
    nor an item. `name` is the file's name in problems."""
    report = Report(name)
    root = read_nodes(content, report)
    agenda = None if root is None else _agenda(root, report)
    return agenda, tuple(
        replace(one, code=_OWN_WORDING.get(one.code, one.code)) for one in report.problems
    )


def is_agenda(content: str | bytes) -> bool:
    """Whether a file is meant for the board and not for learners: more of its keys are those of
    an agenda than of a lesson."""
    root = read_nodes(content, Report(""))
    keys = [key.text for key, _ in root.pairs] if isinstance(root, Table) else []
    of_agenda, of_lesson = (sum(key in of for key in keys) for of in (AGENDA_KEYS, LESSON_KEYS))
    return of_agenda > of_lesson


def load_items(path: Path) -> tuple[Item, ...]:
    """The items of a file: an agenda where its name ends as those of YAML do, else a column of
    sums. Raises LessonError with every problem of it."""
    items, problems = read_items(path, str(path))
    if problems:
        raise LessonError(problems)
    return items


def read_items(path: Path, name: str) -> tuple[tuple[Item, ...], tuple[Problem, ...]]:
    """The items of such a file that can be used, and the problems, under the file's name."""
    try:
        content = read_file(path)
    except LessonError as error:
        return (), tuple(replace(one, file=name) for one in error.problems)
    if path.suffix.lower() in SUFFIXES:
        agenda, problems = read_agenda(content, name)
        return agenda.items if agenda else (), problems
    return read_sums(content, name)


def read_sums(content: bytes, name: str) -> tuple[tuple[Item, ...], tuple[Problem, ...]]:
    """The items of a file with a column of sums, and the problems, under the file's name; one
    without an item is a problem too."""
    items, problems = items_of(content.decode("utf-8", "replace"))
    if not items and not problems:
        problems = (Problem(name, 1, 1, "no-sums"),)
    return items, tuple(replace(one, file=name) for one in problems)


def items_of(text: str) -> tuple[tuple[Item, ...], tuple[Problem, ...]]:
    """The items of a pasted column, one sum a line, and the problems, of a file without a name.

    Blank lines are skipped, and lines drawn under the column; a number alone is to be read.
    """
    report = Report("")
    if len(text) > MOST_BYTES:
        report.add(_FIRST, "size", most=MOST_BYTES)
        return (), report.problems
    lines = _filled(text)
    nodes = [_of_line(line, at) for at, line in lines[: MOST_ITEMS + 1]]
    return _items(nodes, len(lines), report), report.problems


def _filled(text: str) -> list[tuple[int, str]]:
    """The lines with something in them and their numbers, but for those drawn at the end."""
    lines = enumerate(_BREAK.split(text.removeprefix("\ufeff")), 1)
    filled = [(at, line) for at, line in lines if line.strip()]
    while filled and _RULE.fullmatch("".join(filled[-1][1].split())):
        filled.pop()
    return filled


def is_column(text: str) -> bool:
    """Whether a text is nothing but numbers, one a line, two or more, with or without signs: it
    can be meant as one sum, `as_sum`, or as a list of numbers to be read, `items_of`."""
    return len(column_of(text)) > 1


def as_sum(text: str) -> tuple[tuple[Item, ...], tuple[Problem, ...]]:
    """A column as one sum to be shown, or the problems, as `items_of` has them."""
    return items_of(str(Sum(column_of(text))))


def column_of(text: str) -> tuple[Decimal, ...]:
    """The numbers of a text that is nothing else; none of any other, nor of a text with more lines
    than any sum for the board has signs."""
    lines = _filled(text) if len(text) <= MOST_BYTES else []
    if len(lines) > MOST_SIGNS:
        return ()
    numbers = [_number_alone(_of_groups(line.strip())) for _, line in lines]
    return () if None in numbers else tuple(map(Decimal, filter(None, numbers)))


def _of_line(line: str, at: int) -> Table:
    """A line as the item that a file would have for it."""
    text = _of_groups(line.strip())
    mark = Mark(at, len(line) - len(line.lstrip()) + 1)
    number = _number_alone(text)
    act = Task.SHOW if number is None else Task.READ
    return Table(((Word(act, mark, True), Word(number or text, mark, True)),), mark)


def _of_groups(text: str) -> str:
    """The text with spaces between groups of three digits as they are in print; each sign keeps its
    place."""
    return _SPACED.sub(lambda number: number[0].replace(" ", "\u202f"), text)


def _number_alone(text: str) -> str | None:
    """The number in plain digits where a text is nothing else."""
    try:
        calculation = parse_calculation(text)
    except ExpressionError:
        return None
    is_alone = isinstance(calculation, Sum) and len(calculation.terms) == 1
    return plain(calculation.numbers[0]) if is_alone else None


def _agenda(root: Node, report: Report) -> Agenda | None:
    keys = [key for key, _ in root.pairs] if isinstance(root, Table) else []
    if lesson := next((key for key in keys if key.text == "lesson"), None):
        report.add(lesson.mark, "agenda-lesson")
        return None
    fields = fields_of(root, report, AGENDA_KEYS)
    if fields is None:
        return None
    fields.require(*AGENDA_KEYS)
    title = fields.text("board", MOST_IN_TITLE)
    nodes = fields.items("items", "items")
    items = _items(nodes, len(nodes), report)
    return Agenda(title or "", items) if title or items else None


def _items(nodes: Sequence[Node], count: int, report: Report) -> tuple[Item, ...]:
    """The items that can be used; `nodes` may be cut behind the first of `count` that is too many,
    since a pasted text can have a hundred thousand lines."""
    if count > MOST_ITEMS:
        mark = nodes[MOST_ITEMS].mark
        report.add(mark, "agenda-items", count=count, most=MOST_ITEMS)
    items = (_item(node, report) for node in nodes[:MOST_ITEMS])
    return tuple(item for item in items if item)


def _item(node: Node, report: Report) -> Item | None:
    if not isinstance(node, Table) or not node.pairs:
        report_kind(report, node, "item")
        return None
    first, *others = (key for key, _ in node.pairs)
    late = next((key for key in others if key.text in _ACTS), None)
    if late and first.text not in _ACTS:
        report.add(late.mark, "agenda-late", found=late.text, first=first.text)
        return None
    if first.text not in _ACTS:
        report.add_unknown(first.mark, "agenda-act", first.text, _ACTS)
        return None
    act = Task(first.text)
    return _read(act, Fields(node, report, (act, *ITEM_KEYS[act])))


def _read(act: Task, fields: Fields) -> Item | None:
    rods = fields.number("rods", 1, MOST_RODS)
    trial = fields.number("trial", 1, 9) if act is Task.SHOW else None
    pace = fields.seconds("pace", *PACES[_ASKED[act]]) if act in _ASKED else None
    line = fields.text("say", MOST_IN_LINE)
    calculation = _calculation(act, fields)
    if calculation is None:
        return None
    item = Item(act, calculation, pace or USUAL_PACE, rods, trial or 0, line or "")
    return item if _is_usable(item, fields.value_mark(act), fields.report) else None


def _calculation(act: Task, fields: Fields) -> Calculation | None:
    if act is not Task.READ:
        return fields.calculation(act, MOST_PLACES, MOST_SIGNS)
    number = fields.decimal(act, 0, 10**MOST_RODS - 1)
    return None if number is None else Sum((number,))


def _is_usable(item: Item, mark: Mark, report: Report) -> bool:
    """Whether an item can be presented as it asks, on its rods."""
    rods = item.rods or MOST_RODS
    if item.act is Task.READ:
        return fits(item.sum.numbers[0], rods, mark, report)
    if item.act in MOST_IN_NUMBER and not _is_column(item, mark, report):
        return False
    return can_be_worked(Exercise(Kind.SUM, item.sum, rods=rods, trial=item.trial), mark, report)


def _is_column(item: Item, mark: Mark, report: Report) -> bool:
    """Whether numbers can be called or flashed: few, whole, short, and never below zero."""
    found, numbers, most = str(item), item.sum.numbers, MOST_IN_NUMBER[item.act]
    if not isinstance(item.sum, Sum):
        report.add(mark, "asked-column", found=found)
    elif len(numbers) > MOST_ROWS:
        report.add(mark, "agenda-terms", count=len(numbers), most=MOST_ROWS)
    elif broken := next(filter(decimals, numbers), None):
        report.add(mark, "agenda-whole", found=plain(broken))
    elif long := next((one for one in numbers if whole_digits(one) > most), None):
        report.add(mark, "agenda-digits", found=plain(long), most=most)
    elif any(total < 0 for total in accumulate(numbers)):
        report.add(mark, "agenda-below", found=found)
    else:
        return True
    return False
