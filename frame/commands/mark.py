"""`mark`: a sheet that was worked on paper, by its code; of one learner, or of a whole class."""

import re
import sys
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from frame.commands.opening import store_that_is_there, unusable
from frame.commands.ordering import coded
from frame.commands.output import Json, Refusal, columns, need_file, text_of, write_json
from frame.commands.whom import learner_called
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.language.habits import habit_line, off_by_text
from frame.language.wording import Listener
from frame.learner.cells import Row, rows_of
from frame.learner.class_list import HEADS_OF_NAMES, MOST_CHILDREN
from frame.learner.learners import Learner
from frame.learner.on_paper import keep_marked
from frame.learner.store import Store, StoreError
from frame.sheets.making import sheet_of
from frame.sheets.marking import (
    MOST_DIGITS,
    Answer,
    LongError,
    Mark,
    Marked,
    answer_of,
    mark,
    mark_wrong,
)
from frame.sheets.sheet import Sheet
from frame.technique.conventions import USUAL
from frame.technique.reading import NumberError, plain

_MOST_SHOWN = 60
_NO_CELLS = re.compile(r"\s[−-]?\d\S*\s+[−-]?\d\S*$")
"""How a line ends that has blanks alone between a name and its answers."""


class Given(NamedTuple):
    """What was given for a sheet: a file of a class, or the answers of one, or the numbers of the
    wrong ones; and by whom, where it is one."""

    file: Path | None = None
    answers: str | None = None
    wrong: str | None = None
    name: str | None = None
    id: str = ""


class Child(NamedTuple):
    """Whose sheet was marked, by name, and how it went; where its answers stood, and how many were
    there, None where only the wrong ones are known."""

    name: str
    marked: Marked
    where: str = ""
    answers: int | None = None

    @property
    def is_short(self) -> bool:
        """Whether fewer answers were there than tasks."""
        return self.answers is not None and self.answers < len(self.marked.marks)


class Kept(NamedTuple):
    """With whom a sheet was kept, unless it was on this day already."""

    learner: Learner
    child: Child
    is_new: bool


def mark_sheet(
    store_path: Path, code: str, given: Given, is_kept: bool, is_json: bool, words: Words
) -> int:
    """How each one's sheet with this code went goes to standard output, and with `is_kept` to the
    learners' file. With JSON what is worth a look stands in it, else on standard error. The exit
    status. Raises Refusal, before anything is kept."""
    _check_options(given, is_kept, words)
    sheet = sheet_of(coded(code, words))
    children = list(_children(sheet, given, words))
    _check(children, given, words)
    kept: list[Kept] = []
    if is_kept:
        try:
            with store_that_is_there(store_path, words) as store:
                kept = _keep(store, children, given.id, words)
        except StoreError as error:
            return unusable(error, is_json, words)
    if is_json:
        told = {"code": code, "children": [_shape(one, words) for one in children]}
        write_json({**told, "warnings": [*_warnings(children)], **(_kept(kept) if is_kept else {})})
        return 0
    for line in _told(children, kept, words):
        print(line, file=sys.stderr)
    new = [one for one in kept if one.is_new]
    parts = [*(_text(one, words) for one in children), *([_kept_text(new, words)] if new else [])]
    print("\n\n".join(parts))
    return 0


def _told(children: Sequence[Child], kept: Sequence[Kept], words: Words) -> Iterator[str]:
    """What is worth a look: answers that are missing at the end, and sheets that were kept."""
    for one in children:
        if one.is_short:
            where = f"{one.where}, {escaped(one.name)}" if one.name else one.where
            all_of_them = len(one.marked.marks)
            yield words.text("cli.mark.short", where=where, count=one.answers or 0, all=all_of_them)
    for known in kept:
        if not known.is_new:
            yield words.text("cli.mark.known", name=escaped(known.learner.nickname))


def _warnings(children: Sequence[Child]) -> Iterator[Json]:
    for one in children:
        if one.is_short:
            tasks = len(one.marked.marks)
            yield {"where": one.where, "name": one.name, "answers": one.answers, "tasks": tasks}


