"""Graded papers, whole or in part, and their marks."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from random import Random

from frame.sheets.graded_tasks import Key, graded_tasks
from frame.sheets.grades import Grade, GradedSection, grade
from frame.sheets.recipe import Part, Recipe, Version
from frame.sheets.sheet import Section, Sheet, Way

WARM_UP = 5
"""So many tasks of a paper to warm up with."""


def paper(recipe: Recipe) -> Sheet:
    """The paper of a recipe, or the part of it that is asked for. What a part holds stands on the
    whole too, and no task stands on two versions. Raises KeyError for a grade that is not in the
    table, and ValueError for a part that the grade has not."""
    row = grade(recipe.grade)
    if recipe.part not in row.parts:
        raise ValueError(f"{row.id} has no {recipe.part}; expected one of {', '.join(row.parts)}")
    sections = _sections(row, recipe)
    if recipe.part is Part.WARM_UP:
        return Sheet(recipe, _to_warm_up(sections, recipe))
    is_asked = [recipe.part in (Part.WHOLE, section.part) for section in row.sections]
    if all(is_asked):
        return Sheet(recipe, sections, row.minutes, row.pass_marks)
    some = tuple(one for one, asked in zip(sections, is_asked, strict=True) if asked)
    return Sheet(recipe, some, sum(one.minutes for one in some))


def _sections(row: Grade, recipe: Recipe) -> tuple[Section, ...]:
    """All sections. The versions before are drawn too, so that this one has none of their tasks."""
    drawn: set[Key] = set()
    sections: tuple[Section, ...] = ()
    for version in Version:
        random = Random(f"{row.paper} {recipe.seed} {version}")
        sections = tuple(_section(one, row.way, random, drawn) for one in row.sections)
        if version is recipe.version:
            break
    return sections


def _section(row: GradedSection, way: Way, random: Random, drawn: set[Key]) -> Section:
    tasks = graded_tasks(row, way, random, drawn)
    return Section(way, tasks, row.marks, row.minutes, row.pass_marks)


def _to_warm_up(sections: tuple[Section, ...], recipe: Recipe) -> tuple[Section, ...]:
    """Five tasks in all, as many of each section as of another or one more, from its start to its
    end."""
    random = Random(f"warm-up {recipe.grade} {recipe.seed} {recipe.version}")
    each, more = divmod(WARM_UP, len(sections))
    some = []
    for at, section in enumerate(sections):
        count = each + (at < more)
        bounds = [len(section.tasks) * part // count for part in range(count + 1)]
        picked = tuple(section.tasks[random.randrange(*between)] for between in pairwise(bounds))
        some.append(Section(section.way, picked, section.marks))
    return tuple(some)


def section_scores(sheet: Sheet, right: Sequence[bool]) -> tuple[int, ...]:
    """The marks of each section, by which of all tasks are right. Raises ValueError where there
    are not as many as tasks."""
    if len(right) != len(sheet.tasks):
        raise ValueError(f"{len(right)} answers for {len(sheet.tasks)} tasks")
    ends = accumulate(len(section.tasks) for section in sheet.sections)
    return tuple(
        section.marks * sum(right[end - len(section.tasks) : end])
        for section, end in zip(sheet.sections, ends, strict=True)
    )


def score(sheet: Sheet, right: Sequence[bool]) -> int:
    """The marks of all sections."""
    return sum(section_scores(sheet, right))


def is_passed(sheet: Sheet, right: Sequence[bool]) -> bool | None:
    """Whether the marks are enough: of the whole, or of each section by itself. None for a sheet
    on which no marks are said to be enough."""
    scores = section_scores(sheet, right)
    needed = [section.pass_marks for section in sheet.sections]
    if not sheet.pass_marks and not any(needed):
        return None
    reached = all(marks >= enough for marks, enough in zip(scores, needed, strict=True))
    return reached and sum(scores) >= sheet.pass_marks


def rank(sheet: Sheet, right: Sequence[bool]) -> str:
    """The rank of a dan that is reached in every section of the sheet, as the table names it; empty
    where none is, or the grade has none."""
    if is_passed(sheet, right) is None:
        return ""
    least = min(section_scores(sheet, right))
    reached = [one.name for one in grade(sheet.recipe.grade).ranks if least >= one.marks]
    return reached[-1] if reached else ""
