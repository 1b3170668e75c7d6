"""A lesson under way: what the learner does, and what is told of it.

The runner knows what is asked, `Feedback` makes the sentences; the guide tells them, each when it
is new. `sight` is what is seen meanwhile, `pacing` sets what falls due. It has neither a window nor
a clock: times are handed in, and a screen shows what stands here and speaks what `telling` has.

What is asked is said before the sentence of its step, which is said once, unless that names the
numbers itself: whoever only hears knows what is to be done. A mistake is always answered: from
the second on what is right is shown, and from the third on it takes turns with what is wrong in
what is said; what does nothing at all is answered by saying again what is to be done.
"""

from dataclasses import InitVar, dataclass, field
from enum import StrEnum

from frame.course import pacing
from frame.course.answer import Answer, is_one_digit
from frame.course.attempts import Position
from frame.course.counting import is_misread
from frame.course.feedback import Feedback
from frame.course.pacing import Due, Pacing
from frame.course.runner import Runner
from frame.course.sight import Sight
from frame.course.stages import Stage
from frame.course.stopwatch import Stopwatch
from frame.course.telling import Telling, joined
from frame.dues import Dues
from frame.language.lines import Line
from frame.practice.exercises import Kind
from frame.practice.flashing import FlashReport
from frame.practice.log import Happening
from frame.practice.rungs import Asked
from frame.practice.work import Work
from frame.technique.beads import Stroke
from frame.technique.judge import Verdict

LEAST_DIGITS = 4


