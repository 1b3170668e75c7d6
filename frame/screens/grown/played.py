"""The exercise of an item, played on a frame by the strokes of the trained hand."""

from frame.practice.examples import example_of
from frame.practice.exercises import Kind, plan_for
from frame.screens.grown.view import GlidingPage
from frame.technique.beads import Frame
from frame.technique.expression import Calculation
from frame.view.motion import SHOW_SECONDS


class Played:
    """It stands at its beginning until it is played, and then at its end."""

    def __init__(self, page: GlidingPage, item: str) -> None:
        conventions = page.room.settings.conventions
        exercise = example_of(item, conventions)
        plan = plan_for(exercise, conventions)
        self.sum: Calculation = exercise.sum
        self.is_sum = exercise.kind is Kind.SUM
        self.result = None if exercise.sum.remainder else exercise.sum.result
        self.strokes = plan.strokes if plan else ()
        self.start: Frame = plan.start if plan else exercise.read_frame
        self.field = page.field_of(self.start)
        self.at = 0

    def begin(self, now: float) -> None:
        """As before the first stroke."""
        self.at = 0
        self.field.show(self.start, now)

    def go_on(self, now: float) -> bool:
        """The next stroke; whether there are more."""
        if self.at < len(self.strokes):
            self.field.show(self.field.frame.apply_all(self.strokes[self.at]), now, SHOW_SECONDS)
            self.at += 1
        return self.at < len(self.strokes)
