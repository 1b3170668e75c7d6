"""`give`: work for one learner, a group or all; what was given, taken back, and slips of paper."""

import os
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, datetime
from difflib import get_close_matches
from functools import partial
from pathlib import Path
from typing import NamedTuple

from frame.commands.opening import not_written, store_that_is_there, unusable
from frame.commands.ordering import coded
from frame.commands.output import Json, Refusal, refusal_near, write_json
from frame.commands.whom import learner_called
from frame.course.course import CourseIndex, index
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.assigned import Work, set_text
from frame.learner.class_kept import groups_of, kept_class
from frame.learner.giving import (
    Before,
    Gift,
    due_codes,
    give,
    given_before,
    share_of,
    take_back,
)
from frame.learner.learners import Learner
from frame.learner.nickname import search_key
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.practice.choices import Choices
from frame.practice.families import Family
from frame.practice.kept_choices import set_to
from frame.practice.rungs import Asked
from frame.printing.slips import write_slips
from frame.resources import LESSONS
from frame.screens.parts.given_slips import slips_of
from frame.screens.parts.given_work import work_line
from frame.sheets.code import code_of
from frame.sheets.grades import grades
from frame.sheets.recipe import Kind, Recipe

_SUFFIX, _USUAL = ".pdf", "slips.pdf"
_BY_NUMBER = (Asked.CALLED, Asked.FLASHED)


class Whom(NamedTuple):
    """To whom: these names with commas between, a group of the class, or all."""

    names: str | None = None
    group: str | None = None
    is_all: bool = False


class Wanted(NamedTuple):
    """What is asked for: work and its text, or only to list; to take it back; a file for slips."""

    work: str | None
    text: str | None
    is_list: bool
    is_back: bool
    slips: Path | None


def give_work(store_path: Path, whom: Whom, wanted: Wanted, is_json: bool, words: Words) -> int:
    """Do what is wanted; what was done goes to standard output. The exit status. Raises Refusal,
    before anything is given."""
    course = index(LESSONS, None)
    _check(whom, wanted, words)
    what = _work(wanted, course, words)
    try:
        with store_that_is_there(store_path, words) as store:
            learners = _learners(store, whom, words)
            slips = partial(_write_slips, store, wanted.slips, course, words)
            shape = _do(store, course, learners, what, wanted.is_back, slips)
            before = given_before(store, learners)
    except StoreError as error:
        return unusable(error, is_json, words)
    if what is None:
        shape = {"given": [_listed(one, course, words) for one in before]}
    if is_json:
        write_json({**shape, "slips": str(wanted.slips) if wanted.slips else None})
    else:
        print(_text(shape, what, wanted.slips, course, words))
    return 0


_What = tuple[Work, str]


def _check(whom: Whom, wanted: Wanted, words: Words) -> None:
    """Raises Refusal where it is not said what, or to whom."""
    where = words.text("cli.command_line")
    count = sum((whom.names is not None, whom.group is not None, whom.is_all))
    may_lack = wanted.work is None and wanted.is_list
    if count > 1 or (count == 0 and not may_lack):
        found = words.text("cli.give.nobody" if count == 0 else "cli.give.several")
        raise Refusal(where, found, words.text("cli.give.whom"))
    if wanted.work is None and (wanted.is_back or not (wanted.is_list or wanted.slips)):
        raise Refusal(where, words.text("cli.give.nothing"), words.text("cli.give.what"))
    if wanted.work is not None and wanted.is_list:
        raise Refusal(where, words.text("cli.give.beside"), words.text("cli.give.list_alone"))
    if wanted.is_back and wanted.slips is not None:
        raise Refusal(where, words.text("cli.give.slips_back"), words.text("cli.give.back_alone"))
    if wanted.slips is not None and wanted.slips.suffix.lower() != _SUFFIX:
        ending = words.text("cli.give.ending")
        raise Refusal(str(wanted.slips), words.text("cli.sheet.ends"), ending)
    if wanted.slips is not None and os.path.lexists(wanted.slips):
        taken = StoreError(wanted.slips, words.text("cli.class.there"), Trouble.TAKEN)
        raise not_written(taken, wanted.slips, _USUAL, words)


def _work(wanted: Wanted, course: CourseIndex, words: Words) -> _What | None:
    """The work and its text as it is kept; None for none. Raises Refusal."""
    if wanted.work is None:
        return None
    work, text = Work(wanted.work), wanted.text or ""
    match work:
        case Work.LESSON:
            return work, _one_of(text, tuple(course.by_id), "cli.give.a_lesson", words)
        case Work.SET:
            names = (*map(str, Family), *map(str, _BY_NUMBER))
            return work, _set(_one_of(text, names, "cli.give.a_set", words))
        case Work.SHEET:
            return work, _sheet(text, words)
        case Work.DUE:
            if text:
                raise Refusal(text, words.text("cli.give.too_much"), words.text("cli.give.alone"))
            return work, ""


def _one_of(text: str, names: Sequence[str], expected: str, words: Words) -> str:
    if text in names:
        return text
    near = get_close_matches(text, names, 1)
    where = words.text("cli.command_line")
    found = repr(text) if text else words.text("cli.the_end")
    raise refusal_near(where, found, words.text(expected), near, words)


def _set(name: str) -> str:
    if name in _BY_NUMBER:
        return set_text(set_to(Choices(Asked(name))))
    return set_text(set_to(Choices().choose(family=Family(name))))


def _sheet(text: str, words: Words) -> str:
    """The code of a sheet, or of a grade's paper."""
    grade = text.casefold()
    if grade in grades():
        return code_of(Recipe(kind=Kind.PAPER, grade=grade))
    if near := get_close_matches(grade, grades(), 1):
        where, expected = map(words.text, ("cli.command_line", "cli.give.a_sheet"))
        raise refusal_near(where, repr(text), expected, near, words)
    return code_of(coded(text, words))


