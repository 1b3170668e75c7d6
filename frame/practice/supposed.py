"""Learners who are supposed, and how well the answers of a real one fit each of them.

What somebody knows is looked for among some five thousand supposed learners. Each knows some of the
facts and has a weight. An answer weighs each of them by how likely it would have been theirs
(Bayes), so that all answers so far are in the weights.

Knowledge is no perfect beginning of a course, and so there are three kinds: those who know all up
to a fact; those who know all up to the end of a group but for a gap, which is a fact, a group of
them taught together, or a family; and those who came further in one operation than in others. What
a supposed learner knows beyond a gap is taken as less sure than what lies before it: there may be
further gaps, and only the first is looked for.

The shares of the kinds, the slip and the chance are our own numbers and a hypothesis, chosen with
simulated learners (`tests/simulated/placement.py`); no real one was asked. So many with a gap are
supposed less because they are so many than because a gap is found only where it is looked for.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from frame.practice.families import Family, family_of

SLIP = 0.06
"""How often what is known does not succeed."""
BEYOND = 0.2
"""The same for what lies beyond a gap."""
CHANCE = 0.03
"""How often what is not known succeeds all the same: beads are built, and hardly ever guessed."""

_FORGOTTEN = 1e-6
"""Who is less likely is supposed no longer."""

_IN_ORDER, _WITH_A_GAP, _BY_OPERATION = 0.4, 0.5, 0.1
"""The shares of the three kinds."""
_GAPS = (0.6, 0.2, 0.2)
"""How often a gap is a fact, a group, a family."""
_WITHIN = 0.5
"""How much less likely it is that somebody knows a part of a group than none or all of it."""

_ADDING = (Family.ADD_DIRECT, Family.ADD_FIVE, Family.ADD_TEN, Family.ADD_TEN_FIVE)
_TAKING = (Family.SUB_DIRECT, Family.SUB_FIVE, Family.SUB_TEN, Family.SUB_TEN_FIVE)


@dataclass(frozen=True)
class Syllabus:
    """The facts in the order in which they are taught: groups of those that come together, and the
    part of the course that each group is in."""

    groups: tuple[tuple[str, ...], ...]
    parts: tuple[int, ...]

    @cached_property
    def facts(self) -> tuple[str, ...]:
        """All facts in order: a fact's place is its bit in a mask."""
        return tuple(fact for group in self.groups for fact in group)

    @cached_property
    def bits(self) -> dict[str, int]:
        """The bit of each fact."""
        return {fact: 1 << at for at, fact in enumerate(self.facts)}

    @cached_property
    def ends(self) -> tuple[int, ...]:
        """How many facts are taught by the end of each group."""
        return tuple(accumulate(map(len, self.groups)))

    @cached_property
    def group_at(self) -> tuple[int, ...]:
        """The group of each fact, by its place; behind them the number of groups."""
        found = [at for at, group in enumerate(self.groups) for _ in group]
        return (*found, len(self.groups))

    @cached_property
    def all(self) -> int:
        """The mask of all facts."""
        return (1 << len(self.facts)) - 1

    def mask(self, facts: Iterable[str]) -> int:
        """The mask of some facts; those that nobody teaches count for nothing."""
        return sum(self.bits.get(fact, 0) for fact in set(facts))


