"""Published grades: what their papers hold, what is enough, and where each of it is from."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import pairwise, product
from pathlib import Path
from typing import NamedTuple

from frame.resources import GRADES
from frame.sheets.recipe import Part
from frame.sheets.sheet import Way
from frame.sheets.table import Range, Table, TableError

__all__ = ["TableError", "grade", "grades", "load_grades"]


class DigitsAre(StrEnum):
    """Who says how long the numbers of a grade are: the source, or we."""

    GIVEN = "given"
    OURS = "ours"


class How(StrEnum):
    """Why a cell is not exactly given: it is OURS, for no source gives it; DERIVED from what is
    given; DOUBTFUL; or sources are in CONFLICT."""

    OURS = "ours"
    DERIVED = "derived"
    DOUBTFUL = "doubtful"
    CONFLICT = "conflict"


class Doubt(NamedTuple):
    """A cell of a row that is not exactly given, "products.split" say, and a note on it."""

    cell: str
    how: How
    note: str


@dataclass(frozen=True, slots=True)
class Columns:
    """So many columns of `rows` numbers with so many digits each, and `characters` in all rows
    together. With `minus` numbers are taken away; the answers of `below_zero` of the columns are
    below zero."""

    count: int
    rows: int
    digits: Range
    characters: int
    minus: bool = False
    below_zero: int = 0


@dataclass(frozen=True, slots=True)
class Pairs:
    """So many products, or quotients: factor and multiplier, or divisor and quotient, have
    `digits` together, and so many each."""

    count: int
    digits: int
    first: Range
    second: Range

    @property
    def splits(self) -> tuple[tuple[int, int], ...]:
        """The digits of the first number and of the second, in all ways there are."""
        firsts, seconds = (range(one.least, one.most + 1) for one in (self.first, self.second))
        return tuple(one for one in product(firsts, seconds) if sum(one) == self.digits)


@dataclass(frozen=True, slots=True)
class GradedSection:
    """A section of a paper: its tasks, one stretch after the other, each task with so many marks.
    `minutes` and `pass_marks` hold for the section by itself, 0 where there are none."""

    part: Part
    marks: int
    stretches: tuple[Columns | Pairs, ...]
    minutes: int = 0
    pass_marks: int = 0

    @property
    def count(self) -> int:
        """How many tasks it has."""
        return sum(stretch.count for stretch in self.stretches)

    @property
    def full_marks(self) -> int:
        """The marks of all its tasks."""
        return self.marks * self.count


class Rank(NamedTuple):
    """A rank of a dan, and the marks in each event that are enough for it."""

    name: str
    marks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A published grade, one row of the table. `minutes` and `pass_marks` are those of the whole
    paper, 0 where it is passed section by section. `paper` is the grade whose paper it is: its own,
    or another's that the marks alone part it from. `ranks` rise; a kyu has none."""

    id: str
    body: str
    way: Way
    source: str
    digits_are: DigitsAre
    minutes: int
    pass_marks: int
    sections: tuple[GradedSection, ...]
    paper: str
    ranks: tuple[Rank, ...]
    uncertain: tuple[Doubt, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """The parts there are of its paper."""
        return (Part.WHOLE, *dict.fromkeys(one.part for one in self.sections), Part.WARM_UP)

    @property
    def full_marks(self) -> int:
        """The marks of all tasks."""
        return sum(section.full_marks for section in self.sections)


def grade(name: str) -> Grade:
    """The grade with this id. Raises KeyError where there is none."""
    return grades()[name]


@cache
def grades() -> dict[str, Grade]:
    """All grades by their ids, the easiest of each examination first."""
    return load_grades(GRADES)


def load_grades(path: Path) -> dict[str, Grade]:
    """The grades of a file. Raises TableError, which names the place."""
    file = Table.of_file(path)
    file.only("examination", "grade", "ranks")
    rows = dict(file.named("grade"))
    return {name: _grade(name, rows, file) for name in rows}


_OF_ANY = ("paper", "pass_marks", "uncertain")
_OF_OWN_PAPER = ("examination", "digits_are", "minutes", "sections", "ranks")


def _grade(name: str, rows: dict[str, Table], file: Table) -> Grade:
    row = rows[name]
    shared = row.text("paper") if "paper" in row else name
    row.only(*_OF_ANY, *(_OF_OWN_PAPER if shared == name else ()))
    if shared not in rows or (shared != name and "paper" in rows[shared]):
        raise row.error(f"is {shared!r}; expected a grade with a paper of its own", "paper")
    paper = rows[shared]
    examination = file.table("examination").table(paper.text("examination"))
    examination.only("body", "way", "source")
    made = Grade(
        id=name,
        body=examination.text("body"),
        way=examination.name("way", Way),
        source=examination.text("source"),
        digits_are=paper.name("digits_are", DigitsAre),
        minutes=paper.number("minutes"),
        pass_marks=row.number("pass_marks", 0),
        sections=tuple(map(_section, paper.tables("sections"))),
        paper=shared,
        ranks=_ranks(paper, file),
        uncertain=_doubts(row, paper),
    )
    _check(made, row)
    return made


def _section(table: Table) -> GradedSection:
    table.only("part", "marks", "minutes", "pass_marks", "tasks")
    part = table.name("part", Part)
    if part not in FIELDS:
        raise table.error(f"is {part.value!r}; expected one of {', '.join(FIELDS)}", "part")
    read = _columns if part is Part.COLUMNS else _pairs
    section = GradedSection(
        part,
        table.number("marks"),
        tuple(map(read, table.tables("tasks"))),
        table.number("minutes", 0),
        table.number("pass_marks", 0),
    )
    if not section.stretches:
        raise table.error("are missing", "tasks")
    if section.pass_marks > section.full_marks:
        raise table.error(f"is more than all its marks, {section.full_marks}", "pass_marks")
    return section


def _columns(table: Table) -> Columns:
    table.only("count", "rows", "digits", "characters", "minus", "below_zero")
    columns = Columns(
        table.number("count"),
        table.number("rows"),
        table.range("digits"),
        table.number("characters"),
        table.truth("minus"),
        table.number("below_zero", 0),
    )
    least, most = (columns.rows * digits for digits in columns.digits)
    if not Range(least, most).holds(columns.characters):
        raise table.error(f"do not fit; its rows have {least} to {most}", "characters")
    if columns.below_zero > (columns.count if columns.minus else 0):
        raise table.error("is more than the columns with minus", "below_zero")
    return columns


def _pairs(table: Table) -> Pairs:
    table.only("count", "digits", "first", "second")
    digits = table.number("digits")
    first, second = (
        table.range(key) if key in table else Range(1, digits - 1) for key in ("first", "second")
    )
    pairs = Pairs(table.number("count"), digits, first, second)
    if not pairs.splits:
        raise table.error("cannot be split so", "digits")
    return pairs


def _ranks(paper: Table, file: Table) -> tuple[Rank, ...]:
    if "ranks" not in paper:
        return ()
    marks = file.table("ranks").table(paper.text("ranks"))
    ranks = tuple(Rank(name, marks.number(name)) for name in marks)
    if any(after.marks <= before.marks for before, after in pairwise(ranks)):
        raise marks.error("does not rise")
    return ranks


FIELDS = {
    Part.COLUMNS: ("count", "marks", "rows", "digits", "characters", "minus", "below_zero"),
    Part.PRODUCTS: ("count", "marks", "digits", "split"),
    Part.QUOTIENTS: ("count", "marks", "digits", "split"),
}
"""What a row says of each part: the cells "columns.count" and so on."""
CELLS = {
    *("minutes", "pass_marks", "sections", "ranks"),
    *(f"{part}.{field}" for part, fields in FIELDS.items() for field in fields),
}
"""Those of the whole paper, and those of its parts."""


def _doubts(row: Table, paper: Table) -> tuple[Doubt, ...]:
    """Those of the row, and what is said of its paper."""
    doubts = tuple(map(_doubt, row.tables("uncertain")))
    of_paper = map(_doubt, paper.tables("uncertain")) if paper is not row else ()
    return (*doubts, *(one for one in of_paper if one.cell != "pass_marks"))


def _doubt(table: Table) -> Doubt:
    table.only("cell", "how", "note")
    cell = table.text("cell")
    if cell not in CELLS:
        raise table.error(f"is {cell!r}; expected one of {', '.join(sorted(CELLS))}", "cell")
    return Doubt(cell, table.name("how", How), table.text("note"))


def _check(made: Grade, row: Table) -> None:
    """Raises TableError where a row does not fit together."""
    if not made.sections:
        raise row.error("are missing", "sections")
    if made.pass_marks > made.full_marks:
        raise row.error(f"is more than all marks, {made.full_marks}", "pass_marks")
    apart = {section.pass_marks > 0 for section in made.sections}
    if apart != {not made.pass_marks}:
        raise row.error("stand either in the row or in each of its sections", "pass_marks")
    minutes = [section.minutes for section in made.sections]
    if any(minutes) and sum(minutes) != made.minutes:
        raise row.error(f"are {made.minutes}, and those of its sections {sum(minutes)}", "minutes")
    least = {section.pass_marks for section in made.sections}
    if made.ranks and least != {made.ranks[0].marks}:
        raise row.error("of the sections differ from those of the first rank", "pass_marks")
