"""A line of work under way: which beads are lawful on it, when it is done, what follows it.

A number is done when the frame shows its end, and the beads of other intents stay lawful: at 97 in
49 + 48 a hand may be done or half-way.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame
from frame.technique.intents import STRAY, Goal, Intent, Work, after_bead, goes_towards, works_of
from frame.technique.operation import Act, Operation
from frame.technique.plan import Freedom, Plan, Step, Technique, WorkLine, line_of


class Track(NamedTuple):
    """A line of a plan, and what the hand may mean by the beads it has moved on it. `end` is the
    frame on which a number whose digits may be worked in any order is done."""

    plan: Plan
    line: WorkLine
    intents: tuple[Intent, ...]
    end: Frame | None = None

    def after(self, frame: Frame, move: BeadMove) -> "Track | None":
        """The track after a bead; None where no digit work of the line could make it."""
        found: dict[object, Intent] = {}
        reached: list[object] = []
        for old in self.intents:
            has_goal = old.goal(move.rod) is not None
            for new in self._on(old, frame, move):
                found.setdefault(new[:2], new)
                if has_goal and new.goal(move.rod) is None:
                    reached.append(new[:2])
        if not found:
            return None
        # A bead that brings its rod to a goal is likelier meant so than as a part of more.
        likeliest = [found.pop(key) for key in dict.fromkeys(reached)]
        return Track(self.plan, self.line, (*likeliest, *found.values()), self.end)

    def _on(self, intent: Intent, frame: Frame, move: BeadMove) -> Iterator[Intent]:
        if self.line.freedom is Freedom.ANY_ORDER:
            yield from after_bead(intent, frame, move)
        elif on := intent.towards(frame, move):
            yield on
        elif self.line.freedom is Freedom.DIGIT:
            if not intent.goals and self._is_lawful_digit(frame, move):
                yield intent
        elif not intent.goals:
            yield from self._next_step(intent, frame, move)

    def _next_step(self, intent: Intent, frame: Frame, move: BeadMove) -> Iterator[Intent]:
        """The next step of a line in order is begun, on whichever of its rods."""
        todo = intent.todo
        while todo:
            at, todo = len(self.line.steps) - len(todo), todo[1:]
            step = self.line.steps[at]
            if step.strokes:
                on = Intent(todo, goals_of(step, frame)).towards(frame, move)
                if on is not None:
                    yield on
                return

    def _is_lawful_digit(self, frame: Frame, move: BeadMove) -> bool:
        """Whether a bead on the rod of a trial leaves a digit that may be tried, or none; of a
        revision, whether it goes towards one that it may come to."""
        (step,) = self.line.steps
        if move.rod != step.rod:
            return False
        digit, lawful = frame.digit(move.rod), self.lawful_digits(frame)
        goals = [*lawful]
        if step.operation.act.is_trial:
            if digit < lawful.stop:
                return 0 <= digit + move.change < lawful.stop
            goals.append(0)
        return any(goes_towards(digit, goal, move.change) for goal in goals)

    def lawful_digits(self, frame: Frame) -> range:
        """The digits that the rod of a trial or a revision may show when the work goes on."""
        (step,) = self.line.steps
        if self.plan.trials is None:
            digit = int(step.operation.digits)
            return range(digit, digit + 1)
        return self.plan.trials.lawful(frame, step)

    def is_done(self, frame: Frame) -> bool:
        """Whether nothing is left of the line, so that the convention goes on with the next. A
        trial digit that is not on the way to the convention's is taken for the one chosen: with 3
        where 5 is wanted the work goes on, while 3 where 8 is wanted may be half a pinch."""
        if self.end is not None:
            return frame.digits == self.end.digits
        if self.line.freedom is not Freedom.DIGIT:
            return self._is_empty(self.intents[0])
        if self.intents[0].goals:
            return False
        (step,) = self.line.steps
        digit, planned = frame.digit(step.rod), int(step.operation.digits)
        # A digit on the way to a trial may be the first half of a pinch; a revised one stands.
        is_trial = step.operation.act.is_trial
        is_on_the_way = is_trial and lies_between(planned - step.change, digit, planned)
        return digit == planned or (self.may_go_on(frame) and not is_on_the_way)

    def may_go_on(self, frame: Frame) -> bool:
        """Whether the next line may be begun."""
        if self.line.freedom is not Freedom.DIGIT:
            return self.is_done(frame)
        (step,) = self.line.steps
        return not self.intents[0].goals and frame.digit(step.rod) in self.lawful_digits(frame)

    def _is_empty(self, intent: Intent) -> bool:
        left = self.line.steps[len(self.line.steps) - len(intent.todo) :]
        return not intent.goals and not any([step.strokes for step in left])

    @property
    def is_spent(self) -> bool:
        """Whether the hand can mean nothing more by this line."""
        is_digit = self.line.freedom is Freedom.DIGIT
        return not is_digit and not any([one.todo or one.goals for one in self.intents])

    def following(self, frame: Frame) -> tuple["Track", ...]:
        """The lines that may be begun when this one is done, the convention's own first."""
        step = self.line.steps[0]
        is_trial = self.line.freedom is Freedom.DIGIT
        if is_trial and frame.digit(step.rod) != int(step.operation.digits):
            trials = self.plan.trials
            plan = trials.on_with(frame, step, self.plan.conventions) if trials else None
            return tracks_at(plan, 0, frame) if plan is not None else ()
        return tracks_at(self.plan, self._next_index, frame)

    @property
    def _next_index(self) -> int:
        """The index of the plan's line after this one, which may take two of its lines at once."""
        index = self.line.index
        while index < len(self.plan.lines) and self.plan.lines[index].last <= self.line.last:
            index += 1
        return index

    def strayed(self, before: Frame, after: Frame) -> "Track":
        """The track with wrong beads left lying: their rods go back to what they showed, or on to
        where they went. That of a trial digit goes to one that may be tried."""
        trial = self.line.steps[0].rod if self.line.freedom is Freedom.DIGIT else None
        rods = [rod for rod in range(before.lowest, before.highest + 1) if rod != trial]
        intents = [_mending(one, rods, before, after) for one in self.intents]
        return self._replace(intents=tuple(intents))


