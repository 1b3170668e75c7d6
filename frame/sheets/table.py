"""Tables of data in TOML, read entry by entry: what is wrong is told with its place."""

import tomllib
from collections.abc import Iterator, Mapping
from enum import StrEnum
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

_Name = TypeVar("_Name", bound=StrEnum)


class TableError(ValueError):
    """A table that cannot be used: where in which file, and why."""


class Range(NamedTuple):
    """From the least to the most, both of them included."""

    least: int
    most: int

    def holds(self, number: int) -> bool:
        """Whether a number is within it."""
        return self.least <= number <= self.most


class Table:
    """Entries of a file, by their keys, and where they stand. Whatever is asked for and missing or
    of another kind raises TableError."""

    def __init__(self, entries: Mapping[str, Any], place: str) -> None:
        self._entries, self._place = entries, place

    @classmethod
    def of_file(cls, path: Path) -> "Table":
        """All of a file. Raises TableError."""
        try:
            return cls(tomllib.loads(path.read_text(encoding="utf-8")), f"{path.name}:")
        except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
            raise TableError(f"{path}: {error}") from error

    def __contains__(self, key: str) -> bool:
        return key in self._entries

    def __iter__(self) -> Iterator[str]:
        """The keys, in the order of the file."""
        return iter(self._entries)

    def only(self, *keys: str) -> None:
        """Raises TableError for a key that is none of these."""
        for key in self._entries:
            if key not in keys:
                raise self.error(f"unknown; expected one of {', '.join(keys)}", key)

    def text(self, key: str) -> str:
        """A text that is not empty."""
        found = self._found(key, "a text")
        if not isinstance(found, str) or not found.strip():
            raise self._expected(key, "a text")
        return found

    def name(self, key: str, names: type[_Name]) -> _Name:
        """One of the names."""
        try:
            return names(self.text(key))
        except ValueError as error:
            if isinstance(error, TableError):
                raise
            raise self._expected(key, f"one of {', '.join(names)}") from None

    def number(self, key: str, usual: int | None = None) -> int:
        """A whole number from 1 on; where it is missing the usual one, if there is one."""
        found = self._found(key, "a whole number from 1 on", usual)
        if key in self and (type(found) is not int or found < 1):
            raise self._expected(key, "a whole number from 1 on")
        return int(found)

    def numbers(self, key: str) -> tuple[int, ...]:
        """Whole numbers from 1 on, one at least."""
        found = self._found(key, "a list of whole numbers")
        is_list = isinstance(found, list) and bool(found)
        if not is_list or any(type(one) is not int or one < 1 for one in found):
            raise self._expected(key, "a list of whole numbers")
        return tuple(found)

    def range(self, key: str) -> Range:
        """The least and the most of a number."""
        found = self.numbers(key)
        if len(found) != 2 or found[0] > found[1]:
            raise self._expected(key, "the least and the most")
        return Range(*found)

    def truth(self, key: str) -> bool:
        """Whether something holds; where it is missing, no."""
        found = self._found(key, "true or false", False)
        if not isinstance(found, bool):
            raise self._expected(key, "true or false")
        return found

    def table(self, key: str) -> "Table":
        """A table within."""
        found = self._found(key, "a table")
        if not isinstance(found, dict):
            raise self._expected(key, "a table")
        return Table(found, self._at(key))

    def named(self, key: str) -> Iterator[tuple[str, "Table"]]:
        """The tables within a table, each with its name."""
        tables = self.table(key)
        return ((name, tables.table(name)) for name in tables)

    def tables(self, key: str) -> tuple["Table", ...]:
        """A list of tables; where it is missing, none."""
        found = self._found(key, "a list of tables", [])
        if not isinstance(found, list) or not all(isinstance(one, dict) for one in found):
            raise self._expected(key, "a list of tables")
        return tuple(Table(one, f"{self._at(key)}[{at}]") for at, one in enumerate(found, 1))

    def error(self, what: str, key: str = "") -> TableError:
        """What is wrong here, or with what stands under a key."""
        return TableError(f"{self._at(key) if key else self._place} {what}")

    def _found(self, key: str, what: str, usual: Any = None) -> Any:
        if key not in self and usual is None:
            raise self.error(f"is missing; expected {what}", key)
        return self._entries.get(key, usual)

    def _expected(self, key: str, what: str) -> TableError:
        return self.error(f"is {self._entries[key]!r}; expected {what}", key)

    def _at(self, key: str) -> str:
        return f"{self._place} {key}" if self._place.endswith(":") else f"{self._place}.{key}"
