"""What the sizes of a sheet are called, and how those of two sheets differ."""

from frame.language.catalogue import Words
from frame.sheets.choices import sizes_of
from frame.sheets.recipe import Kind, Recipe

_SIZES = {
    "count": "sheets.count",
    "rows": "practise.terms",
    "digits": "practise.digits",
    "by": "practise.by",
}
_OF_WHAT = {
    (Kind.PRODUCTS, "digits"): "sheets.of_one",
    (Kind.PRODUCTS, "by"): "sheets.of_other",
    (Kind.QUOTIENTS, "digits"): "sheets.of_answer",
    (Kind.QUOTIENTS, "by"): "sheets.of_divisor",
    (Kind.ROOTS, "digits"): "sheets.of_answer",
}
"""Whose digits they are, where a task has numbers of several sorts."""


def size_key(kind: Kind, name: str) -> str:
    """The key of what a size is called on sheets of a kind."""
    return _OF_WHAT.get((kind, name), _SIZES[name])


def other_sizes(recipe: Recipe, before: Recipe, words: Words) -> str:
    """The sizes of a recipe that are others than in another of its kind; empty where none is."""
    return ", ".join(
        f"{words.text(size_key(recipe.kind, name))}: {getattr(recipe, name)}"
        for name in sizes_of(recipe.kind)
        if getattr(recipe, name) != getattr(before, name)
    )