def _mending(intent: Intent, rods: Sequence[int], before: Frame, after: Frame) -> Intent:
    for rod in rods:
        if before.digit(rod) != after.digit(rod):
            goal = intent.goal(rod)
            digit, source = (goal.digit, goal.source) if goal else (before.digit(rod), STRAY)
            intent = intent.aiming(after, rod, digit, source, is_astray=True)
    return intent


def lies_between(start: int, digit: int, end: int) -> bool:
    """Whether a digit lies on the way from one to another, deck by deck."""
    decks = zip(divmod(start, 5), divmod(digit, 5), divmod(end, 5), strict=True)
    return all(min(a, b) <= shown <= max(a, b) for a, shown, b in decks)


def goals_of(step: Step, frame: Frame) -> tuple[Goal, ...]:
    """The digits that the rods of a whole step go to."""
    goals: dict[int, int] = {}
    for rod, change in step.moves:
        goals[rod] = goals.get(rod, frame.digit(rod)) + change
    return tuple([Goal(rod, goals[rod], step.rod) for rod in sorted(goals, reverse=True)])


def track_of(plan: Plan, line: WorkLine, frame: Frame) -> Track:
    """A line with nothing done yet."""
    if line.freedom is Freedom.ANY_ORDER:
        begin = works_of([(step.rod, step.change) for step in line.steps])
        moves = tuple([move for stroke in line.strokes for move in stroke])
        return Track(plan, line, (begin,), frame.apply_all(moves))
    if line.freedom is Freedom.IN_ORDER:
        begin = Intent(tuple([Work(step.rod, step.change, step.rod) for step in line.steps]))
        return Track(plan, line, (begin,))
    return Track(plan, line, (Intent(),))


def spent(plan: Plan, frame: Frame) -> Track:
    """The last line of a plan, done, on the frame on which it was; of a plan without any one that
    asks for nothing."""
    nothing = Step(Operation(Act.ADD, "0"), 0, 0, Technique.DIRECT, 0, ())
    line = plan.lines[-1] if plan.lines else line_of(0, 0, (nothing,), Freedom.IN_ORDER)
    end = frame if line.freedom is Freedom.ANY_ORDER else None
    return Track(plan, line, (Intent(),), end)


def tracks_at(plan: Plan, index: int, frame: Frame) -> tuple[Track, ...]:
    """The lines that may be begun at a place of a plan: its own; a revision by the other half
    first, what is added back or taken again; where the work forks, other schools' first lines."""
    if index >= len(plan.lines):
        return ()
    line = plan.lines[index]
    tracks = [track_of(plan, line, frame)]
    if line.operation.act.is_revision and index + 1 < len(plan.lines):
        turned = _turned(line, plan.lines[index + 1])
        tracks += [track_of(plan, turned, frame)] if turned else []
    if index == plan.fork:
        tracks += [track_of(other, other.lines[other.fork], frame) for other in plan.others]
    return tuple(tracks)


def _turned(revision: WorkLine, making_up: WorkLine) -> WorkLine | None:
    """A revision after what makes up for it, as one line; None where nothing does."""
    if not making_up.operation.act.is_mending or making_up.freedom is Freedom.DIGIT:
        return None
    # What decided the revision stands on the frame no more.
    revised = [step._replace(operation=step.operation._replace(why=())) for step in revision.steps]
    steps = (*making_up.steps, *revised)
    return line_of(revision.index, making_up.last, steps, Freedom.IN_ORDER)
