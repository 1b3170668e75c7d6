"""What a sheet is to be, as it is chosen bit by bit: where nothing is said it is as usual."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.families import Family
from frame.sheets.enough import fitted
from frame.sheets.grades import grade, grades
from frame.sheets.recipe import MOST_BY, MOST_COUNT, MOST_SEED, Kind, Leaf, Part, Recipe, Version
from frame.sheets.sheet import Way

KINDS = tuple(kind for kind in Kind if kind is not Kind.PAPER)
"""The kinds that are chosen as sheets: a paper is chosen by its grade."""
_OF_SIZE: Mapping[Kind, tuple[str, ...]] = {
    Kind.READ: ("count", "digits"),
    Kind.SET: ("count", "digits"),
    Kind.COLUMNS: ("count", "rows", "digits"),
    Kind.PRODUCTS: ("count", "digits", "by"),
    Kind.QUOTIENTS: ("count", "digits", "by"),
    Kind.ROOTS: ("count", "digits"),
    Kind.PARTNERS: ("count",),
    Kind.STRIP: ("rows", "digits"),
    Kind.FRAME: (),
    Kind.LADDER: ("count", "rows", "digits"),
}
WITH_MINUS = (Kind.COLUMNS, Kind.STRIP, Kind.LADDER)
WITH_WORK = (Kind.COLUMNS, Kind.PRODUCTS, Kind.QUOTIENTS, Kind.ROOTS, Kind.LADDER)
_MOST = {"count": MOST_COUNT, "rows": MOST_ROWS, "digits": MOST_DIGITS, "by": MOST_BY}
_MOST_ROOT = 4
"""Digits: roots of numbers that are longer still take many seconds to find."""
_WAYS = 4
"""A ladder has tasks for each of its sections."""


def sizes_of(kind: Kind) -> tuple[str, ...]:
    """The names of the sizes that tasks of a kind have; a graded paper has its own."""
    return _OF_SIZE.get(kind, ())


class Topic(StrEnum):
    """What a sheet is for, where it is not for a family: ALL of its kind, what is DUE of whoever is
    here, or the last LESSON that they did."""

    ALL = "all"
    DUE = "due"
    LESSON = "lesson"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetChoices:
    """A sheet of a kind, or with `is_paper` the paper of a grade. A size of None is the usual
    one."""

    is_paper: bool = False
    kind: Kind = Kind.COLUMNS
    topic: Topic | Family = Topic.ALL
    count: int | None = None
    rows: int | None = None
    digits: int | None = None
    by: int | None = None
    minus: bool = False
    grade: str = "kyu-10"
    part: Part = Part.WHOLE
    seed: int = 1
    version: Version = Version.A
    leaf: Leaf = Leaf.A4
    is_worked: bool = False

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes that its tasks have."""
        return sizes_of(self.kind)

    def can_take(self, facts: tuple[str, ...]) -> bool:
        """Whether numbers may be taken away on a sheet that is for some facts."""
        return self.kind in WITH_MINUS and Recipe(kind=self.kind, facts=facts).can_take

    @property
    def has_work(self) -> bool:
        """Whether its key can show how the first task is worked."""
        return self.is_paper or self.kind in WITH_WORK

    @property
    def has_versions(self) -> bool:
        """Whether there are others of its kind: an empty frame is always the same."""
        return self.is_paper or self.kind is not Kind.FRAME

    def values(self, size: str) -> range:
        """What a size may be."""
        least = 2 if size == "rows" else 1
        if size == "count" and self.kind is Kind.LADDER:
            least = _WAYS
        is_root = size == "digits" and self.kind is Kind.ROOTS
        return range(least, (_MOST_ROOT if is_root else _MOST[size]) + 1)

    def choose(self, **changes: Any) -> "SheetChoices":
        """The same with these choices: of another kind all sizes are as usual; a grade without the
        part that was chosen is chosen whole."""
        if "kind" in changes:
            changes = {"count": None, "rows": None, "digits": None, "by": None, **changes}
        made = replace(self, **changes)
        return made if made.part in grade(made.grade).parts else replace(made, part=Part.WHOLE)

    def another(self) -> "SheetChoices":
        """The same with other numbers."""
        return replace(self, seed=self.seed % MOST_SEED + 1)

    def near(self, recipe: Recipe) -> "SheetChoices":
        """The same as large as the tasks of a recipe."""
        return replace(self, **{size: getattr(recipe, size) for size in self.sizes})

    def recipe(self, facts: tuple[str, ...]) -> Recipe:
        """All of it as a recipe, for these facts of its topic."""
        common: Mapping[str, Any] = {
            "seed": self.seed, "version": self.version, "leaf": self.leaf,
            "is_worked": self.is_worked and self.has_work,
        }  # fmt: skip
        if self.is_paper:
            return Recipe(kind=Kind.PAPER, grade=self.grade, part=self.part, **common)
        sizes = {size: getattr(self, size) for size in self.sizes}
        minus = self.minus and self.can_take(facts)
        return replace(fitted(self.kind, facts, sizes, minus), **common)


def fellows(body: str, way: Way) -> tuple[str, ...]:
    """The grades of an examination, the easiest first."""
    return tuple(one.id for one in grades().values() if (one.body, one.way) == (body, way))


def fellow(name: str, body: str, way: Way) -> str:
    """The grade of an examination that is called like one of another, or else its first."""
    among = fellows(body, way)
    return next((one for one in among if _rank(one) == _rank(name)), among[0])


def _rank(name: str) -> str:
    """What a grade is called within its examination: `kyu-6`, or `dan`."""
    _, is_kyu, number = name.rpartition("kyu-")
    return is_kyu + number if is_kyu else "dan"