def _kept(kept: Sequence[Kept]) -> Json:
    new = [
        {
            "name": one.learner.nickname, "id": one.learner.id, "answers": one.child.answers,
            "tasks": len(one.child.marked.marks),
        }
        for one in kept
        if one.is_new
    ]  # fmt: skip
    return {"kept": new, "known": [one.learner.nickname for one in kept if not one.is_new]}


def _kept_text(kept: Sequence[Kept], words: Words) -> str:
    """With whom it was kept, and how many answers each gave."""
    rows = []
    for learner, child, _ in kept:
        count, all_of_them = child.answers, len(child.marked.marks)
        told = words.text("cli.mark.kept_tasks", all=all_of_them)
        if count is not None:
            told = words.text("cli.mark.kept_answers", count=count, all=all_of_them)
        rows.append((f"  {escaped(learner.nickname)}", told))
    return f"{words.text('cli.mark.kept')}\n{columns(rows)}"


def _check_options(given: Given, is_kept: bool, words: Words) -> None:
    """Raises Refusal for an option that would say nothing."""
    where = words.text("cli.command_line")
    if given.file is not None and (given.name is not None or given.id):
        found = words.text("cli.mark.name_beside")
        raise Refusal(where, found, words.text("cli.mark.names_of_file"))
    if given.id and not is_kept:
        found = words.text("cli.mark.id_unkept")
        raise Refusal(where, found, words.text("cli.mark.id_kept"))


def _check(children: Sequence[Child], given: Given, words: Words) -> None:
    """Raises Refusal where nobody is there, or somebody twice."""
    names = [one.name for one in children]
    twice = [name for name in names if names.count(name) > 1]
    if children and not twice:
        return
    found = words.text("cli.mark.nobody")
    if twice:
        found = words.text("cli.mark.twice", name=twice[0])
    raise Refusal(escaped(str(given.file)), found, words.text("cli.mark.a_file"))


def _keep(store: Store, children: Sequence[Child], begins: str, words: Words) -> list[Kept]:
    """All or nobody: each name is found before the first is kept."""
    whose: list[tuple[Learner, Child]] = []
    for child in children:
        learner = learner_called(store, child.name or None, begins, words)
        if learner in [one for one, _ in whose]:
            found = words.text("cli.mark.twice", name=learner.nickname)
            raise Refusal(child.name, found, words.text("cli.mark.a_file"))
        whose.append((learner, child))
    now = datetime.now(UTC)
    kept = []
    for learner, child in whose:
        conventions = store.settings(learner).conventions
        is_new = keep_marked(store, learner, child.marked, conventions, now)
        kept.append(Kept(learner, child, is_new))
    return kept


def _children(sheet: Sheet, given: Given, words: Words) -> Iterator[Child]:
    if sum(one is not None for one in (given.file, given.answers, given.wrong)) != 1:
        found, expected = map(words.text, ("cli.mark.not_one", "cli.mark.something"))
        raise Refusal(words.text("cli.command_line"), found, expected)
    if given.wrong is not None:
        yield Child(given.name or "", mark_wrong(sheet, _numbers(given.wrong, sheet, words)))
    elif given.answers is not None:
        texts = given.answers.split(";") if ";" in given.answers else given.answers.split()
        where = words.text("cli.mark.answers")
        yield Child(given.name or "", _marked(sheet, texts, where, words), where, len(texts))
    elif given.file is not None:
        need_file(given.file, words.text("cli.mark.a_file"), ".csv", words)
        yield from _of_file(sheet, given.file, words)


def _of_file(sheet: Sheet, file: Path, words: Words) -> Iterator[Child]:
    text = text_of(file, words.text("cli.mark.a_file"), words)
    heads = 0
    for count, row in enumerate(rows_of(text)):
        name, *texts = row.cells
        if count == 0 and name.casefold() in HEADS_OF_NAMES:
            heads = 1
            continue
        where = words.text("cli.mark.line", file=escaped(file.name), line=row.line)
        _check_row(row, where, words)
        if count - heads == MOST_CHILDREN:
            found = words.text("cli.mark.many_children", most=MOST_CHILDREN)
            raise Refusal(where, found, words.text("cli.expected.shorter", most=MOST_CHILDREN))
        yield Child(name, _marked(sheet, texts, where, words), where, len(texts))


