"""`class`: who of a class needs somebody now, and groups for one task of five minutes each."""

import os
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from frame.commands.opening import store_that_is_there, unusable
from frame.commands.output import Json, Refusal, columns, need_file, text_of, write_json
from frame.commands.sheet import write_one
from frame.commands.whom import learner_called, without_id
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.class_list import Wrong, problem_text, read_class
from frame.learner.learners import Learner
from frame.learner.nickname import is_too_long
from frame.learner.store import Store, StoreError
from frame.practice.grouping import Group, Split, split_of
from frame.practice.needs import Needing, Needs, needs_of
from frame.printing.titles import Group as PrintedGroup
from frame.printing.titles import below_title
from frame.report.class_reading import class_of
from frame.sheets.code import code_of
from frame.sheets.of_needs import sheet_for
from frame.sheets.sheet import Sheet


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
    sheets = [sheet_for(group) for group in split.groups]
    names = {one.learner.id: one.learner.nickname for one in members}
    groups = [
        PrintedGroup(number, tuple(_names((one.id for one in group.members), names)))
        for number, group in enumerate(split.groups, 1)
    ]
    files = _written(sheets, groups, asked.sheets, words)
    if is_json:
        write_json(_shape(needs, split, sheets, files, names))
    else:
        print(_text(needs, split, sheets, files, names, words))
    return 0


def _learners(store: Store, file: Path | None, words: Words) -> list[Learner]:
    """Those of a list, or everybody. What is wrong in a list goes to standard error, and the rest
    of it is taken; of a name that is long with the letters of an id behind it nothing is lost."""
    if file is None:
        return list(store.learners())
    expected = words.text("cli.class.a_list")
    need_file(file, expected, ".csv", words)
    found = read_class(text_of(file, expected, words))
    long = {one.line: one.found for one in found.problems if one.wrong is Wrong.NAME_TOO_LONG}
    for problem in found.problems:
        if problem.wrong is Wrong.NAME_TOO_LONG and not is_too_long(without_id(problem.found)):
            continue
        print(f"{escaped(file.name)}: {problem_text(problem, words)}", file=sys.stderr)
    if not found.children:
        raise Refusal(str(file), words.text("cli.class.nobody"), expected)
    names = [long.get(one.line, one.name) for one in found.children]
    some = [learner_called(store, one, "", words) for one in names]
    return list({one.id: one for one in some}.values())


def _written(
    sheets: Sequence[Sheet | None], groups: Sequence[PrintedGroup], folder: Path | None,
    words: Words,
) -> list[Path | None]:  # fmt: skip
    """Each goes to a file of its own, once it is known that all have a place; where one can't be
    written none is left."""
    files = [
        folder / f"{words.text('cli.class.file', number=number)}.pdf" if folder and sheet else None
        for number, sheet in enumerate(sheets, 1)
    ]
    for taken in filter(None, files):
        if os.path.lexists(taken):
            found = words.text("cli.class.there")
            raise Refusal(str(taken), found, words.text("cli.class.free"))
    written: list[Path] = []
    try:
        for file, sheet, group in zip(files, sheets, groups, strict=True):
            if file is not None and sheet is not None:
                write_one(file, sheet, code_of(sheet.recipe), words, group)
                written.append(file)
    except Refusal:
        for file in written:
            file.unlink(missing_ok=True)
        raise
    return files


def _shape(
    needs: Needs, split: Split, sheets: Sequence[Sheet | None], files: Sequence[Path | None],
    names: Mapping[str, str],
) -> Json:  # fmt: skip
    groups = [
        {
            "children": _names((one.id for one in group.members), names),
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
        "others": _names(split.others, names),
        "covered": round(split.share, 3),
    }


def _child(one: Needing) -> Json:
    pupil, week, (right, of) = one.pupil, one.pupil.week, one.pupil.week.exercises
    return {
        "name": pupil.name, "id": pupil.id, "reasons": list(one.reasons),
        "due": sum(pupil.due.values()), "faults": list(pupil.likely),
        "week": {
            "days": week.days, "minutes": round(week.minutes), "right_at_once": right, "of": of,
            "on_paper": week.on_paper,
        },
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
    if split.others:
        others = ", ".join(map(escaped, _names(split.others, names)))
        parts.append(words.text("class.told.others", names=others))
    return "\n\n".join(parts)


def _names(ids: Iterable[str], names: Mapping[str, str]) -> list[str]:
    return sorted(names[id] for id in ids)


def _row(one: Needing, words: Words) -> tuple[str, ...]:
    pupil, done, (right, of) = one.pupil, one.pupil.week, one.pupil.week.exercises
    reasons = ", ".join(words.text(f"cli.class.reason.{need}") for need in one.reasons)
    faults = "; ".join(words.text(f"report.habit.{habit}.tutor") for habit in pupil.likely)
    key = "cli.class.week_paper" if done.on_paper and not done.days else "cli.class.week"
    week = words.text(key, minutes=round(done.minutes), right=right, of=of)
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
    children = ", ".join(map(escaped, _names((one.id for one in group.members), names)))
    yield words.text("cli.class.group", number=number, names=children)
    if (habit := group.fault) is not None:
        name, all_of_them = words.text(f"report.habit.{habit}.tutor"), len(group.members)
        count = group.with_fault
        yield "  " + words.text("class.told.shared", fault=name, count=count, all=all_of_them)
    if sheet is not None:
        needs, code = below_title(sheet.recipe, words), code_of(sheet.recipe)
        yield "  " + words.text("cli.class.sheet", needs=needs, code=code)
    if file is not None:
        yield f"  {escaped(str(file))}"
