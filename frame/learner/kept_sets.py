"""A set that a learner keeps by name: what it is called and what it asks for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from frame.learner.nickname import nickname_of
from frame.learner.settings import stored_object

MOST_SETS = 12
"""So many can be kept; where files are joined there may be more."""


@dataclass(frozen=True, slots=True)
class KeptSet:
    """A set with its id, which no other has on any computer, and its name, as one can be typed, or
    none; what is `asked` are plain values."""

    id: str
    name: str
    asked: Mapping[str, Any]


def set_of(row: Sequence[Any]) -> KeptSet | None:
    """The set that an id, a name and what is asked tell of; None where nobody can have written
    them. What is asked in a way that can't be read is nothing."""
    id, name, asked = row
    if not isinstance(id, str) or not isinstance(name, str) or not isinstance(asked, str):
        return None
    return KeptSet(id, nickname_of(name, ""), stored_object(asked))
