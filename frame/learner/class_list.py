"""A class from a list that was pasted: a name on each line, and perhaps the group it is in.

The text may come from a table, a file or a message. What separates its columns is what stands in
most lines: a tab, a semicolon, a comma, or several blanks. Cells may be quoted as RFC 4180 has it.
What is wrong is told with its line, and what can be read of the line is in the list all the same.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.learner.nickname import MOST_SIGNS, is_too_long, nickname_of, typed_name

MOST_CHILDREN = 60
_SEPARATORS = ("\t", ";", ",", " {2,}")
"""As patterns, the surest first."""
_QUOTED = r'"((?:[^"]++|"")*+)"'
_NAMES = ("name", "nickname", "first name", "child", "learner", "pupil", "student", "names")
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


class _Row(NamedTuple):
    """The cells of a line, or of more where a quoted cell goes on; `odd` are those of them that
    begin with a quote and have no end of it."""

    line: int
    cells: tuple[str, ...]
    odd: tuple[str, ...]


def read_class(text: str) -> ClassList:
    """The children that a text lists.

    >>> read_class("Fox; reds\\nHare; blues").children[1]
    Listed(name='Hare', group='blues', line=2)
    """
    text = re.sub(r"\r\n?", "\n", text.removeprefix("\ufeff"))
    rows = [row for row in _rows(text, _separator(text)) if any(row.cells)]
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


def _separator(text: str) -> str:
    """What stands in most lines, outside of quotes, as a pattern."""
    lines = [line.strip(" ") for line in re.sub(_QUOTED, "", text).split("\n")]
    return max(_SEPARATORS, key=lambda one: sum(bool(re.search(one, line)) for line in lines))


def _rows(text: str, separator: str) -> Iterator[_Row]:
    """The rows of a text, cells without blanks around them, and without empty ones at the end."""
    cell = re.compile(rf" *(?:{_QUOTED} *(?={separator}|\n|\Z)|((?:(?!{separator}).)*+))")
    parted = re.compile(separator)
    at, line, begun, cells, odd = 0, 1, 1, list[str](), list[str]()
    while found := cell.match(text, at):
        quoted, bare = found.groups()
        cells.append((bare if quoted is None else quoted.replace('""', '"')).strip())
        if quoted is None and bare.startswith('"') and bare.count('"') % 2:
            odd.append(cells[-1])
        line += text.count("\n", at, found.end())
        at = found.end()
        if again := parted.match(text, at):
            at = again.end()
            continue
        yield _Row(begun, _trimmed(cells), tuple(odd))
        if at == len(text):
            return
        at, line = at + 1, line + 1
        begun, cells, odd = line, [], []


def _trimmed(cells: list[str]) -> tuple[str, ...]:
    while cells and not cells[-1]:
        cells.pop()
    return tuple(cells)


class _Columns(NamedTuple):
    """In which columns names and groups are, and how many a row may have."""

    name: int = 0
    group: int = 1
    most: int = 2


def _headed(cells: Sequence[str]) -> _Columns | None:
    """The columns by a line of heads, None for any other line. A column without a head, after those
    that have one, is that of groups."""
    heads = [cell.casefold() for cell in cells]
    names = [heads.index(one) for one in _NAMES if one in heads]
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

    def look_over_heads(self, row: _Row) -> None:
        """Columns that are neither of names nor of groups are told once."""
        others = [cell for at, cell in enumerate(row.cells) if at not in self.columns[:2]]
        if any(others):
            self._add(row, Wrong.TOO_MANY_COLUMNS, _joined(others))

    def take(self, row: _Row) -> None:
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

    def _cell(self, row: _Row, at: int) -> str:
        return row.cells[at] if at < len(row.cells) else ""

    def _look_over(self, row: _Row, name: str, group: str) -> None:
        for cell in row.odd:
            self._add(row, Wrong.QUOTE_NOT_CLOSED, cell)
        if is_too_long(name):
            self._add(row, Wrong.NAME_TOO_LONG, name)
        if is_too_long(group):
            self._add(row, Wrong.GROUP_TOO_LONG, group)
        if over := row.cells[self.columns.most :]:
            self._add(row, Wrong.TOO_MANY_COLUMNS, _joined(over))

    def _tell_twice(self, row: _Row, child: Listed) -> None:
        """A name that was there before is told, first of all one in the same group."""
        lines = self.seen.setdefault(child.name.casefold(), {})
        group = child.group.casefold()
        if group in lines:
            self._add(row, Wrong.TWICE_IN_GROUP, child.name, lines[group])
        elif lines:
            self._add(row, Wrong.TWICE, child.name, min(lines.values()))
        lines.setdefault(group, child.line)

    def _add(self, row: _Row, wrong: Wrong, found: str, first: int = 0) -> None:
        self.problems.append(Problem(row.line, wrong, found, first))


def _joined(cells: Iterable[str]) -> str:
    return " ".join(filter(None, cells))
