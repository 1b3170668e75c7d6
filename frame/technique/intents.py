"""What a hand may mean by the beads it has moved on a line of work.

A number is a set of digit works, and a carry or borrow of one is one too: on a rod begun the two
add up. An intent keeps the works that are not begun and, for each rod begun, the digit that it goes
to. A bead is lawful if in some intent it goes part of the way to such a digit, deck by deck and
never back, or begins a work, or begins the carry of a work before its partner. It may fit more than
one intent: there are 1 or 2, in 20 000 random lawful hands 24 at most, and none of those hands is
refused.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame

STRAY = None
"""The source of a goal that only mends a wrong bead that stayed."""


class Work(NamedTuple):
    """A signed digit to be worked on a rod; of a carry or borrow, `source` is the rod whose digit
    caused it, else the rod itself."""

    rod: int
    change: int
    source: int

    @property
    def is_carry(self) -> bool:
        """Whether it is the 1 of another digit."""
        return self.source != self.rod


class Goal(NamedTuple):
    """The digit that a rod begun goes to, and the rod whose digit is worked by it; `is_astray`
    where a wrong bead lies on it."""

    rod: int
    digit: int
    source: int | None
    is_astray: bool = False


class Begun(NamedTuple):
    """A digit work that was begun, and the frame on which it was."""

    rod: int
    change: int
    frame: Frame


class Intent(NamedTuple):
    """The works not begun, highest first; the goals of rods that have not reached them; and the
    digit works begun, in their order, finished or not."""

    todo: tuple[Work, ...] = ()
    goals: tuple[Goal, ...] = ()
    begun: tuple[Begun, ...] = ()

    @property
    def is_astray(self) -> bool:
        """Whether a rod still shows a wrong bead."""
        return any([goal.is_astray for goal in self.goals])

    def goal(self, rod: int) -> Goal | None:
        """The goal of a rod, None where it has none."""
        for goal in self.goals:
            if goal.rod == rod:
                return goal
        return None

    def aiming(
        self, frame: Frame, rod: int, digit: int, source: int | None, is_astray: bool = False
    ) -> "Intent":
        """The intent with another goal for a rod, none where the rod shows it already."""
        goals = [goal for goal in self.goals if goal.rod != rod]
        before = self.goal(rod)
        is_astray = is_astray or (before is not None and before.is_astray)
        if frame.digit(rod) != digit:
            goals.append(Goal(rod, digit, source, is_astray))
            goals.sort(key=_rod_of, reverse=True)
        return Intent(self.todo, tuple(goals), self.begun)

    def towards(self, frame: Frame, move: BeadMove) -> "Intent | None":
        """The intent after a bead that goes part of the way to its rod's goal; None where it goes
        another way."""
        goal = self.goal(move.rod)
        if goal is None:
            return None
        digit = frame.digit(move.rod)
        if not goes_towards(digit, goal.digit, move.change):
            return None
        if digit + move.change != goal.digit:
            return self
        goals = tuple([one for one in self.goals if one.rod != move.rod])
        return Intent(self.todo, goals, self.begun)


def _rod_of(goal: Goal) -> int:
    return goal.rod


def goes_towards(digit: int, goal: int, change: int) -> bool:
    """Whether a change goes part of the way from one digit to another, deck by deck, never back."""
    if change in (5, -5):
        return goal // 5 - digit // 5 == change // 5
    earth = goal % 5 - digit % 5
    return 0 < change <= earth or earth <= change < 0


def works_of(changes: Sequence[tuple[int, int]]) -> Intent:
    """The intent of nothing begun, for signed digits on their rods."""
    return Intent(tuple(sorted([Work(rod, digit, rod) for rod, digit in changes], reverse=True)))


def begins(changes: Sequence[tuple[int, int]], frame: Frame, move: BeadMove) -> bool:
    """Whether a bead begins one of some signed digits on their rods."""
    if not frame.can(move):
        return False
    rods = [digit for digit in changes if frame.has(digit[0])]
    return next(after_bead(works_of(rods), frame, move), None) is not None


def after_bead(intent: Intent, frame: Frame, move: BeadMove) -> Iterator[Intent]:
    """What a hand may mean with one bead more: it goes on with its rod, begins a work there, or
    begins the carry of a work before its partner."""
    todo, rod = intent.todo, move.rod
    if intent.goals and (on := intent.towards(frame, move)):
        yield on
    if not todo or todo[-1].rod > rod:
        return
    own, carry = _works_on(intent, rod)
    may_come = 1 if todo[0].change > 0 else -1
    if carry and _leads(intent, frame, move, carry.change):
        yield from _begun(intent, frame, move, carry)
    if own and _leads(intent, frame, move, own.change):
        yield from _begun(intent, frame, move, own)
    if own and _leads(intent, frame, move, own.change + may_come):
        for base in (intent,) if carry else _arriving(intent, frame, rod):
            yield from _begun(base, frame, move, own, _works_on(base, rod)[1])
    if not carry and _leads(intent, frame, move, may_come):
        for base in _arriving(intent, frame, rod):
            yield from _begun(base, frame, move, _works_on(base, rod)[1])


def _leads(intent: Intent, frame: Frame, move: BeadMove, change: int) -> bool:
    """Whether a bead goes part of the way that its rod goes with one change more."""
    digit, goal = frame.digit(move.rod), intent.goal(move.rod)
    end = (digit if goal is None else goal.digit) + change
    return goes_towards(digit, end % 10, move.change)


def _begun(intent: Intent, frame: Frame, move: BeadMove, *works: Work | None) -> Iterator[Intent]:
    """The intent with works of the bead's rod begun, after the bead."""
    for begun in _open(intent, frame, *works):
        if on := begun.towards(frame, move):
            yield on