@dataclass
class Guide:
    """A lesson under way, and what is said of it.

    `ending` is the last word where it is not the usual one, `entered` counts how often the lesson
    came to wait for something else. Beads of facts that are `sure` fade first.
    """

    runner: Runner
    feedback: Feedback
    is_lesson: bool = True
    eyes_shut: bool = False
    sure: InitVar[frozenset[str]] = frozenset()
    dues: Dues = field(default_factory=Dues)
    telling: Telling = field(default_factory=Telling)
    stopwatch: Stopwatch = field(default_factory=Stopwatch)
    entered: int = 0
    ending: Line | None = None
    _here: tuple[Stage, Position, int] | None = None
    _work: Work | None = None
    _step: int | None = None
    _asked_for_beads: Work | None = None

    def __post_init__(self, sure: frozenset[str]) -> None:
        self.answer = Answer(max(LEAST_DIGITS, self.runner.lesson.rods))
        self.pacing = Pacing(self.dues, self.telling)
        self.sight = Sight(self.runner, self.answer, self.feedback, self.telling, self.dues, sure)

    @property
    def is_presenting(self) -> bool:
        """Whether numbers are called or flashed, or are about to be."""
        return self.runner.stage is Stage.PRESENT

    @property
    def takes_beads(self) -> bool:
        """Whether beads may be moved."""
        return self.runner.takes_touches or self.answer.frame is not None

    # What is said.

    @property
    def line(self) -> Line | None:
        """The sentence that stands: the answer to what was done, the lesson's own, or the last
        word."""
        if self.runner.stage is Stage.END:
            return self.ending or self.feedback.of_end(self.runner, is_lesson=self.is_lesson)
        return self.feedback.of_standing(self.runner, self.said)

    def _before(self, line: Line | None) -> Line | None:
        return self.feedback.before(line, self.runner, eyes_shut=self.eyes_shut)

    @property
    def aloud(self) -> Line | None:
        """All that there is to hear: what is asked, and the sentence that stands."""
        return joined(self._before(self.line), self.line)

    @property
    def said(self) -> Line | None:
        """What is said to what the learner did last."""
        return self.telling.said

    # What the learner does.

    def touch(self, stroke: Stroke, now: float) -> Verdict | None:
        """The learner makes a stroke, on the answer's own frame or one that is judged: its verdict,
        None where nothing is asked of it."""
        self.sight.stop_counting()
        self._stamp(now)
        if self.answer.frame is not None:
            self.answer.touch(stroke)
            self._wait_anew(now)
            return None
        work = self.runner.work
        is_silent = work is not None and work.is_silent
        verdict = self.runner.touch(stroke)
        if verdict is None or work is None:
            return None
        self.sight.looking = False
        if is_silent:
            self.telling.said = None
        else:
            self.sight.mend(None if verdict.kept else stroke[0], now)
            self.telling.answer(None if work.asks else self.feedback.of_verdict(verdict, work))
        self.settle(now)
        return verdict

    def is_right(self, stroke: Stroke) -> bool:
        """Whether a stroke would be right, were it made."""
        judge = self.runner.work.judge if self.runner.work is not None else None
        return judge is not None and judge.judge(stroke).is_right

    def wipe(self, rods: tuple[int, ...], now: float) -> None:
        """The learner wipes along the beam; where that does nothing, what is to be done is told."""
        self._stamp(now)
        if self.runner.wipe(rods):
            self.telling.said = None
            self.settle(now)
        else:
            self.fall_short(now)

    def fall_short(self, now: float) -> None:
        """Something was meant that does nothing, such as a bead let go half way: what is to be
        done is told again."""
        if self.takes_beads or self.runner.stage is Stage.ANSWER:
            self._tell_again()
            self._wait_anew(now)

    def seek_on(self, now: float) -> bool:
        """Beads are touched where a sentence is to be left: the way on is told, once, behind what
        was not heard to its end. Whether it was."""
        if self.runner.stage is not Stage.TELL or self.sight.points_on:
            return False
        self._point_on()
        was_heard = now >= self.telling.quiet_at
        self.telling.tell(self.feedback.of_way_on() if was_heard else self.said)
        return True

    def type_sign(self, sign: str, now: float) -> bool:
        """A key of the answer. Whether a digit is all of the answer, which is given then."""
        self.sight.stop_counting()
        self.answer.type(sign)
        self._wait_anew(now)
        return is_one_digit(self.runner)

    def give_answer(self, now: float) -> None:
        """The number is the answer; without one, the question is told again."""
        work, number = self.runner.work, self.answer.number
        if work is None:
            return
        self.sight.stop_counting()
        if number is None:
            self.fall_short(now)
            return
        asked_rest = work.asks_rest
        self._stamp(now)
        self.runner.answer(number)
        is_told = not self.runner.is_set_told_at_end
        is_taken = work.finished or work.asks_rest is not asked_rest
        self.answer.give(is_taken=is_taken)
        if is_misread(work) and not work.finished:
            self.telling.answer(self.feedback.words.line("lesson.count"))
            self.sight.begin_counting(work.start, now)
        else:
            self.telling.answer(self.feedback.of_answer(number, work, is_told=is_told))
        self.settle(now)

    def say_done(self, now: float) -> None:
        """The learner says the work is done. Where the beads are the point, a hand that has not
        touched any is asked for them, once."""
        work = self.runner.work
        self.sight.looking = False
        if work is None:
            return
        if work.lacks_beads and self._asked_for_beads is not work:
            self._asked_for_beads = work
            self.telling.answer(self.feedback.words.line("lesson.move_beads"))
            return
        self.telling.said = None
        self._stamp(now)
        if not self.runner.say_done():
            self.telling.answer(self.feedback.of_saying_done(work))
        self.settle(now)

    def help(self, now: float) -> None:
        """A little more help; on an unseen frame a look."""
        work = self.runner.work
        if work is not None:
            self._stamp(now)
            self.runner.help()
            self.sight.looking = True
            self.sight.mend(None, now)
            self.telling.answer(self.feedback.of_help(work))

    def undo(self, now: float) -> None:
        """The last stroke that was kept goes back."""
        self._stamp(now)
        if self.runner.undo():
            self.telling.said = None
            self._wait_anew(now)

    def go_on(self, now: float) -> None:
        """Leave a sentence, or what is done."""
        runner = self.runner
        runner.go_on()
        is_again = runner.position.round and not runner.position.item
        self._leave(now, self.feedback.of_again(runner) if is_again else None)

    def step_back(self, now: float) -> None:
        """To what came before."""
        self.runner.step_back()
        self._leave(now)

    def skip(self, now: float) -> None:
        """Numbers that are to be flashed are left out."""
        self.runner.skip()
        self._leave(now)

    def pass_by(self, now: float) -> None:
        """The exercise is left as it stands."""
        self._stamp(now)
        self.runner.pass_by()
        self._leave(now)

    def present_again(self, now: float) -> None:
        """The numbers come once more."""
        self._stamp(now)
        self.runner.present_again()
        self.answer.clear()
        self.settle(now)

    def was_shown(self, now: float) -> None:
        """The numbers have come, or what was to be seen was seen."""
        work = self.runner.work
        if self.is_presenting and work is not None and work.exercise.asked is Asked.CALLED:
            self.note(Happening.CALLED, now)
        elif self.is_presenting:
            self.stopwatch.start(work, now)
        self.runner.go_on()
        self.settle(now)

    def is_called(self, now: float) -> None:
        """The first number begins to be heard."""
        self.stopwatch.start(self.runner.work, now)

    def note(self, what: Happening, now: float) -> None:
        """Something happened beside what the learner does with beads and answers."""
        self.stopwatch.note(self.runner.work, what, now)

    def _stamp(self, now: float) -> None:
        self.stopwatch.stamp(self.runner.work, now)

    def take_report(self, report: FlashReport, now: float) -> None:
        """A run of flashed numbers is over; of one that was stopped other numbers can be begun."""
        work = self.runner.work
        if report.was_stopped:
            self.runner.draw_another()
            self.telling.said = self.feedback.words.line("flash.stopped")
            self.settle(now)
        elif work is not None:
            work.report = report
            self.telling.said = None
            self.was_shown(now)

    def _leave(self, now: float, said: Line | None = None) -> None:
        self.telling.said, self.sight.looking = said, False
        self.answer.clear()
        self.sight.stop_counting()
        self.sight.mend(None, now)
        self._here = None
        self.settle(now)

    # What falls due.

    def advance(self, now: float) -> tuple[StrEnum, ...]:
        """Let time pass while no bead is on its way: what has fallen due. With Due.ON among it the
        lesson is to go on."""
        fallen = self.dues.fallen(now)
        if Due.MENDED in fallen:
            self.sight.mending = None
        if Due.WAIT in fallen:
            self._tell_again()
        if Due.COUNT in fallen:
            self._count_on(now)
        return fallen

    def play(self, now: float, seconds: float) -> None:
        """The next stroke of a demonstration, or at the end of what was new, which takes so long to
        be seen."""
        work = self.runner.work
        if self.sight.learned is not None:
            if self.sight.play_learned():
                self.pacing.go_on_at(now + seconds + pacing.PAUSE_BEFORE_DEMO)
            return
        if self.runner.play() is None:
            self.telling.said = self.feedback.words.line("lesson.your_turn")
        self.settle(now)
        if self.runner.stage is Stage.DEMO and work is not None:
            pause = pacing.PAUSE_BEFORE_DEMO if work.to_play else pacing.PAUSE_AFTER_DEMO
            self.pacing.go_on_at(now + seconds + pause)

    def settle(self, now: float) -> None:
        """Take in what the runner waits for now, and tell what is new."""
        here = self.runner.stage, self.runner.position, id(self.runner.work)
        if here != self._here:
            self._here = here
            self.entered += 1
            self._enter(now)
        self._wait_anew(now)
        self.telling.tell_once(self.line)

    def _enter(self, now: float) -> None:
        """The lesson waits for something else."""
        work, stage = self.runner.work, self.runner.stage
        is_new, self._work = work is not self._work, work
        if is_new or stage in (Stage.TELL, Stage.END):
            self._begin(now)
        elif stage is Stage.WORK:
            self._tell_turn()
        self.pacing.enter(self.runner, now)
        if stage is Stage.END and self.is_lesson and self.sight.look_back():
            self.pacing.go_on_at(now + pacing.PAUSE_AFTER_DONE)
        if work is not None and stage is Stage.WORK:
            self.stopwatch.start(work, now)
            self.sight.fade(work)
        elif work is not None and stage is Stage.DONE:
            self._enter_done(work, now)

    def _begin(self, now: float) -> None:
        """Another exercise, or a sentence. That of a set is told once."""
        self.stopwatch.since = now
        runner = self.runner
        is_same = runner.position.step == self._step and runner.stage is not Stage.TELL
        self._step = runner.position.step
        self.telling.begin(runner.line if is_same else None)
        self._tell_turn()

    def _tell_turn(self) -> None:
        """What is asked is told, with the sentence that stands where that was not heard yet."""
        line = None if self.telling.was_heard(self.line) else self.line
        before = self._before(line)
        if not self.telling.was_heard(before):
            self.telling.tell(joined(line, before) if self.said else joined(before, line), line)

    def _enter_done(self, work: Work, now: float) -> None:
        self.sight.mend(None, now)
        self.sight.fade_on(work)
        explains = self.said is not None and work.exercise.kind is not Kind.READ
        if self.said is None:
            self.telling.answer(self.feedback.of_done(work))
        self.pacing.go_on_at(now + (pacing.PAUSE_TO_READ if explains else pacing.PAUSE_AFTER_DONE))

    def _wait_anew(self, now: float) -> None:
        self.pacing.wait_anew(self.runner.stage, now)

    def _tell_again(self) -> None:
        """What is to be done is told again; at first only where to look, which is no help."""
        work, stage = self.runner.work, self.runner.stage
        at_work = work if stage is Stage.WORK and self.said is None else None
        pointer = self.feedback.of_waiting(at_work) if at_work is not None else None
        if pointer is not None:
            self.telling.answer(pointer)
        elif stage is Stage.TELL:
            self._point_on()
            self.telling.tell(self.said)
        elif stage is Stage.END:
            self.telling.tell(joined(self.aloud, self.feedback.of_way_on()))
        else:
            self.telling.tell(self.aloud)

    def _point_on(self) -> None:
        self.telling.said = self.feedback.of_way_on(self.runner.line)

    def _count_on(self, now: float) -> None:
        """The next bead is lit and counted; after the last, what the frame reads is told."""
        one, work = self.sight.counting.count_on(), self.runner.work
        if one is not None:
            self.telling.tell(self.feedback.of_number(one.number))
            self.dues.put(Due.COUNT, now + pacing.COUNT_SECONDS)
        elif work is not None:
            self.telling.answer(self.feedback.of_reading(work))
