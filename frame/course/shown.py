"""An item on the tutor's board: its work gone through move by move, back and forth, with tries by
hand in between. No drawing, no clock, no words."""

from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from functools import cached_property

from frame.course.agenda import Item, Task
from frame.practice.touches import Touch
from frame.practice.written import WrittenLine, has_lines, lines_of, unused_at
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Conventions, Strictness
from frame.technique.expression import Sum
from frame.technique.judge import Judge, Verdict
from frame.technique.operation import Act
from frame.technique.places import frame_for
from frame.technique.plan import Plan, Step, Technique
from frame.technique.planning import plan_of
from frame.technique.progress import Progress
from frame.technique.reading import decimals, read, whole_digits
from frame.technique.reasons import Reason, Why, reasons_of
from frame.technique.trials import with_first_trial

LEAST_RODS = 5
"""A frame on the board has so many rods, or as many as the work needs."""


class ItemStage(StrEnum):
    """How far an item is: nothing given yet, given with its answer kept back, the answer told."""

    READY = "ready"
    GIVEN = "given"
    TOLD = "told"


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an item stands: the strokes done, how many of them it came with, how far it is, and
    what was tried by hand since."""

    item: Item
    at: int = 0
    begin: int = 0
    stage: ItemStage = ItemStage.READY
    tried: tuple[Stroke, ...] = ()


@dataclass
class Shown:
    """An item on the board. Of one that is worked, `at` counts the strokes done, and `begin` those
    done when it comes up, 0 once they were taken back; `hand` is what was moved by hand since,
    each touch with its judge beside the prepared work, empty while that is shown; `verdict` is what
    was said of its last stroke."""

    item: Item
    plan: Plan
    at: int = 0
    stage: ItemStage = ItemStage.READY
    begin: int = 0
    hand: list[Touch] = field(default_factory=list)
    verdict: Verdict | None = None

    @classmethod
    def of(cls, item: Item, conventions: Conventions) -> "Shown":
        """An item, not begun. Raises NumberError where its work does not fit any frame."""
        if item.act is Task.READ:
            number = item.sum.numbers[0]
            needed = max(whole_digits(number), 1) + decimals(number)
            rods = item.rods or max(LEAST_RODS, needed)
            frame = frame_for(number, rods)
            return cls(item, Plan(frame, (), number, conventions))
        plan = plan_of(item.sum, conventions, item.rods, LEAST_RODS)
        plan = (with_first_trial(plan, item.trial) if item.trial else None) or plan
        begin = _set_strokes(plan) if item.act is Task.SHOW else 0
        return cls(item, plan, begin, begin=begin)

    @classmethod
    def standing(cls, kept: Standing, conventions: Conventions) -> "Shown":
        """An item as it was left, as far as its work is still the same. Raises NumberError."""
        shown = cls.of(kept.item, conventions)
        shown.at, shown.begin = min(kept.at, shown.last), min(kept.begin, shown.begin, kept.at)
        shown.stage = kept.stage
        for stroke in kept.tried:
            shown.touch(stroke)
        return shown

    @property
    def stands(self) -> Standing:
        """Where it stands."""
        tried = tuple(touch.verdict.stroke for touch in self.hand)
        return Standing(self.item, self.at, self.begin, self.stage, tried)

    @property
    def is_begun(self) -> bool:
        """Whether anything of it was given."""
        return self.stage is not ItemStage.READY

    @property
    def is_worked(self) -> bool:
        """Whether beads are moved for it, one after another."""
        return self.item.act is Task.SHOW

    @property
    def frame(self) -> Frame:
        """The frame as it stands; of numbers that are called or flashed the answer's, once told."""
        if self.hand:
            return self.judge.frame
        if self.is_worked or self.item.act is Task.READ:
            return self._frames[self.at]
        return self.plan.end if self.stage is ItemStage.TOLD else self.plan.start

    @property
    def reading(self) -> Decimal:
        """What the frame reads now, of products and quotients the result so far."""
        if self.hand or not self.at or not self.is_worked:
            return read(self.frame)
        return self.plan.reading(self.plan.steps[self.plan.step_of[self.at - 1]], self.frame)

    @property
    def is_one_number(self) -> bool:
        """Whether the frame reads one number, and not operands beside their result."""
        return isinstance(self.item.sum, Sum)

    @cached_property
    def is_written(self) -> bool:
        """Whether its work is written above the rods."""
        return self.is_worked and has_lines(self.plan)

    @cached_property
    def _frames(self) -> tuple[Frame, ...]:
        frames = [self.plan.start]
        for stroke in self.plan.strokes:
            frames.append(frames[-1].apply_all(stroke))
        return tuple(frames)

    @property
    def last(self) -> int:
        """How many strokes its work has."""
        return len(self.plan.strokes)

    @property
    def step(self) -> Step | None:
        """The step to come, or the last one when all is done; None where nothing is worked."""
        if not self.plan.strokes:
            return None
        return self.plan.steps[self.plan.step_of[min(self.at, self.last - 1)]]

    @property
    def next_stroke(self) -> Stroke:
        """What is to be moved next; empty when all is done, or while the hand tries."""
        is_over = self.hand or not self.is_worked or self.at >= self.last
        return () if is_over else self.plan.strokes[self.at]

    @property
    def is_deciding(self) -> bool:
        """Whether the next move is one that the class may say: the first by which a partner, a
        trial digit or its revision comes."""
        if self.at >= self.last or self.plan.span_of[self.plan.step_of[self.at]].start != self.at:
            return False
        step = self.plan.steps[self.plan.step_of[self.at]]
        act = step.operation.act
        is_by_partner = step.technique is not Technique.DIRECT and act.is_worked
        return is_by_partner or act.is_trial or act.is_mending

    @property
    def term(self) -> int | None:
        """The index of the number being worked, within a column; None where none is."""
        is_column = self.is_worked and isinstance(self.item.sum, Sum)
        step = self.step if is_column and self.at < self.last else None
        return step.operation.row if step else None

    @cached_property
    def _reasons(self) -> tuple[tuple[Reason, ...], ...]:
        return reasons_of(self.plan)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Why the line under way is worked so; before its first bead also how what stands below
        zero is read."""
        if self.hand or not self.is_worked:
            return ()
        steps, found = self.plan.steps, self._reasons
        now = first = self.plan.step_of[self.at] if self.at < self.last else len(steps)
        while 0 < first < len(steps) and _goes_on(steps[first - 1], steps[first]):
            first -= 1
        told = [one for step in found[first : now + 1] for one in step]
        told = [one for one in told if one.why is not Why.READS_BELOW]
        is_start = first == len(steps) or self.at == self.plan.span_of[first].start
        is_kept_back = self.at == self.last and self.stage is not ItemStage.TOLD
        before = found[first - 1] if first and is_start and not is_kept_back else ()
        return (*(one for one in before if one.why is Why.READS_BELOW), *told)

    @property
    def lines(self) -> tuple[WrittenLine, ...]:
        """The written work so far, the line in work last."""
        return lines_of(self._states)

    @property
    def unused(self) -> WrittenLine | None:
        """How the frame is read, where it is below zero."""
        return unused_at(self._states[-1])

    @property
    def _states(self) -> list[Progress]:
        """The progress before each stroke of the hand, and now."""
        return [*(touch.judge.progress for touch in self.hand), self.judge.progress]

    def toggle_told(self) -> None:
        """Tell the answer, or keep it back; what was called or flashed can then be given anew."""
        is_begun = self.is_worked and self.at > self.begin
        kept_back = ItemStage.GIVEN if is_begun else ItemStage.READY
        self.stage = kept_back if self.stage is ItemStage.TOLD else ItemStage.TOLD

    def go_to(self, at: int) -> None:
        """Show the work after so many strokes; what the hand tried goes, and elsewhere than it
        stands the answer too."""
        self.leave_try()
        at = min(max(at, 0), self.last)
        if at != self.at:
            self.at = at
            self.begin = self.begin if at >= self.begin else 0
            self.stage = ItemStage.GIVEN if at > self.begin else ItemStage.READY

    def next_step(self) -> None:
        """On to the end of the step under way."""
        self.keep_try()
        if self.at < self.last:
            self.go_to(self.plan.span_of[self.plan.step_of[self.at]].stop)

    def step_back(self) -> None:
        """Back to the start of the step under way, or of the one before."""
        self.leave_try()
        if self.at:
            self.go_to(self.plan.span_of[self.plan.step_of[self.at - 1]].start)

    def touch(self, stroke: Stroke) -> Verdict | None:
        """A bead is moved by hand, a child's try: it stays, and the verdict tells what it was.
        None where the beads do not allow it."""
        judge = self.judge
        if not judge.frame.can_all(stroke):
            return None
        self.verdict = judge.judge(stroke)
        self.hand = [*self.hand, Touch(judge, self.verdict)]
        return self.verdict

    def undo(self) -> bool:
        """Take the hand's last bead back; with none left, the prepared work is shown again.
        Whether there was one."""
        if not self.hand:
            return False
        self.hand.pop()
        self.verdict = None
        return True

    def keep_try(self) -> bool:
        """Take what was tried for done as far as it follows the prepared work; the rest goes.
        Whether nothing had to go."""
        if not self.is_worked:
            self.leave_try()
            return False
        frames, at = self._frames, self.at
        for touch in self.hand:
            after = touch.judge.after(touch.verdict).frame
            if touch.verdict.is_right and after in frames[at + 1 :]:
                at = frames.index(after, at + 1)
        is_whole = frames[at] == self.frame
        self.go_to(at)
        return is_whole

    def leave_try(self) -> None:
        """Back to the prepared work."""
        self.hand, self.verdict = [], None

    @property
    def judge(self) -> Judge:
        """The judge of what the hand does next."""
        if self.hand:
            last = self.hand[-1]
            return last.judge.after(last.verdict)
        progress = Progress.begin(self.plan, self.at if self.is_worked else self.last)
        return Judge(progress, Strictness.BEADS, keep_wrong=True)


def _goes_on(before: Step, step: Step) -> bool:
    """Whether a step belongs to the same line as the one before, or that one has no bead: what is
    borrowed without one comes with the first bead after it."""
    return before.operation == step.operation or not before.strokes


def _set_strokes(plan: Plan) -> int:
    """How many strokes set the first number, or the operands: the class sees them set."""
    first, strokes = plan.steps[0].operation if plan.steps else None, 0
    for step in plan.steps:
        is_first_number = step.span is not None or step.operation == first
        if step.operation.act is not Act.SET or not is_first_number:
            break
        strokes += len(step.strokes)
    return strokes
