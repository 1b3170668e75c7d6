"""What a lesson waits for by itself, and for how long, in seconds."""

from dataclasses import dataclass
from enum import StrEnum

from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.course.telling import Telling
from frame.dues import Dues
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked

PAUSE_AFTER_DONE = 1.2
PAUSE_TO_READ = 2.5
PAUSE_BEFORE_DEMO = 0.7
PAUSE_BEFORE_CALL = 1.0
PAUSE_AFTER_DEMO = 1.5
GLANCE_SECONDS = 2.0
"""What is to be read must be seen: on a rung that shows nothing, for so long."""
MENDING_SECONDS = 1.8
WAIT_SECONDS = 10.0
"""After so long without a touch a learner is told again, once."""
COUNT_SECONDS = 0.7
"""How long a counted bead stands at least before the next one is counted."""


class Due(StrEnum):
    """What a lesson waits for by itself."""

    ON = "on"
    """The lesson goes on."""
    WAIT = "wait"
    """Nothing was touched for a while."""
    MENDED = "mended"
    """The outline of a bead that was put back goes."""
    COVER = "cover"
    """A number to be read has been seen."""
    COUNT = "count"
    """The next bead is counted."""


@dataclass
class Pacing:
    """Sets what falls due. The lesson goes on once what is told was heard, and whoever is to do
    something is waited for from then on."""

    dues: Dues
    telling: Telling

    def enter(self, runner: Runner, now: float) -> None:
        """The lesson comes to another stage: what goes on by itself, and what is covered soon. Of
        what is done, whoever says something of it says when to go on."""
        for due in (Due.ON, Due.COVER):
            self.dues.put(due, None)
        exercise = runner.work.exercise if runner.work is not None else None
        match runner.stage:
            case Stage.RESULTS:
                self.dues.put(Due.ON, now)
            case Stage.DEMO:
                self.go_on_at(now + PAUSE_BEFORE_DEMO)
            case Stage.REVEAL:
                self.go_on_at(now + PAUSE_AFTER_DONE)
            case Stage.PRESENT if exercise is not None and exercise.asked is Asked.CALLED:
                self.dues.put(Due.ON, now + PAUSE_BEFORE_CALL)
            case Stage.ANSWER if exercise is not None and exercise.kind is Kind.READ:
                is_unseen = exercise.rung.is_unseen
                self.dues.put(Due.COVER, now + GLANCE_SECONDS if is_unseen else None)

    def heard(self, now: float, seconds: float) -> None:
        """What is told takes so long to be heard; the lesson goes on after it."""
        self.telling.quiet_at = now + seconds
        for due, pause in ((Due.ON, 0.0), (Due.COUNT, 0.0), (Due.WAIT, WAIT_SECONDS)):
            at = self.dues.at(due)
            if at is not None:
                self.dues.put(due, max(at, self.telling.quiet_at + pause))

    def go_on_at(self, at: float) -> None:
        """The lesson goes on by itself, at this time or after what is being heard."""
        self.dues.put(Due.ON, max(at, self.telling.quiet_at))

    def hurry(self, now: float) -> None:
        """Somebody does not want to wait until what comes next."""
        if self.dues.at(Due.ON) is not None:
            self.telling.quiet_at = now
            self.dues.put(Due.ON, now)

    def wait_anew(self, stage: Stage, now: float) -> None:
        """Whoever waits is told again, once for each thing done."""
        waits = stage in (Stage.TELL, Stage.WORK, Stage.ANSWER, Stage.END)
        at = max(now, self.telling.quiet_at) + WAIT_SECONDS
        self.dues.put(Due.WAIT, at if waits else None)
