"""What stands on a sheet: its sections and their tasks."""

from enum import StrEnum
from itertools import accumulate
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.sheets.recipe import Recipe


class Way(StrEnum):
    """How the tasks of a section are to be done: SHOWN frames are read; a number is WRITTEN as
    beads or as figures; sums are worked on a frame (BEADS), over a covered one (COVERED), with the
    eyes shut (EYES_SHUT) or without any frame (MIND); partners are said from cards (CARDS); a sum
    is followed bead by bead (FOLLOWED)."""

    SHOWN = "shown"
    WRITTEN = "written"
    BEADS = "beads"
    COVERED = "covered"
    EYES_SHUT = "eyes-shut"
    MIND = "mind"
    CARDS = "cards"
    FOLLOWED = "followed"


class Section(NamedTuple):
    """Tasks of one sort, numbered from 1, each of which gives so many `marks`, 0 where none are
    counted. A partner of five or ten is asked for as 5 - 3 or 10 - 3. `minutes` and `pass_marks`
    are those of a section that is sat and passed by itself, 0 where the grade says none."""

    way: Way
    tasks: tuple[Exercise, ...]
    marks: int = 0
    minutes: float = 0
    pass_marks: int = 0


class Sheet(NamedTuple):
    """A sheet with the recipe that it is made by. `minutes` are those of a graded paper, of whose
    marks so many are enough (`pass_marks`); 0 where the grade says none, or says them of each
    section."""

    recipe: Recipe
    sections: tuple[Section, ...]
    minutes: float = 0
    pass_marks: int = 0

    @property
    def tasks(self) -> tuple[Exercise, ...]:
        """Those of all sections, in order: their numbers run on from section to section."""
        return tuple(task for section in self.sections for task in section.tasks)

    @property
    def bounds(self) -> tuple[range, ...]:
        """The indices of the tasks of each section."""
        ends = list(accumulate(len(section.tasks) for section in self.sections))
        return tuple(range(start, end) for start, end in zip([0, *ends], ends, strict=False))
