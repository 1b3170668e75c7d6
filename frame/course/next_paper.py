"""Which paper is taken next: what is chosen of a grade, in a version that was not had before."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from itertools import product
from random import Random
from typing import Any, NamedTuple

from frame.course.paper import Paper
from frame.sheets.code import CodeError, recipe_of
from frame.sheets.grades import grade, grades
from frame.sheets.recipe import MOST_SEED, Kind, Part, Recipe, Version

_FIRST_TO_WARM_UP = 5000
"""Fives to warm up are drawn from here on, so that they take nothing from papers to come."""
_ON_OFF = (False, True)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperChoices:
    """A grade and how much of its paper; whether a clock is seen and counts, and whether a frame
    stands there to work on."""

    grade: str = "kyu-10"
    part: Part = Part.WHOLE
    is_clocked: bool = True
    on_beads: bool = True

    def choose(self, **changes: Any) -> "PaperChoices":
        """The same with these choices; a grade without the part that was chosen is chosen whole."""
        made = replace(self, **changes)
        return made if made.part in grade(made.grade).parts else replace(made, part=Part.WHOLE)

    def is_of(self, recipe: Recipe) -> bool:
        """Whether a paper is one of these."""
        return (recipe.grade, recipe.part) == (self.grade, self.part)


def choices_to(choices: PaperChoices) -> dict[str, Any]:
    """The choices as values that JSON has."""
    return asdict(choices)


def choices_from(kept: Mapping[str, Any], usual: PaperChoices) -> PaperChoices:
    """The inverse of `choices_to`; what is missing or unknown is as usual."""
    allowed: dict[str, Iterable[object]] = {
        "grade": grades(), "part": Part, "is_clocked": _ON_OFF, "on_beads": _ON_OFF
    }  # fmt: skip
    found = {
        name: next(one for one in some if one == kept[name])
        for name, some in allowed.items()
        if any(kept.get(name) == one for one in some)
    }
    return usual.choose(**found)


class PaperDesk(NamedTuple):
    """What is chosen, and a paper that was left before its end."""

    choices: PaperChoices
    left: Paper | None = None


def graded_recipe(code: str) -> Recipe | None:
    """The recipe of a graded paper by its code; None where that is none."""
    try:
        recipe = recipe_of(code)
    except CodeError:
        return None
    return recipe if recipe.kind is Kind.PAPER and recipe.grade in grades() else None


def next_recipe(choices: PaperChoices, taken: Iterable[Recipe], random: Random) -> Recipe:
    """A paper of what is chosen, in the first set and version of which no part was taken."""
    if choices.part is Part.WARM_UP:
        seed, version = random.randint(_FIRST_TO_WARM_UP, MOST_SEED), random.choice(list(Version))
    else:
        drawn_for = grade(choices.grade).paper
        had = {(one.seed, one.version) for one in taken if grade(one.grade).paper == drawn_for}
        all_there_are = product(range(1, _FIRST_TO_WARM_UP), Version)
        seed, version = next((one for one in all_there_are if one not in had), (1, Version.A))
    return Recipe(
        kind=Kind.PAPER, grade=choices.grade, part=choices.part, seed=seed, version=version
    )