@dataclass(frozen=True, slots=True)
class Supposed:
    """All supposed learners of so many facts: the mask of what each lacks, the place of the first
    fact of that, behind the last for none, and their weights, which sum up to 1."""

    facts: int
    lacking: tuple[int, ...]
    first: tuple[int, ...]
    weights: tuple[float, ...]

    @classmethod
    def of(cls, syllabus: Syllabus, known: int = 0) -> "Supposed":
        """Those for a syllabus, where some facts are known for sure."""
        found: dict[int, float] = {}
        for mask, weight in _everybody(syllabus):
            lacking = syllabus.all & ~(mask | known)
            found[lacking] = found.get(lacking, 0.0) + weight
        facts = len(syllabus.facts)
        first = tuple(_first(lacking, facts) for lacking in found)
        return cls(facts, tuple(found), first, _shared(found.values()))

    def by_first(self) -> list[float]:
        """How likely each fact is the first that is lacking, by its place; behind the last that
        none is."""
        return self._by_first(0)

    def succeeding(self, needed: int, shares: Sequence[float]) -> list[float]:
        """The same `shares`, of those alone who succeed with what needs some facts."""
        top = needed.bit_length()
        both = zip(shares, self._by_first(needed), strict=True)
        return [
            knowing * (1 - (SLIP if top <= first else BEYOND)) + (share - knowing) * CHANCE
            for first, (share, knowing) in enumerate(both)
        ]

    def knows(self, needed: int) -> float:
        """How likely it is that the learner knows some facts, all of them."""
        return sum(self._by_first(needed))

    def after(self, needed: int, right: bool) -> "Supposed":
        """The same once the learner answered what needs some facts."""
        top = needed.bit_length()
        found: list[tuple[int, int, float]] = []
        for lacking, first, weight in self._everyone():
            slip = SLIP if top <= first else BEYOND
            chance = CHANCE if needed & lacking else 1 - slip
            found.append((lacking, first, weight * (chance if right else 1 - chance)))
        least = _FORGOTTEN * sum(weight for _, _, weight in found)
        likely = [one for one in found if one[2] > least]
        return Supposed(
            self.facts,
            tuple(lacking for lacking, _, _ in likely),
            tuple(first for _, first, _ in likely),
            _shared(weight for _, _, weight in likely),
        )

    def _by_first(self, needed: int) -> list[float]:
        """The share of those who know some facts, by the first that they lack."""
        found = [0.0] * (self.facts + 1)
        for lacking, first, weight in self._everyone():
            if not needed & lacking:
                found[first] += weight
        return found

    def _everyone(self) -> Iterator[tuple[int, int, float]]:
        return zip(self.lacking, self.first, self.weights, strict=True)


def _first(lacking: int, facts: int) -> int:
    """The place of the lowest bit of a mask; behind so many facts where it has none."""
    return (lacking & -lacking).bit_length() - 1 if lacking else facts


def _shared(weights: Iterable[float]) -> tuple[float, ...]:
    weights = tuple(weights)
    whole = sum(weights)
    return tuple(weight / whole for weight in weights)


def _everybody(syllabus: Syllabus) -> Iterator[tuple[int, float]]:
    """The supposed learners of all kinds with their weights before any answer."""
    kinds = (
        (_IN_ORDER, _in_order(syllabus)),
        (_WITH_A_GAP, _with_a_gap(syllabus)),
        (_BY_OPERATION, ((mask, 1.0) for mask in _by_operation(syllabus))),
    )
    for share, kind in kinds:
        some = list(kind)
        whole = sum(weight for _, weight in some)
        yield from ((mask, share * weight / whole) for mask, weight in some)


def _in_order(syllabus: Syllabus) -> Iterator[tuple[int, float]]:
    """Those who know all up to a fact, seldom one within a group."""
    yield 0, 1.0
    for group, end in zip(syllabus.groups, syllabus.ends, strict=True):
        for left in range(1, len(group)):
            yield (1 << end - left) - 1, _WITHIN / (len(group) - 1)
        yield (1 << end) - 1, 1.0


def _with_a_gap(syllabus: Syllabus) -> Iterator[tuple[int, float]]:
    """Those who know all up to the end of a group, but for one gap."""
    sizes = tuple(zip(_GAPS, _gaps(syllabus), strict=True))
    for end in syllabus.ends:
        reach = (1 << end) - 1
        for weight, gaps in sizes:
            within = [gap for gap in gaps if not gap & ~reach]
            yield from ((reach & ~gap, weight / len(within)) for gap in within)


def _gaps(syllabus: Syllabus) -> tuple[Sequence[int], ...]:
    """Gaps of every size: facts, groups, families."""
    families = {family_of([fact]) for fact in syllabus.facts}
    return (
        list(syllabus.bits.values()),
        [syllabus.mask(group) for group in syllabus.groups],
        [_family(syllabus, family) for family in Family if family in families],
    )


def _by_operation(syllabus: Syllabus) -> Iterator[int]:
    """Those who read and set all numbers and came further with adding than with taking away, or
    the other way; who know all of one may multiply as well."""
    numbers = _family(syllabus, Family.READ, Family.SET)
    times = _family(syllabus, Family.MULTIPLY) | syllabus.mask(["ripple-add"])
    for adding in range(len(_ADDING) + 1):
        for taking in range(len(_TAKING) + 1):
            if adding != taking:
                families = _ADDING[:adding] + _TAKING[:taking]
                yield numbers | _family(syllabus, *families)
                if adding == len(_ADDING):
                    yield numbers | _family(syllabus, *families) | times


def _family(syllabus: Syllabus, *families: Family) -> int:
    return syllabus.mask(fact for fact in syllabus.facts if family_of([fact]) in families)
