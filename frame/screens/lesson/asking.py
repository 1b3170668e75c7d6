"""Numbers of an exercise that are called or flashed: begun, held, repeated, left out."""

from frame.app import Change
from frame.course.runner import Stage
from frame.practice.flashing import FlashReport
from frame.practice.rungs import Asked
from frame.practice.work import Work
from frame.screens.lesson.exercise import ExerciseScreen
from frame.screens.parts import flashing
from frame.screens.parts.calling import Calling

PAUSE_BEFORE_CALL = 1.0


class AskingScreen(ExerciseScreen):
    """An exercise whose numbers may come by ear or one after another."""

    @property
    def is_calling(self) -> bool:
        """Whether numbers are being called: then nothing else is said."""
        has_begun = self.calling is not None and self.calling.has_begun
        return has_begun and self.runner.stage is Stage.PRESENT

    def start(self) -> Change | None:
        """The numbers of the exercise begin, from the first."""
        work, now = self.runner.work, self.room.seconds()
        if work is not None and work.exercise.asked is Asked.FLASHED:
            self.room.hush()
            return flashing.flash(self.room, work.exercise)
        was_answer = self.runner.stage is Stage.ANSWER
        if was_answer or (self.calling is not None and self.calling.has_begun):
            self.runner.present_again()
            self.answer.clear()
        if self.calling is not None and not was_answer:
            self.room.hush()
            self.calling.start(now)
            self.rearrange()
        self.show(now)
        return None

    def skip(self) -> None:
        """Numbers that are to be flashed are left out."""
        self.runner.skip()
        self.said = None
        self.show(self.room.seconds())

    def hold(self) -> None:
        """The call is held, or goes on."""
        if self.calling is not None:
            self.calling.hold(self.room.seconds())
            self.rearrange()

    def repeat(self) -> None:
        """The number called last is called again, and the call goes on."""
        if self.calling is not None:
            self.calling.repeat(self.room.seconds())
            self.rearrange()

    def advance_call(self, now: float) -> None:
        """The call goes on; when it is over the answer is waited for."""
        if self.calling is None or self.runner.stage is not Stage.PRESENT:
            return
        self.sync(now)
        if self.calling.is_over(now):
            self.runner.go_on()
            self.show(now)

    def enter_present(self, work: Work, now: float) -> None:
        """A call begins by itself; numbers are flashed only when somebody starts them."""
        if work.exercise.asked is Asked.CALLED:
            self.calling = Calling.of(self.room, work.exercise)
            self.due = now + PAUSE_BEFORE_CALL

    def take_report(self, report: FlashReport) -> None:
        """A run of flashed numbers is over; one that was stopped can be begun again."""
        work = self.runner.work
        if work is None:
            return
        flashing.keep(self.room, work.exercise, report)
        self.said = self.room.words.line("flash.stopped") if report.was_stopped else None
        if not report.was_stopped:
            work.report = report
            self.runner.go_on()
