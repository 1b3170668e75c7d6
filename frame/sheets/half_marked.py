"""A sheet that is not marked to the end."""

from dataclasses import dataclass, field

from frame.sheets.typed_in import TypedIn


@dataclass
class HalfMarked:
    """How far a sheet is marked: what was typed, and the numbers of the tasks that were touched as
    wrong. It is marked by what was typed, or where it `is_quick` by touch."""

    typed: TypedIn
    wrong: set[int] = field(default_factory=set)
    is_quick: bool = False

    @property
    def is_begun(self) -> bool:
        """Whether anything would be lost with it."""
        return self.typed.is_begun or bool(self.wrong)
