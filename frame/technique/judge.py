"""The judge: a frame, the digits still to be worked and a bead move give a verdict.

It asks the progress three things in turn. `follow`: the bead goes the convention's way, and is
right. `choose`: the work goes on with another trial digit than the convention's, and is right too.
`depart`: some other lawful digit work makes it, and it is right in another order, or right where it
is a digit to try. None of them: it is wrong. The slips stand before the judge, whose verdict names
one; they know nothing of verdicts.

Another order never carries a slip. Whatever lawful digit work reaches the frame is right; what was
left out shows at the first bead past its number or line, which is wrong for that reason, or at the
end.
"""

from enum import StrEnum
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.commissions import fault_of_move
from frame.technique.conventions import Strictness
from frame.technique.mend import shortest_mend
from frame.technique.omissions import fault_of_lack
from frame.technique.plan import Freedom, Plan, Step
from frame.technique.progress import Progress
from frame.technique.slips import ASTRAY, Fault, Slip, same_way

VERSION = 1
"""Raised where the same stroke gets another verdict than before; records tell which it was."""


class Judgement(StrEnum):
    """The verdict in one word."""

    RIGHT = "right"
    OTHER_ORDER = "other order"
    WRONG = "wrong"


class Verdict(NamedTuple):
    """What the judge says of one stroke.

    `fault` tells what is wrong. `part` tells that the move is a part of a longer stroke. `kept`
    tells whether the beads stay. `step` is the step the verdict is about, `mend` the shortest moves
    from the frame with this stroke made to the frame wanted at the end of that step. `progress` is
    what the next stroke is judged from.
    """

    judgement: Judgement
    stroke: Stroke
    fault: Fault | None
    part: bool
    kept: bool
    step: Step | None
    mend: Stroke
    progress: Progress

    @property
    def is_right(self) -> bool:
        """Whether the beads are right, in whatever order."""
        return self.judgement is not Judgement.WRONG

    @property
    def slip(self) -> Slip | None:
        """The name of what is wrong, None where nothing is."""
        return None if self.fault is None else self.fault.slip


class Judge(NamedTuple):
    """Judges strokes one after another. `keep_wrong` is for a covered frame, on which a wrong
    bead stays where it was put; what follows is judged against the shortest mend."""

    progress: Progress
    strictness: Strictness = Strictness.BEADS
    keep_wrong: bool = False
    last: BeadMove | None = None

    @classmethod
    def of(
        cls, plan: Plan, strictness: Strictness = Strictness.BEADS, keep_wrong: bool = False
    ) -> "Judge":
        """A judge at the start of a plan."""
        return cls(Progress.begin(plan), strictness, keep_wrong)

    @property
    def frame(self) -> Frame:
        """The frame as it stands."""
        return self.progress.frame

    @property
    def finished(self) -> bool:
        """Whether the work is done: no digit left or, asked for the answer only, it is shown."""
        if self.strictness is Strictness.ANSWER and not self.progress.finished:
            return self.progress.frame == self.progress.plan.end
        return self.progress.finished

    def judge(self, stroke: Stroke) -> Verdict:
        """The verdict on a stroke: one move, or the two of a pinch in whichever order fits."""
        made = self._made(stroke)
        if len(stroke) == 2 and (made is None or made[0] is not Judgement.RIGHT):
            turned = self._made(stroke[::-1])
            if turned is not None and (made is None or turned[0] is Judgement.RIGHT):
                made = turned
        if made is None:
            return self._wrong(stroke)
        judgement, progress, part = made
        before = self.progress
        if judgement is Judgement.OTHER_ORDER and self.strictness is Strictness.ORDER:
            return Verdict(judgement, stroke, None, part, False, before.step, (), before)
        return Verdict(judgement, stroke, None, part, True, before.step, (), progress)

    def after(self, verdict: Verdict) -> "Judge":
        """The judge for what follows a verdict."""
        last = self.last
        if verdict.is_right and verdict.kept:
            last = None if _begins_line(verdict) else verdict.stroke[-1]
        return Judge(verdict.progress, self.strictness, self.keep_wrong, last)

    def omission(self) -> Fault | None:
        """What is left out, asked when the learner says the work is done."""
        return fault_of_lack(self.progress)

    def _made(self, stroke: Stroke) -> tuple[Judgement, Progress, bool] | None:
        """What the moves come to, one after another; None where one of them is wrong."""
        judgement, progress, part = Judgement.RIGHT, self.progress, False
        for move in stroke:
            if (on := progress.follow(move)) is not None:
                part = part or _is_part(progress, move, on)
            elif (on := progress.choose(move)) is None:
                on = progress.depart(move)
                if on is None:
                    return None
                if not _is_trial(on):
                    judgement = Judgement.OTHER_ORDER
            progress = on
        return judgement, progress, part

    def _wrong(self, stroke: Stroke) -> Verdict:
        before = self.progress
        fault = fault_of_move(before, stroke, _first_wrong(before, stroke), self.last)
        if before.is_astray:
            # What a hand means beside a wrong bead of its own can't be told.
            fault = fault._replace(detail=ASTRAY)
        moved = before.frame.after_all(stroke)
        frame = moved or before.frame
        mend = shortest_mend(frame, before.frame.apply_all(before.left_in_step))
        kept = moved is not None and (self.keep_wrong or self.strictness is Strictness.ANSWER)
        after = before.astray(stroke) if kept else before
        return Verdict(Judgement.WRONG, stroke, fault, False, kept, before.step, mend, after)


def _first_wrong(progress: Progress, stroke: Stroke) -> BeadMove:
    """The move of a wrong stroke that is wrong by itself; the last where none is."""
    if len(stroke) == 1:
        return stroke[0]
    for move in stroke:
        if not (progress.follow(move) or progress.choose(move) or progress.depart(move)):
            return move
    return stroke[-1]


def _is_part(progress: Progress, move: BeadMove, after: Progress) -> bool:
    """Whether a move makes a part of a stroke of which more is to come; of a trial digit, any part
    is a digit to try."""
    is_digit = progress.way is not None and progress.way.freedom is Freedom.DIGIT
    is_whole = move in progress.next_stroke
    return not (is_digit or is_whole) and any(same_way(move, one) for one in after.next_stroke)


def _is_trial(progress: Progress) -> bool:
    """Whether a trial digit was set, of which any lawful one is right."""
    return bool(progress.tracks) and progress.tracks[0].line.freedom is Freedom.DIGIT


def _begins_line(verdict: Verdict) -> bool:
    """Whether another line is to be worked after the move: then it can't be taken for undone."""
    done, to_come = verdict.step, verdict.progress.step
    return done is not None and to_come is not None and done.operation != to_come.operation
