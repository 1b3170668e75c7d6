"""A sheet that is called: which of its sums is, what was answered, and which answers were seen."""

from dataclasses import dataclass, field

from frame.practice.exercises import Exercise, Kind
from frame.sheets.sheet import Sheet
from frame.sheets.typed_in import Field, TypedIn

GAPS = {"slow": 3.0, "usual": 1.5, "quick": 0.7}
"""Seconds of silence between the parts of a sum: three of the paces at which numbers are called."""


def can_be_called(sheet: Sheet) -> bool:
    """Whether it has sums, which can be heard; frames that are read or drawn can't."""
    return bool(sheet.tasks) and all(task.kind is Kind.SUM for task in sheet.tasks)


@dataclass
class CalledSheet:
    """A sheet, one sum after the other. Nothing of it is kept."""

    typed: TypedIn
    seen: set[int] = field(default_factory=set)

    @classmethod
    def of(cls, sheet: Sheet) -> "CalledSheet":
        """From its first sum."""
        return cls(TypedIn(sheet))

    @property
    def task(self) -> Exercise:
        """The sum that is called."""
        return self.typed.sheet.tasks[self.typed.at]

    @property
    def number(self) -> int:
        """Its number on the sheet."""
        return self.typed.at + 1

    @property
    def count(self) -> int:
        """How many sums there are."""
        return len(self.typed.sheet.tasks)

    def can_step(self, way: int) -> bool:
        """Whether there is a sum after (1) or before (-1)."""
        return 0 <= self.typed.at + way < self.count

    def enter(self) -> bool:
        """What is typed is the answer, once what is left over is, too. Whether it was given."""
        typed = self.typed
        if not typed.text(Field.NUMBER):
            return False
        if typed.has_rest and typed.into is Field.NUMBER:
            typed.into = Field.REST
            return False
        typed.give()
        return True

    def look(self) -> None:
        """The answer is to be seen."""
        self.seen.add(self.typed.at)

    @property
    def is_right(self) -> bool | None:
        """Whether the answer that was given is right; None while none is."""
        return self.typed.is_right(self.typed.at)

    @property
    def is_seen(self) -> bool:
        """Whether the answer is in sight: it was found, or asked for."""
        return bool(self.is_right) or self.typed.at in self.seen
