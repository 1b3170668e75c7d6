"""`sheet`: a sheet or a paper and its key, printed; or what stands on it."""

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from frame.commands.opening import not_written, store_that_is_there, tell_lacking
from frame.commands.ordering import Order, Ordering, Topic
from frame.commands.output import Json, Refusal, write_json
from frame.commands.whom import learner_called
from frame.course.course import index
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.due import due_items
from frame.learner.store import StoreError
from frame.printing.titles import Group
from frame.resources import LESSONS
from frame.sheets.code import code_of, recipe_of
from frame.sheets.making import SheetError, sheet_of
from frame.sheets.recipe import Recipe
from frame.sheets.sheet import Sheet
from frame.technique.conventions import USUAL
from frame.technique.reading import plain

_USUAL = "sheet.pdf"
_NEAR = "rows", "digits", "by"
"""The options by which a sheet that can be made is told."""


def print_sheet(
    store_path: Path, what: str | None, file: Path, topic: Topic, order: Order,
    is_json: bool, words: Words,
) -> int:  # fmt: skip
    """The sheet that is asked for goes to a new file, and its code to standard output. Raises
    Refusal."""
    if file.suffix.lower() != ".pdf":
        raise Refusal(str(file), words.text("cli.sheet.ends"), words.text("cli.sheet.ending"))
    course, due = partial(index, LESSONS, None), partial(_due, store_path, words)
    ordering = Ordering(course, due, words)
    code = code_of(ordering.recipe(what, topic, order))
    sheet = _made(recipe_of(code), words)
    write_one(file, sheet, code, words)
    if is_json:
        write_json({"code": code, "file": str(file), **shape(sheet)})
    else:
        print(words.text("cli.sheet.written", file=escaped(str(file)), code=code))
    return 0


def write_one(
    file: Path, sheet: Sheet, code: str, words: Words, group: Group | None = None
) -> None:
    """A sheet goes to a new file. Raises Refusal."""
    from frame.printing.sheet_file import write_sheet

    try:
        written = write_sheet(file, sheet, code, words, USUAL, group)
    except StoreError as error:
        raise not_written(error, file, _USUAL, words) from error
    tell_lacking(file, written.lacking, words)


def _made(recipe: Recipe, words: Words) -> Sheet:
    try:
        return sheet_of(recipe)
    except SheetError as error:
        found = words.text("cli.sheet.undrawn", what=error.fact or recipe.kind)
        where, expected = map(words.text, ("cli.command_line", "cli.sheet.larger"))
        if error.nearest is None:
            raise Refusal(where, found, expected) from error
        near = " ".join(f"--{name} {getattr(error.nearest, name)}" for name in _NEAR)
        expected = words.text("cli.sheet.near_sizes", sizes=near)
        raise Refusal(where, found, expected, nearest=[near]) from error


def _due(store_path: Path, words: Words, name: str) -> Sequence[str]:
    """What is due of the learner of this name."""
    with store_that_is_there(store_path, words) as store:
        return due_items(store, learner_called(store, name, "", words), datetime.now(UTC))


def shape(sheet: Sheet) -> Json:
    """What stands on a sheet, as JSON; numbers are texts."""
    recipe, number, sections = sheet.recipe, 0, []
    for section in sheet.sections:
        tasks = []
        for task in section.tasks:
            number += 1
            rest = task.sum.remainder
            tasks.append(
                {
                    "number": number, "expression": str(task.sum), "answer": plain(task.sum.result),
                    "remainder": None if rest is None else plain(rest),
                }
            )  # fmt: skip
        sections.append({"way": section.way, "marks": section.marks, "tasks": tasks})
    head = {"kind": recipe.kind, "seed": recipe.seed, "version": recipe.version}
    paper = {"minutes": sheet.minutes, "pass": sheet.pass_marks} if sheet.minutes else {}
    return {**head, "facts": list(recipe.facts), **paper, "sections": sections}
