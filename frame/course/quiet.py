"""What is said where nobody is marked: what is asked, and after a slip to try once more."""

from decimal import Decimal

from frame.course.feedback import Feedback
from frame.course.runner import Runner
from frame.language.lines import Line
from frame.practice.work import Work
from frame.technique.judge import Verdict

SLIPS = 2
"""After so many something else comes."""


class Quiet(Feedback):
    """Nothing is praised, explained or pointed at."""

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
        is_spent = work.finished or len(work.slips) >= SLIPS
        return self.words.line("placement.another" if is_spent else "placement.once_more")
