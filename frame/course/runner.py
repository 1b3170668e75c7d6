"""Plays a lesson: what the learner does goes in, what there is to show comes out.

No drawing, no clock, no words of its own: the guide turns verdicts into sentences.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal

from frame.course.attempts import Attempt, Position
from frame.course.lesson import Ask, Lesson, LessonStep, Line, Mark, Practise, Say, Show, is_said
from frame.course.sets import Sets, fitted
from frame.course.stages import Stage as Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import USUAL, Conventions, Strictness
from frame.technique.judge import Verdict
from frame.technique.places import frame_for

MOST_ROUNDS = 2
"""A set comes twice at most. Nobody is held before one: a lesson that was worked through ends well,
and the next one opens; whether it was mastered is kept apart."""


@dataclass
class Runner:
    """One lesson under way. `seed` draws its exercises; `position` is where to begin.

    A set that is not passed comes again, led at first; after MOST_ROUNDS the lesson goes on all the
    same. `record` tells how all went that was begun, `mastered` that every set was passed,
    `left_out` how many exercises were left out. Where it `goes_back`, what came before can be seen
    again.
    """

    lesson: Lesson
    known: frozenset[str]
    seed: int
    conventions: Conventions = USUAL
    strictness: Strictness = Strictness.BEADS
    position: Position = field(default_factory=Position)
    stage: Stage = Stage.TELL
    frame: Frame = field(init=False)
    line: Line | None = None
    work: Work | None = None
    record: list[Attempt] = field(default_factory=list)
    mastered: bool = True
    left_out: int = 0
    goes_back: bool = True
    results: list[Work] = field(default_factory=list)
    _left: Work | None = None
    _over: set[int] = field(default_factory=set)

    def __post_init__(self) -> None:
        self._sets = Sets(self.seed)
        self.position = fitted(self.position, self.lesson.steps)
        self.frame = self._frame_before(self.position.step)
        self._enter()

    @property
    def _step(self) -> LessonStep | None:
        """The step at the position; None at the end."""
        at = self.position.step
        return self.lesson.steps[at] if at < len(self.lesson.steps) else None

    @property
    def _size(self) -> int:
        """How many things the step at the position is."""
        return 1 if self._step is None else _size(self._step)

    @property
    def total(self) -> int:
        """How many things the lesson has, a set counted by its exercises."""
        return sum(_size(step) for step in self.lesson.steps)

    @property
    def done(self) -> int:
        """How many of them are done."""
        before = sum(_size(step) for step in self.lesson.steps[: self.position.step])
        if self.position.round:
            return before + self._size - 1
        return before + self.position.item

    @property
    def attempts(self) -> list[Attempt]:
        """What was worked to its end."""
        return [attempt for attempt in self.record if attempt.ended]

    @property
    def unaided(self) -> int:
        """How many of the attempts were right at once."""
        return sum(attempt.unaided for attempt in self.attempts)

    @property
    def cover(self) -> Rung | None:
        """The rung under which the sentence is shown, if there is one."""
        return self._step.cover if isinstance(self._step, Say) else None

    @property
    def is_drawn(self) -> bool:
        """Whether what is asked was drawn, so that no sentence of the lesson can tell it."""
        return isinstance(self._step, Practise)

    @property
    def is_set_told_at_end(self) -> bool:
        """Whether nothing is said of an exercise before its set is over."""
        return self._is_presented and self._size > 1

    @property
    def _is_presented(self) -> bool:
        """Whether the numbers are called or flashed."""
        return self.work is not None and self.work.exercise.asked is not Asked.SHOWN

    def go_on(self) -> None:
        """Leave a sentence or a finished exercise."""
        if self.stage is Stage.TELL:
            self.position = Position(self.position.step + 1)
            self._enter()
        elif self.stage is Stage.PRESENT:
            self.stage = Stage.ANSWER
        elif self.stage is Stage.REVEAL:
            self.stage = Stage.DONE
        elif self.stage is Stage.DONE and self.results and self._is_last_item:
            self.stage = Stage.RESULTS
        elif self.stage is Stage.RESULTS and self.work is None:
            self._enter()
        elif self.stage in (Stage.DONE, Stage.RESULTS):
            self._next_item()

    def skip(self) -> None:
        """Leave a set of numbers out that somebody does not want to see."""
        if self.stage is not Stage.PRESENT:
            return
        self.left_out += self._size - self.position.item
        self._over.add(self.position.step)
        self.position, self.work = Position(self.position.step + 1), None
        if self.results:
            self.stage = Stage.RESULTS
        else:
            self._enter()

    def draw_another(self) -> None:
        """Other numbers in the place of those that were seen in part."""
        step = self._step
        if self.stage is Stage.PRESENT and isinstance(step, Practise):
            self._sets.draw_another()
            self._begin(self._item(step))

    @property
    def can_step_back(self) -> bool:
        """Whether the lesson has something before what it waits for."""
        is_open = self.stage in (Stage.TELL, Stage.DEMO, Stage.WORK, Stage.PRESENT, Stage.ANSWER)
        return self.goes_back and is_open and self._step_before is not None

    def put_next(self, exercise: Exercise | None) -> None:
        """Have this come in the place of the exercise that would come next; None to end here."""
        at = self.position.step + 1
        before, following = self.lesson.steps[:at], self.lesson.steps[at + 1 :]
        asked = (Ask(exercise, None, None, Mark(1, 1)), *following) if exercise else ()
        self.lesson = replace(self.lesson, steps=(*before, *asked))

    def pass_by(self) -> None:
        """Leave an exercise as it stands, for what comes next."""
        if self.work is not None and not self.work.finished:
            self.record.append(self._attempt(self.work))
        self._next_item()

    def step_back(self) -> None:
        """To the beginning of the step before, with the frame as it stood there. A set that is
        over is passed by, on the way back and on the way on."""
        before = self._step_before
        if self.can_step_back and before is not None:
            self.leave()
            self.position = Position(before)
            self.frame = self._frame_before(before)
            self._enter()

    @property
    def _step_before(self) -> int | None:
        steps = range(self.position.step - 1, -1, -1)
        return next((at for at in steps if self._is_told(self.lesson.steps[at])), None)

    def _is_told(self, step: LessonStep) -> bool:
        """Whether a step can be gone back to."""
        is_skipped = isinstance(step, Say) and not is_said(step, self.conventions)
        return not is_skipped and not isinstance(step, Practise)

    def _frame_before(self, step: int) -> Frame:
        """The frame as the steps before one leave it."""
        for one in reversed(self.lesson.steps[:step]):
            if isinstance(one, Show):
                return frame_for(one.number, self.lesson.rods)
            if isinstance(one, Ask):
                work = Work.begin(one.exercise, self.conventions, self.strictness)
                return work.plan.end if work.plan else work.start
            if isinstance(one, Practise):
                break
        return Frame.cleared(self.lesson.rods)

    def present_again(self) -> None:
        """The numbers come once more, from the start, and so does the work."""
        if self.stage in (Stage.PRESENT, Stage.ANSWER) and self.work is not None:
            self.work.start_over()
            self.frame, self.stage = self.work.frame, Stage.PRESENT

    @property
    def takes_touches(self) -> bool:
        """Whether beads may be moved: where work is asked, or beside an answer."""
        work = self.work
        if work is None or work.exercise.own or work.exercise.kind is Kind.READ:
            return False
        called = work.exercise.asked is Asked.CALLED and work.exercise.rung is not Rung.NUMBER
        beside = called and self.stage in (Stage.PRESENT, Stage.ANSWER)
        return self.stage is Stage.WORK or beside

    def touch(self, stroke: Stroke) -> Verdict | None:
        """The learner moves beads. The verdict, or None when nothing is asked."""
        if not self.takes_touches or self.work is None:
            return None
        verdict = self.work.touch(stroke)
        self._look_at_work()
        return verdict

    def wipe(self, rods: Sequence[int]) -> bool:
        """The learner wipes along the beam over these rods. Whether it did anything."""
        if self.stage is not Stage.WORK or self.work is None:
            return False
        wiped = self.work.wipe(rods)
        self._look_at_work()
        return wiped

    def answer(self, number: Decimal) -> bool:
        """The learner gives a number. Whether it is right."""
        if self.stage is not Stage.ANSWER or self.work is None:
            return False
        right = self.work.answer(number)
        self._look_at_work()
        return right

    def say_done(self) -> bool:
        """The learner says the work is done. Whether the frame reads what it should."""
        if self.stage is not Stage.WORK or self.work is None:
            return False
        right = self.work.say_done()
        self._look_at_work()
        return right

    def help(self) -> Help:
        """The learner asks to be shown; each time a little more."""
        return Help.NONE if self.work is None else self.work.more_help()

    def undo(self) -> bool:
        """Take the last stroke that was kept back. Whether there was one."""
        if not self.takes_touches or self.work is None or not self.work.undo():
            return False
        self.frame = self.work.frame
        return True

    def play(self) -> Stroke | None:
        """The next stroke of a demonstration, made on the frame; None when it is over."""
        if self.stage is not Stage.DEMO or self.work is None:
            return None
        stroke = self.work.play()
        self._look_at_work()
        return stroke

    def _enter(self) -> None:
        """Begin the step at the position, or end the lesson."""
        self.work = None
        step = self._step
        if step is None:
            self.stage, self.line = Stage.END, None
            return
        self.line = step.line if is_said(step, self.conventions) else None
        if isinstance(step, Say) and self.line is None:
            self.position = Position(self.position.step + 1)
            self._enter()
        elif isinstance(step, Say):
            self.stage = Stage.TELL
        elif isinstance(step, Show):
            self.stage = Stage.TELL
            self.frame = frame_for(step.number, self.lesson.rods)
        elif isinstance(step, Ask):
            self._begin(step.exercise)
        elif self.position.step in self._over:
            self.position = Position(self.position.step + 1)
            self._enter()
        else:
            self._begin(self._item(step))

    def _item(self, step: Practise) -> Exercise:
        return self._sets.item(step, self.position)

    @property
    def has_other_numbers(self) -> bool:
        """Whether a set that comes again has, for the most part, other numbers than before."""
        step = self._step
        return isinstance(step, Practise) and self._sets.has_other_numbers(step, self.position)

    def _begin(self, exercise: Exercise) -> None:
        self.work = Work.begin(exercise, self.conventions, self.strictness)
        if self.position.item == 0:
            self.results = []
        self.stage = Stage.WORK
        self._look_at_work()
        if self._is_presented:
            self.stage = Stage.PRESENT

    def _look_at_work(self) -> None:
        """Take the frame and the stage from the work."""
        work = self.work
        if work is None:
            return
        self.frame = work.frame
        if work.finished:
            self._finish(work)
        elif self.stage is Stage.PRESENT:
            return
        elif work.is_playing:
            self.stage = Stage.DEMO
        else:
            self.stage = Stage.ANSWER if work.asks else Stage.WORK

    def _finish(self, work: Work) -> None:
        """Keep how the exercise went; where its set is told of at its end, say nothing yet. Where
        no bead was touched, the way's are seen."""
        self._record(work)
        if self.is_set_told_at_end:
            self.results.append(work)
        elif work.plan and not work.touches:
            self.frame = work.plan.end
        is_shown = self.is_set_told_at_end or work.outcome is Outcome.RIGHT
        self.stage = Stage.DONE if is_shown else Stage.REVEAL

    def _record(self, work: Work) -> None:
        if work.counts:
            self.record.append(self._attempt(work))
        self.position = replace(self.position, right=self.position.right + work.unaided)

    def _attempt(self, work: Work) -> Attempt:
        return Attempt(
            self.lesson.id, work.exercise, work.unaided, work.right, work.helps,
            tuple(work.slips), work.looks, work.outcome or Outcome.RIGHT, tuple(work.answers),
            work.log, work.finished,
        )  # fmt: skip

    def leave(self) -> None:
        """What was begun is left: where it is not ended, that is noted, once."""
        work = self.work
        if work is None or work.finished or not work.notes.is_begun or work is self._left:
            return
        self._left = work
        self.record.append(self._attempt(work))

    def _next_item(self) -> None:
        self.mastered = self.mastered and not self._gives_up
        if self._following.step > self.position.step:
            self._over.add(self.position.step)
        self._sets.begin_another()
        self.position = self._following
        self._enter()

    @property
    def _is_last_item(self) -> bool:
        return self.position.item + 1 == self._size

    @property
    def _gives_up(self) -> bool:
        """Whether a set ends here although it is not passed."""
        step = self._step
        return (
            isinstance(step, Practise)
            and self._is_last_item
            and self.position.round + 1 == MOST_ROUNDS
            and self.position.right < step.right
        )

    @property
    def _following(self) -> Position:
        """The position after the exercise at this one."""
        step, position = self._step, self.position
        if not self._is_last_item:
            return replace(position, item=position.item + 1)
        if isinstance(step, Practise) and position.right < step.right and not self._gives_up:
            return Position(position.step, 0, position.round + 1)
        return Position(position.step + 1)

    @property
    def upcoming(self) -> Position:
        """Where to begin another day: at this position, or after it where its exercise is done."""
        is_over = self.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS)
        return self._following if is_over and self.work is not None else self.position


def _size(step: LessonStep) -> int:
    return step.request.count if isinstance(step, Practise) else 1
