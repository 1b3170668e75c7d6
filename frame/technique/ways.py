"""The convention's way on from where a hand stands on a line of work."""

from collections.abc import Iterator

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.technique.conventions import Carry, Conventions
from frame.technique.fingers import strokes_on
from frame.technique.hand import Hand
from frame.technique.intents import STRAY, Begun, Intent
from frame.technique.operation import Operation
from frame.technique.plan import Freedom, Step, Technique, WorkLine
from frame.technique.tracks import Track, lies_between

Part = tuple[Step, tuple[Stroke, ...]]
"""A step, and what is left of its strokes."""


def way_on(track: Track, frame: Frame) -> WorkLine:
    """What is left of a track's line, by its plan's convention. A step begun is given whole, with
    the strokes it still needs."""
    intent, line, conventions = track.intents[0], track.line, track.plan.conventions
    if line.freedom is Freedom.ANY_ORDER:
        parts = _Way(line, conventions, frame, intent).parts()
    elif line.freedom is Freedom.IN_ORDER:
        parts = list(_in_order(track, intent, frame))
    else:
        parts = _digit(track, intent, frame)
    steps = tuple([step for step, _ in parts])
    return WorkLine(line.index, line.last, steps, tuple([left for _, left in parts]), line.freedom)


def _strays(intent: Intent, frame: Frame, conventions: Conventions) -> tuple[Stroke, ...]:
    """The strokes that mend what wrong beads left."""
    goals = [goal for goal in intent.goals if goal.is_astray]
    return tuple(
        stroke
        for rod, digit, _, _ in goals
        for stroke in strokes_on(rod, frame.digit(rod), digit, conventions)
    )


def _with_mends(parts: list[Part], mends: tuple[Stroke, ...], line: WorkLine) -> list[Part]:
    """The parts with the mends before the first of them."""
    if not mends:
        return parts
    if not parts:
        last, rod = line.steps[-1], mends[0][0].rod
        step = Step(last.operation, rod, 0, Technique.DIRECT, 0, mends, last.owed, last.span)
        return [(step, mends)]
    (step, left), *others = parts
    return [(step, mends + left), *others]


def _in_order(track: Track, intent: Intent, frame: Frame) -> Iterator[Part]:
    """The rest of the step under way, then the steps to come as they were planned."""
    line, conventions = track.line, track.plan.conventions
    at = len(line.steps) - len(intent.todo)
    to_come: list[Part] = [(step, step.strokes) for step in line.steps[at:]]
    begun = [goal for goal in intent.goals if not goal.is_astray]
    if begun:
        step = line.steps[at - 1]
        to_come.insert(0, (step, _rest_of(step, intent, frame)))
    yield from _with_mends(to_come, _strays(intent, frame, conventions), line)


def _rest_of(step: Step, intent: Intent, frame: Frame) -> tuple[Stroke, ...]:
    """What is left of a step's strokes on the way to its goals; whatever else its rods need comes
    first."""
    rest: list[Stroke] = []
    for stroke in step.strokes:
        left = []
        for move in stroke:
            goal = intent.goal(move.rod)
            goal = None if goal is not None and goal.is_astray else goal
            change = _still_to_go(frame.digit(move.rod), goal.digit, move) if goal else 0
            if change:
                left.append(BeadMove(move.rod, change))
        if left:
            rest.append(tuple(left))
    return tuple(rest)