def _check_row(row: Row, where: str, words: Words) -> None:
    """Raises Refusal where the cells of a row can't be told apart, or nobody is named."""
    if odd := [*row.odd, *(cell for cell in row.cells if "\n" in cell)]:
        found = words.text("cli.mark.open_quote", found=_shown(odd[0]))
        raise Refusal(where, found, words.text("cli.mark.closed"))
    if not row.cells[0]:
        raise Refusal(where, words.text("cli.mark.no_name"), words.text("cli.mark.a_file"))
    if len(row.cells) == 1 and _NO_CELLS.search(row.cells[0]):
        raise Refusal(where, _shown(row.cells[0]), words.text("cli.mark.cells"))


def _shown(text: str) -> str:
    """A text as it was found, as far as anybody would read it."""
    return repr(text if len(text) <= _MOST_SHOWN else text[:_MOST_SHOWN] + "…")


def _marked(sheet: Sheet, texts: Sequence[str], where: str, words: Words) -> Marked:
    if len(texts) > len(sheet.tasks):
        found = words.text("cli.mark.too_many", count=len(texts))
        raise Refusal(where, found, words.text("cli.mark.at_most", count=len(sheet.tasks)))
    answers: list[Answer | None] = []
    for number, text in enumerate(texts, 1):
        try:
            answers.append(answer_of(text))
        except NumberError as error:
            place = words.text("cli.mark.answer", where=where, number=number)
            found, expected = _shown(text), words.text("cli.mark.number")
            if isinstance(error, LongError):
                found = words.text("cli.number_of_digits", count=error.digits)
                expected = words.text("cli.mark.digits", most=MOST_DIGITS)
            raise Refusal(place, found, expected) from None
    return mark(sheet, answers, USUAL)


def _numbers(text: str, sheet: Sheet, words: Words) -> list[int]:
    found = []
    for one in text.replace(",", " ").split():
        number = int(one[:9]) if one.isascii() and one.isdigit() else 0
        if not 1 <= number <= len(sheet.tasks):
            expected = words.text("cli.mark.task", count=len(sheet.tasks))
            raise Refusal(words.text("cli.mark.wrong"), _shown(one), expected)
        found.append(number)
    return found


def _shape(child: Child, words: Words) -> Json:
    marked = child.marked
    return {
        "name": child.name,
        "right": sum(one.is_right for one in marked.marks),
        "of": len(marked.marks),
        "marks": marked.points,
        "most": marked.most,
        "passed": marked.is_passed,
        "rank": marked.rank or None,
        "wrong": [
            {
                "number": one.number,
                "expression": str(one.task.sum),
                "answer": _answer(one),
                "right": plain(one.task.sum.result),
                "off_by": None if one.off_by is None else plain(one.off_by),
                "slip": one.behind.site.habit if one.behind else None,
            }
            for one in marked.wrong
        ],
    }


def _answer(one: Mark) -> str | None:
    if one.answer is None:
        return None
    number, rest = one.answer
    return plain(number) if rest is None else f"{plain(number)} r {plain(rest)}"


def _text(child: Child, words: Words) -> str:
    marked, right = child.marked, sum(one.is_right for one in child.marked.marks)
    name = escaped(child.name) or words.text("cli.mark.somebody")
    head = words.text(
        "cli.mark.head", name=name, right=right, of=len(marked.marks), marks=marked.points,
        most=marked.most,
    )  # fmt: skip
    if marked.is_passed is not None:
        head += " " + words.text("cli.mark.passed" if marked.is_passed else "cli.mark.not_passed")
    if marked.rank:
        head += " " + words.text("cli.mark.rank", rank=marked.rank)
    rows = [_row(one, words) for one in marked.wrong]
    return f"{head}\n{columns(rows)}" if rows else head


def _row(one: Mark, words: Words) -> tuple[str, ...]:
    said = off_by_text(one.off_by, words)
    if one.behind is not None:
        said = habit_line(one.behind.site, words, Listener.OLDER).show
    right = plain(one.task.sum.result)
    return (f"{one.number}.", f"{one.task.sum} = {right}", _answer(one) or "–", said)
