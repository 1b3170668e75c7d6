"""Exercises of which each is chosen when the one before it is over."""

from abc import abstractmethod
from functools import cached_property

from frame.course.stages import Stage
from frame.practice.exercises import Exercise
from frame.practice.work import Work
from frame.screens.lesson.places import is_wide
from frame.screens.lesson.screen import LessonScreen


class OneByOne(LessonScreen):
    """The lesson grows by an exercise at a time."""

    @abstractmethod
    def coming(self, work: Work, now: float) -> Exercise | None:
        """What comes next, now that this was worked, or passed by; None to end."""

    @cached_property
    def is_wide(self) -> bool:
        """Each exercise has the layout that it needs."""
        return is_wide(self.runner.lesson.steps[self.runner.position.step :][:1])

    def go_on(self) -> None:
        """After an exercise it is decided what comes next."""
        if self.runner.stage is Stage.DONE:
            self._decide()
        super().go_on()
        self._make_room()

    def pass_by(self) -> None:
        """So it is after one that is left as it stands."""
        self._decide()
        super().pass_by()
        self._make_room()

    def _decide(self) -> None:
        if self.runner.work is not None:
            self.runner.put_next(self.coming(self.runner.work, self.room.seconds()))

    def _make_room(self) -> None:
        self.__dict__.pop("is_wide", None)
        self.rearrange()
