"""What a lesson says, shows and waits for.

The runner knows what is asked; the guide knows what is said of it, when something falls due, and
how much of the frame is seen. It has neither a window nor a clock: times are handed in, and a
screen shows what stands here and speaks what is `told`.

What is asked is said before the sentence of its step, which is said once, unless that names the
numbers itself: whoever only hears knows what is to be done. A mistake is always answered, the same
one twice with the same words, and from the third time on by showing; what does nothing at all is
answered by saying again what is to be done.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from frame.course import pacing
from frame.course.answer import Answer, signs_of
from frame.course.attempts import Position
from frame.course.counting import Counting
from frame.course.feedback import Feedback
from frame.course.pacing import Due
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.course.telling import Telling, joined
from frame.course.veil import NO_VEIL, Veil, faded_rods, veil_of
from frame.dues import Dues
from frame.language.lines import Line
from frame.practice.exercises import Kind
from frame.practice.flashing import FlashReport
from frame.practice.log import Happening
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.judge import Verdict
from frame.technique.reading import plain

COUNT_FROM = 3
"""From so many wrong readings on, the beads are counted aloud."""
LEAST_DIGITS = 4
_OPEN = (Stage.WORK, Stage.ANSWER, Stage.DEMO)
"""Where something is to be done, or is seen to be done."""


@dataclass
class Guide:
    """A lesson under way, and what is said of it.

    `looking` is a free look, `mending` the move of a bead that was put back, `counting` what
    is counted aloud, `ending` the last word where it is not the usual one; `entered` counts how
    often the lesson came to wait for something else, and `since` is the zero of the exercise's
    times.
    """

    runner: Runner
    feedback: Feedback
    is_lesson: bool = True
    eyes_shut: bool = False
    sure: frozenset[str] = frozenset()
    dues: Dues = field(default_factory=Dues)
    telling: Telling = field(default_factory=Telling)
    looking: bool = False
    mending: BeadMove | None = None
    counting: Counting = field(default_factory=Counting)
    since: float = 0.0
    entered: int = 0
    ending: Line | None = None
    _here: tuple[Stage, Position, int] | None = None
    _work: Work | None = None
    _step: int | None = None
    _pale_done: int = 0
    _faded: frozenset[int] = frozenset()
    _asked_for_beads: Work | None = None

    def __post_init__(self) -> None:
        self.answer = Answer(max(LEAST_DIGITS, self.runner.lesson.rods))

    # What is seen.

    @property
    def has_field(self) -> bool:
        """Whether there is a frame on the screen: not while the learner's own lies on the table,
        or a number is all there is."""
        work = self.runner.work
        if work is None or self.answer.frame is not None:
            return self.runner.stage is not Stage.END or not self.runner.lesson.ends_on_own
        is_number = work.exercise.by_answer and work.exercise.rung is Rung.NUMBER
        return not work.exercise.own and (not is_number or work.finished)

    @property
    def frame(self) -> Frame:
        """The frame that is seen."""
        return self.answer.frame or self.runner.frame

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
    def hinted(self) -> Stroke:
        """The moves with a badge: what is played next, or what help shows."""
        work, stage = self.runner.work, self.runner.stage
        if work is None:
            return ()
        if stage is Stage.DEMO:
            return work.to_play[0] if work.to_play else ()
        return self.shows_next if stage is Stage.WORK else ()

    @property
    def pointed(self) -> int | None:
        """The rod to look at, where a frame has more than one."""
        work = self.runner.work
        is_open = self.runner.stage is Stage.WORK and len(self.frame.digits) > 1
        if work is None or not is_open or not self.feedback.points:
            return None
        is_waiting = self.said is not None and self.said == self._pointer
        return work.rod_to_work if work.level is Help.POINT or is_waiting else None

    @property
    def points_on(self) -> bool:
        """Whether the way on is shown, to whoever sought it elsewhere or waits before it."""
        return self.runner.stage is Stage.TELL and self.said is not None

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
        word. A half-done move's sentence is about the learner's half, so it waits until that
        comes."""
        words, runner, work = self.feedback.words, self.runner, self.runner.work
        if runner.stage is Stage.END:
            return self.ending or self.feedback.of_end(runner, is_lesson=self.is_lesson)
        if runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS):
            return self.said
        if work is not None and work.exercise.rung is Rung.FINISH and work.is_playing:
            return self.feedback.of_work(work) or words.line("lesson.watch")
        return self.said or self.feedback.of_standing(runner)

    def _before(self, line: Line | None) -> Line | None:
        """What is to be heard before a sentence: what is asked, where something is to be done and
        the sentence does not say it itself; the lesson's own, where numbers are to come."""
        work, own = self.runner.work, self.runner.line
        if self.runner.stage is Stage.PRESENT:
            return own
        if work is None or self.runner.stage not in _OPEN:
            return None
        says_it = line is not None and line == own and self.feedback.asks_itself(self.runner)
        # Who works without looking has only the numbers to go by.
        must_hear = self.eyes_shut and work.is_silent
        return None if says_it and not must_hear else self.feedback.of_asked(work)

    @property
    def aloud(self) -> Line | None:
        """All that there is to hear: what is asked, and the sentence that stands."""
        return joined(self._before(self.line), self.line)

    @property
    def said(self) -> Line | None:
        """What is said to what the learner did last."""
        return self.telling.said

    def heard(self, now: float, seconds: float) -> None:
        """What is told takes so long to be heard; the lesson goes on after it."""
        self.telling.quiet_at = now + seconds
        for due, pause in ((Due.ON, 0.0), (Due.COUNT, 0.0), (Due.WAIT, pacing.WAIT_SECONDS)):
            at = self.dues.at(due)
            if at is not None:
                self.dues.put(due, max(at, self.telling.quiet_at + pause))

    def say(self, line: Line) -> None:
        """Something is said that the lesson does not know of."""
        self.telling.answer(line)

    # What the learner does.

    def touch(self, stroke: Stroke, now: float) -> Verdict | None:
        """The learner makes a stroke, on the answer's own frame or one that is judged: its verdict,
        None where nothing is asked of it."""
        self._stop_counting()
        self._set_time(now)
        if self.answer.frame is not None:
            self.answer.touch(stroke)
            self._wait_anew(now)
            return None
        work = self.runner.work
        is_silent = work is not None and work.is_silent
        verdict = self.runner.touch(stroke)
        if verdict is None or work is None:
            return None
        self.looking = False
        if is_silent:
            self.telling.said = None
        else:
            self._mend(None if verdict.kept else stroke[0], now)
            self.telling.answer(None if work.asks else self.feedback.of_verdict(verdict, work))
        self.settle(now)
        return verdict

    def is_right(self, stroke: Stroke) -> bool:
        """Whether a stroke would be right, were it made."""
        judge = self.runner.work.judge if self.runner.work is not None else None
        return judge is not None and judge.judge(stroke).is_right

    @property
    def shows_next(self) -> Stroke:
        """The stroke that is shown to a learner who was wrong again, or asked to be shown."""
        work = self.runner.work
        is_lit = work is not None and work.is_lit and self.feedback.points
        return work.next_stroke if work is not None and is_lit else ()

    def wipe(self, rods: tuple[int, ...], now: float) -> None:
        """The learner wipes along the beam; where that does nothing, what is to be done is told."""
        self._set_time(now)
        if self.runner.wipe(rods):
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
        if self.runner.stage is not Stage.TELL or self.points_on:
            return False
        self._point_on()
        was_heard = now >= self.telling.quiet_at
        self.telling.tell(self._touch_on if was_heard else self.said)
        return True

    def type_sign(self, sign: str, now: float) -> bool:
        """A key of the answer. Whether a digit is all of the answer, which is given then."""
        self._stop_counting()
        self.answer.type(sign)
        self._wait_anew(now)
        return self.is_one_digit

    def give_answer(self, now: float) -> None:
        """The number is the answer; without one, the question is told again."""
        work, number = self.runner.work, self.answer.number
        if work is None:
            return
        self._stop_counting()
        if number is None:
            self.fall_short(now)
            return
        asked_rest = work.asks_rest
        self._set_time(now)
        self.runner.answer(number)
        is_told = not self.runner.is_set_told_at_end
        is_taken = work.finished or work.asks_rest is not asked_rest
        self.answer.give(is_taken=is_taken)
        is_read = work.exercise.kind is Kind.READ
        if is_read and not work.finished and len(work.slips) >= COUNT_FROM:
            self.telling.answer(self.feedback.words.line("lesson.count"))
            self.counting.begin(work.start)
            self.dues.put(Due.COUNT, now)
        else:
            self.telling.answer(self.feedback.of_answer(number, work, is_told=is_told))
        self.settle(now)

    def use_frame(self) -> None:
        """The answer is taken from the frame where one was worked, else set on an empty one."""
        if self.runner.takes_touches:
            self.answer.take(self.runner.frame)
        elif self.answer.frame is None:
            self.answer.set_on_frame(self.runner.lesson.rods)

    def say_done(self, now: float) -> None:
        """The learner says the work is done. Where the beads are the point, a hand that has not
        touched any is asked for them, once."""
        work = self.runner.work
        self.looking = False
        if work is None:
            return
        if work.lacks_beads and self._asked_for_beads is not work:
            self._asked_for_beads = work
            self.telling.answer(self.feedback.words.line("lesson.move_beads"))
            return
        self.telling.said = None
        self._set_time(now)
        if not self.runner.say_done():
            self.telling.answer(self.feedback.of_saying_done(work))
        self.settle(now)

    def help(self, now: float) -> None:
        """A little more help; on an unseen frame a look."""
        work = self.runner.work
        if work is not None:
            self._set_time(now)
            self.runner.help()
            self.looking = True
            self._mend(None, now)
            self.telling.answer(self.feedback.of_help(work))

    def end_look(self) -> bool:
        """A touch ends a look at an unseen frame. Whether there was one."""
        work = self.runner.work
        was_looking = self.looking and work is not None and work.exercise.rung.is_unseen
        self.looking = self.looking and not was_looking
        return was_looking

    def undo(self, now: float) -> None:
        """The last stroke that was kept goes back."""
        self._set_time(now)
        if self.runner.undo():
            self.telling.said = None
            self._wait_anew(now)

    def go_on(self, now: float) -> None:
        """Leave a sentence, or what is done."""
        runner = self.runner
        runner.go_on()
        is_again = runner.position.round and not runner.position.item
        key = "lesson.once_more" if runner.has_other_numbers else "lesson.once_again"
        self._leave(now, self.feedback.words.line(key) if is_again else None)

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
        self._set_time(now)
        self.runner.pass_by()
        self._leave(now)

    def present_again(self, now: float) -> None:
        """The numbers come once more."""
        self._set_time(now)
        self.runner.present_again()
        self.answer.clear()
        self.settle(now)

    def was_shown(self, now: float) -> None:
        """The numbers have come, or what was to be seen was seen."""
        work = self.runner.work
        if self.is_presenting and work is not None and work.exercise.asked is Asked.CALLED:
            self.note(Happening.CALLED, now)
        elif self.is_presenting:
            self._begin_time(now)
        self.runner.go_on()
        self.settle(now)

    def is_called(self, now: float) -> None:
        """The first number begins to be heard."""
        self._begin_time(now)

    def note(self, what: Happening, now: float) -> None:
        """Something happened beside what the learner does with beads and answers."""
        work = self.runner.work
        if work is not None and not work.finished:
            self._set_time(now)
            work.notes.note(what)

    def _begin_time(self, now: float) -> None:
        """The zero of the exercise's times, unless something was done of it by then."""
        work = self.runner.work
        if work is None or not work.notes.is_begun:
            self.since = now
        if work is not None and not work.notes.is_begun:
            work.notes.entries.clear()

    def _set_time(self, now: float) -> None:
        if self.runner.work is not None:
            self.runner.work.notes.ms = max(0, round(1000 * (now - self.since)))

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
        self.telling.said, self.looking = said, False
        self.answer.clear()
        self._stop_counting()
        self._mend(None, now)
        self._here = None
        self.settle(now)

    @property
    def shown_sign(self) -> str:
        """The key of the answer that is shown to whoever has read a frame wrongly again and again:
        its next digit; empty where none is shown."""
        work = self.runner.work
        if work is None or work.exercise.kind is not Kind.READ or len(work.slips) < COUNT_FROM:
            return ""
        wanted, typed = plain(work.exercise.sum.result), self.answer.typed
        at = len(typed) if wanted.startswith(typed) else 0
        return "" if self.counting.is_under_way else wanted[at : at + 1]

    @property
    def is_one_digit(self) -> bool:
        """Whether the answer is what one rod reads: then a digit is all of it."""
        work = self.runner.work
        by_answer = work is not None and work.exercise.by_answer
        return len(self.runner.frame.digits) == 1 and not by_answer and not self.answer_signs

    @property
    def answer_signs(self) -> str:
        """The signs that an answer may have beside digits."""
        work = self.runner.work
        return signs_of(self.runner.known, work.exercise.sum if work is not None else None)

    # What falls due.

    def advance(self, now: float) -> tuple[StrEnum, ...]:
        """Let time pass while no bead is on its way: what has fallen due. With Due.ON among it the
        lesson is to go on."""
        fallen = self.dues.fallen(now)
        if Due.MENDED in fallen:
            self.mending = None
        if Due.WAIT in fallen:
            self._tell_again()
        if Due.COUNT in fallen:
            self._count_on(now)
        return fallen

    def hurry(self, now: float) -> None:
        """Somebody does not want to wait until what comes next."""
        if self.dues.at(Due.ON) is not None:
            self.telling.quiet_at = now
            self.dues.put(Due.ON, now)

    def play(self, now: float, seconds: float) -> None:
        """The next stroke of a demonstration, which takes so long to be seen."""
        work = self.runner.work
        if self.runner.play() is None:
            self.telling.said = self.feedback.words.line("lesson.your_turn")
        self.settle(now)
        if self.runner.stage is Stage.DEMO and work is not None:
            pause = pacing.PAUSE_BEFORE_DEMO if work.to_play else pacing.PAUSE_AFTER_DEMO
            self._go_on_at(now + seconds + pause)

    def settle(self, now: float) -> None:
        """Take in what the runner waits for now, and tell what is new."""
        here = self.runner.stage, self.runner.position, id(self.runner.work)
        if here == self._here:
            self._wait_anew(now)
        else:
            self._here = here
            self.entered += 1
            self._enter(now)
        self.telling.tell_once(self.line)

    def _enter(self, now: float) -> None:
        work, stage = self.runner.work, self.runner.stage
        is_new, self._work = work is not self._work, work
        for due in (Due.ON, Due.COVER):
            self.dues.put(due, None)
        if is_new or stage in (Stage.TELL, Stage.END):
            self._begin(now)
        elif stage is Stage.WORK:
            self._tell_turn()
        if stage is Stage.RESULTS:
            self.dues.put(Due.ON, now)
        elif work is not None:
            self._enter_work(work, now)
        self._wait_anew(now)

    def _enter_work(self, work: Work, now: float) -> None:
        """An exercise waits for something else."""
        match self.runner.stage:
            case Stage.DONE:
                self._enter_done(work, now)
            case Stage.DEMO:
                self._go_on_at(now + pacing.PAUSE_BEFORE_DEMO)
            case Stage.PRESENT:
                is_called = work.exercise.asked is Asked.CALLED
                self.dues.put(Due.ON, now + pacing.PAUSE_BEFORE_CALL if is_called else None)
            case Stage.WORK:
                self._begin_time(now)
                self._faded = faded_rods(work, self.sure)
            case Stage.ANSWER if work.exercise.kind is Kind.READ:
                is_unseen = work.exercise.rung.is_unseen
                self.dues.put(Due.COVER, now + pacing.GLANCE_SECONDS if is_unseen else None)
            case Stage.REVEAL:
                self._go_on_at(now + pacing.PAUSE_AFTER_DONE)

    def _begin(self, now: float) -> None:
        """Another exercise, or a sentence. That of a set is told once."""
        self.since = now
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
        self._mend(None, now)
        self._pale_done += work.exercise.rung is Rung.PALE
        explains = self.said is not None and work.exercise.kind is not Kind.READ
        if self.said is None:
            self.telling.answer(self.feedback.of_done(work))
        self._go_on_at(now + (pacing.PAUSE_TO_READ if explains else pacing.PAUSE_AFTER_DONE))

    def _go_on_at(self, at: float) -> None:
        self.dues.put(Due.ON, max(at, self.telling.quiet_at))

    def _mend(self, move: BeadMove | None, now: float) -> None:
        self.mending = move
        self.dues.put(Due.MENDED, None if move is None else now + pacing.MENDING_SECONDS)

    def _wait_anew(self, now: float) -> None:
        """Whoever waits is told again, once for each thing done."""
        waits = self.runner.stage in (Stage.TELL, Stage.WORK, Stage.ANSWER, Stage.END)
        at = max(now, self.telling.quiet_at) + pacing.WAIT_SECONDS
        self.dues.put(Due.WAIT, at if waits else None)

    @property
    def _pointer(self) -> Line | None:
        """Where to look, for whoever waits on a frame that is seen. It counts as no help."""
        work = self.runner.work
        at_work = work is not None and self.runner.stage is Stage.WORK
        return self.feedback.of_waiting(work) if at_work and work is not None else None

    def _tell_again(self) -> None:
        if self.said is None and self._pointer is not None:
            self.telling.answer(self._pointer)
        elif self.runner.stage is Stage.TELL:
            self._point_on()
            self.telling.tell(self.said)
        elif self.runner.stage is Stage.END:
            self.telling.tell(joined(self.aloud, self._touch_on))
        else:
            self.telling.tell(self.aloud)

    @property
    def _touch_on(self) -> Line:
        return self.feedback.words.line("lesson.touch_on")

    def _point_on(self) -> None:
        """The way on stands behind the sentence that it leaves."""
        own, words = self.runner.line, self.feedback.words
        both = own and words.line("verdict.then", what=own, act=self._touch_on)
        self.telling.said = both or self._touch_on

    def _count_on(self, now: float) -> None:
        """The next bead is lit and counted; after the last, what the frame reads is told."""
        one, work = self.counting.count_on(), self.runner.work
        if one is not None:
            self.telling.tell(self.feedback.of_number(one.number))
            self.dues.put(Due.COUNT, now + pacing.COUNT_SECONDS)
        elif work is not None:
            self.telling.answer(self.feedback.of_reading(work))

    def _stop_counting(self) -> None:
        self.counting.stop()
        self.dues.put(Due.COUNT, None)
