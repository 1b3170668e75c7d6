"""`class`: who of a class needs somebody now, and groups for one task of five minutes each."""

import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from frame.commands.opening import store_that_is_there, unusable
from frame.commands.output import Json, Refusal, columns, need_file, write_json
from frame.commands.sheet import write_one
from frame.commands.whom import learner_called
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.class_list import problem_text, read_class
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError
from frame.practice.grouping import Group, Split, split_of
from frame.practice.needs import Needing, Needs, needs_of
from frame.report.class_reading import class_of
from frame.sheets.code import code_of
from frame.sheets.making import sheet_near
from frame.sheets.sheet import Sheet
from frame.sheets.sizing import recipe_for
from frame.sheets.topics import facts_of_items, facts_showing


class Asked(NamedTuple):
    """A file with the names of a class, None for everybody; how many groups there may be; and the
    folder for their sheets, None for no sheets."""

    file: Path | None
    groups: int
    sheets: Path | None


def show_class(store_path: Path, asked: Asked, is_json: bool, words: Words) -> int:
    """What a class needs goes to standard output, and a sheet for each group to a folder. The exit
    status. Raises Refusal."""
    try:
        with store_that_is_there(store_path, words) as store:
            members = class_of(store, _learners(store, asked.file, words), datetime.now(UTC))
    except StoreError as error:
        return unusable(error, is_json, words)
    needs = needs_of(one.pupil for one in members)
    split = split_of([one.child for one in members], asked.groups)
    sheets = [_sheet(group) for group in split.groups]
    files = _written(sheets, asked.sheets, words)
    names = {one.learner.id: one.learner.nickname for one in members}
    if is_json:
        write_json(_shape(needs, split, sheets, files, names))
    else:
        print(_text(needs, split, sheets, files, names, words))
    return 0


def _learners(store: Store, file: Path | None, words: Words) -> list[Learner]:
    """Those of a list, or everybody. What is wrong in a list goes to standard error, and the rest
    of it is taken."""
    if file is None:
        return list(store.learners())
    need_file(file, words.text("cli.class.a_list"), ".csv", words)
    text = file.read_text(encoding="utf-8-sig", errors="replace")
    found = read_class(text)
    for problem in found.problems:
        print(f"{escaped(file.name)}: {problem_text(problem, words)}", file=sys.stderr)
    some = [learner_called(store, one.name, "", words) for one in found.children]
    return list({one.id: one for one in some}.values())


def _sheet(group: Group) -> Sheet | None:
    """A task for what a group needs: the facts of its items, else those of its fault; None where it
    needs nothing."""
    facts = facts_of_items(group.items)
    if not facts and group.fault is not None:
        facts = facts_showing(group.fault)
    return sheet_near(recipe_for(facts)) if facts else None


def _written(
    sheets: Sequence[Sheet | None], folder: Path | None, words: Words
) -> list[Path | None]:
    """Each goes to a file of its own, once it is known that all have a place."""
    files = [
        folder / f"{words.text('cli.class.file', number=number)}.pdf" if folder and sheet else None
        for number, sheet in enumerate(sheets, 1)
    ]
    for taken in filter(None, files):
        if os.path.lexists(taken):
            found = words.text("cli.class.there")
            raise Refusal(str(taken), found, words.text("cli.class.free"))
    for file, sheet in zip(files, sheets, strict=True):
        if file is not None and sheet is not None:
            write_one(file, sheet, code_of(sheet.recipe), words)
    return files


def _shape(
    needs: Needs, split: Split, sheets: Sequence[Sheet | None], files: Sequence[Path | None],
    names: Mapping[str, str],
) -> Json:  # fmt: skip
    groups = [
        {
            "children": sorted(names[one.id] for one in group.members),
            "fault": group.fault,
            "facts": list(sheet.recipe.facts) if sheet else [],
            "code": code_of(sheet.recipe) if sheet else None,
            "file": str(file) if file else None,
        }
        for group, sheet, file in zip(split.groups, sheets, files, strict=True)
    ]
    return {
        "children": [_child(one) for one in needs.children],
        "faults": [
            {"fault": one.habit, "children": [pupil.name for pupil in one.pupils]}
            for one in needs.faults
        ],
        "due": {family: count for family, count in needs.due.items()},
        "groups": groups,
        "covered": round(split.share, 3),
    }


def _child(one: Needing) -> Json:
    pupil, (minutes, (right, of)) = one.pupil, one.pupil.week
    return {
        "name": pupil.name, "id": pupil.id, "reasons": list(one.reasons),
        "due": sum(pupil.due.values()), "faults": list(pupil.likely),
        "week": {"minutes": round(minutes), "right_at_once": right, "of": of},
    }  # fmt: skip


def _text(
    needs: Needs, split: Split, sheets: Sequence[Sheet | None], files: Sequence[Path | None],
    names: Mapping[str, str], words: Words,
) -> str:  # fmt: skip
    rows = [words.listed("cli.class.heads"), *(_row(one, words) for one in needs.children)]
    parts = [columns(rows)]
    if needs.faults:
        parts.append("\n".join(_faults(needs, words)))
    for number, (group, sheet, file) in enumerate(zip(split.groups, sheets, files, strict=True), 1):
        parts.append("\n".join(_group(number, group, sheet, file, names, words)))
    return "\n\n".join(parts)


def _row(one: Needing, words: Words) -> tuple[str, ...]:
    pupil, (minutes, (right, of)) = one.pupil, one.pupil.week
    reasons = ", ".join(words.text(f"cli.class.reason.{need}") for need in one.reasons)
    faults = "; ".join(words.text(f"report.habit.{habit}.tutor") for habit in pupil.likely)
    week = words.text("cli.class.week", minutes=round(minutes), right=right, of=of)
    return escaped(pupil.name), reasons or "–", str(sum(pupil.due.values())), week, faults


def _faults(needs: Needs, words: Words) -> Iterator[str]:
    yield words.text("cli.class.faults")
    for one in needs.faults:
        habit, names = one.habit, ", ".join(escaped(pupil.name) for pupil in one.pupils)
        yield f"  {words.text(f'report.habit.{habit}.tutor')}: {names}"


def _group(
    number: int, group: Group, sheet: Sheet | None, file: Path | None,
    names: Mapping[str, str], words: Words,
) -> Iterator[str]:  # fmt: skip
    children = ", ".join(sorted(escaped(names[one.id]) for one in group.members))
    yield words.text("cli.class.group", number=number, names=children)
    if (habit := group.fault) is not None:
        yield f"  {words.text(f'report.habit.{habit}.tutor')}"
    if sheet is not None:
        facts, code = ", ".join(sheet.recipe.facts), code_of(sheet.recipe)
        yield "  " + words.text("cli.class.sheet", facts=facts, code=code)
    if file is not None:
        yield f"  {escaped(str(file))}"
