"""A class from a list that was pasted: a name on each line, and perhaps the group it is in.

The text may come from a table, a file or a message. What is wrong is told with its line, and what
can be read of the line is in the list all the same.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.learner.cells import Row, rows_of
from frame.learner.nickname import MOST_SIGNS, is_too_long, nickname_of, typed_name

MOST_CHILDREN = 60
HEADS_OF_NAMES = ("name", "nickname", "first name", "child", "learner", "pupil", "student", "names")
_GROUPS = ("group", "class", "team", "table", "groups")
"""What a line of heads calls the columns, the surest first."""


class Wrong(StrEnum):
    """What can be wrong with a list."""

    NO_NAME = "no-name"
    """There is something in the line, and no name."""
    NAME_TOO_LONG = "name-too-long"
    GROUP_TOO_LONG = "group-too-long"
    TWICE_IN_GROUP = "twice-in-group"
    TWICE = "twice"
    """The name is in another group already."""
    TOO_MANY_COLUMNS = "too-many-columns"
    """There is more than a name and a group; of a line of heads it holds for all lines."""
    QUOTE_NOT_CLOSED = "quote-not-closed"
    TOO_MANY_CHILDREN = "too-many-children"


class Problem(NamedTuple):
    """What is wrong in a line, counted from 1, and what was found there; of a name that is there
    twice also the line in which it is first, else 0."""

    line: int
    wrong: Wrong
    found: str
    first: int = 0


class Listed(NamedTuple):
    """A child: its name, its group, "" for none, and the line it is from."""

    name: str
    group: str
    line: int


class ClassList(NamedTuple):
    """The children in the order of the list, and all problems in that of their lines. Names that
    are too long are cut; whoever is there twice, or beyond MOST_CHILDREN, is in it."""

    children: tuple[Listed, ...]
    problems: tuple[Problem, ...]


def read_class(text: str) -> ClassList:
    """The children that a text lists.

    >>> read_class("Fox; reds\\nHare; blues").children[1]
    Listed(name='Hare', group='blues', line=2)
    """
    rows = list(rows_of(text))
    headed = _headed(rows[0].cells) if rows else None
    reading = _Reading(headed or _Columns())
    if headed:
        reading.look_over_heads(rows.pop(0))
    for row in rows:
        reading.take(row)
    return ClassList(tuple(reading.children), tuple(reading.problems))


def problem_text(problem: Problem, words: Words) -> str:
    """A problem in words, for a grown-up; what was found there as far as a name is long."""
    found = typed_name(problem.found)
    return words.text(
        f"class_list.{problem.wrong}",
        line=problem.line,
        found=f"{found}…" if is_too_long(problem.found) else found,
        first=problem.first,
        signs=MOST_SIGNS,
        children=MOST_CHILDREN,
    )


class _Columns(NamedTuple):
    """In which columns names and groups are, and how many a row may have."""

    name: int = 0
    group: int = 1
    most: int = 2


def _headed(cells: Sequence[str]) -> _Columns | None:
    """The columns by a line of heads, None for any other line. A column without a head, after those
    that have one, is that of groups."""
    heads = [cell.casefold() for cell in cells]
    names = [heads.index(one) for one in HEADS_OF_NAMES if one in heads]
    groups = [heads.index(one) for one in _GROUPS if one in heads]
    group = groups[0] if groups else len(heads)
    return _Columns(names[0], group, max(len(heads), group + 1)) if names else None


@dataclass
class _Reading:
    """A list as far as it is read."""

    columns: _Columns
    children: list[Listed] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    seen: dict[str, dict[str, int]] = field(default_factory=dict)
    """Of each name the groups it is in, each with the line in which it is first."""

    def look_over_heads(self, row: Row) -> None:
        """Columns that are neither of names nor of groups are told once."""
        others = [cell for at, cell in enumerate(row.cells) if at not in self.columns[:2]]
        if any(others):
            self._add(row, Wrong.TOO_MANY_COLUMNS, _joined(others))

    def take(self, row: Row) -> None:
        """A row comes to the list, with what is wrong with it to the problems."""
        name, group = (self._cell(row, at) for at in self.columns[:2])
        self._look_over(row, name, group)
        child = Listed(nickname_of(name, ""), nickname_of(group, ""), row.line)
        if not child.name:
            self._add(row, Wrong.NO_NAME, _joined(row.cells))
            return
        self._tell_twice(row, child)
        self.children.append(child)
        if len(self.children) == MOST_CHILDREN + 1:
            self._add(row, Wrong.TOO_MANY_CHILDREN, child.name)

    def _cell(self, row: Row, at: int) -> str:
        return row.cells[at] if at < len(row.cells) else ""

    def _look_over(self, row: Row, name: str, group: str) -> None:
        for cell in row.odd:
            self._add(row, Wrong.QUOTE_NOT_CLOSED, cell)
        if is_too_long(name):
            self._add(row, Wrong.NAME_TOO_LONG, name)
        if is_too_long(group):
            self._add(row, Wrong.GROUP_TOO_LONG, group)
        if over := row.cells[self.columns.most :]:
            self._add(row, Wrong.TOO_MANY_COLUMNS, _joined(over))

    def _tell_twice(self, row: Row, child: Listed) -> None:
        """A name that was there before is told, first of all one in the same group."""
        lines = self.seen.setdefault(child.name.casefold(), {})
        group = child.group.casefold()
        if group in lines:
            self._add(row, Wrong.TWICE_IN_GROUP, child.name, lines[group])
        elif lines:
            self._add(row, Wrong.TWICE, child.name, min(lines.values()))
        lines.setdefault(group, child.line)

    def _add(self, row: Row, wrong: Wrong, found: str, first: int = 0) -> None:
        self.problems.append(Problem(row.line, wrong, found, first))


def _joined(cells: Iterable[str]) -> str:
    return " ".join(filter(None, cells))
