"""Where a learner stands on a track of the ladder, and with how many rods.

It is folded from all that was tried, one try after another. A tutor may change the rules on any
day: then all is folded anew.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import islice
from statistics import median
from typing import NamedTuple

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

MEMORY = 60
"""So many of the last tries at each rung of a track have a say: as many as the strictest rules ask
for before the next rung, after falls."""


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

    `by_rung` are the last MEMORY tries at each rung, `since` counts those at the learner's rung
    since the last move; `falls` counts for each rung how often the learner was sent down from it;
    `move` is the last move.
    """

    rules: LadderRules = USUAL_RULES
    rung: Rung = Rung.ALONE
    since: int = 0
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
        tried = self.by_rung.setdefault(one.rung, [])
        tried.append(one)
        del tried[:-MEMORY]
        if one.rung is not self.rung:
            return
        self.since = min(self.since + 1, MEMORY)
        move = self._down() or self._up(one.family.top)
        if move is None:
            return
        if move.to is below(self.rung):
            self.falls[self.rung] += 1
        self.rung, self.since, self.move = move.to, 0, move

    @property
    def here(self) -> list[Try]:
        """The tries at the learner's rung since the last move."""
        return self.by_rung[self.rung][-self.since :] if self.since else []

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

    @property
    def reached(self) -> Rung | None:
        """The rung that may be told as reached: the one to which the ladder has led, but none above
        `alone` while the same facts do not hold there. None while nothing was tried where the
        ladder stands, for what is chosen by hand alone leads nowhere; and none after a fall."""
        is_begun = bool(self.here) or self.move is not None
        if not is_begun or (self.move is not None and self.move.cause is not Cause.RIGHT):
            return None
        is_higher = RUNGS.index(self.rung) > RUNGS.index(Rung.ALONE)
        return Rung.ALONE if is_higher and not self.holds_alone else self.rung
