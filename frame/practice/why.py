"""Why the ladder has moved, or has not, told in one sentence."""

from enum import StrEnum
from itertools import count
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.practice.climb import Cause, Climb
from frame.practice.ladder import TIMED_BY, above
from frame.practice.rungs import Rung


class Reason(StrEnum):
    """Why a learner stands where they do."""

    BEGIN = "begin"
    """Nothing was tried where the ladder stands."""
    RIGHT = "right"
    """Just come up: enough was right."""
    MISSES = "misses"
    """Just sent down: too much was not right."""
    LOOKS = "looks"
    """Just sent down: too often with a look."""
    MORE = "more"
    """Not yet: some more must be right."""
    SLOWER = "slower"
    """Held: it is right, but slower than below."""
    TOP = "top"
    """At the last rung with as many rods as there can be."""
    ROD = "rod"
    """One rod more: with those before it all is mastered."""


class Why(NamedTuple):
    """Why a learner stands on a rung.

    `some` of the `last` exercises were right (RIGHT), not right (MISSES) or had a look (LOOKS);
    with `some` more right the learner goes on (MORE). `next` is the rung that comes then, None
    where that is one rod more. `now` and `then` are the seconds that an exercise takes here and at
    the rung that TIMED_BY says (SLOWER).
    """

    reason: Reason
    rung: Rung
    some: int = 0
    last: int = 0
    next: Rung | None = None
    now: float = 0.0
    then: float = 0.0

    @property
    def names_rung(self) -> bool:
        """Whether its sentence names the rung where the learner stands."""
        return self.reason in _OF_CAUSE.values()


_OF_CAUSE = {
    Cause.RIGHT: Reason.RIGHT,
    Cause.MISSES: Reason.MISSES,
    Cause.LOOKS: Reason.LOOKS,
}


def why_of(climb: Climb) -> Why:
    """Why a learner stands where they do on a track."""
    if climb.here:
        return _why_still(climb)
    if climb.move is None:
        return Why(Reason.BEGIN, climb.rung)
    return Why(_OF_CAUSE[climb.move.cause], climb.rung, climb.move.some, climb.move.last)


def _why_still(climb: Climb) -> Why:
    """Why a learner is still on a rung where something was tried."""
    last = climb.here[-1]
    is_top = climb.rung is last.family.top
    following = None if is_top else above(climb.rung)
    if climb.is_mastered or (is_top and last.rods >= last.family.most_rods):
        return Why(Reason.TOP, climb.rung)
    if climb.is_right and climb.seconds:
        now, then = climb.seconds
        return Why(Reason.SLOWER, climb.rung, next=following, now=now, then=then)
    more = next(more for more in count(1) if climb.is_right_after(more))
    return Why(Reason.MORE, climb.rung, more, next=following)


def why_line(why: Why, words: Words) -> Line | None:
    """The sentence that tells it, of the work and never of the child; None where nothing was
    tried."""
    if why.reason is Reason.BEGIN:
        return None
    is_rod = why.next is None and why.reason in (Reason.MORE, Reason.SLOWER)
    key = f"why.{why.reason}_rod" if is_rod else f"why.{why.reason}"
    rungs = {"rung": why.rung, "next": why.next, "below": TIMED_BY.get(why.rung)}
    names = {name: words.line(f"rung.{rung.name}") for name, rung in rungs.items() if rung}
    return words.line(key, some=why.some, last=why.last, **names)
