"""Where a learner stands in a lesson."""

from dataclasses import dataclass

from frame.course.attempts import Position


@dataclass(frozen=True, slots=True)
class LessonState:
    """`done` tells that the lesson has once ended well, which opens the next; `mastered` that its
    sets once came to their number unaided; `placed` that what it teaches was known by placement."""

    seed: int
    position: Position
    done: bool
    mastered: bool = False
    placed: bool = False

    @property
    def is_known(self) -> bool:
        """Whether what it teaches was learned, here or elsewhere."""
        return self.done or self.placed


NOT_BEGUN = LessonState(0, Position(), done=False)
