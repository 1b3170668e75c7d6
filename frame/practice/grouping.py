"""A class in groups, with a task of five minutes for each.

What a child needs are items that are due, each with a weight, and a hand's faults. A task holds as
many items as there is time for, those that its group needs most, and is about one fault of theirs.
The groups are those whose tasks cover most of what all need. Each item takes one exercise: of a day
only the first try counts for the schedule. A fault takes none, it shows in the exercises.

The search begins with all in one group, and adds a group at a time: for the child who would gain
most by itself, and from seeds far apart. Then children move while more is covered. It finds a good
split, and not always the best; one more group never covers less.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from operator import add, sub
from typing import NamedTuple, TypeVar

from frame.technique.habits import Habit

_Id = TypeVar("_Id", bound=str)

MINUTES = 5.0
SECONDS = 20.0
"""So long an exercise takes where nothing better is known: a judgement, no source."""
LIKELY = 0.5
"""A fault that is less likely does not count."""
OF_FAULT = 3.0
"""A sure fault weighs as much as so many items of weight 1: a judgement, no source."""
_EXACT = 1000
"""Weights are counted in thousandths, so that sums are the same in whatever order."""
_STARTS = 3
"""From so many first seeds groups are begun."""


class Child(NamedTuple):
    """A child by its id, the items that are due for it, each with the weight of the need, about 1,
    and the faults that it may have, each with its probability."""

    id: str
    due: Mapping[str, float]
    faults: Mapping[Habit, float] = {}

    @property
    def likely(self) -> dict[Habit, float]:
        """The faults that count."""
        return {fault: chance for fault, chance in self.faults.items() if chance >= LIKELY}


class Why(StrEnum):
    """Why a child is in its group."""

    DUE = "due"
    """Some of what is due for it is in the task."""
    FAULT = "fault"
    """Nothing due for it is in the task, but that is about a fault of its own."""
    NOT_COVERED = "not-covered"
    """What it needs did not fit into the task of any group."""


class Member(NamedTuple):
    """A child in a group: why it is there, how much is due for it and how much of that the task
    covers, both by weight, and whether it is likely to have the fault that the task is about."""

    id: str
    why: Why
    due: float
    covered: float
    has_fault: bool

    @property
    def share(self) -> float:
        """The share that is covered of what is due for it; all where nothing is."""
        return self.covered / self.due if self.due else 1.0


class Group(NamedTuple):
    """Children, in order of ids, and their task: its items, those that are needed most first, and
    the fault that it is about."""

    members: tuple[Member, ...]
    items: tuple[str, ...]
    fault: Habit | None

    @property
    def with_fault(self) -> int:
        """How many are likely to have the fault."""
        return sum(one.has_fault for one in self.members)


class Split(NamedTuple):
    """A class in groups; `others` are the children who need nothing now, and are in none. `need`
    and `met` are by weight, the faults told in: `met` is what the search makes great, and it is
    never less with more groups."""

    groups: tuple[Group, ...]
    others: tuple[str, ...]
    need: float
    met: float

    @property
    def share(self) -> float:
        """The share that is covered of all that is due; all where nothing is."""
        members = [one for group in self.groups for one in group.members]
        due = sum(one.due for one in members)
        return sum(one.covered for one in members) / due if due else 1.0


def split_of(
    children: Iterable[Child],
    most: int,
    minutes: float = MINUTES,
    seconds: float = SECONDS,
) -> Split:
    """The children who need something in at most so many groups, fewer where that covers as much.
    Raises ValueError for no group, no time, an id that comes twice, or a weight below zero."""
    ordered = sorted(children, key=lambda child: child.id)
    _check(ordered, most, minutes, seconds)
    counted = _counted(ordered, int(60 * minutes / seconds))
    needy = [at for at, need in enumerate(counted.needs) if any(need)]
    others = [at for at, need in enumerate(counted.needs) if not any(need)]
    groups = _best(counted, needy, most) if needy else []
    places = [sorted(one.members) for one in groups]
    return Split(
        tuple(_told([ordered[at] for at in place], counted.room) for place in sorted(places)),
        tuple(ordered[at].id for at in others),
        sum(map(sum, counted.needs)) / _EXACT,
        _met(groups) / _EXACT,
    )


def _check(children: Sequence[Child], most: int, minutes: float, seconds: float) -> None:
    twice = [one for one, times in Counter(child.id for child in children).items() if times > 1]
    if twice:
        raise ValueError(f"{twice[0]!r} comes twice")
    if most < 1 or minutes <= 0 or seconds <= 0:
        raise ValueError(f"{most} groups, {minutes} minutes, {seconds} seconds an exercise")
    if any(weight < 0 for child in children for weight in child.due.values()):
        raise ValueError("a weight below zero")


_Need = tuple[int, ...]


@dataclass(frozen=True)
class _Counted:
    """What each child needs, in thousandths: so many items, and then faults."""

    needs: tuple[_Need, ...]
    items: int
    room: int

    def met(self, need: Sequence[int]) -> int:
        """How much a task can cover of what a group needs in all."""
        items = sorted(need[: self.items], reverse=True)
        return sum(items[: self.room]) + max(need[self.items :], default=0)

    def group(self, members: Iterable[int]) -> "_Group":
        """Some children as a group."""
        own = frozenset(members)
        need = tuple(map(sum, zip(*(self.needs[at] for at in own), strict=True)))
        return _Group(own, need, self.met(need))

    def joined(self, group: "_Group", child: int) -> "_Group":
        """A group with a child more."""
        need = tuple(map(add, group.need, self.needs[child]))
        return _Group(group.members | {child}, need, self.met(need))

    def left(self, group: "_Group", child: int) -> "_Group":
        """A group without one of its children."""
        need = tuple(map(sub, group.need, self.needs[child]))
        return _Group(group.members - {child}, need, self.met(need))

    def alike(self, one: int, other: int) -> int:
        """How much two children need in common."""
        return sum(map(min, self.needs[one], self.needs[other]))


class _Group(NamedTuple):
    """Children by their places, what they need in all, and how much of it a task can cover."""

    members: frozenset[int]
    need: _Need
    met: int


def _counted(children: Sequence[Child], room: int) -> _Counted:
    items = sorted({item for child in children for item in child.due})
    faults = sorted({fault for child in children for fault in child.likely})
    rows = [
        (
            *(_exact(child.due.get(item, 0.0)) for item in items),
            *(_exact(OF_FAULT * child.likely.get(fault, 0.0)) for fault in faults),
        )
        for child in children
    ]
    return _Counted(tuple(rows), len(items), room)


def _exact(weight: float) -> int:
    return round(_EXACT * weight)


def _met(groups: Iterable[_Group]) -> int:
    return sum(group.met for group in groups)


def _best(counted: _Counted, needy: list[int], most: int) -> list[_Group]:
    """The groups that were found to cover most."""
    best = [counted.group(needy)]
    while len(best) < most:
        more = [_settled(counted, one) for one in _starts(counted, needy, best)]
        found = max(more, key=_met)
        if _met(found) <= _met(best):
            break
        best = found
    return best


def _starts(counted: _Counted, needy: list[int], best: list[_Group]) -> Iterator[list[_Group]]:
    """Ways to begin with one group more than those: with the child apart who gains most by that,
    and with seeds far apart."""
    parted = [
        (counted.left(group, child), counted.group([child]), group)
        for group in best
        for child in sorted(group.members)
        if len(group.members) > 1
    ]
    if parted:
        rest, one, whole = max(parted, key=lambda parts: parts[0].met + parts[1].met - parts[2].met)
        yield [rest, one, *(group for group in best if group is not whole)]
    step = max(1, len(needy) // _STARTS)
    for first in needy[::step][:_STARTS]:
        yield _around(counted, needy, _seeds(counted, needy, first, len(best) + 1))


def _seeds(counted: _Counted, needy: list[int], first: int, count: int) -> list[int]:
    """Children who need much that those before them do not."""
    seeds = [first]
    while len(seeds) < min(count, len(needy)):
        others = [child for child in needy if child not in seeds]
        seeds.append(max(others, key=lambda child: _apart(counted, child, seeds)))
    return seeds


def _apart(counted: _Counted, child: int, seeds: list[int]) -> int:
    """How much a child needs that none of the seeds does."""
    return sum(counted.needs[child]) - max(counted.alike(child, seed) for seed in seeds)


def _around(counted: _Counted, needy: list[int], seeds: list[int]) -> list[_Group]:
    """A group around each seed: each child is with the one that it is most alike."""
    near = {
        child: max(seeds, key=lambda seed: (seed == child, counted.alike(child, seed)))
        for child in needy
    }
    return [counted.group(child for child in needy if near[child] == seed) for seed in seeds]


def _settled(counted: _Counted, groups: list[_Group]) -> list[_Group]:
    """The groups after each child has moved to where it adds most, until none would move."""
    groups, moved = list(groups), True
    while moved:
        moved = False
        for child in sorted(frozenset().union(*(group.members for group in groups))):
            moved |= _moves(counted, groups, child)
    return [group for group in groups if group.members]


def _moves(counted: _Counted, groups: list[_Group], child: int) -> bool:
    """Whether a child moved, since more is covered so."""
    own = next(at for at, group in enumerate(groups) if child in group.members)
    left = counted.left(groups[own], child)
    joined = {at: counted.joined(one, child) for at, one in enumerate(groups) if at != own}
    to = max(joined, key=lambda at: joined[at].met - groups[at].met, default=own)
    if to == own or left.met + joined[to].met <= groups[own].met + groups[to].met:
        return False
    groups[own], groups[to] = left, joined[to]
    return True


def _told(children: Sequence[Child], room: int) -> Group:
    """Children as a group with its task."""
    need: Counter[str] = Counter()
    faults: Counter[Habit] = Counter()
    for child in children:
        need.update({item: _exact(weight) for item, weight in child.due.items()})
        faults.update({fault: _exact(chance) for fault, chance in child.likely.items()})
    task = _first(need, room)
    about = next(iter(_first(faults, 1)), None)
    return Group(tuple(_member(child, task, about) for child in children), task, about)


def _first(need: Mapping[_Id, int], most: int) -> tuple[_Id, ...]:
    """What is needed most, ties in order of ids."""
    ordered = sorted((one for one in need if need[one]), key=lambda one: (-need[one], one))
    return tuple(ordered[:most])


def _member(child: Child, task: Sequence[str], about: Habit | None) -> Member:
    due = sum(child.due.values())
    covered = sum(child.due.get(item, 0.0) for item in task)
    has_fault = about in child.likely
    apart = Why.FAULT if has_fault else Why.NOT_COVERED
    why = Why.DUE if covered else apart
    return Member(child.id, why, due, covered, has_fault)
