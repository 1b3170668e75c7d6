"""The ladder of rungs: its rules with their numbers, and what is known of an exercise done.

A learner stands on a rung for each family of facts with each number of rods: that is a track. The
rules and their numbers are a hypothesis: no learner has been studied with them. Simulated ones
have, and none of them goes up and down between the same two rungs for ever.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from random import Random
from typing import NamedTuple

from frame.practice.families import Family, family_of_fact
from frame.practice.rungs import Asked, Rung

RUNGS = tuple(Rung)
"""The ladder, from the lowest rung."""

FLUENT_FROM = 3
"""With so many rods or more, answers must be quick too before another rod comes: children a year
in practice mostly failed beyond three or four digits (Frank and Barner 2012, from a summary in the
press)."""

TIMED_BY: Mapping[Rung, Rung] = {
    Rung.PALE: Rung.ALONE,
    Rung.TRACES: Rung.PALE,
    Rung.NUMBER: Rung.COVERED,
}
"""The rung whose times those of a rung are compared with: the one below, where no more is pressed
and typed than there.

What is kept of an exercise is how long all of it took. Up to `traces` that is the beads alone. At
`covered` *Done* and the typed answer are added, which take as long as a hand finds its keys: beside
the times of `traces` they would hold back whoever types slowly, and so nothing is compared. With
the number alone the answer is typed as at `covered`, and fewer beads are moved or none. Below
`alone` the tool leads the hand, and its times are not the learner's.
"""


@dataclass(frozen=True, slots=True)
class Among:
    """So many among the last so many."""

    count: int
    last: int

    def times(self, factor: int) -> "Among":
        """As large a share of more exercises."""
        return Among(self.count * factor, self.last * factor)

    def holds(self, flags: Sequence[bool]) -> bool:
        """Whether so many of the last flags are set."""
        return sum(flags[-self.last :]) >= self.count


@dataclass(frozen=True, slots=True)
class LadderRules:
    """The numbers behind the ladder.

    One rung up: of the last `up_after` exercises at this rung the `share` is right unaided, and
    their median time is at most `slower` times that of the rung that TIMED_BY says. One rung down:
    `misses`, or `looks`, each counting exercises; None for never. Each time that a learner was sent
    down from a rung doubles what it takes to come back to it, and what it takes to be sent down
    from it again, up to `again` times: else whoever is right nine times in ten would be sent down
    by chance, and come back by chance, for ever.
    About one exercise in `probe_every` comes from the rung below. A rung above `alone` is told as
    reached only while at `alone` the share right is `alone_share`. A fact is sure after
    `sure_after` exercises right unaided.
    """

    up_after: int = 10
    share: float = 0.85
    slower: float = 1.5
    misses: Among | None = Among(2, 3)
    looks: Among | None = Among(3, 5)
    again: int = 4
    probe_every: int = 10
    alone_share: float = 0.9
    sure_after: int = 5

    def times(self, falls: int) -> int:
        """How many times as much it takes after so many falls."""
        return min(1 << falls, self.again)

    def is_enough(self, right: Sequence[bool], falls: int) -> bool:
        """Whether enough of the last exercises were right to go on to where so many falls were."""
        asked = self.up_after * self.times(falls)
        return len(right) >= asked and sum(right[-asked:]) / asked >= self.share

    def is_too_little(self, right: Sequence[bool], falls: int) -> bool:
        """Whether too many were not right to stay where so many falls were."""
        misses = self.misses and self.misses.times(self.times(falls))
        return misses is not None and misses.holds([not one for one in right])


USUAL_RULES = LadderRules()


class Try(NamedTuple):
    """One exercise done: `right` means unaided, and `seconds` is how long all of it took. `digits`
    are those of its longest number, `terms` how many numbers a column had, 0 where it was none or
    nobody knows; `pace` is that at which numbers came, in seconds, as in `Exercise`."""

    family: Family
    rods: int
    rung: Rung
    right: bool
    looks: int
    seconds: float
    facts: frozenset[str]
    asked: Asked = Asked.SHOWN
    own: bool = False
    digits: int = 0
    terms: int = 0
    pace: float = 0.0

    @property
    def is_on_ladder(self) -> bool:
        """Whether it tells of a rung: not on the learner's own frame, where nobody knows what is
        seen, nor with numbers called or flashed, whose pace is not the learner's."""
        return self.asked is Asked.SHOWN and not self.own

    @property
    def own_facts(self) -> frozenset[str]:
        """Those of its facts that make it one of its family."""
        return frozenset(fact for fact in self.facts if family_of_fact(fact) is self.family)

    def is_like(self, other: "Try") -> bool:
        """Whether both have numbers of one size, so that their times can be compared; in a family
        that grows the rods say how long they are."""
        is_as_long = self.family.grows or self.digits == other.digits
        return self.terms == other.terms and is_as_long


def above(rung: Rung) -> Rung | None:
    """The rung above; the last has none."""
    return next(iter(RUNGS[RUNGS.index(rung) + 1 :]), None)


def below(rung: Rung) -> Rung:
    """The rung below; the lowest has none and stays."""
    return RUNGS[max(0, RUNGS.index(rung) - 1)]


def is_probe(random: Random, rules: LadderRules = USUAL_RULES) -> bool:
    """Whether the next exercise is a probe, to find out what has been lost."""
    return random.randrange(rules.probe_every) == 0


def probe_of(rung: Rung) -> Rung | None:
    """The rung of the probes for a learner who stands on a rung: the one below; None where there
    the tool leads the hand and nothing would be found out."""
    return None if below(rung).is_led else below(rung)
