"""A report in words, for an adult who does not know the frame."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from enum import StrEnum
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.language.days import day_text
from frame.language.numbers import rod_name
from frame.practice.bead_habits import Where
from frame.practice.families import Family
from frame.practice.tally import Tally
from frame.report.figures import EARLY, Aloud, Fault, Kind, Lessons, OnPaper, Report

_OLD = timedelta(days=30)
"""What was not asked for so long says when it was."""
HELPS = {
    Family.READ: "read",
    Family.SET: "read",
    Family.ADD_DIRECT: "small",
    Family.SUB_DIRECT: "small",
    Family.ADD_FIVE: "five",
    Family.SUB_FIVE: "five",
    Family.ADD_TEN: "ten",
    Family.SUB_TEN: "ten",
    Family.ADD_TEN_FIVE: "both",
    Family.SUB_TEN_FIVE: "both",
    Family.COLUMNS: "columns",
    Family.MULTIPLY: "multiply",
    Family.DIVIDE: "divide",
    Family.DECIMALS: "decimals",
    Family.BELOW_ZERO: "below-zero",
    Family.ROOT: "root",
}
"""What helps at home with each family, without a frame."""


class About(StrEnum):
    """What a part of the page is about."""

    KNOWN = "known"
    LEARNING = "learning"
    INWARD = "inward"
    FAULT = "fault"
    HOME = "home"
    WEEK = "week"


SUMS = (About.KNOWN, About.LEARNING, About.INWARD)
"""What stands first, and has counts."""


OVER = (
    *(Family.ADD_FIVE, Family.SUB_FIVE, Family.ADD_TEN, Family.SUB_TEN),
    *(Family.ADD_TEN_FIVE, Family.SUB_TEN_FIVE),
)
"""The families whose names speak of what is passed."""


class Row(NamedTuple):
    """A kind of exercise by its name, how the last ones went, and a word on them, if any."""

    name: str
    tally: Tally
    note: str = ""


class Bar(NamedTuple):
    """A week by its name, and its minutes."""

    name: str
    minutes: int


class Part(NamedTuple):
    """A part of the page: its heading, and below it rows, sentences and bars."""

    about: About
    heading: str
    rows: tuple[Row, ...] = ()
    sentences: tuple[str, ...] = ()
    bars: tuple[Bar, ...] = ()


class Page(NamedTuple):
    """The page in words: title, day, parts in the order in which they are read, what a bead of its
    rows and what "over" means, each empty where there is none, and the notes at its foot."""

    title: str
    day: str
    parts: tuple[Part, ...]
    legend: str
    over: str
    notes: tuple[str, ...]

    def part(self, about: About) -> Part | None:
        """The part that is about something."""
        return next((one for one in self.parts if one.about is about), None)


def page_of(report: Report, name: str, words: Words) -> Page:
    """A report in words, of whom is called so."""
    parts = (
        _known(report, words),
        _learning(report, words),
        *_inward(report, words),
        _fault(report, words),
        Part(About.HOME, _head(About.HOME, words), sentences=(at_home(report, name, words),)),
        _week(report, words),
    )
    day = words.text("report.page.on", day=day_text(words, report.day))
    title = words.text("report.title", name=name)
    legend = words.text("report.page.legend") if _has_beads(parts) else ""
    is_over = any(one.family in OVER for one in (*report.known, *report.learning))
    over = words.text("report.note.over") if is_over else ""
    return Page(title, day, parts, legend, over, tuple(_notes(report, words)))


def count_text(tally: Tally, words: Words) -> str:
    """How many were right at once, of how many; nothing where none counts."""
    if not tally.of:
        return ""
    return words.text("report.page.of", right=tally.right, of=tally.of)


def minutes_text(week: Bar, words: Words) -> str:
    """The minutes of a week."""
    return words.text("report.page.minutes", minutes=week.minutes)


def _head(about: About, words: Words) -> str:
    return words.text(f"report.head.{about}")


def fault_text(fault: Fault, words: Words) -> str:
    """A fault in a sentence, with its count and since when."""
    habit = fault.habit
    what = words.text(f"report.habit.{habit}.parent")
    if fault.since is None:
        return words.text("report.page.told_last", fault=what, times=fault.times, of=fault.of)
    day = day_text(words, fault.since)
    return words.text("report.page.told", fault=what, times=fault.times, of=fault.of, day=day)


def tutors_name(fault: Fault, words: Words) -> str:
    """What a tutor calls a fault."""
    habit = fault.habit
    return words.text(f"report.habit.{habit}.tutor")


def at_home(report: Report, name: str, words: Words) -> str:
    """One thing to do at home: against the fault, else for what is being learned."""
    if report.fault is not None:
        habit = report.fault.habit
        return words.text(f"report.habit.{habit}.home")
    if not report.tally.of and not report.learning:
        return words.text("report.home.begin", name=name)
    if report.in_work is None:
        return words.text("report.home.free", name=name)
    helps = HELPS[report.in_work.family]
    return words.text(f"report.home.{helps}", name=name)


def where_text(where: Where, words: Words) -> str:
    """Where a fault shows and hardly elsewhere; nothing where it shows everywhere."""
    if len(where.digits) == 1:
        return words.text("report.page.where_one_digit", digit=min(where.digits))
    if where.digits:
        one, other = min(where.digits), max(where.digits)
        return words.text("report.page.where_digits", one=one, other=other)
    if where.rod is not None:
        return words.text("report.page.where_rod", rod=rod_name(where.rod, words))
    if where.is_long is None:
        return ""
    return words.text("report.page.where_long" if where.is_long else "report.page.where_short")


def _known(report: Report, words: Words) -> Part:
    rows = tuple(_row(kind, report.day, words) for kind in report.known)
    return Part(About.KNOWN, _head(About.KNOWN, words), rows, tuple(_of_known(report, words)))


def _of_known(report: Report, words: Words) -> Iterator[str]:
    if report.is_early:
        yield words.text("report.page.early", count=report.tally.of)
    elif not report.known:
        yield words.text("report.page.none_known")


def _learning(report: Report, words: Words) -> Part:
    rows = tuple(_row(kind, report.day, words) for kind in report.learning)
    return Part(
        About.LEARNING, _head(About.LEARNING, words), rows, tuple(_of_learning(report, words))
    )


def _of_learning(report: Report, words: Words) -> Iterator[str]:
    """The lessons; where all was done on paper what is true of that."""
    if report.on_paper is not None and report.on_paper.is_all:
        yield from _of_paper(report.on_paper, words)
    else:
        yield lessons_text(report.lessons, words)


def _of_paper(paper: OnPaper, words: Words) -> Iterator[str]:
    right, of = paper.tally
    yield words.text("report.page.paper", right=right, of=of)
    if (family := paper.hardest) is not None:
        name, (right, of) = words.text(f"family.{family}"), paper.of_hardest
        yield words.text("report.page.paper_hardest", family=name, count=of - right, of=of)


def _has_beads(parts: Iterable[Part]) -> bool:
    """Whether a bead is drawn beside anything: what placement found may have none yet."""
    return any(row.tally.of for part in parts for row in part.rows)


def lessons_text(lessons: Lessons, words: Words) -> str:
    """How many lessons were done, and which is the next."""
    key = "report.page.lessons_known" if lessons.known else "report.page.lessons"
    if lessons.done == lessons.all:
        key = "report.page.lessons_all"
    text = words.text(key, done=lessons.done, all=lessons.all, known=lessons.known)
    following = words.text("report.page.next", title=lessons.title)
    return f"{text} {following}" if lessons.title else text


def _row(kind: Kind, day: date, words: Words) -> Row:
    return Row(family_name(kind.family, words), kind.tally, _note(kind, day, words))


def family_name(family: Family, words: Words) -> str:
    """A family with an example, for adults who do not know its name."""
    name, example = words.text(f"family.{family}"), words.text(f"report.example.{family}")
    return words.text("report.kind", name=name, example=example)


def _note(kind: Kind, day: date, words: Words) -> str:
    if kind.last is None:
        return words.text("report.page.begun")
    if kind.is_found:
        return words.text("report.page.found")
    if kind.is_early:
        return words.text("report.page.few")
    if kind.days == 1:
        return words.text("report.page.one_day")
    if day - kind.last > _OLD:
        return words.text("report.page.old", day=day_text(words, kind.last))
    return ""


def _inward(report: Report, words: Words) -> Iterator[Part]:
    """What goes without beads in sight, where it was tried."""
    rows = []
    if report.unseen is not None:
        rows.append(Row(words.text("report.page.unseen"), report.unseen))
    for key, aloud in (
        ("report.page.called", report.called),
        ("report.page.flashed", report.flashed),
    ):
        if aloud is not None:
            rows.append(Row(_with_level(words.text(key), aloud, words), aloud.tally))
    if rows:
        yield Part(About.INWARD, _head(About.INWARD, words), tuple(rows))


def _with_level(name: str, aloud: Aloud, words: Words) -> str:
    if aloud.level is None:
        return name
    return words.text("report.page.level", name=name, level=aloud.level.number, levels=aloud.levels)


def _fault(report: Report, words: Words) -> Part:
    return Part(About.FAULT, _head(About.FAULT, words), sentences=tuple(_of_fault(report, words)))


def _of_fault(report: Report, words: Words) -> Iterator[str]:
    fault = report.fault
    if fault is None:
        yield _no_fault(report, words)
        return
    yield fault_text(fault, words)
    if where := where_text(fault.where, words):
        yield where
    if fault.in_answers:
        yield words.text("report.page.in_answers")


def _no_fault(report: Report, words: Words) -> str:
    """Why no fault is named: it is too early, as it is while answers on paper are not typed; none
    is behind what was not right; or all is well."""
    if report.looked_at < EARLY:
        if report.on_paper and not report.is_early:
            return words.text("report.page.untyped", count=report.looked_at)
        return words.text("report.page.early_fault", count=report.looked_at)
    if report.is_unexplained:
        missed, of = report.not_right, report.looked_at
        return words.text("report.page.unexplained", count=missed, of=of)
    return words.text("report.page.none_fault", count=report.looked_at)


def _week(report: Report, words: Words) -> Part:
    """Minutes, unless paper is all that there is, which takes none."""
    sentences = tuple(_of_week(report, words))
    if _is_all_paper(report):
        return Part(About.WEEK, _head(About.WEEK, words), sentences=sentences)
    bars = (
        Bar(words.text("report.page.this_week"), report.week.minutes),
        Bar(words.text("report.page.week_before"), report.week_before.minutes),
    )
    return Part(About.WEEK, _head(About.WEEK, words), sentences=sentences, bars=bars)


def _of_week(report: Report, words: Words) -> Iterator[str]:
    week, ever = report.week.tally, report.tally
    if week.of:
        yield words.text("report.page.week_right", right=week.right, of=week.of)
        if not report.week.minutes:
            yield words.text("report.page.week_paper")
    else:
        yield words.text("report.page.week_none")
    if ever.of:
        yield words.text("report.page.ever", right=ever.right, of=ever.of)
    if report.on_paper is not None and not report.on_paper.is_all:
        yield from _of_paper(report.on_paper, words)


def _notes(report: Report, words: Words) -> Iterator[str]:
    if report.fault is not None:
        yield words.text("report.page.for_tutor", name=tutors_name(report.fault, words))
        yield words.text("report.note.fault")
    yield words.text("report.note.at_once")
    yield words.text("report.note.known")
    if not _is_all_paper(report):
        first, last = (day_text(words, day) for day in (report.week.first, report.week.last))
        yield words.text("report.note.time", first=first, last=last)


def _is_all_paper(report: Report) -> bool:
    return report.on_paper is not None and report.on_paper.is_all