def _arriving(intent: Intent, frame: Frame, rod: int) -> Iterator[Intent]:
    """Works of the rods below begun, so that a carry comes to a rod; it may run on over rods whose
    digits let it pass."""
    below = rod - 1
    if intent.todo[-1].rod > below or not frame.has(below):
        return
    own, waiting = _works_on(intent, below)
    goal = intent.goal(below)
    shown = frame.digit(below) if goal is None else goal.digit
    if own and not 0 <= shown + own.change <= 9:
        yield from _open(intent, frame, own)
    full = 9 if intent.todo[0].change > 0 else 0
    passes = shown == full
    if not passes and not (own and shown + own.change == full):
        return
    for base in (intent,) if waiting else _arriving(intent, frame, below):
        carry = _works_on(base, below)[1]
        if carry and passes:
            yield from _open(base, frame, carry)
        elif carry and own:
            yield from _open(base, frame, own, carry)


def _works_on(intent: Intent, rod: int) -> tuple[Work | None, Work | None]:
    """The digit and the carry that wait to be begun on a rod."""
    own = carry = None
    for work in intent.todo:
        if work.rod == rod:
            if work.source == rod:
                own = work
            else:
                carry = work
    return own, carry


def _open(intent: Intent, frame: Frame, *works: Work | None) -> Iterator[Intent]:
    """The intent with works begun; none where one is missing or a carry has no rod to go to."""
    for work in works:
        if work is None:
            return
        rod, change, source = work
        goal = intent.goal(rod)
        shown = frame.digit(rod) if goal is None else goal.digit
        carry, digit = divmod(shown + change, 10)
        todo = [one for one in intent.todo if one != work]
        if carry:
            if not frame.has(rod + 1):
                return
            todo.append(Work(rod + 1, carry, source))
            todo.sort(reverse=True)
        begun = intent.begun
        if source == rod:
            begun = (*begun, Begun(rod, change, frame))
        intent = Intent(tuple(todo), intent.goals, begun).aiming(frame, rod, digit, source)
    yield intent
