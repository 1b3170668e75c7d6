"""Other tasks, equally hard: of many those are chosen that come to the same as the ones wanted.

Taken together each rule of the work is needed as often, and the mean and the spread of what the
tasks ask are near. Each task is replaced by one much like it, so that a misfit is made good by the
next; then up to three are exchanged at once that mend together what is left. All is done in whole
numbers, by the usual conventions.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import islice
from operator import sub
from random import Random
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.sheets.difficulty import profile
from frame.sheets.likeness import NEAR, Totals, parts, totals

_CLOSE = 0.01
"""What is as near as that is not bettered."""
_ROUNDS = 6
_THIRDS, _MOST_TRIED = 60, 250_000
"""So many exchanges are tried with every two others, fewer where there are very many."""
_MOST_MENDED = 3000
_PART_OF_RULE = 0.015
"""A hundredth of a stroke too hard or too easy counts as so much of a rule needed too often."""
_BITS = 20
"""A count over a sheet has no more bits."""


class Found(NamedTuple):
    """The tasks that were found, one for each place, and whether they are equally hard."""

    tasks: tuple[Exercise, ...]
    is_equal: bool


def as_hard(
    tasks: Sequence[Exercise], pools: Sequence[Sequence[Exercise]], random: Random
) -> Found:
    """For each task another from the pool of its place, none twice, so that all together are as
    hard. Places may share a pool, which must have enough for them."""
    search = _Search(tasks, pools, random)
    best = search.near()
    for _ in range(_ROUNDS):
        near = search.near()
        best = min(best, near, search.mended(near), key=_Choice.rank)
        if best.is_equal:
            break
    return Found(tuple(search.others[one] for one in best.others), best.is_equal)


class _Choice(NamedTuple):
    """One of the `others` for each place, by its index there; which part of the rules is needed too
    often or too seldom, and how far mean and spread are apart."""

    misfit: float
    apart: float
    others: tuple[int, ...]

    @property
    def is_equal(self) -> bool:
        return not self.misfit and self.apart <= NEAR

    def rank(self) -> tuple[bool, float]:
        """The better is the lesser."""
        return not self.is_equal, max(self.misfit, self.apart)


class _Exchange(NamedTuple):
    """One of the `others` put in a place: what that adds to the rules, to what is asked, and to
    the squares of it."""

    place: int
    other: int
    rules: int
    hard: int
    squares: int


_NONE = _Exchange(-1, -1, 0, 0, 0)


class _Search:
    """Chooses for each place one of the `others`."""

    def __init__(
        self, tasks: Sequence[Exercise], pools: Sequence[Sequence[Exercise]], random: Random
    ) -> None:
        every = {task.sum: task for pool in pools for task in pool}
        index = {calculation: at for at, calculation in enumerate(every)}
        self.others = list(every.values())
        self._random = random
        self._pools = [[index[task.sum] for task in pool] for pool in pools]
        both = [*tasks, *self.others]
        hard = [parts(task) for task in both]
        rules = _varied([profile(task).rules for task in both])
        self._wanted, self._hard = hard[: len(tasks)], hard[len(tasks) :]
        self._wanted_rules, self._rules = rules[: len(tasks)], rules[len(tasks) :]
        self._packed = [_packed(counts) for counts in self._rules]
        self._target = totals(self._wanted)

    def near(self) -> _Choice:
        """For each place, in an order by chance, the one that is most like what is wanted there
        when the misfit of those before is added."""
        choice = [-1] * len(self._pools)
        gap, used = (0,) * len(self._wanted_rules[0]), set[int]()
        for place in self._random.sample(range(len(choice)), len(choice)):
            wanted = [a + b for a, b in zip(gap, self._wanted_rules[place], strict=True)]
            left = [one for one in self._pools[place] if one not in used]
            chosen = self._most_like(left, wanted, self._wanted[place])
            gap = tuple(a - b for a, b in zip(wanted, self._rules[chosen], strict=True))
            choice[place] = chosen
            used.add(chosen)
        apart = max(self._target.apart(totals([self._hard[one] for one in choice])))
        misfit = sum(map(abs, gap)) / max(1, sum(map(sum, self._wanted_rules)))
        return _Choice(misfit, apart, tuple(choice))

    def _most_like(self, some: Sequence[int], wanted: Sequence[int], hard: int) -> int:
        """The first of those that fit best to the rules wanted and to how hard it should be."""
        best, least = -1, float("inf")
        for one in some:
            apart = _PART_OF_RULE * abs(self._hard[one] - hard)
            if apart < least:  # The rules, which take longer, only add to it.
                misfit = sum(map(abs, map(sub, wanted, self._rules[one]))) + apart
                if misfit < least:
                    best, least = one, misfit
        return best

    def mended(self, choice: _Choice) -> _Choice:
        """The best found that needs each rule as often as is wanted, with at most three exchanges;
        the same where there is none."""
        needed = sum(self._packed[one] for one in choice.others)
        gap = sum(map(_packed, self._wanted_rules)) - needed
        held = totals([self._hard[one] for one in choice.others])
        best: tuple[_Exchange, ...] = ()
        least = float("inf") if gap else choice.apart
        for exchanges in islice(self._mending(choice.others, gap), _MOST_MENDED):
            hard = held.hard + sum([one.hard for one in exchanges])
            squares = held.squares + sum([one.squares for one in exchanges])
            apart = max(self._target.apart(Totals(held.many, hard, squares)))
            if apart < least:
                least, best = apart, exchanges
            if apart <= _CLOSE:
                break
        if least == float("inf"):
            return choice
        changed = list(choice.others)
        for one in best:
            if one is not _NONE:
                changed[one.place] = one.other
        return _Choice(0, least, tuple(changed))

    def _mending(self, choice: Sequence[int], gap: int) -> Iterator[tuple[_Exchange, ...]]:
        """Two exchanges, or three, that add to the rules what is missing."""
        by_rules = self._exchanges(choice)
        every = [one for some in by_rules.values() for one in some]
        most = min(_THIRDS, len(every), _MOST_TRIED // len(every))
        thirds = self._random.sample(every, most)
        for third in [_NONE, *thirds]:
            need = gap - third.rules
            for rules in [rules for rules in by_rules if need - rules in by_rules]:
                for other in by_rules[need - rules]:
                    for one in by_rules[rules]:
                        if one.place < other.place and _go_together(third, one, other):
                            yield third, one, other

    def _exchanges(self, choice: Sequence[int]) -> dict[int, list[_Exchange]]:
        """Every exchange, by what it adds to the rules; none at all adds nothing."""
        used = set(choice)
        found: defaultdict[int, list[_Exchange]] = defaultdict(list, {0: [_NONE]})
        for place in self._random.sample(range(len(choice)), len(choice)):
            held = choice[place]
            for one in self._pools[place]:
                if one not in used:
                    rules = self._packed[one] - self._packed[held]
                    hard, before = self._hard[one], self._hard[held]
                    squares = hard * hard - before * before
                    exchange = _Exchange(place, one, rules, hard - before, squares)
                    found[rules].append(exchange)
        return found


def _go_together(third: _Exchange, one: _Exchange, other: _Exchange) -> bool:
    """Whether exchanges are of three places, and of three tasks; none at all goes with any."""
    if one.other == other.other:
        return False
    is_apart = third.place not in (one.place, other.place)
    return third is _NONE or (is_apart and third.other not in (one.other, other.other))


def _varied(rules: Sequence[Sequence[int]]) -> list[tuple[int, ...]]:
    """The rules of tasks, without those that all of them need as often."""
    varied = [at for at, counts in enumerate(zip(*rules, strict=True)) if len(set(counts)) > 1]
    return [tuple(one[at] for at in varied) for one in rules]


def _packed(counts: Sequence[int]) -> int:
    """Counts in one number. Sums and differences of such numbers are those of the counts."""
    return sum(count << _BITS * at for at, count in enumerate(counts))
