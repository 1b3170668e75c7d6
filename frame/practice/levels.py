"""Levels in groups by digits, so that any of them is chosen in two presses: its group, and it."""

from collections.abc import Sequence
from itertools import groupby
from typing import Generic, NamedTuple, Protocol, TypeVar


class _Level(Protocol):
    @property
    def digits(self) -> int: ...


Some = TypeVar("Some", bound=_Level)


class Group(NamedTuple, Generic[Some]):
    """The levels with numbers of so many digits, the easiest first."""

    digits: int
    levels: tuple[Some, ...]


def by_digits(levels: Sequence[Some]) -> tuple[Group[Some], ...]:
    """The groups of some levels that go from few digits to many."""
    groups = groupby(levels, key=lambda level: level.digits)
    return tuple(Group(digits, tuple(some)) for digits, some in groups)
