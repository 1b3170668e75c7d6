"""Tasks without marks: enough slips lead to another one, and at the end something is found."""

from abc import abstractmethod

from frame.app import Change, Pop
from frame.course.quiet import is_spent
from frame.course.stages import Stage
from frame.screens.lesson.one_by_one import OneByOne


class Unmarked(OneByOne):
    """No task is told to be right or wrong, and it may be left at any moment."""

    @abstractmethod
    def found(self) -> object:
        """What can be told at the end."""

    @property
    @abstractmethod
    def has_found(self) -> bool:
        """Whether anything can be told yet."""

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""
        return self.runner.stage is Stage.END

    @property
    def _passes(self) -> bool:
        """Whether another task comes, whatever may stand there."""
        work, stage = self.runner.work, self.runner.stage
        is_open = stage in (Stage.WORK, Stage.ANSWER) and work is not None
        return stage is Stage.REVEAL or (is_open and work is not None and is_spent(work))

    def rest(self, now: float) -> Change | None:
        """Another task comes after enough slips; at the end it is told what was found."""
        if self._passes:
            self.pass_by()
        change = super().rest(now)
        return Pop(self.found()) if self.is_over and change is None else change

    def wakes_in(self, now: float) -> float | None:
        """At once where another task comes."""
        return 0.0 if self._passes else super().wakes_in(now)

    def pass_by(self) -> None:
        """The ring goes from what was pressed, lest a second press pass by the next task, too."""
        super().pass_by()
        self.focus_button(None)

    def back(self) -> Change | None:
        """The way out, which tells what was found so far."""
        return Pop(self.found() if self.has_found else None)
