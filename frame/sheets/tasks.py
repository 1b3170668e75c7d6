"""Tasks drawn for a recipe: fair, needing what it asks for, none twice while there are others.

Each fact has a list of its own, drawn by a `Random` of the recipe, so that the same recipe finds
the same tasks.
"""

from dataclasses import replace
from decimal import Decimal
from random import Random

from frame.practice.columns import draw_column
from frame.practice.drawing import Request, draw_one, facts_of
from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asks
from frame.practice.families import Family, family_of_fact
from frame.practice.numbers import any_calculation
from frame.practice.sizes import Size, rods_for
from frame.sheets.fairness import is_fair, is_varied
from frame.sheets.partners import partners
from frame.sheets.recipe import TAKING, Kind, Recipe
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.conventions import USUAL, Conventions

ANY = ""
"""Stands for a fact where none is asked for."""

_OF_NUMBERS = {Kind.READ: Asks.READ, Kind.SET: Asks.SET}
_SORTS: dict[Kind, tuple[type[Calculation], Family, str]] = {
    Kind.PRODUCTS: (Product, Family.MULTIPLY, "place-product"),
    Kind.QUOTIENTS: (Quotient, Family.DIVIDE, "divide-1"),
    Kind.ROOTS: (Root, Family.ROOT, "root"),
}
"""What each kind has for tasks, if not columns: the family whose frames have room for them, and
the fact by which any of them are drawn."""
_ANY_COLUMNS = (Kind.COLUMNS, Kind.STRIP, Kind.LADDER)
_ENOUGH = 200
"""After so many tasks in a row that are there already, there are hardly any others."""
_TRIES = 2000
"""Nothing is found where so many tries for one task fail."""
_TURNED = 0.1
"""How often a nudge turns a number round."""
_PLACES = 1
"""Decimals of numbers with a point."""


class Stock:
    """The tasks that a recipe may have."""

    def __init__(self, recipe: Recipe, conventions: Conventions = USUAL) -> None:
        self._recipe, self._conventions = recipe, conventions
        self._taken: set[Calculation] = set()
        self._lists: dict[str, _Drawn] = {}

    def tasks(self, fact: str, count: int) -> tuple[Exercise, ...]:
        """The first tasks for a fact (or for ANY), fewer than `count` where there are no others.
        Raises NumberError where no frame holds them."""
        if self._recipe.kind is Kind.PARTNERS:
            every = partners(self._recipe)
            mixed = Random(f"sheet partners {self._recipe.seed}").sample(every, len(every))
            return tuple(mixed[:count])
        return self._list(fact).first(count)

    def has(self, fact: str, count: int) -> bool:
        """Whether there are so many tasks for a fact, each its own. Raises NumberError where no
        frame holds them."""
        if self._recipe.kind is Kind.PARTNERS:
            return len(partners(self._recipe)) >= count
        return self._list(fact).has(count)

    def _list(self, fact: str) -> "_Drawn":
        if fact not in self._lists:
            draft = _Draft(self._recipe, fact, self._conventions)
            self._lists[fact] = _Drawn(draft, self._taken)
        return self._lists[fact]

    @property
    def is_of_any_columns(self) -> bool:
        """Whether the tasks are columns in which any rule may be needed."""
        return self._recipe.kind in _ANY_COLUMNS and not self._recipe.facts

    def nudged(self, task: Exercise, random: Random) -> Exercise | None:
        """A column of any numbers with another digit in one of them, or taken away in place of
        added and the other way round; None where that is not fit."""
        numbers = list(task.sum.numbers)
        at = random.randrange(len(numbers))
        if self._recipe.minus and random.random() < _TURNED:
            numbers[at] = -numbers[at]
        else:
            numbers[at] = _with_other_digit(numbers[at], random)
        column = Sum(tuple(numbers))
        is_fit = is_fair(column) and is_varied(numbers)
        is_asked = self._recipe.minus == (min(numbers) < 0)
        return replace(task, sum=column) if is_fit and is_asked else None


