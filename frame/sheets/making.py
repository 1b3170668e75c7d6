"""Sheets made by their recipes."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.exercises import Exercise
from frame.practice.families import Family, family_of_fact
from frame.sheets.papers import paper
from frame.sheets.recipe import MOST_COUNT, Kind, Leaf, Recipe, Version
from frame.sheets.sheet import Section, Sheet, Way
from frame.sheets.versions import LackError, can_draw, versions_of
from frame.technique.conventions import USUAL, Conventions
from frame.technique.reading import NumberError

LADDER = (Way.BEADS, Way.COVERED, Way.EYES_SHUT, Way.MIND)
"""The sections of a ladder, with less and less in sight."""
_WAYS = {
    Kind.READ: Way.SHOWN,
    Kind.SET: Way.WRITTEN,
    Kind.PARTNERS: Way.CARDS,
    Kind.STRIP: Way.FOLLOWED,
}
_OF_COLUMNS = frozenset(one for one in Family if one.is_of_columns and one.is_of_sums)
_FAMILIES = {
    Kind.READ: frozenset({Family.READ}),
    Kind.SET: frozenset({Family.SET}),
    Kind.PRODUCTS: frozenset({Family.MULTIPLY, Family.DECIMALS}),
    Kind.QUOTIENTS: frozenset({Family.DIVIDE, Family.DECIMALS}),
    Kind.ROOTS: frozenset({Family.ROOT}),
    Kind.PARTNERS: frozenset(one for one in Family if one.has_partners),
}
"""Whose facts a sheet may ask for; those of columns where it is none of these."""


class SheetError(ValueError):
    """Nothing can be drawn for a recipe: for one of its facts, or at all where `fact` is empty.
    `nearest` is one that can be made, None where none is near."""

    def __init__(self, recipe: Recipe, fact: str = "", nearest: Recipe | None = None) -> None:
        super().__init__(f"nothing to be drawn for {recipe.kind} {fact}; near: {nearest}")
        self.recipe, self.fact, self.nearest = recipe, fact, nearest


def sheet_of(recipe: Recipe, conventions: Conventions = USUAL) -> Sheet:
    """The sheet of a recipe, or the paper of a graded one. Raises SheetError."""
    return paper(recipe) if recipe.kind is Kind.PAPER else make(recipe, conventions)


def sheet_near(recipe: Recipe) -> Sheet:
    """The sheet of a recipe, or of the nearest one that can be made, if need be without some of its
    facts. Raises SheetError where nothing can."""
    try:
        return make(recipe)
    except SheetError as error:
        if error.nearest is not None:
            return make(error.nearest)
        left = tuple(fact for fact in recipe.facts if fact != error.fact)
        if not left or left == recipe.facts:
            raise
        return sheet_near(replace(recipe, facts=left))


def make(recipe: Recipe, conventions: Conventions = USUAL) -> Sheet:
    """The sheet of a recipe, always the same; of any kind but a PAPER. Raises SheetError.

    Versions B and C have other tasks, each for the same fact as A's in its place, and are as hard;
    where there are not enough others they have the same ones in another order. How near they came
    is told by `likeness`.
    """
    if recipe.kind is Kind.FRAME:
        return Sheet(recipe, ())
    _check(recipe)
    try:
        versions = versions_of(_usual(recipe), _count(recipe), conventions)
    except LackError as error:
        raise SheetError(recipe, str(error), _nearest(recipe)) from None
    except NumberError:
        raise SheetError(recipe, nearest=_nearest(recipe)) from None
    tasks = versions.tasks[list(Version).index(recipe.version)]
    if recipe.kind is Kind.LADDER:
        return Sheet(recipe, tuple(_ladder(tasks)))
    return Sheet(recipe, (Section(_WAYS.get(recipe.kind, Way.BEADS), tasks),))


def _check(recipe: Recipe) -> None:
    """Raises SheetError for what is beyond the bounds, and for facts that the kind never needs."""
    within = replace(
        recipe,
        count=_between(len(LADDER) if recipe.kind is Kind.LADDER else 1, recipe.count, MOST_COUNT),
        rows=_between(2, recipe.rows, MOST_ROWS),
        digits=_between(1, recipe.digits, MOST_DIGITS),
        by=_between(1, recipe.by, MOST_DIGITS),
    )
    if recipe.kind is Kind.PAPER:
        raise SheetError(recipe)
    if within != recipe:
        raise SheetError(recipe, nearest=within)
    families = _FAMILIES.get(recipe.kind, _OF_COLUMNS)
    for fact in recipe.facts:
        if family_of_fact(fact) not in families or fact == "clear":
            raise SheetError(recipe, fact)


def _between(least: int, number: int, most: int) -> int:
    return min(max(least, number), most)


def _count(recipe: Recipe) -> int:
    return 1 if recipe.kind is Kind.STRIP else recipe.count


def _usual(recipe: Recipe) -> Recipe:
    """The recipe without what changes no task."""
    return replace(recipe, version=Version.A, leaf=Leaf.A4, is_worked=False)


def _ladder(tasks: tuple[Exercise, ...]) -> Iterator[Section]:
    """The tasks shared out among the sections, one more for the first where they are not even."""
    each, more = divmod(len(tasks), len(LADDER))
    left = iter(tasks)
    for at, way in enumerate(LADDER):
        yield Section(way, tuple(islice(left, each + (at < more))))


def _nearest(recipe: Recipe) -> Recipe | None:
    """A recipe near to one that can't be made which can: with longer or shorter numbers, more or
    fewer of them."""
    for near in _near(recipe):
        try:
            _check(near)
        except SheetError:
            continue
        if can_draw(near):
            return near
    return None


def _near(recipe: Recipe) -> Iterator[Recipe]:
    digits, rows, by = recipe.digits, recipe.rows, recipe.by
    for more in (1, 2, -1):
        yield replace(recipe, digits=digits + more)
        yield replace(recipe, rows=rows + more)
        yield replace(recipe, by=by + more)
        yield replace(recipe, digits=digits + more, rows=rows + more, by=by + more)
    yield replace(recipe, rows=max(2, rows // 2))
    yield replace(recipe, rows=2)
    yield replace(recipe, digits=max(1, digits // 2), by=max(1, by // 2))
