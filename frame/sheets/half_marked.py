"""A sheet that is not marked to the end."""

from dataclasses import dataclass, field

from frame.sheets.typed_in import TypedIn


@dataclass
class HalfMarked:
    """How far a sheet is marked: what was typed, the numbers of the tasks that were touched as
    wrong, and by which of both it is marked: the `is_quick` way is by touch."""

    typed: TypedIn
    wrong: set[int] = field(default_factory=set)
    is_quick: bool = False

    @property
    def is_begun(self) -> bool:
        """Whether anything would be lost with it."""
        return self.typed.is_begun or bool(self.wrong)