def _learners(store: Store, whom: Whom, words: Words) -> tuple[Learner, ...]:
    """Raises Refusal for a name that nobody has, or a group."""
    if whom.names is not None:
        named = [one.strip() for one in whom.names.split(",") if one.strip()]
        if not named:
            where, found = words.text("cli.command_line"), words.text("cli.empty_learner")
            raise Refusal(where, found, words.text("cli.copies.a_learner"))
        some = [learner_called(store, one, "", words) for one in named]
        return tuple({one.id: one for one in some}.values())
    members = kept_class(store)
    if whom.group is None:
        return tuple(one.learner for one in members) or store.learners()
    groups = {search_key(one): one for one in groups_of(members)}
    key = search_key(whom.group)
    if key not in groups:
        there = ", ".join(map(escaped, groups.values())) or "–"
        near = [groups[one] for one in get_close_matches(key, groups, 1)]
        found, expected = (
            words.text("cli.give.no_group"),
            words.text("cli.give.a_group", groups=there),
        )
        raise refusal_near(whom.group, found, expected, near, words)
    return tuple(one.learner for one in members if search_key(one.group) == key)


def _do(
    store: Store, course: CourseIndex, learners: Sequence[Learner], what: _What | None,
    is_back: bool, write: Callable[[Iterable[Gift]], None],
) -> Json:  # fmt: skip
    """Give it or take it back; what was done. What is open is first written to slips, so that
    nothing is given where that can't be. Raises Refusal."""
    now, before = datetime.now(UTC), given_before(store, learners)
    if what is None:
        write(gift for one in reversed(before) for gift in one.open)
        return {}
    work, text = what
    gifts = [gift for one in before if (one.work, one.text) == what for gift in one.open]
    if is_back:
        take_back(store, gifts, now)
        return {"work": work, "text": text, "back": _names(gift.learner for gift in gifts)}
    share = share_of(store, course, learners, what, now)
    open = [gift for gift in gifts if gift not in share.instead]
    write(sorted([*open, *share.all], key=lambda gift: learners.index(gift.learner)))
    give(store, share, now)
    return {
        "work": work, "text": text, "to": _names(gift.learner for gift in share.gifts),
        "had": _names(share.had), "none_due": _names(share.nothing),
        "sheets": _sheets(share.sheet), "instead": _names(gift.learner for gift in share.instead),
    }  # fmt: skip


def _names(learners: Iterable[Learner]) -> list[str]:
    return [one.nickname for one in learners]


def _sheets(gifts: Iterable[Gift]) -> list[Json]:
    """The sheets that some have in the place of today's set."""
    return [
        {"to": learner.nickname, "text": one.text}
        for learner, one in gifts
        if one.is_due and one.work is Work.SHEET
    ]


def _listed(one: Before, course: CourseIndex, words: Words) -> Json:
    return {
        "work": one.work, "text": one.text, "title": _title((one.work, one.text), course, words),
        "to": _names([gift.learner for gift in one.open]), "done": _names(one.done),
        "sheets": _sheets(one.open),
    }  # fmt: skip


def _title(what: _What, course: CourseIndex, words: Words) -> str:
    line = work_line(*what, course, words)
    return line.show if line else escaped(what[1])


def _write_slips(
    store: Store, file: Path | None, course: CourseIndex, words: Words, some: Iterable[Gift]
) -> None:
    """Slips of these go to a new file, where one is wanted. Raises Refusal or StoreError."""
    if file is None:
        return
    gifts = tuple(some)
    slips = slips_of(gifts, course, words, due_codes(store, gifts, datetime.now(UTC)))
    if not slips:
        found = words.text("cli.give.none_open")
        raise Refusal(str(file), found, words.text("cli.give.some_open"))
    try:
        write_slips(file, slips, words)
    except StoreError as error:
        raise not_written(error, file, _USUAL, words) from error


def _text(
    shape: Json, what: _What | None, slips: Path | None, course: CourseIndex, words: Words
) -> str:
    """What was done in words."""
    lines = []
    if what is not None:
        title = _title(what, course, words)
        for happened in ("to", "had", "back"):
            if shape.get(happened):
                names = ", ".join(map(escaped, shape[happened]))
                lines.append(words.text(f"cli.give.{happened}", title=title, names=names))
        if shape.get("none_due"):
            names = ", ".join(map(escaped, shape["none_due"]))
            lines.append(words.text("cli.give.none_due", names=names))
        lines += _sheet_lines(shape.get("sheets", ()), words)
        if shape.get("instead"):
            names = ", ".join(map(escaped, shape["instead"]))
            lines.append(words.text("cli.give.instead", names=names))
        if not lines:
            lines.append(words.text("cli.give.none_had", title=title))
    else:
        listed = [line for one in shape["given"] for line in _lines(one, words)]
        lines += listed or [words.text("giving.nothing")]
    if slips is not None:
        lines.append(words.text("cli.give.written", file=escaped(str(slips))))
    return "\n".join(lines)


def _lines(one: Json, words: Words) -> list[str]:
    """Who has it to do and who has done it; then the sheets that some have in its place."""
    told = [one["title"] + "."]
    for key in ("to", "done"):
        if one[key]:
            names = ", ".join(map(escaped, one[key]))
            told.append(words.text("giving.to_do" if key == "to" else "giving.did", who=names))
    return [" ".join(told), *_sheet_lines(one["sheets"], words)]


def _sheet_lines(sheets: Iterable[Json], words: Words) -> list[str]:
    return [
        words.text("cli.give.sheet", name=escaped(one["to"]), code=one["text"]) for one in sheets
    ]
