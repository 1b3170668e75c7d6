"""The sentences of a lesson: what it asks, and what answers the learner."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from frame.course.runner import Runner, Stage
from frame.language.catalogue import Words
from frame.language.habits import habit_line
from frame.language.lines import Line
from frame.language.printed import column_heard, operation_line
from frame.language.reasons import led_line
from frame.language.speech import names_in_turn
from frame.language.verdicts import (
    Hint,
    hint_line,
    next_shown_line,
    omission_line,
    shown_line,
    verdict_line,
)
from frame.language.wording import Listener, names_rods, over_line, rule_line
from frame.language.written import work_line
from frame.practice.exercises import Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.practice.suspected import Suspected, suspected
from frame.practice.suspects import Given
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.technique.expression import Sum
from frame.technique.judge import Judgement, Verdict
from frame.technique.plan import Step, Technique
from frame.technique.reading import read
from frame.technique.slips import Slip

EXPLAIN_TIMES = 2
"""How often the rule behind a right step is said while it is new."""

REASON_TIMES = 2
"""How often what is wrong with a bead is said, before it takes turns with what comes next."""

_OPEN = (Stage.WORK, Stage.ANSWER, Stage.DEMO)
"""Where something is to be done, or is seen to be done."""

_LEVELS = {Help.NONE: Hint.POINT, Help.POINT: Hint.POINT, Help.TEACH: Hint.TEACH}


@dataclass
class Feedback:
    """Makes the sentences; remembers which rules it has explained."""

    words: Words
    listener: Listener
    past: Callable[[], Sequence[Given]] = tuple
    """The answers given before of which no bead was seen, oldest first."""
    explained: Counter[str] = field(default_factory=Counter)

    points = True
    """Whether whoever slips or waits is shown where to look."""

    @property
    def shows_number(self) -> bool:
        """Whether a number to be set stands at the head."""
        return True

    def of_verdict(self, verdict: Verdict, work: Work) -> Line | None:
        """A slip, a remark, or a rule while it is new, and behind it the number where that is all;
        None where nothing need be said."""
        told = self._of_stroke(verdict, work)
        done = self.of_done(work)
        return self.words.line("verdict.then", what=told, act=done) if told and done else told

    def _of_stroke(self, verdict: Verdict, work: Work) -> Line | None:
        if verdict.is_right and work.exercise.kind is Kind.CLEAR:
            return None
        if not verdict.is_right and work.level is Help.SHOW:
            is_reason_heard = work.misses_here > REASON_TIMES and work.misses_here % 2
            shown = next_shown_line if is_reason_heard else shown_line
            return shown(verdict, self.words, self.listener)
        other_order = verdict.judgement is Judgement.OTHER_ORDER and verdict.kept
        if other_order and verdict.slip is None and self.listener is Listener.YOUNG:
            return None
        if verdict.judgement is not Judgement.RIGHT or verdict.part or verdict.slip:
            return verdict_line(verdict, self.words, self.listener)
        step, to_come = verdict.step, verdict.progress.step
        if step is None or to_come is step:
            return None
        if to_come is not None and to_come.operation.act.is_mending:
            is_told = to_come.operation == step.operation
            return None if is_told else work_line(to_come.operation, self.words)
        # Whoever multiplies has long known how digits are added, so that is no news.
        return self._explanation(step) if names_rods(step) else None

    def _explanation(self, step: Step) -> Line | None:
        rule = f"{step.change} {step.technique}"
        self.explained[rule] += 1
        if step.technique is Technique.DIRECT or self.explained[rule] > EXPLAIN_TIMES:
            return None
        line = rule_line(step, self.words, self.listener)
        over = over_line(step, self.words, self.listener)
        return line if over is None else self.words.line("verdict.then", what=line, act=over)

    def of_help(self, work: Work) -> Line | None:
        """What is said when help is asked for."""
        if work.judge is None:
            return None
        if work.exercise.kind is Kind.CLEAR:
            return self.words.line("lesson.wipe")
        if work.level is Help.NONE and (work.looks or work.is_silent):
            return self.words.line("lesson.look")
        level = _LEVELS.get(work.level, Hint.SHOW)
        return hint_line(work.judge.progress, level, self.words, self.listener)

    def of_work(self, work: Work) -> Line | None:
        """The line of written work that the tool leads through, once the lesson's own sentence
        has been seen."""
        step = work.step
        if step is None or not work.exercise.rung.is_led or work.finished:
            return None
        # Where the tool begins and the learner finishes, the sentence is for the learner's half.
        has_begun = work.frame != work.start if work.is_playing else bool(work.touches)
        is_line = not step.operation.act.is_of_column
        return led_line(step.operation, self.words) if has_begun and is_line else None

    def of_waiting(self, work: Work) -> Line | None:
        """What is said when nothing was touched for a while."""
        alone = len(work.frame.digits) == 1
        if work.judge is None or work.exercise.rung.is_unseen or alone:
            return None
        return hint_line(work.judge.progress, Hint.POINT, self.words, self.listener)

    def of_saying_done(self, work: Work) -> Line | None:
        """What is said when the learner says the work is done and it is not."""
        if work.asks or work.judge is None:
            return None
        if work.finished:
            return self.words.line("lesson.your_frame", number=read(work.frame))
        fault = work.judge.omission()
        if work.level is Help.SHOW:
            return hint_line(work.judge.progress, Hint.SHOW, self.words, self.listener)
        if fault is None:
            teach = hint_line(work.judge.progress, Hint.TEACH, self.words, self.listener)
            return self.of_waiting(work) or teach
        return omission_line(fault, work.judge.progress, self.words, self.listener)

    def of_stage(self, runner: Runner) -> Line | None:
        """What the lesson waits for, where its own sentence does not say so."""
        work = runner.work
        if work is None or work.exercise.kind is Kind.READ:
            return None
        if runner.stage is Stage.ANSWER and work.asks_rest:
            return self.words.line("lesson.what_rest")
        if runner.stage is Stage.ANSWER:
            covered = not work.exercise.by_answer
            return self.words.line("lesson.what_reads" if covered else "lesson.what_answer")
        if runner.stage is Stage.WORK and work.exercise.is_tried and work.frame == work.start:
            return self.words.line("lesson.tried", number=work.exercise.trial)
        if runner.stage is Stage.PRESENT and work.exercise.asked is Asked.FLASHED:
            return self.words.line("flash.ready")
        return None

    def of_standing(self, runner: Runner, said: Line | None) -> Line | None:
        """The sentence that stands before the lesson's end: the answer to what was done, or the
        lesson's own. A half-done move's sentence is about the learner's half, so it waits until
        that comes."""
        work = runner.work
        if runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS):
            return said
        if work is not None and work.exercise.rung is Rung.FINISH and work.is_playing:
            return self.of_work(work) or self.words.line("lesson.watch")
        return said or self._of_untouched(runner)

    def _of_untouched(self, runner: Runner) -> Line | None:
        """What stands where nothing was done yet."""
        work, own, asks = runner.work, runner.line, self.of_stage(runner)
        if work is None:
            return own
        is_shown = work.exercise.asked is Asked.SHOWN
        if is_shown and work.exercise.by_answer and not work.asks_rest:
            return own or asks
        return asks or self.of_work(work) or own or self.of_unsaid(work) or self.of_deed(work)

    def of_deed(self, work: Work) -> Line | None:
        """What is to be done with a number, or for the young a sum, that stands there alone."""
        if work.exercise.asked is not Asked.SHOWN:
            return None
        match work.exercise.kind:
            case Kind.READ | Kind.CLEAR:
                return self.of_asked(work)
            case Kind.SET:
                return self.words.line("lesson.set_it")
            case Kind.SUM if self.listener is Listener.YOUNG:
                return self.words.line("lesson.work_it")
        return None

    def of_again(self, runner: Runner) -> Line:
        """That a set comes again, over what is to be done, which is heard by itself."""
        key = "lesson.once_more" if runner.has_other_numbers else "lesson.once_again"
        again, deed = self.words.line(key), self.of_deed(runner.work) if runner.work else None
        return Line(f"{again.show} {deed.show}", again.speak) if deed else again

    def of_way_on(self, own: Line | None = None) -> Line:
        """How to go on, behind the sentence that is to be left."""
        touch_on = self.words.line("lesson.touch_on")
        return self.words.line("verdict.then", what=own, act=touch_on) if own else touch_on

    def of_end(self, runner: Runner, *, is_lesson: bool) -> Line:
        """The last word of a lesson, or of a set practised."""
        if is_lesson:
            usual = "lesson.passed" if runner.mastered else "lesson.worked_through"
            return runner.lesson.end.line or self.words.line(usual)
        if not runner.attempts:
            return self.words.line("practise.over_untried")
        return self.words.line("practise.over", right=runner.unaided, all=len(runner.attempts))

    def of_number(self, number: Decimal) -> Line:
        """A number alone."""
        return self.words.line("lesson.number", number=number)

    def of_reading(self, work: Work) -> Line:
        """What the frame of an exercise reads."""
        return self.words.line("lesson.it_reads", number=read(work.start))

    def of_asked(self, work: Work) -> Line | None:
        """What an exercise asks, to be heard: the number to set, or the numbers of its sum one
        after another; nothing where they are called or flashed."""
        calculation = work.exercise.sum
        if work.exercise.asked is not Asked.SHOWN:
            return None
        match work.exercise.kind:
            case Kind.SET:
                return self.of_number(work.exercise.number)
            case Kind.READ:
                return self.words.line("lesson.what_reads")
            case Kind.CLEAR:
                return self.words.line("lesson.wipe")
        if not isinstance(calculation, Sum):
            return operation_line(calculation, self.words)
        return Line("", column_heard(calculation, self.words))

    def before(self, line: Line | None, runner: Runner, *, eyes_shut: bool) -> Line | None:
        """What is to be heard before a sentence: what is asked, where something is to be done and
        the sentence does not say it itself; the lesson's own, where numbers are to come."""
        work, own = runner.work, runner.line
        if runner.stage is Stage.PRESENT:
            return own
        if work is None or runner.stage not in _OPEN:
            return None
        says_it = line is not None and line == own and self.asks_itself(runner)
        # Who works without looking has only the numbers to go by.
        must_hear = eyes_shut and work.is_silent
        asked = self.of_asked(work)
        return None if (says_it and not must_hear) or asked == line else asked

    def asks_itself(self, runner: Runner) -> bool:
        """Whether the lesson's own sentence says all that is asked: it names the numbers of the
        exercise, or no number is to be told."""
        work, own = runner.work, runner.line
        if work is None or own is None:
            return False
        if work.exercise.kind in (Kind.READ, Kind.CLEAR):
            return True
        numbers = (self.words.number(abs(number)) for number in work.exercise.sum.numbers)
        return not runner.is_drawn and names_in_turn(own.speak, numbers)

    def of_unsaid(self, work: Work | None) -> Line | None:
        """A product, a quotient or a root that the lesson has no sentence for."""
        calculation = work.exercise.sum if work is not None else None
        if calculation is None or isinstance(calculation, Sum):
            return None
        return operation_line(calculation, self.words)

    def of_done(self, work: Work) -> Line | None:
        """What stands beside the tick where nothing else was said."""
        if not work.right or work.exercise.kind is Kind.CLEAR:
            return None
        return self._right(work)

    def _right(self, work: Work) -> Line:
        """The number that is right, and what is left over where something is."""
        number, rest = work.exercise.sum.result, work.exercise.sum.remainder
        if rest:
            return self.words.line("lesson.right_with_rest", number=number, rest=rest)
        return self.words.line("lesson.right_answer", number=number)

    def of_answer(self, number: Decimal, work: Work, *, is_told: bool = True) -> Line | None:
        """What is said of a number given for the answer; thanks alone where all is told later."""
        if work.exercise.kind is Kind.READ and not work.right:
            return self._of_misreading(number, work)
        if work.asks_rest and not work.finished:
            if work.given_rest is None:
                return self.words.line("lesson.what_rest")
            if work.level is not Help.SHOW:
                return self.words.line("lesson.rest_again")
            return self.words.line("lesson.rest_is", rest=work.exercise.sum.remainder or 0)
        if work.exercise.asks_reading and not work.finished:
            if work.level is Help.SHOW:
                return self.words.line("lesson.it_reads", number=work.exercise.sum.result)
            is_column = isinstance(work.exercise.sum, Sum)
            below = self.words.line("lesson.reads_below" if is_column else "lesson.reads_signs")
            if work.slips[-1:] != [Slip.NEGATIVE_READ_AS_SHOWN]:
                return below
            what = self.words.line(f"slip.{Slip.NEGATIVE_READ_AS_SHOWN}.{self.listener}")
            return self.words.line("verdict.then", what=what, act=below)
        if not is_told:
            self.behind(work)
            return self.words.line("lesson.noted")
        return self.of_outcome(work)

    def _of_misreading(self, number: Decimal, work: Work) -> Line:
        """Where to look again; at the second one what the frame reads."""
        if len(work.slips) > 1:
            return self.of_reading(work)
        is_cut = len(str(number)) != len(str(read(work.start)))
        return self.words.line("lesson.look_at_rods" if is_cut else "lesson.look_again")

    def of_outcome(self, work: Work) -> Line:
        """How an exercise ended: the answer and the hand, told apart."""
        if work.outcome in (None, Outcome.RIGHT):
            return self._right(work)
        number = work.exercise.sum.result
        behind = self.behind(work)
        if behind is not None:
            what = self.words.line("lesson.it_is", number=number)
            act = habit_line(behind.site, self.words, self.listener)
            return self.words.line("verdict.then", what=what, act=act)
        return self.words.line(_OUTCOMES[work.outcome], number=number)

    def behind(self, work: Work) -> Suspected | None:
        """What was likely behind a wrong answer of which no bead was seen. It is asked once, when
        the answer is given: soon that is among those of the past, and would count twice."""
        if work.behind is None and work.finished:
            found = self._suspected(work)
            work.behind = () if found is None else (found,)
        return work.behind[0] if work.behind else None

    def _suspected(self, work: Work) -> Suspected | None:
        if work.outcome is not Outcome.WRONG_ANSWER or work.plan is None or work.given is None:
            return None
        calculation, conventions = work.exercise.sum, work.plan.conventions
        if work.given == calculation.result:
            return None  # What is left over was not right; of that no habit is known.
        return suspected(calculation, work.given, self.past(), conventions)


_OUTCOMES = {
    Outcome.WRONG_PLAN: "outcome.wrong_plan",
    Outcome.PICTURE_LOST: "outcome.picture_lost",
    Outcome.HAND_STRAYED: "outcome.hand_strayed",
    Outcome.WRONG_ANSWER: "outcome.wrong_answer",
}
