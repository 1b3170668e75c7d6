"""Long columns made as hard as others, digit by digit.

Where a task needs the rules a hundred times, hardly two sets of drawn ones need each exactly as
often. One digit more or less changes a few of them: whatever brings the whole nearer is kept.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence, Set
from random import Random

from frame.practice.exercises import Exercise
from frame.sheets.alike import Found
from frame.sheets.difficulty import profile
from frame.sheets.likeness import NEAR, parts, totals
from frame.technique.calculation import Calculation
from frame.technique.operation import Act
from frame.technique.plan import Technique

Nudge = Callable[[Exercise, Random], Exercise | None]
"""A task little different from one, or None where the one that was tried is not fit."""
_Rules = tuple[int, ...]

_TRIES = 4000
_EACH = (1,) * len(Technique) + (20,) * len(Act) + (1, 1)
"""So much counts each rule (of `Profile.rules`) needed once too often: a number too much that is
taken away more than others, as to turn one round changes many of those."""
_PART_OF_RULE = 0.01
"""So much more than is near, of mean or spread, counts as a rule needed once too often."""


def nudged(
    tasks: Sequence[Exercise],
    wanted: Sequence[Exercise],
    used: Set[Calculation],
    nudge: Nudge,
    random: Random,
) -> Found:
    """The tasks, changed until all together are as hard as those wanted; as near as they came
    where that is not found. None comes twice, and none becomes one of those `used`."""
    walk = _Walk(tasks, wanted)
    taken = {*used, *(task.sum for task in tasks)}
    for _ in range(_TRIES):
        if not walk.misfit:
            break
        place = random.randrange(len(tasks))
        task = nudge(walk.tasks[place], random)
        if task is not None and task.sum not in taken:
            taken.add(task.sum)
            walk.tries(place, task)
    return Found(tuple(walk.tasks), not walk.misfit)


class _Walk:
    """The tasks as they stand, how far they are from what is wanted, and what was tried and left,
    by what it would add to the rules: two of them may mend together what neither does alone."""

    def __init__(self, tasks: Sequence[Exercise], wanted: Sequence[Exercise]) -> None:
        self.tasks = list(tasks)
        self._hard = [parts(task) for task in tasks]
        self._target = totals([parts(task) for task in wanted])
        needed, held = ([profile(task).rules for task in some] for some in (wanted, tasks))
        self._gap = _less(map(sum, zip(*needed, strict=True)), map(sum, zip(*held, strict=True)))
        self._left: defaultdict[_Rules, dict[int, Exercise]] = defaultdict(dict)
        self.misfit = self._misfit({})

    def tries(self, place: int, task: Exercise) -> None:
        """Puts a task in a place where that makes the whole more like what is wanted, alone or
        with one that was left."""
        adds = _less(profile(task).rules, profile(self.tasks[place]).rules)
        for puts in ({place: task}, *self._pairs(place, task, adds)):
            if self._misfit(puts) < self.misfit:
                self._put(puts)
                return
        self._left[adds][place] = task

    def _pairs(self, place: int, task: Exercise, adds: _Rules) -> Iterator[dict[int, Exercise]]:
        """The task with each one left that together close the gap, or a rule of it by one."""
        for goal in self._goals:
            for at, other in self._left.get(_less(goal, adds), {}).items():
                if at != place:
                    yield {place: task, at: other}

    @property
    def _goals(self) -> Iterator[_Rules]:
        yield self._gap
        for at, gap in enumerate(self._gap):
            if gap:
                yield (*(0,) * at, 1 if gap > 0 else -1, *(0,) * (len(_EACH) - at - 1))

    def _put(self, puts: dict[int, Exercise]) -> None:
        self.misfit = self._misfit(puts)
        self._gap = self._gap_with(puts)
        for place, task in puts.items():
            self.tasks[place], self._hard[place] = task, parts(task)
            for left in self._left.values():
                left.pop(place, None)

    def _gap_with(self, puts: dict[int, Exercise]) -> _Rules:
        gap = self._gap
        for place, task in puts.items():
            gap = _less(gap, _less(profile(task).rules, profile(self.tasks[place]).rules))
        return gap

    def _misfit(self, puts: dict[int, Exercise]) -> float:
        """How far the tasks are from what is wanted with some put in places of theirs."""
        gap = zip(_EACH, self._gap_with(puts), strict=True)
        hard = [parts(puts[at]) if at in puts else one for at, one in enumerate(self._hard)]
        apart = max(self._target.apart(totals(hard)))
        return sum(each * abs(one) for each, one in gap) + max(0.0, apart - NEAR) / _PART_OF_RULE


def _less(some: Iterable[int], others: Iterable[int]) -> _Rules:
    return tuple(one - other for one, other in zip(some, others, strict=True))