def _still_to_go(digit: int, goal: int, move: BeadMove) -> int:
    """The change that a deck still needs for its rod to come to a digit."""
    return 5 * (goal // 5 - digit // 5) if move.is_heaven else goal % 5 - digit % 5


def _digit(track: Track, intent: Intent, frame: Frame) -> list[Part]:
    """The way from what stands on the rod of a trial to the convention's own digit."""
    (step,) = track.line.steps
    shown, planned = frame.digit(step.rod), int(step.operation.digits)
    left = strokes_on(step.rod, shown, planned, track.plan.conventions)
    if step.operation.act.is_trial and not lies_between(0, shown, planned):
        # Straight from one digit to another, the rod could show one that is too large to try.
        off = strokes_on(step.rod, shown, 0, track.plan.conventions)
        left = off + strokes_on(step.rod, 0, planned, track.plan.conventions)
    mends = _strays(intent, frame, track.plan.conventions)
    return _with_mends([(step, left)] if left else [], mends, track.line)


class _Way:
    """The way on with digits that may be worked in any order: each digit begun is brought to its
    end, the highest first; then the others are worked."""

    def __init__(
        self, line: WorkLine, conventions: Conventions, frame: Frame, intent: Intent
    ) -> None:
        self.line, self.intent, self.frame = line, intent, frame
        self.hand = self._hand_on(frame, conventions)

    def _hand_on(self, frame: Frame, conventions: Conventions) -> Hand:
        """A hand at work on the line."""
        hand = Hand(conventions, frame)
        hand.span = self.line.steps[0].span
        return hand

    def parts(self) -> list[Part]:
        """The steps left, each with the strokes it still needs."""
        mends = tuple(self._finish_all(STRAY))
        begun = sorted(self.intent.begun, key=lambda work: -work.rod)
        parts = [part for work in begun if (part := self._rest(work))[1]]
        for work in self.intent.todo:
            if not work.is_carry:
                self.hand.work(self._operation(work.rod), work.rod, work.change)
        parts += [(step, step.strokes) for step in self.hand.steps]
        return _with_mends(parts, mends, self.line)

    def _rest(self, work: Begun) -> Part:
        """What is left of a digit begun: on its own rod, and of its carry or borrow."""
        whole = self._hand_on(work.frame, self.hand.conventions)
        if self._carry_waits(work.rod):
            # It comes onto the rods above as they stand now.
            for rod in range(work.rod + 1, self.hand.highest + 1):
                whole.show(rod, self.hand.digit(rod))
        whole.work(self._operation(work.rod), work.rod, work.change)
        (step,) = whole.steps
        carry_first = work.change < 0 or self.hand.conventions.carry is Carry.FIRST
        if carry_first:
            over = tuple(self._finish_above(work.rod, far_first=True))
            return step, over + self._finish_own(work.rod)
        own = self._finish_own(work.rod)
        return step, own + tuple(self._finish_above(work.rod, far_first=False))

    def _carry_waits(self, source: int) -> bool:
        """Whether a digit begun has a carry or a borrow of which no bead has moved."""
        is_begun = any(goal.source == source != goal.rod for goal in self.intent.goals)
        return not is_begun and any(
            work.is_carry and work.source == source for work in self.intent.todo
        )

    def _finish_own(self, rod: int) -> tuple[Stroke, ...]:
        """What is left of a digit on its own rod; a carry added up with it is that of another."""
        goal = self.intent.goal(rod)
        return self._finish(rod) if goal is not None and goal.source == rod else ()

    def _finish_above(self, source: int, *, far_first: bool) -> Iterator[Stroke]:
        """What is left of a digit's carry: on rods that it has begun, and where it waits."""
        rods = [list(self._finish(goal.rod)) for goal in self.intent.goals if goal.source == source
                and goal.rod != source][::-1]  # fmt: skip
        for work in self.intent.todo:
            if work.source == source and work.is_carry:
                over, _ = self.hand.carry(work.rod, work.change)
                rods += [list(strokes) for strokes in over]
        for strokes in reversed(rods) if far_first else rods:
            yield from strokes

    def _finish_all(self, source: int | None) -> Iterator[Stroke]:
        for goal in self.intent.goals:
            if goal.source is source:
                yield from self._finish(goal.rod)

    def _finish(self, rod: int) -> tuple[Stroke, ...]:
        """Let a rod come to its goal."""
        goal = self.intent.goal(rod)
        shown = self.hand.digit(rod)
        if goal is None or shown == goal.digit:
            return ()
        self.hand.show(rod, goal.digit)
        return strokes_on(rod, shown, goal.digit, self.hand.conventions)

    def _operation(self, rod: int) -> Operation:
        """The line of work that the digit of a rod belongs to."""
        return next(step.operation for step in self.line.steps if step.rod == rod)
