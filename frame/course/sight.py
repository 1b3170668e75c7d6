"""What is seen of a lesson's frame, and what is marked on it."""

from dataclasses import dataclass, field

from frame.course import pacing
from frame.course.answer import Answer
from frame.course.counting import Counting, is_misread
from frame.course.feedback import Feedback
from frame.course.learned import Learned
from frame.course.lesson import Practise
from frame.course.pacing import Due
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.course.telling import Telling
from frame.course.veil import NO_VEIL, Veil, faded_rods, veil_of
from frame.dues import Dues
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.operation import Act
from frame.technique.reading import plain


@dataclass
class Sight:
    """The frame of a lesson, or of its answer, as it is looked at.

    `looking` is a free look, `mending` the move of a bead that was put back, `counting` what is
    counted aloud; `sure` are the facts whose beads fade first. What was told may point, and what
    falls due covers.
    """

    runner: Runner
    answer: Answer
    feedback: Feedback
    telling: Telling
    dues: Dues
    sure: frozenset[str]
    looking: bool = False
    mending: BeadMove | None = None
    counting: Counting = field(default_factory=Counting)
    learned: Learned | None = None
    _pale_done: int = 0
    _faded: frozenset[int] = frozenset()

    @property
    def has_field(self) -> bool:
        """Whether there is a frame on the screen: not while the learner's own lies on the table,
        or a number is all there is."""
        work = self.runner.work
        if work is None or self.answer.frame is not None:
            is_own = self.runner.stage is Stage.END and self.runner.lesson.ends_on_own
            return not is_own and not self.is_pictured
        is_number = work.exercise.by_answer and work.exercise.rung is Rung.NUMBER
        return not work.exercise.own and (not is_number or work.finished)

    @property
    def is_pictured(self) -> bool:
        """Whether at its end the picture of a lesson is all there is to see: nothing was new."""
        is_end = self.runner.stage is Stage.END
        return is_end and self.learned is None and bool(self.runner.lesson.end.scene)

    @property
    def frame(self) -> Frame:
        """The frame that is seen."""
        if self.learned is not None:
            return self.learned.frame
        return self.answer.frame or self.runner.frame

    def look_back(self) -> bool:
        """The lesson is over: what was new in it is to be seen once more. Whether there is any."""
        self.learned = Learned.of(self.runner.lesson, self.runner.conventions)
        return self.learned is not None

    def play_learned(self) -> bool:
        """The next stroke of it. Whether another one is to come."""
        if self.learned is not None:
            self.learned.play()
        return self.learned is not None and bool(self.learned.to_come)

    @property
    def veil(self) -> Veil:
        """What lies over it."""
        is_lifted = self.looking or self.counting.seen or self.answer.frame is not None
        if is_lifted or self.dues.at(Due.COVER) is not None:
            return NO_VEIL
        return veil_of(self.runner, self._pale_done, self._faded)

    @property
    def keeps_back(self) -> bool:
        """Whether beads are neither seen nor judged until the end."""
        work = self.runner.work
        return work is not None and work.is_silent and work.exercise.rung.is_unseen

    @property
    def shows_things(self) -> bool:
        """Whether what the beads stand for is seen, too: where they are read only once they were,
        and not in the last set of a lesson, in work that is less and less seen, nor at the end."""
        runner, work = self.runner, self.runner.work
        is_end = runner.stage is Stage.END
        if runner.lesson.thing is None or is_end or not self.has_field or self.veil != NO_VEIL:
            return False
        if work is None:
            return True
        is_read = work.exercise.kind is Kind.READ and not work.finished
        return not is_read and not work.exercise.rung.is_fading and not self._is_last_set

    @property
    def wanted(self) -> Frame | None:
        """The frame of a number that is to be set, alone or as the first of a sum; None where none
        is."""
        work = self.runner.work
        if work is None or work.step is None or work.exercise.kind is Kind.READ:
            return None
        is_set = work.step.operation.act is Act.SET and work.exercise.kind is not Kind.CLEAR
        return work.exercise.read_frame if is_set else None

    @property
    def _is_last_set(self) -> bool:
        """Whether what is asked belongs to the last set of the lesson."""
        later = self.runner.lesson.steps[self.runner.position.step + 1 :]
        return self.runner.is_drawn and not any(isinstance(step, Practise) for step in later)

    @property
    def hinted(self) -> Stroke:
        """The moves with a badge: what is played next, or what help shows."""
        work, stage = self.runner.work, self.runner.stage
        if work is None:
            return self.learned.next_stroke if self.learned is not None else ()
        if stage is Stage.DEMO:
            return work.to_play[0] if work.to_play else ()
        return self.shows_next if stage is Stage.WORK else ()

    @property
    def shows_next(self) -> Stroke:
        """The stroke that is shown to a learner who was wrong again, or asked to be shown."""
        work = self.runner.work
        is_lit = work is not None and work.is_lit and self.feedback.points
        return work.next_stroke if work is not None and is_lit else ()

    @property
    def pointed(self) -> int | None:
        """The rod to look at, where a frame has more than one."""
        work, said = self.runner.work, self.telling.said
        is_open = self.runner.stage is Stage.WORK and len(self.frame.digits) > 1
        if work is None or not is_open or not self.feedback.points:
            return None
        is_waiting = said is not None and said == self.feedback.of_waiting(work)
        return work.rod_to_work if work.level is Help.POINT or is_waiting else None

    @property
    def points_on(self) -> bool:
        """Whether the way on is shown, to whoever sought it elsewhere or waits before it."""
        return self.runner.stage is Stage.TELL and self.telling.said is not None

    @property
    def shown_sign(self) -> str:
        """The key of the answer that is shown to whoever has read a frame wrongly again and again:
        its next digit; empty where none is shown."""
        work = self.runner.work
        if work is None or not is_misread(work) or self.counting.is_under_way:
            return ""
        wanted, typed = plain(work.exercise.sum.result), self.answer.typed
        at = len(typed) if wanted.startswith(typed) else 0
        return wanted[at : at + 1]

    def mend(self, move: BeadMove | None, now: float) -> None:
        """A bead that was put back is outlined for a while, where slips are pointed at; None for no
        more."""
        self.mending = move if self.feedback.points else None
        at = None if self.mending is None else now + pacing.MENDING_SECONDS
        self.dues.put(Due.MENDED, at)

    def begin_counting(self, frame: Frame, now: float) -> None:
        """The beads of a frame are counted aloud, from now on."""
        self.counting.begin(frame)
        self.dues.put(Due.COUNT, now)

    def stop_counting(self) -> None:
        """They are no more."""
        self.counting.stop()
        self.dues.put(Due.COUNT, None)

    def fade(self, work: Work) -> None:
        """Work begins: the beads of what is sure fade."""
        self._faded = faded_rods(work, self.sure)

    def fade_on(self, work: Work) -> None:
        """Work is done: after pale work beads become paler."""
        self._pale_done += work.exercise.rung is Rung.PALE

    def end_look(self) -> bool:
        """A touch ends a look at an unseen frame. Whether there was one."""
        work = self.runner.work
        was_looking = self.looking and work is not None and work.exercise.rung.is_unseen
        self.looking = self.looking and not was_looking
        return was_looking