class _Drawn:
    """The tasks drawn for one fact, in their order. Those that another fact took count only where
    there is nothing else."""

    def __init__(self, draft: "_Draft", taken: set[Calculation]) -> None:
        self._draft, self._taken = draft, taken
        self._own: dict[Calculation, Exercise] = {}
        self._others: dict[Calculation, Exercise] = {}
        self._is_spent = False

    def first(self, count: int) -> tuple[Exercise, ...]:
        """The first so many, fewer where there are no others."""
        self.has(count)
        found = self._own or self._others
        return tuple(found.values())[:count]

    def has(self, count: int) -> bool:
        """Whether there are so many that no other fact took."""
        vain = 0
        while len(self._own) < count and not self._is_spent:
            task = self._draft.drawn()
            vain += 1
            if task is not None and task.sum not in self._own:
                if task.sum not in self._taken:
                    self._own[task.sum] = task
                    self._taken.add(task.sum)
                    vain = 0
                else:
                    self._others[task.sum] = task
            self._is_spent = task is None or vain > _ENOUGH
        return len(self._own) >= count


class _Draft:
    """Draws tasks of a recipe that need a fact, one after another."""

    def __init__(self, recipe: Recipe, fact: str, conventions: Conventions) -> None:
        self._recipe, self._fact = recipe, fact
        said = (recipe.kind, recipe.seed, recipe.rows, recipe.digits, recipe.by, recipe.minus, fact)
        self._random = Random(f"sheet {' '.join(map(str, said))}")
        self._sort, usual, self._any = _SORTS.get(recipe.kind, (Sum, Family.COLUMNS, ANY))
        family = family_of_fact(fact) if fact else usual
        size = Size(recipe.digits, terms=recipe.rows, by=recipe.by, places=_PLACES)
        self._may_sink = family is Family.BELOW_ZERO
        self._known = _known(recipe, fact) if fact else recipe.known
        self._request = Request(
            facts=(fact,) if fact else (), known=self._known, count=1, terms=recipe.rows,
            digits=recipe.digits, by=recipe.by, places=_PLACES, own=True,
            rods=rods_for(family, size, conventions),
        )  # fmt: skip

    def drawn(self) -> Exercise | None:
        """A task that is fit; None where none was found."""
        for _ in range(_TRIES):
            task = self._any_task()
            if task is None or self._is_fit(task):
                return task
        return None

    def _any_task(self) -> Exercise | None:
        recipe, fact, random = self._recipe, self._fact, self._random
        if fact not in (ANY, "decimals"):
            return draw_one(self._request, fact, random, _TRIES)
        if recipe.kind in _OF_NUMBERS:
            number = random.randrange(10 ** (recipe.digits - 1), 10**recipe.digits)
            return Exercise(_OF_NUMBERS[recipe.kind], Sum((Decimal(number),)), rods=recipe.digits)
        if self._any:
            return self._request.exercise(any_calculation(self._any, self._request.size, random))
        column = draw_column(recipe.digits, recipe.rows, random, minus=recipe.minus)
        places = _PLACES if fact else 0
        return self._request.exercise(Sum(tuple(term.scaleb(-places) for term in column)))

    def _is_fit(self, task: Exercise) -> bool:
        if not isinstance(task.sum, self._sort) or not is_fair(task.sum, self._may_sink):
            return False
        if not self._fact:
            return self._sort is not Sum or is_varied(task.sum.numbers)
        if self._recipe.minus and self._sort is Sum and min(task.sum.numbers) > 0:
            return False  # As in columns of any numbers, one is taken away in each.
        facts = facts_of(task)
        return self._fact in facts and facts <= self._known


def _known(recipe: Recipe, fact: str) -> frozenset[str]:
    """What tasks for a fact may need: nothing is taken away without `minus` but where the fact
    asks for it."""
    takes = fact.startswith(TAKING) or not family_of_fact(fact).grows
    if recipe.minus or takes:
        return recipe.known
    return frozenset(one for one in recipe.known if not one.startswith(TAKING))


def _with_other_digit(number: Decimal, random: Random) -> Decimal:
    """The whole number with any digit in one of its places, but no 0 in the first."""
    figures = list(str(abs(number)))
    place = random.randrange(len(figures))
    figures[place] = str(random.randrange(0 if place else 1, 10))
    return Decimal("".join(figures)).copy_sign(number)
