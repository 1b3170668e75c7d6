"""Where a learner stands on a track of the ladder, and with how many rods.

It is worked out anew from all that was tried, and kept nowhere, so that a tutor may change the
rules on any day.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import islice
from statistics import median
from typing import NamedTuple

from frame.practice.families import Family
from frame.practice.ladder import (
    FLUENT_FROM,
    RUNGS,
    TIMED_BY,
    USUAL_RULES,
    Among,
    LadderRules,
    Try,
    above,
    below,
)
from frame.practice.rungs import Rung


class Cause(StrEnum):
    """What moved a learner: enough was right, too much was not, or too often with a look."""

    RIGHT = "right"
    MISSES = "misses"
    LOOKS = "looks"


class Move(NamedTuple):
    """A move to another rung: `some` of the `last` exercises were such as its cause says."""

    cause: Cause
    to: Rung
    some: int
    last: int


@dataclass(slots=True)
class Climb:
    """A learner on one track, try by try.

    `here` are the tries at the rung since the last move, `by_rung` all tries of each; `falls`
    counts for each rung how often the learner was sent down from it; `move` is the last move.
    """

    rules: LadderRules = USUAL_RULES
    rung: Rung = Rung.ALONE
    here: list[Try] = field(default_factory=list)
    by_rung: dict[Rung, list[Try]] = field(default_factory=dict)
    falls: Counter[Rung] = field(default_factory=Counter)
    move: Move | None = None

    @classmethod
    def of(cls, tries: Iterable[Try], rules: LadderRules = USUAL_RULES) -> "Climb":
        """The climb of all tries of one track, oldest first."""
        climb = cls(rules)
        for one in tries:
            climb.add(one)
        return climb

    def add(self, one: Try) -> None:
        """One try more. Only tries at the rung where the learner stands move anybody, and after a
        move the count starts anew. Those at other rungs, chosen by hand or as probes, tell how
        quick the learner is there and no more."""
        self.by_rung.setdefault(one.rung, []).append(one)
        if one.rung is not self.rung:
            return
        self.here.append(one)
        move = self._down() or self._up(one.family.top)
        if move is None:
            return
        if move.to is below(self.rung):
            self.falls[self.rung] += 1
        self.rung, self.here, self.move = move.to, [], move

    def _down(self) -> Move | None:
        return self._sent_down(Cause.MISSES, self.rules.misses, lambda one: not one.right) or (
            self._sent_down(Cause.LOOKS, self.rules.looks, lambda one: one.looks > 0)
        )

    def _sent_down(
        self, cause: Cause, usual: Among | None, is_one: Callable[[Try], bool]
    ) -> Move | None:
        if usual is None or self.rung is RUNGS[0]:
            return None
        among = usual.times(self.rules.times(self.falls[self.rung]))
        last = self.here[-among.last :]
        move = Move(cause, below(self.rung), sum(map(is_one, last)), len(last))
        return move if move.some >= among.count else None

    def _up(self, top: Rung) -> Move | None:
        higher = above(self.rung)
        if higher is None or self.rung is top or not (self.is_right and self.is_quick):
            return None
        right = sum(one.right for one in self.here[-self.up_after :])
        return Move(Cause.RIGHT, higher, right, self.up_after)

    @property
    def up_after(self) -> int:
        """How many exercises the next rung asks for."""
        return self.rules.up_after * self.rules.times(self._falls_above)

    @property
    def _falls_above(self) -> int:
        higher = above(self.rung)
        return self.falls[higher] if higher else 0

    @property
    def is_right(self) -> bool:
        """Whether enough of the last exercises were right."""
        return self.is_right_after(0)

    def is_right_after(self, more: int) -> bool:
        """Whether enough were right if so many more were."""
        right = [one.right for one in self.here[-self.up_after :]]
        return self.rules.is_enough([*right, *[True] * more], self._falls_above)

    @property
    def is_quick(self) -> bool:
        """Whether the last exercises went about as quickly as those at the rung that TIMED_BY
        says; they did where there is nothing to compare with."""
        if self.seconds is None:
            return True
        now, then = self.seconds
        return now <= self.rules.slower * then

    @property
    def seconds(self) -> tuple[float, float] | None:
        """The median times of the last exercises here and at the rung that TIMED_BY says: of those
        that were right, with numbers as large as in the last one. None where there are none."""
        other = TIMED_BY.get(self.rung)
        if other is None or not self.here:
            return None
        now, then = self._median(self.here), self._median(self.by_rung.get(other, ()))
        return None if now is None or then is None else (now, then)

    def _median(self, tries: Sequence[Try]) -> float | None:
        alike = (one for one in reversed(tries) if one.is_like(self.here[-1]))
        times = [one.seconds for one in islice(alike, self.rules.up_after) if one.right]
        return median(times) if times else None

    @property
    def is_mastered(self) -> bool:
        """Whether the last rung of the family is done with; from FLUENT_FROM rods on, quickly
        too."""
        if not self.here or self.rung is not self.here[-1].family.top:
            return False
        return self.is_right and (self.here[-1].rods < FLUENT_FROM or self.is_quick)

    @property
    def holds_alone(self) -> bool:
        """Whether enough was right of late at `alone`: with those facts of the family that were
        tried above it, or with any where none of them was tried there."""
        higher = RUNGS[RUNGS.index(Rung.ALONE) + 1 : RUNGS.index(self.rung) + 1]
        above_it = (one for rung in higher for one in self.by_rung.get(rung, ()))
        tried = frozenset(fact for one in above_it for fact in one.own_facts)
        alone = self.by_rung.get(Rung.ALONE, [])
        same = [one for one in alone if one.own_facts <= tried]
        last = (same or alone)[-self.rules.up_after :]
        right = sum(one.right for one in last)
        return bool(last) and right / len(last) >= self.rules.alone_share


def rung_of(tries: Iterable[Try], rules: LadderRules = USUAL_RULES) -> Rung:
    """The rung where a learner stands after the tries of one track, oldest first."""
    return Climb.of(tries, rules).rung


def rods_of(
    tries_by_rods: Mapping[int, Sequence[Try]], family: Family, rules: LadderRules = USUAL_RULES
) -> int:
    """With how many rods to practise a family: its fewest at first, and one more, up to its most,
    when the last rung is mastered with those before it."""
    rods = family.least_rods
    while rods < family.most_rods and Climb.of(tries_by_rods.get(rods, ()), rules).is_mastered:
        rods += 1
    return rods


def reached(tries: Iterable[Try], rules: LadderRules = USUAL_RULES) -> Rung | None:
    """The rung that may be told as reached on a track: the one to which the ladder has led, but
    none above `alone` while the same facts do not hold there. None while nothing was tried where
    the ladder stands, for what is chosen by hand alone leads nowhere; and none after a fall."""
    climb = Climb.of(tries, rules)
    is_begun = bool(climb.here) or climb.move is not None
    if not is_begun or (climb.move is not None and climb.move.cause is not Cause.RIGHT):
        return None
    is_higher = RUNGS.index(climb.rung) > RUNGS.index(Rung.ALONE)
    return Rung.ALONE if is_higher and not climb.holds_alone else climb.rung
