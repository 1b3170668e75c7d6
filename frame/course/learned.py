"""What a lesson taught, seen once more at its end: of what is new the work of fewest beads, of
several such the last."""

from collections.abc import Iterator
from dataclasses import dataclass

from frame.course.lesson import Ask, Lesson
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Conventions
from frame.technique.plan import Plan
from frame.technique.reading import NumberError

_MOST_STROKES = 16
"""Nobody sits through more."""


@dataclass
class Learned:
    """What was new, as it is played: what it asks, the frame so far, and the strokes that are to
    come."""

    exercise: Exercise
    frame: Frame
    to_come: list[Stroke]

    @classmethod
    def of(cls, lesson: Lesson, conventions: Conventions) -> "Learned | None":
        """That of a lesson; None where nothing was new, or it can only be read."""
        worked = [one for one in _worked(lesson, conventions) if one[1].strokes]
        if not worked:
            return None
        exercise, plan = min(reversed(worked), key=lambda one: len(one[1].strokes))
        if len(plan.strokes) > _MOST_STROKES:
            return None
        return cls(exercise, plan.start, list(plan.strokes))

    @property
    def next_stroke(self) -> Stroke:
        """What comes next; empty when all is played."""
        return self.to_come[0] if self.to_come else ()

    def play(self) -> None:
        """Make the next stroke."""
        if self.to_come:
            self.frame = self.frame.apply_all(self.to_come.pop(0))


def _worked(lesson: Lesson, conventions: Conventions) -> Iterator[tuple[Exercise, Plan]]:
    new = frozenset(lesson.new)
    for step in lesson.steps:
        if not isinstance(step, Ask):
            continue
        exercise = step.exercise
        is_seen = exercise.asked is Asked.SHOWN and not exercise.own
        if exercise.kind in (Kind.READ, Kind.CLEAR) or not is_seen:
            continue
        try:
            plan = plan_for(exercise.at(Rung.ALONE), conventions)
            if plan is not None and exercise.facts & new and len(plan.start.digits) == lesson.rods:
                yield exercise, plan
        except NumberError:
            continue
