"""Small plays on the free frame: what each asks, drawn by the model, and the sentences.

None of them is counted or kept: they are for trying. A number to be set is worked as any other; to
make ten its partner is added; and what is missing to ten is set beside a frame that shows the rest.
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from random import Random

from frame.course.feedback import Feedback
from frame.language.lines import Line
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.technique.beads import Frame
from frame.technique.conventions import USUAL, Conventions
from frame.technique.expression import Sum
from frame.technique.places import frame_for

TEN = Decimal(10)


class Play(StrEnum):
    """What is played: a number that is called is set, a number is made ten, the frame beside is
    made alike, or what is missing to ten beside it is set."""

    CALLED = "called"
    TEN = "ten"
    MIRROR = "mirror"
    MISSING = "missing"

    @property
    def is_of_ten(self) -> bool:
        """Whether it is about the partners of ten."""
        return self in (Play.TEN, Play.MISSING)


def draw_play(
    play: Play, random: Random, rods: int, before: Exercise | None = None,
    conventions: Conventions = USUAL,
) -> Exercise:  # fmt: skip
    """The next exercise of a play, another one than before; numbers to be set have up to so many
    digits, 1 or more."""
    most = 9 if play.is_of_ten else 10**rods - 1
    last = before.number if before is not None else None
    number = Decimal(random.choice([one for one in range(1, most + 1) if one != last]))
    if play is not Play.TEN:
        return Exercise(Kind.SET, Sum((number,)), Rung.ALONE, 1 if play.is_of_ten else rods)
    led = Exercise(Kind.SUM, Sum((number, TEN - number)), Rung.FOLLOW, 2)
    plan = plan_for(led, conventions)  # It has the number there already.
    return replace(led, rung=Rung.FINISH, last=len(plan.strokes) if plan else 1)


def frame_beside(play: Play, exercise: Exercise) -> Frame | None:
    """The frame that stands beside the learner's; None where there is none."""
    match play:
        case Play.MIRROR:
            return exercise.read_frame
        case Play.MISSING:
            return frame_for(TEN - exercise.number, exercise.rods)
    return None


@dataclass
class PlayFeedback(Feedback):
    """What is said of a play. What is asked is heard each time, and stands there unless the
    learner was answered. A number that is called is seen where nobody `hears` it."""

    play: Play = Play.CALLED
    hears: bool = True

    @property
    def shows_number(self) -> bool:
        """Whether the number to be set is seen."""
        return self.play is Play.CALLED and not self.hears

    def of_asked(self, work: Work) -> Line | None:
        """What an exercise asks."""
        number = work.exercise.number
        if self.play is Play.CALLED:
            return self.of_number(number)
        shown = TEN - number if self.play is Play.MISSING else number
        return self.words.line(f"play.{self.play}_asked", number=shown)

    def of_deed(self, work: Work) -> Line | None:
        """The same, to be read."""
        if self.play is Play.CALLED:
            return self.words.line("play.called_asked" if self.hears else "lesson.set_it")
        return self.of_asked(work)

    def _right(self, work: Work) -> Line:
        """The number; of partners of ten both."""
        number = work.exercise.number
        if not self.play.is_of_ten:
            return super()._right(work)
        return self.words.line("play.pair", number=number, other=TEN - number)
