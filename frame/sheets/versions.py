"""The tasks of a version of a sheet: A's are drawn, B's and C's are others that are as hard."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import cycle
from random import Random
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.sheets.alike import as_hard
from frame.sheets.difficulty import difficulty, profile
from frame.sheets.in_turn import in_turn
from frame.sheets.nudging import nudged
from frame.sheets.recipe import Kind, Recipe, Version
from frame.sheets.tasks import ANY, Stock
from frame.technique.calculation import Calculation
from frame.technique.conventions import USUAL, Conventions
from frame.technique.facts import ALL_FACTS
from frame.technique.reading import NumberError

_POOLS = (10, 10, 20, 20, 20, 20, 20, 20)
"""So many times as many tasks are drawn to choose from; where they do not do, A has others of them
and more are drawn."""
_LARGE, _ATTEMPTS_OF_LARGE = 4000, 2
"""A sheet of more strokes than that, or as many of such tasks as a short one is chosen from, would
take long, and is left as near as it came."""
_ENOUGH, _LEAST_TIMES = 400, 4
"""To choose from no more than that are drawn, or so many times as many."""
_LEAST = 20
"""For a short sheet as many are drawn as if it had so many tasks."""

Placed = dict[int, Exercise]
"""Tasks by their places on the sheet."""


class LackError(ValueError):
    """Nothing was found that needs a fact."""


class Versions(NamedTuple):
    """The tasks of all versions of a sheet, and for how many of them those are as hard as A's."""

    tasks: tuple[tuple[Exercise, ...], ...]
    equal: int


@lru_cache(maxsize=64)
def versions_of(recipe: Recipe, count: int, conventions: Conventions = USUAL) -> Versions:
    """So many tasks for each version of a recipe, whichever it names. Raises LackError, and
    NumberError where no frame holds them."""
    drawing = _Drawing(recipe, count, conventions)
    found = [drawing.versions(0)]
    drawn_from = max(count, _LEAST) / count
    is_large = sum(map(difficulty, found[0].tasks[0])) * drawn_from > _LARGE
    attempts = _ATTEMPTS_OF_LARGE if is_large else len(_POOLS)
    while found[-1].equal < len(Version) and len(found) < attempts:
        found.append(drawing.versions(len(found)))
    return max(found, key=lambda one: one.equal)


def asked_for(recipe: Recipe) -> tuple[str, ...]:
    """What tasks are drawn for, in turn: the facts asked for, in their order, or ANY."""
    if recipe.kind is Kind.PARTNERS or not recipe.facts:
        return (ANY,)
    return tuple(fact for fact in ALL_FACTS if fact in recipe.facts)


def can_draw(recipe: Recipe) -> bool:
    """Whether there is a task for each fact of a recipe, found by drawing one."""
    stock = Stock(recipe)
    try:
        return all(stock.tasks(fact, 1) for fact in asked_for(recipe))
    except NumberError:
        return False


class _Drawing:
    """Draws A, and chooses the others so that they are as hard."""

    def __init__(self, recipe: Recipe, count: int, conventions: Conventions) -> None:
        self._count, self._stock = count, Stock(recipe, conventions)
        self._name = f"sheet {recipe.kind} {recipe.seed}"
        self._places: defaultdict[str, list[int]] = defaultdict(list)
        asked = asked_for(recipe)[:count]
        if lacking := [fact for fact in asked if not self._stock.tasks(fact, 1)]:
            raise LackError(lacking[0])
        random = Random(f"{self._name} turns")
        for at, fact in zip(range(count), self._turns(asked, random), strict=False):
            self._places[fact].append(at)

    def _turns(self, asked: Sequence[str], random: Random) -> Iterator[str]:
        """The facts in turn, but those that have no other task while some have. Where none has,
        the same tasks come again."""
        left, last = set(asked), ""
        for fact in in_turn(asked, random):
            if fact in left and not self._stock.has(fact, len(self._places[fact]) + 1):
                left.remove(fact)
            if fact in left or (not left and (fact != last or len(asked) == 1)):
                yield fact
                last = fact

    def versions(self, attempt: int) -> Versions:
        """All versions, at another attempt with other tasks for A, where there are any."""
        first = self._first(attempt)
        placed, used = [first], {task.sum for task in first.values()}
        equal = 1
        for version in list(Version)[1:]:
            random = Random(f"{self._name} {version} {attempt}")
            others, is_equal = self._others(first, used, _POOLS[attempt], random)
            placed.append(others)
            used |= {task.sum for task in others.values()}
            equal += is_equal
        return Versions(tuple(tuple(one[at] for at in range(self._count)) for one in placed), equal)

    def _first(self, attempt: int) -> Placed:
        """Those of A: at first as they are drawn, later any; where there are few, those before
        others of which there are enough like them for the other versions."""
        tasks: Placed = {}
        random = Random(f"{self._name} {attempt}")
        for fact, places in self._places.items():
            found = self._stock.tasks(fact, len(places))
            if attempt and len(found) == len(places):
                many = _POOLS[attempt] * len(places)
                every = self._stock.tasks(fact, many)
                mixed = random.sample(every, len(every))
                found = tuple(_with_twins(mixed) if len(every) < many else mixed)
            tasks |= zip(places, cycle(found), strict=False)
        return tasks

    def _others(
        self, first: Placed, used: set[Calculation], times: int, random: Random
    ) -> tuple[Placed, bool]:
        """As many that are as hard as the first and none of those used, where there are enough,
        the first in another order where not; and whether they are as hard."""
        tasks: Placed = {}
        pools: dict[int, list[Exercise]] = {}
        for fact, places in self._places.items():
            some = max(len(places), _LEAST // len(self._places))
            many = 2 * len(places) + min(times * some, max(_ENOUGH, _LEAST_TIMES * some))
            pool = [task for task in self._stock.tasks(fact, many) if task.sum not in used]
            if len(pool) < len(places):
                mixed = _reordered([first[at] for at in places], random)
                tasks |= zip(places, mixed, strict=True)
            else:
                pools |= dict.fromkeys(places, pool)
        if not pools:
            return tasks, True
        wanted = [first[at] for at in pools]
        found = as_hard(wanted, list(pools.values()), random)
        if not found.is_equal and self._stock.is_of_any_columns:
            found = nudged(found.tasks, wanted, used, self._stock.nudged, random)
        return tasks | dict(zip(pools, found.tasks, strict=True)), found.is_equal


def _with_twins(tasks: Sequence[Exercise]) -> list[Exercise]:
    """The tasks, at first one of every so many that need the same rules as there are versions."""
    alike: defaultdict[tuple[int, ...], list[Exercise]] = defaultdict(list)
    for task in tasks:
        alike[profile(task).rules].append(task)
    chosen = {task.sum for some in alike.values() for task in some[: len(some) // len(Version)]}
    return sorted(tasks, key=lambda task: task.sum not in chosen)


def _reordered(tasks: Sequence[Exercise], random: Random) -> list[Exercise]:
    """The same tasks in another order; what comes again does so as late as before."""
    each = list(dict.fromkeys(tasks))
    often = len(tasks) % len(each)
    parts = each[:often], each[often:]
    mixed = [task for part in parts for task in random.sample(part, len(part))]
    return [task for task, _ in zip(cycle(mixed), tasks, strict=False)]
