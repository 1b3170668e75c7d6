"""A count of what went right."""

from typing import NamedTuple


class Tally(NamedTuple):
    """Of so many exercises, so many right at once."""

    right: int = 0
    of: int = 0

    def plus(self, is_right: bool) -> "Tally":
        """The same with one exercise more."""
        return Tally(self.right + is_right, self.of + 1)
