"""Recipes for some facts with tasks enough, so that none comes twice while others can be had."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from functools import lru_cache

from frame.sheets.partners import partners
from frame.sheets.recipe import TAKING, Kind, Recipe
from frame.sheets.sizing import Extent, needed_in, sized
from frame.sheets.tasks import Stock
from frame.sheets.taught_order import TAUGHT
from frame.sheets.topics import fitting, kind_for
from frame.technique.facts import ALL_FACTS
from frame.technique.reading import NumberError

_AS_LONG = (Kind.ROOTS, Kind.PARTNERS)
"""Their numbers never grow for want of tasks: longer roots are much harder."""


def recipe_for(facts: Sequence[str]) -> Recipe:
    """The recipe of the kind and the size that most of some facts need, for those that fit."""
    kind = kind_for(facts)
    return fitted(kind, fitting(kind, facts), {})


def fitted(
    kind: Kind, facts: Sequence[str], asked: Mapping[str, int | None], minus: bool = False
) -> Recipe:
    """The recipe of a kind for some facts, of which some sizes are asked for; what is None is
    usual. Where they have too few different tasks its numbers have a digit more than usual; if
    that does not help it is for others, too, that were taught before, the latest first."""
    return _fitted(kind, tuple(facts), tuple(asked.items()), minus)


@lru_cache(maxsize=256)
def _fitted(
    kind: Kind, facts: tuple[str, ...], asked: tuple[tuple[str, int | None], ...], minus: bool
) -> Recipe:
    sizes = dict(asked)
    usual = sized(kind, facts, sizes, minus)
    recipe = _recipe(kind, facts, usual, minus)
    if not recipe.facts or _has_enough(recipe):
        return recipe
    if sizes.get("digits") is None and kind not in _AS_LONG:
        longer = _recipe(kind, facts, replace(usual, digits=usual.digits + 1), minus)
        if _has_enough(longer):
            return longer
    return _with_others(recipe, usual)


def _recipe(kind: Kind, facts: tuple[str, ...], extent: Extent, minus: bool) -> Recipe:
    needed = needed_in(facts, extent) or facts
    return Recipe(kind=kind, facts=needed, **asdict(extent), minus=minus)


def _has_enough(recipe: Recipe) -> bool:
    """Whether each fact has a task of its own for each of its turns."""
    if recipe.kind is Kind.PARTNERS:
        return _different(recipe) >= recipe.count
    turns = -(-recipe.count // len(recipe.facts))
    stock = Stock(recipe)
    try:
        return all(stock.has(fact, turns) for fact in recipe.facts)
    except NumberError:
        return False


def _different(recipe: Recipe) -> int:
    """How many different tasks there are, as far as they are needed; 0 where one of the facts has
    none at all."""
    if recipe.kind is Kind.PARTNERS:
        return len(partners(recipe))
    stock, found = Stock(recipe), 0
    try:
        if not all(stock.has(fact, 1) for fact in recipe.facts):
            return 0
    except NumberError:
        return 0
    for fact in recipe.facts:
        own = 1
        while found + own < recipe.count and stock.has(fact, own + 1):
            own += 1
        found += own
    return found


def _with_others(recipe: Recipe, extent: Extent) -> Recipe:
    """The recipe for as many others as it takes that were taught with its facts or before."""
    takes = recipe.minus or any(fact.startswith(TAKING) for fact in recipe.facts)
    different = _different(recipe)
    last = max(at for at, new in enumerate(TAUGHT) if not set(new).isdisjoint(recipe.facts))
    for new in reversed(TAUGHT[: last + 1]):
        if not 0 < different < recipe.count:
            break
        fit = needed_in(fitting(recipe.kind, new), extent)
        others = {fact for fact in fit if takes or not fact.startswith(TAKING)}
        facts = others.union(recipe.facts)
        wider = replace(recipe, facts=tuple(fact for fact in ALL_FACTS if fact in facts))
        more = _different(wider)
        if more > different:
            recipe, different = wider, more
    return recipe
