"""The judge: a frame, a plan and a bead move give a verdict."""

from enum import StrEnum
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.commissions import slip_of_move
from frame.technique.conventions import Strictness
from frame.technique.mend import shortest_mend
from frame.technique.omissions import slip_of_line_left, slip_of_omission
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Progress, Step, Technique
from frame.technique.slips import Slip


class Judgement(StrEnum):
    """The verdict in one word."""

    RIGHT = "right"
    OTHER_ORDER = "other order"
    WRONG = "wrong"


class Verdict(NamedTuple):
    """What the judge says of one stroke.

    `slip` names what is wrong, or what was left out before a right move. `part` tells that the
    move is a part of a longer stroke. `kept` tells whether the beads stay. `step` is the step
    the verdict is about, `mend` the shortest moves from the frame with this stroke made to the
    frame wanted at the end of that step. `progress` is what the next stroke is judged from.
    """

    judgement: Judgement
    stroke: Stroke
    slip: Slip | None
    part: bool
    kept: bool
    step: Step | None
    mend: Stroke
    progress: Progress

    @property
    def is_right(self) -> bool:
        """Whether the beads are right, in whatever order."""
        return self.judgement is not Judgement.WRONG


class Judge(NamedTuple):
    """Judges strokes one after another. `keep_wrong` is for a covered frame, on which a wrong
    bead stays where it was put; what follows is judged against the shortest mend."""

    progress: Progress
    strictness: Strictness = Strictness.BEADS
    keep_wrong: bool = False
    last: BeadMove | None = None
    named: frozenset[int] = frozenset()

    @classmethod
    def of(
        cls, plan: Plan, strictness: Strictness = Strictness.BEADS, keep_wrong: bool = False
    ) -> "Judge":
        """A judge at the start of a plan."""
        return cls(plan.begin(), strictness, keep_wrong)

    @property
    def frame(self) -> Frame:
        """The frame as it stands."""
        return self.progress.frame

    @property
    def finished(self) -> bool:
        """Whether the work is done: every move made or, asked for the answer only, it is shown."""
        if self.strictness is Strictness.ANSWER and not self.progress.finished:
            return self.progress.frame == self.progress.plan.end
        return self.progress.finished

    def judge(self, stroke: Stroke) -> Verdict:
        """The verdict on a stroke: one move, or the two of a pinch in whichever order fits. Where
        a trial digit was set otherwise than planned, the work may go on with it."""
        verdict = self._in_either_order(stroke)
        other = None if verdict.judgement is Judgement.RIGHT else self.progress.another_way
        if other is not None:
            on_with_it = self._replace(progress=other)._in_either_order(stroke)
            if on_with_it.judgement is Judgement.RIGHT:
                return on_with_it
        return verdict

    def _in_either_order(self, stroke: Stroke) -> Verdict:
        verdict = self._in_order(stroke)
        if len(stroke) == 2 and stroke[1] in self.progress.allowed:
            turned = self._in_order((stroke[1], stroke[0]))
            if turned.judgement is Judgement.RIGHT:
                return turned._replace(stroke=stroke)
        return verdict

    def after(self, verdict: Verdict) -> "Judge":
        """The judge for what follows a verdict."""
        made = verdict.is_right and verdict.kept
        last = verdict.stroke[-1] if made else self.last
        if made and _begins_number(verdict):
            last = None
        named = self.named
        if verdict.slip is not None and made:
            named = named | {self.progress.step_index}
        return Judge(verdict.progress, self.strictness, self.keep_wrong, last, named)

    def omission(self) -> Slip | None:
        """What the step under way was left without, asked when the learner says it is done."""
        return slip_of_omission(self.progress) or slip_of_line_left(self.progress)

    def _in_order(self, stroke: Stroke) -> Verdict:
        progress = self.progress
        judgement, part, slip = Judgement.RIGHT, False, None
        for move in stroke:
            index = progress.find(move) if progress.frame.can(move) else None
            if index is None:
                return self._wrong(stroke, progress, move)
            if index != progress.at and move not in progress.allowed:
                judgement = Judgement.OTHER_ORDER
                slip = slip or self._passed(progress, index)
            part = part or _is_part(progress, index, move)
            progress = progress.make(index, move)
        kept = judgement is Judgement.RIGHT or self.strictness is not Strictness.ORDER
        before = self.progress
        return Verdict(
            judgement, stroke, slip, part, kept, before.step, (), progress if kept else before
        )

    def _passed(self, progress: Progress, index: int) -> Slip | None:
        """The slip of leaving the step under way for a later one; named once for a step."""
        here = progress.step_index
        if progress.plan.step_of[index] == here or here in self.named:
            return None
        return slip_of_omission(progress)

    def _wrong(self, stroke: Stroke, progress: Progress, move: BeadMove) -> Verdict:
        slip = slip_of_move(progress, move, self.last)
        before = self.progress
        moved = before.frame.after_all(stroke)
        frame = moved or before.frame
        wanted, is_natural = _end_of_step(before)
        mend = shortest_mend(frame, wanted)
        kept = moved is not None and (self.keep_wrong or self.strictness is Strictness.ANSWER)
        after = _astray(before, frame, mend, is_natural) if kept else before
        return Verdict(Judgement.WRONG, stroke, slip, False, kept, before.step, mend, after)


def _is_part(progress: Progress, index: int, move: BeadMove) -> bool:
    """Whether a move makes a part of a stroke; of a trial digit, any part is a digit to try."""
    is_trial = progress.plan.steps[progress.plan.step_of[index]].operation.act.is_trial
    return not is_trial and move not in progress.remaining(index)


def _begins_number(verdict: Verdict) -> bool:
    """Whether another number is to be worked after the move: then it can't be taken for undone."""
    done, to_come = verdict.step, verdict.progress.step
    return done is not None and to_come is not None and done.operation != to_come.operation


def _end_of_step(progress: Progress) -> tuple[Frame, bool]:
    """The frame wanted at the end of the step under way, and whether it is the plan's own.

    It has what later moves were made out of turn. Where those stand in the way of what is left,
    it is the plan's own frame, as if nothing later had been made.
    """
    frame, left = progress.frame, progress.left_in_step
    if not progress.has_gone_ahead and (end := frame.after_all(left)):
        return end, False
    if progress.has_gone_ahead and frame.can_all(progress.left_in_plan):
        return frame.apply_all(left), False
    return list(progress.plan.frames())[progress.step_index][1], True


def _astray(progress: Progress, frame: Frame, mend: Stroke, is_natural: bool) -> Progress:
    """The progress on a frame with a wrong bead kept: first the mend, then the steps to come,
    whole when the mend leads to the plan's own frame, else what is left of them."""
    plan = progress.plan
    under_way = progress.step or Step(Operation(Act.ADD, "0"), 0, 0, Technique.DIRECT, 0, ())
    strokes = tuple((move,) for move in mend)
    mending = under_way._replace(strokes=strokes, technique=Technique.DIRECT, ripple=0)
    to_come = (
        plan.steps[index]
        if is_natural
        else plan.steps[index]._replace(strokes=_left_of(progress, plan.span_of[index]))
        for index in range(progress.step_index + 1, len(plan.steps))
    )
    return Plan(frame, (mending, *to_come), plan.result, plan.conventions).begin()


def _left_of(progress: Progress, span: range) -> tuple[Stroke, ...]:
    return tuple(left for index in span if (left := progress.remaining(index)))
