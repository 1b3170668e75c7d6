"""One exercise under way: judged touches, help, demonstrations, and how it went."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.flashing import FlashReport
from frame.practice.items import worked_in
from frame.practice.log import Happening, Log, Notes
from frame.practice.outcomes import Outcome, outcome_of
from frame.practice.rungs import Rung
from frame.practice.suspected import Suspected
from frame.practice.touches import WRONG_ANSWER, Help, Touch
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Conventions, Strictness
from frame.technique.expression import Sum
from frame.technique.judge import Judge, Verdict
from frame.technique.plan import Plan, Step
from frame.technique.reading import read
from frame.technique.slips import Slip


@dataclass
class Work:
    """An exercise under way.

    A silent exercise keeps every bead until the learner is done; then `asks` tells that it waits
    for the answer, `asks_rest` for what is left over, and at the end `outcome` what was right.
    `misses_here` counts wrong beads since the last right one. `report` tells how flashed numbers
    came. `behind` is what was likely behind its answer, none or
    one, once that was asked. A demonstration `hands_over` to the learner. What is
    done is noted, at times that whoever has a clock sets.
    """

    exercise: Exercise
    plan: Plan | None
    strictness: Strictness
    start: Frame
    frame: Frame
    to_play: list[Stroke] = field(default_factory=list)
    judge: Judge | None = None
    level: Help = Help.NONE
    helps: int = 0
    looks: int = 0
    slips: list[str] = field(default_factory=list)
    asks: bool = False
    finished: bool = False
    outcome: Outcome | None = None
    asks_rest: bool = False
    given: Decimal | None = None
    given_rest: Decimal | None = None
    report: FlashReport | None = None
    behind: tuple[Suspected, ...] | None = None
    verdict: Verdict | None = None
    hands_over: bool = False
    touches: list[Touch] = field(default_factory=list)
    answers: list[Decimal] = field(default_factory=list)
    notes: Notes = field(default_factory=Notes)
    misses_here: int = 0
    _has_looked: bool = False

    @classmethod
    def begin(cls, exercise: Exercise, conventions: Conventions, strictness: Strictness) -> "Work":
        """The exercise with nothing done; what the tool does first waits in `to_play`."""
        plan = plan_for(exercise, conventions)
        start = plan.start if plan else exercise.read_frame
        work = cls(exercise, plan, strictness, start, start)
        work.asks = exercise.by_answer or exercise.kind is Kind.READ
        if plan is not None:
            work._from_start()
            if work.judge is not None and work.judge.finished and not work.is_silent:
                work._end_beads()  # No bead is to be moved at all, as for 3 / 7.
            strokes = list(plan.strokes)
            if exercise.rung is Rung.WATCH:
                work.to_play = strokes
            elif exercise.rung is Rung.FINISH:
                work.to_play = strokes[: max(0, len(strokes) - exercise.last)]
        return work

    @property
    def is_silent(self) -> bool:
        """Whether beads stay where they are put until the learner says the work is done."""
        return self.exercise.is_silent and not self.finished

    @property
    def is_lit(self) -> bool:
        """Whether the next bead is shown."""
        led = self.exercise.rung in (Rung.WATCH, Rung.FOLLOW)
        return not self.to_play and (led or self.level is Help.SHOW) and not self.is_silent

    @property
    def next_stroke(self) -> Stroke:
        """The stroke to make next, or what is left of it; empty when all is done."""
        return self.judge.progress.next_stroke if self.judge else ()

    @property
    def rod_to_work(self) -> int | None:
        """The rod of the next stroke, or None when all is done."""
        return self.next_stroke[0].rod if self.next_stroke else None

    @property
    def step(self) -> Step | None:
        """The step of the plan under way."""
        if self.judge is None:
            return None
        last = self.judge.progress.plan.steps[-1] if self.hands_over else None
        return self.judge.progress.step or last

    @property
    def term(self) -> int | None:
        """The index of the number being worked, within the exercise's column; None where it is
        none."""
        if not isinstance(self.exercise.sum, Sum):
            return None
        step = self.judge.progress.step if self.judge else None
        last = len(self.exercise.sum.terms) - 1
        return last if step is None else step.operation.row

    @property
    def can_undo(self) -> bool:
        """Whether there is a stroke to take back."""
        return bool(self.touches) and not (self.finished or (self.asks and not self.is_silent))

    @property
    def is_playing(self) -> bool:
        """Whether the tool moves beads, or has just done so."""
        return bool(self.to_play) or self.hands_over

    @property
    def right(self) -> bool:
        """Whether it ended with the right number."""
        return self.outcome is not None and self.outcome.is_right

    @property
    def lacks_beads(self) -> bool:
        """Whether beads are the point of it, none of them is seen, and no hand has moved any."""
        is_covered = self.is_silent and not self.exercise.by_answer
        return is_covered and not self.touches and self.frame != self._end_frame

    @property
    def counts(self) -> bool:
        """Whether it may count: no number came late. Of one that does not, no attempt is kept; a
        lesson goes on by its answer all the same, so that a slow computer holds nobody up."""
        return self.report is None or self.report.counts

    @property
    def unaided(self) -> bool:
        """Whether it went right at once and without help. Free looks spoil nothing."""
        return self.outcome is Outcome.RIGHT and not self.slips and not self.helps

    def touch(self, stroke: Stroke) -> Verdict | None:
        """Judge a stroke and make it, if it stays. None when no bead is asked for."""
        if self.judge is None or self.finished or self.is_playing:
            return None
        verdict = self.judge.judge(stroke)
        self.verdict, self._has_looked = verdict, False
        self.notes.stroke(verdict, self.frame, self.plan)
        if verdict.kept:
            self.touches.append(Touch(self.judge, verdict))
            self._advance(self.judge.after(verdict))
            if self.judge.finished and not self.is_silent:
                self._end_beads()
        if verdict.is_right and verdict.kept:
            self.misses_here, self.level = 0, Help.NONE
        elif not verdict.is_right:
            self._miss(verdict.slip)
        return verdict

    def wipe(self, rods: Sequence[int]) -> bool:
        """Clear the rods, where clearing is asked for. Whether anything moved."""
        if self.exercise.kind is not Kind.CLEAR or self.judge is None:
            return False
        moves = [move for move in self.judge.progress.left_in_line if move.rod in rods]
        for move in moves:
            self.touch((move,))
        return bool(moves)

    def answer(self, number: Decimal) -> bool:
        """Take a number for the answer, then one for what is left over where that is asked for. A
        frame that is to be read may be read again."""
        self.answers.append(number)
        if self.asks_rest:
            return self._answer_rest(number)
        self.given = number
        is_right = number == self.exercise.sum.result
        self.notes.answer(is_right)
        if not is_right and self.exercise.asks_reading and number == self._shown:
            self.slips.append(Slip.NEGATIVE_READ_AS_SHOWN)
        elif not is_right and not self.is_silent:
            self.slips.append(WRONG_ANSWER)
        if self.exercise.asks_rest and (is_right or self.is_silent):
            self.asks_rest = True
        elif self.is_silent:
            return self._end(is_right)
        elif is_right:
            self._finish(Outcome.RIGHT)
        else:
            self.level = Help(min(Help.SHOW, self.level + 1))
        return is_right

    def _answer_rest(self, number: Decimal) -> bool:
        """Take a number for what is left over. Nothing is said of the answer of a silent exercise
        before, so there both are judged together."""
        self.given_rest = number
        # Its sign is that of the dividend, which no bead shows.
        is_right = abs(number) == abs(self.exercise.sum.remainder or 0)
        self.notes.answer(is_right)
        if self.is_silent:
            return self._end(is_right and self.given == self.exercise.sum.result)
        if is_right:
            self._finish(Outcome.RIGHT)
        else:
            self.slips.append(WRONG_ANSWER)
            self.level = Help(min(Help.SHOW, self.level + 1))
        return is_right

    @property
    def _shown(self) -> Decimal:
        """What the frame shows at the end, worked or only imagined, taken without a sign."""
        is_column = isinstance(self.exercise.sum, Sum) and self.plan is not None
        return read(self.plan.end) if is_column and self.plan else abs(self.exercise.sum.result)

    def say_done(self) -> bool:
        """The learner is done with the beads. Whether they show what they should; a silent
        exercise does not tell, and may wait for the answer."""
        if self.judge is None or self.finished:
            return self.finished
        is_right = self._hand_is_right
        fault = None if is_right else self.judge.omission()
        self.notes.judged(Happening.DONE, is_right, fault.slip if fault else "")
        if self.is_silent and self.exercise.is_answered:
            self.asks = True
        elif self.is_silent:
            self._end(is_right)
        elif is_right:
            self._end_beads()
        else:
            self._miss(fault and fault.slip)
        return is_right

    def _end_beads(self) -> None:
        """The beads stand as they should: all is done, or what they mean is to be read."""
        if self.exercise.asks_reading or self.exercise.asks_rest:
            self.asks, self.asks_rest = True, not self.exercise.asks_reading
        else:
            self._finish(Outcome.RIGHT)

    def _end(self, is_right: bool) -> bool:
        """A silent exercise ends: the answer is right or not, and so is the hand."""
        hand = self._hand_is_right if self.touches or not self.exercise.is_answered else None
        outcome = outcome_of(answer=is_right, hand=hand)
        if outcome is not Outcome.RIGHT and not self.slips:
            omitted = self.judge.omission() if self.judge and hand is False else None
            self.slips.append(omitted.slip if omitted else WRONG_ANSWER)
        self._finish(outcome)
        return is_right

    def _finish(self, outcome: Outcome) -> None:
        self.outcome, self.finished = outcome, True

    @property
    def _hand_is_right(self) -> bool:
        return self.plan is not None and self.frame == self.plan.end

    @property
    def _end_frame(self) -> Frame:
        return self.plan.end if self.plan is not None else self.frame

    def more_help(self) -> Help:
        """A little more help: the rod, the rule, the bead; where the bead is lit, the bead. On a
        frame that is not seen it is a free look, and on a pale one the first time after a touch."""
        is_first = self.exercise.rung is Rung.PALE and not self._has_looked
        if self.exercise.rung.is_unseen or self.is_silent or is_first:
            self.looks += 1
            self._has_looked = True
            self.notes.note(Happening.LOOK)
            return self.level
        self.helps += 1
        alone = len(self.frame.digits) == 1
        first = Help.SHOW if self.is_lit else Help.TEACH if alone else Help.POINT
        self.level = Help(min(Help.SHOW, max(first, self.level + 1)))
        self.notes.note(Happening.HELP, digit=self.level)
        return self.level

    def undo(self) -> bool:
        """Take the last stroke back. Whether there was one."""
        if not self.can_undo:
            return False
        self._advance(self.touches.pop().judge)
        self.notes.note(Happening.UNDO)
        return True

    def play(self) -> Stroke | None:
        """Make the next stroke of a demonstration; None when the learner's turn comes."""
        if self.judge is None or not self.is_playing:
            return None
        if self.hands_over:
            self.hands_over = False
            self._from_start()
            return None
        stroke = self.to_play.pop(0)
        self._advance(self.judge.after(self.judge.judge(stroke)))
        self.hands_over = not self.to_play and self.exercise.rung is Rung.WATCH
        return stroke

    def start_over(self) -> None:
        """Put the beads back, as if nothing had been touched."""
        self.notes.note(Happening.AGAIN)
        self._from_start()
        self.slips.clear()
        self.asks_rest, self.given, self.given_rest = False, None, None

    @property
    def log(self) -> Log:
        """What each step of the plan asked, and what was done so far."""
        worked = tuple(worked_in(self.plan)) if self.plan is not None else ()
        return Log(worked, tuple(self.notes.entries))

    def _from_start(self) -> None:
        self.touches.clear()
        if self.plan is not None:
            silent = self.exercise.is_silent
            self._advance(Judge.of(self.plan, self.strictness, keep_wrong=silent))

    def _advance(self, judge: Judge) -> None:
        self.judge, self.frame = judge, judge.frame

    def _miss(self, slip: Slip | None) -> None:
        self.slips.append(slip or WRONG_ANSWER)
        self.misses_here += 1
        if not self.is_silent:
            self.level = Help.SHOW if self.misses_here > 1 else max(self.level, Help.POINT)
