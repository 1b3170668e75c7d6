"""The cells of a table that was pasted or saved, row by row.

What separates its columns is what stands in most lines: a tab, a semicolon, a comma, or several
blanks. Cells may be quoted as RFC 4180 has it.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

_SEPARATORS = ("\t", ";", ",", " {2,}")
"""As patterns, the surest first."""
_QUOTED = r'"((?:[^"]++|"")*+)"'


class Row(NamedTuple):
    """The cells of a line, or of more where a quoted cell goes on; `odd` are those of them that
    begin with a quote and have no end of it."""

    line: int
    cells: tuple[str, ...]
    odd: tuple[str, ...]


def rows_of(text: str) -> Iterator[Row]:
    """The rows of a text in which anything is, cells without blanks around them, and without empty
    ones at the end.

    >>> [row.cells for row in rows_of('Fox; 12\\n\\n"Hare; the old"; 7;\\n')]
    [('Fox', '12'), ('Hare; the old', '7')]
    """
    text = re.sub(r"\r\n?", "\n", text.removeprefix("\ufeff"))
    return (row for row in _all_rows(text, _separator(text)) if any(row.cells))


def _separator(text: str) -> str:
    """What stands in most lines, outside of quotes, as a pattern."""
    lines = [line.strip(" ") for line in re.sub(_QUOTED, "", text).split("\n")]
    return max(_SEPARATORS, key=lambda one: sum(bool(re.search(one, line)) for line in lines))


def _all_rows(text: str, separator: str) -> Iterator[Row]:
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
        yield Row(begun, _trimmed(cells), tuple(odd))
        if at == len(text):
            return
        at, line = at + 1, line + 1
        begun, cells, odd = line, [], []


def _trimmed(cells: list[str]) -> tuple[str, ...]:
    while cells and not cells[-1]:
        cells.pop()
    return tuple(cells)
