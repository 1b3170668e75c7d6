"""One time that a learner is at the computer, and what was so all the while."""

from dataclasses import dataclass, field
from itertools import count
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from frame.technique.conventions import Conventions


class Circumstances(NamedTuple):
    """The school's ways, the window in pixels, and the version of the judge."""

    conventions: "Conventions"
    window: tuple[int, int]
    judge: int


@dataclass
class Sitting:
    """A sitting under way. Its `id` is one that nothing has on any computer; `inputs` are what was
    used of mouse, touch and keys."""

    id: str
    inputs: set[str] = field(default_factory=set)
    _numbers: "Iterator[int]" = field(default_factory=lambda: count(1))

    def count_on(self) -> int:
        """The number of the next thing that is kept of it."""
        return next(self._numbers)
