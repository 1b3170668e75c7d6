"""`report`: how a learner is getting on, as text, as JSON, or as a page for a browser."""

from datetime import UTC, date, datetime
from pathlib import Path

from frame.commands.opening import (
    not_written,
    saved_shape,
    store_that_is_there,
    tell_lacking,
    unusable,
)
from frame.commands.output import Json, columns, write_json
from frame.commands.whom import learner_called
from frame.course.course import index
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.learners import Learner
from frame.learner.new_file import free_name, plain_name
from frame.learner.store import Store, StoreError
from frame.practice.tally import Tally
from frame.report.document import write_page
from frame.report.figures import Aloud, Fault, Kind, OnPaper, Report, Week
from frame.report.told import Page, Part, count_text, minutes_text, page_of
from frame.resources import LESSONS
from frame.screens.parts.reported import read_reported

_OK = 0
_USUAL = "report.html"
_PDF = ".pdf"


def tell(
    store_path: Path,
    asked: tuple[str | None, str],
    file: Path | None,
    is_json: bool,
    words: Words,
) -> int:
    """The report of the learner of a name, whose id begins so, goes to standard output, or as a
    page to a new file. 0, or 1 where the learners' file can't be used. Raises Refusal for another
    place, or no such learner."""
    try:
        with store_that_is_there(store_path, words) as store:
            learner = learner_called(store, *asked, words)
            report = _read(store, learner, store_path.parent)
        if file is not None:
            write_page(file, report, learner, words)
    except StoreError as error:
        if file is None or error.where != file:
            return unusable(error, is_json, words)
        raise not_written(error, file, _USUAL, words) from error
    page = page_of(report, escaped(learner.nickname), words)
    if is_json:
        head: Json = {"learner": learner.nickname, "id": learner.id}
        written = {"file": str(file)} if file else {}
        write_json({**head, **shape(report, page), **written, **saved_shape(store.saved)})
    elif file is not None:
        print(words.text("cli.copies.written", file=escaped(str(file))))
    else:
        print(_text(page, words))
    return _OK


def tell_class(store_path: Path, folder: Path, is_json: bool, words: Words) -> int:
    """The report of each learner goes to a file of its own in a folder that is there. 0, or 1 where
    the learners' file can't be used. Raises Refusal for another place."""
    from frame.printing.report_page import write_report

    files = []
    try:
        with store_that_is_there(store_path, words) as store:
            for learner in store.learners():
                page = page_of(_read(store, learner, store_path.parent), learner.nickname, words)
                file = free_name(folder / f"report-{plain_name(learner.nickname)}{_PDF}")
                tell_lacking(file, write_report(file, page, words), words)
                files.append(file)
    except StoreError as error:
        if error.where is None or error.where.parent != folder:
            return unusable(error, is_json, words)
        raise not_written(error, error.where, f"report{_PDF}", words) from error
    if is_json:
        write_json({"files": list(map(str, files))})
    else:
        print(words.text("cli.report.written", count=len(files), folder=escaped(str(folder))))
    return _OK


def _read(store: Store, learner: Learner, folder: Path) -> Report:
    return read_reported(store, learner, index(LESSONS, folder / "course.json"), datetime.now(UTC))


def _text(page: Page, words: Words) -> str:
    parts = (_part_text(part, words) for part in page.parts)
    notes = filter(None, (page.over, *page.notes))
    return "\n\n".join((f"{page.title}\n{page.day}", *parts, "\n".join(notes)))


def _part_text(part: Part, words: Words) -> str:
    rows = [(f"  {one.name}", count_text(one.tally, words), one.note) for one in part.rows]
    bars = [(f"  {one.name}", minutes_text(one, words)) for one in part.bars]
    tables = [columns(some) for some in (rows, bars) if some]
    return "\n".join((part.heading, *tables, *(f"  {one}" for one in part.sentences)))


def shape(report: Report, page: Page) -> Json:
    """The figures as JSON, and what they are in words."""
    lessons = report.lessons
    return {
        "day": str(report.day),
        "too_early": report.is_early,
        "exercises": _tally(report.tally),
        "week": _week(report.week),
        "week_before": _week(report.week_before),
        "lessons": {
            "done": lessons.done, "known_from_start": lessons.known, "all": lessons.all,
            "next": lessons.next or None, "title": lessons.title or None,
        },
        "known": [_kind(one) for one in report.known],
        "learning": [_kind(one) for one in report.learning],
        "beads_hidden": _tally(report.unseen) if report.unseen else None,
        "called": _aloud(report.called),
        "flashed": _aloud(report.flashed),
        "fault": _fault(report.fault),
        "fault_looked_for_in": report.looked_at, "not_right_in_those": report.not_right,
        "on_paper": _on_paper(report.on_paper),
        "says": {part.about.value: list(part.sentences) for part in page.parts},
    }  # fmt: skip


def _tally(tally: Tally) -> Json:
    return {"right_at_once": tally.right, "of": tally.of}


def _week(week: Week) -> Json:
    days = {"from": str(week.first), "to": str(week.last), "minutes": week.minutes}
    return {**days, **_tally(week.tally)}


def _kind(kind: Kind) -> Json:
    return {
        "family": kind.family.value, **_tally(kind.tally), "days": kind.days,
        "last": _day(kind.last), "known_from_start": kind.is_found, "too_early": kind.is_early,
    }  # fmt: skip


def _aloud(aloud: Aloud | None) -> Json | None:
    if aloud is None:
        return None
    level = aloud.level
    if level is None:
        return {**_tally(aloud.tally), "level": None}
    size = {"number": level.number, "of": aloud.levels, "digits": level.digits, "rows": level.rows}
    return {**_tally(aloud.tally), "level": size}


def _fault(fault: Fault | None) -> Json | None:
    if fault is None:
        return None
    digits, rod, is_long = fault.where
    return {
        "habit": fault.habit.value, "times": fault.times, "of": fault.of,
        "since": fault.since and str(fault.since), "in_answers": fault.in_answers,
        "where": {"digits": sorted(digits), "rod": rod, "long_columns": is_long},
    }  # fmt: skip


def _on_paper(paper: OnPaper | None) -> Json | None:
    if paper is None:
        return None
    hardest, (right, of) = paper.hardest, paper.of_hardest
    least: Json = {"family": hardest.value, "not_right": of - right, "of": of} if hardest else {}
    return {**_tally(paper.tally), "least_right": least or None, "nothing_else": paper.is_all}


def _day(day: date | None) -> str | None:
    return str(day) if day else None
