"""What is said where nobody is marked: what is asked, and after a slip to try once more."""

from decimal import Decimal

from frame.course.feedback import Feedback
from frame.course.runner import Runner
from frame.language.lines import Line
from frame.practice.work import Work
from frame.technique.judge import Verdict

SLIPS = 2
"""After so many something else comes."""
_STROKES_A_SLIP = 12
"""In work of so many strokes one more is the hand's. Our own number, no source."""


class Quiet(Feedback):
    """Nothing is praised, explained or pointed at."""

    points = False

    def of_verdict(self, verdict: Verdict, work: Work) -> Line | None:
        """What follows a stroke."""
        return None if verdict.is_right else self._of_slip(work)

    def of_answer(self, number: Decimal, work: Work, *, is_told: bool = True) -> Line | None:
        """What follows a number."""
        return None if work.right else self._of_slip(work)

    def of_saying_done(self, work: Work) -> Line | None:
        """What follows where it is not done."""
        return None if work.finished else self._of_slip(work)

    def of_done(self, work: Work) -> Line | None:
        """Nothing is told at the end."""
        return None

    def of_waiting(self, work: Work) -> Line | None:
        """Nothing is pointed at."""
        return None

    def of_end(self, runner: Runner, *, is_lesson: bool) -> Line:
        """The last word."""
        return self.words.line("placement.over")

    def _of_slip(self, work: Work) -> Line:
        key = "placement.another" if work.finished or is_spent(work) else "placement.once_more"
        return self.words.line(key)


def is_spent(work: Work) -> bool:
    """Whether so many slips were made in a task that something else comes."""
    return len(work.slips) >= SLIPS + forgiven(work)


def forgiven(work: Work) -> int:
    """So many slips, mended at once, are the hand's in work as long as this."""
    return len(work.plan.strokes) // _STROKES_A_SLIP if work.plan else 0
