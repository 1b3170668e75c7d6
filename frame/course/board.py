"""The tutor's board: an agenda's items gone through move by move, back and forth, before a class.

No drawing, no clock, no words. Where an item stands is kept while others are shown, so that nothing
that was begun is lost.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from functools import cached_property

from frame.course.agenda import Act, Item
from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Conventions, Strictness
from frame.technique.judge import Judge, Verdict
from frame.technique.operation import Act as Line
from frame.technique.places import frame_for
from frame.technique.plan import Plan, Step, Technique
from frame.technique.planning import plan_of
from frame.technique.progress import Progress
from frame.technique.reading import decimals, read, whole_digits
from frame.technique.trials import with_first_trial

LEAST_RODS = 5
"""A frame on the board has so many rods, or as many as the work needs."""


class Stage(StrEnum):
    """How far an item is: nothing given yet, given with its answer kept back, the answer told."""

    READY = "ready"
    GIVEN = "given"
    TOLD = "told"


@dataclass
class Shown:
    """An item on the board. Of one that is worked, `at` counts the strokes done, and `begin` those
    done when it comes up, 0 once they were taken back; `hand` are the
    judges of what was moved by hand since, the last one for what comes next, empty while the
    prepared work is shown."""

    item: Item
    plan: Plan
    at: int = 0
    stage: Stage = Stage.READY
    begin: int = 0
    hand: list[Judge] = field(default_factory=list)
    verdict: Verdict | None = None

    @classmethod
    def of(cls, item: Item, conventions: Conventions) -> "Shown":
        """An item, not begun. Raises NumberError where its work does not fit any frame."""
        if item.act is Act.READ:
            number = item.sum.numbers[0]
            needed = max(whole_digits(number), 1) + decimals(number)
            rods = item.rods or max(LEAST_RODS, needed)
            frame = frame_for(number, rods)
            return cls(item, Plan(frame, (), number, conventions))
        plan = plan_of(item.sum, conventions, item.rods, LEAST_RODS)
        plan = (with_first_trial(plan, item.trial) if item.trial else None) or plan
        begin = _set_strokes(plan) if item.act is Act.SHOW else 0
        return cls(item, plan, begin, begin=begin)

    @property
    def is_begun(self) -> bool:
        """Whether anything of it was given."""
        return self.stage is not Stage.READY

    @property
    def is_worked(self) -> bool:
        """Whether beads are moved for it, one after another."""
        return self.item.act is Act.SHOW

    @property
    def frame(self) -> Frame:
        """The frame as it stands; of numbers that are called or flashed the answer's, once told."""
        if self.hand:
            return self.hand[-1].frame
        if self.is_worked or self.item.act is Act.READ:
            return self._frames[self.at]
        return self.plan.end if self.stage is Stage.TOLD else self.plan.start

    @property
    def reading(self) -> Decimal:
        """What the frame reads now, of products and quotients the result so far."""
        if self.hand or not self.at or not self.is_worked:
            return read(self.frame)
        return self.plan.reading(self.plan.steps[self.plan.step_of[self.at - 1]], self.frame)

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

    def go_to(self, at: int) -> None:
        """Show the work after so many strokes; the answer and what the hand tried go."""
        self.leave_try()
        self.at = min(max(at, 0), self.last)
        self.begin = self.begin if self.at >= self.begin else 0
        self.stage = Stage.GIVEN if self.at > self.begin else Stage.READY

    def next_step(self) -> None:
        """On to the end of the step under way."""
        if self.at < self.last:
            self.go_to(self.plan.span_of[self.plan.step_of[self.at]].stop)

    def step_back(self) -> None:
        """Back to the start of the step under way, or of the one before."""
        if self.at:
            self.go_to(self.plan.span_of[self.plan.step_of[self.at - 1]].start)

    def touch(self, stroke: Stroke) -> Verdict | None:
        """A bead is moved by hand, a child's try: it stays, and the verdict tells what it was.
        None where the beads do not allow it."""
        judge = self.hand[-1] if self.hand else self._judge
        if not judge.frame.can_all(stroke):
            return None
        self.verdict = judge.judge(stroke)
        self.hand = [*(self.hand or [judge]), judge.after(self.verdict)]
        return self.verdict

    def undo(self) -> bool:
        """Take the hand's last bead back; with none left, the prepared work is shown again.
        Whether there was one."""
        if not self.hand:
            return False
        self.hand.pop()
        if len(self.hand) == 1:
            self.leave_try()
        self.verdict = None
        return True

    def leave_try(self) -> None:
        """Back to the prepared work."""
        self.hand, self.verdict = [], None

    @property
    def _judge(self) -> Judge:
        """The judge of a try that begins here."""
        progress = Progress.begin(self.plan, self.at if self.is_worked else self.last)
        return Judge(progress, Strictness.BEADS, keep_wrong=True)


def _set_strokes(plan: Plan) -> int:
    """How many strokes set the first number, or the operands: the class sees them set."""
    first, strokes = plan.steps[0].operation if plan.steps else None, 0
    for step in plan.steps:
        is_first_number = step.span is not None or step.operation == first
        if step.operation.act is not Line.SET or not is_first_number:
            break
        strokes += len(step.strokes)
    return strokes


@dataclass
class Board:
    """The items of an agenda, those put in while it goes on, and which is shown."""

    conventions: Conventions
    items: list[Shown] = field(default_factory=list)
    at: int = 0

    @classmethod
    def of(cls, items: Sequence[Item], conventions: Conventions) -> "Board":
        """The board of an agenda, at its first item."""
        return cls(conventions, [Shown.of(item, conventions) for item in items])

    @property
    def shown(self) -> Shown | None:
        """The item that is shown, None where there is none."""
        return self.items[self.at] if self.items else None

    @property
    def has_next(self) -> bool:
        """Whether an item follows."""
        return self.at + 1 < len(self.items)

    def add(self, items: Sequence[Item]) -> None:
        """Put items in at the end. Raises NumberError."""
        self.items += [Shown.of(item, self.conventions) for item in items]

    def put(self, item: Item) -> None:
        """Put an item in after the one that is shown, and show it. Raises NumberError."""
        shown = Shown.of(item, self.conventions)
        place = self.at + 1 if self.items else 0
        self.items.insert(place, shown)
        self.at = place

    def next(self) -> None:
        """One move on; at its end the answer; then the next item."""
        shown = self.shown
        if shown is None:
            return
        if shown.hand:
            shown.leave_try()
        elif shown.is_worked and shown.at < shown.last:
            shown.go_to(shown.at + 1)
        elif shown.stage is not Stage.TOLD:
            is_given = shown.is_worked or shown.stage is Stage.GIVEN
            shown.stage = Stage.TOLD if is_given else Stage.GIVEN
        elif self.has_next:
            self.at += 1

    def back(self) -> None:
        """One move back; at the start the item before, as it was left."""
        shown = self.shown
        if shown is None:
            return
        if shown.hand:
            shown.leave_try()
        elif shown.stage is Stage.TOLD:
            shown.stage = Stage.GIVEN
        elif shown.is_worked and shown.at > (shown.begin if self.at else 0):
            shown.go_to(shown.at - 1)
        elif shown.stage is Stage.GIVEN:
            shown.stage = Stage.READY
        elif self.at:
            self.at -= 1

    def go_to_item(self, index: int) -> None:
        """Show another item, as it was left."""
        self.at = min(max(index, 0), max(0, len(self.items) - 1))
