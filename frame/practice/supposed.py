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

from frame.practice.families import Family, family_of_fact

SLIP = 0.06
"""How often what is known does not succeed."""
BEYOND = 0.2
"""The same for what lies beyond a gap."""
CHANCE = 0.03
"""How often what is not known succeeds all the same: beads are built, and hardly ever guessed."""

_FORGOTTEN = 1e-6
"""Who is less likely is supposed no longer."""

_IN_ORDER, _WITH_A_GAP, _BY_OPERATION = 0.45, 0.45, 0.1
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
    def known_by(self) -> tuple[frozenset[str], ...]:
        """All that is taught by the end of each group."""
        return tuple(frozenset(self.facts[:end]) for end in self.ends)

    @cached_property
    def families(self) -> dict[Family, int]:
        """The mask of each family of which anything is taught, in their order."""
        found = dict.fromkeys(Family, 0)
        for fact, bit in self.bits.items():
            found[family_of_fact(fact)] |= bit
        return {family: mask for family, mask in found.items() if mask}

    @cached_property
    def all(self) -> int:
        """The mask of all facts."""
        return (1 << len(self.facts)) - 1

    def mask(self, facts: Iterable[str]) -> int:
        """The mask of some facts; those that nobody teaches count for nothing."""
        return sum(self.bits.get(fact, 0) for fact in set(facts))


Group = Sequence[tuple[int, float]]
"""Supposed learners who lack the same fact first: the mask of what each lacks, and the weight."""


@dataclass(frozen=True)
class Supposed:
    """All supposed learners, by the place of the first fact that they lack; behind the last those
    who lack none. Their weights sum up to 1."""

    groups: tuple[Group, ...]

    @classmethod
    def of(cls, syllabus: Syllabus, known: int = 0) -> "Supposed":
        """Those for a syllabus, where some facts are known for sure."""
        found: dict[int, float] = {}
        for mask, weight in _everybody(syllabus):
            lacking = syllabus.all & ~(mask | known)
            found[lacking] = found.get(lacking, 0.0) + weight
        groups: list[list[tuple[int, float]]] = [[] for _ in range(len(syllabus.facts) + 1)]
        for lacking, weight in found.items():
            groups[_first(lacking, len(syllabus.facts))].append((lacking, weight))
        return cls(_shared(groups))

    @cached_property
    def by_first(self) -> list[float]:
        """How likely each fact is the first that is lacking, by its place; behind the last that
        none is."""
        return [sum(weight for _, weight in group) for group in self.groups]

    def succeeding(self, needed: int) -> list[float]:
        """The same, of those alone who succeed with what needs some facts."""
        both = zip(self.by_first, self._knowing(needed), strict=True)
        return [
            knowing * _success(needed, first) + (share - knowing) * CHANCE
            for first, (share, knowing) in enumerate(both)
        ]

    def knows(self, needed: int) -> float:
        """How likely it is that the learner knows some facts, all of them."""
        return sum(self._knowing(needed))

    def after(self, needed: int, right: bool) -> "Supposed":
        """The same once the learner answered what needs some facts."""
        found = []
        for first, group in enumerate(self.groups):
            chances = _success(needed, first), CHANCE
            knowing, lacking = chances if right else (1 - one for one in chances)
            found.append(
                [(lack, weight * (lacking if needed & lack else knowing)) for lack, weight in group]
            )
        least = _FORGOTTEN * sum(weight for group in found for _, weight in group)
        return Supposed(_shared([[one for one in group if one[1] > least] for group in found]))

    def _knowing(self, needed: int) -> list[float]:
        """The share of those who know some facts, by the first that they lack: all whose first is
        behind those facts, and none for whom it is one of them."""
        top = needed.bit_length()
        within = [
            [] if needed >> first & 1 else [weight for lack, weight in group if not needed & lack]
            for first, group in enumerate(self.groups[:top])
        ]
        return [*map(sum, within), *self.by_first[top:]]


def _success(needed: int, first: int) -> float:
    """How often what needs some facts succeeds with who knows them, by the first lacking."""
    return 1 - (SLIP if needed.bit_length() <= first else BEYOND)


def _first(lacking: int, facts: int) -> int:
    """The place of the lowest bit of a mask; behind so many facts where it has none."""
    return (lacking & -lacking).bit_length() - 1 if lacking else facts


def _shared(groups: Sequence[Group]) -> tuple[Group, ...]:
    whole = sum(weight for group in groups for _, weight in group)
    return tuple([(lacking, weight / whole) for lacking, weight in group] for group in groups)


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
    return (
        list(syllabus.bits.values()),
        [syllabus.mask(group) for group in syllabus.groups],
        list(syllabus.families.values()),
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
    return sum(syllabus.families.get(family, 0) for family in families)
