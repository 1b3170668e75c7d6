"""A sheet that was worked on paper, or a graded paper on the screen, kept with its learner.

Nobody saw how long a task took or what was tried before: it tells what is known, and moves no
ladder.
"""

from dataclasses import replace
from datetime import datetime
from typing import NamedTuple

from frame.course.attempts import Attempt, Origin
from frame.course.paper import HandedIn
from frame.learner.assigned import Work
from frame.learner.ids import id_of
from frame.learner.learners import Learner
from frame.learner.papers import PaperTaken
from frame.learner.rows import Record
from frame.learner.sitting import Circumstances
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.items import Worked, worked_in
from frame.practice.log import Log
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Rung
from frame.practice.touches import WRONG_ANSWER
from frame.sheets.code import code_of
from frame.sheets.marking import Mark, Marked
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Part
from frame.sheets.sheet import Sheet, Way
from frame.technique.conventions import Conventions
from frame.technique.judge import VERSION
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.reading import RodsError

_NO_WINDOW = (0, 0)
_RUNGS = {Way.COVERED: Rung.COVERED, Way.EYES_SHUT: Rung.NUMBER, Way.MIND: Rung.NUMBER}
"""How much of a frame is in sight; all of one's own in other ways."""


class OnPaper(NamedTuple):
    """A marked sheet with its code, as it is kept: a sitting of its own since a moment, with an
    attempt for each task, and of a graded paper its marks."""

    sitting: str
    code: str
    began: datetime
    lesson: str
    conventions: Conventions
    records: tuple[Record, ...]
    paper: PaperTaken | None


def sitting_of(learner: Learner, code: str, now: datetime) -> str:
    """The id of the sitting by which the sheet of a code is kept with a learner on this day."""
    return id_of(learner.id, code, now.date())


def on_paper(learner: Learner, marked: Marked, conventions: Conventions, now: datetime) -> OnPaper:
    """A marked sheet to be kept. Its ids are those of this sheet, learner and day: who keeps it
    once more on that day keeps it once."""
    code = code_of(marked.sheet.recipe)
    sheet = learner.id, code, now.date()
    paper = None
    if _has_marks(marked.sheet):
        paper = PaperTaken(id_of(*sheet), now, code, marked.points, marked.most)
    return OnPaper(
        sitting_of(learner, code, now),
        code,
        now,
        _lesson(marked),
        conventions,
        _records(marked, conventions, sheet),
        paper,
    )


def on_screen(learner: Learner, handed: HandedIn, conventions: Conventions) -> OnPaper:
    """A paper that was taken on the screen, to be kept: its marks, unless it was to warm up, and an
    attempt for each task that was answered. Its ids are those of the moment it began."""
    whole, marked = handed.marked_whole, handed.marked
    code = code_of(handed.sheet.recipe)
    sheet = learner.id, code, handed.began.isoformat()
    answered = {one.number for one in whole.marks if one.answer is not None}
    records = tuple(one for one in _records(whole, conventions, sheet) if one.number in answered)
    paper = None
    if handed.is_paper:
        paper = PaperTaken(
            id_of(*sheet), handed.began, code, marked.points, marked.most, handed.seconds,
            handed.paused, handed.pauses, on_screen=True,
        )  # fmt: skip
    return OnPaper(id_of(*sheet), code, handed.began, _lesson(whole), conventions, records, paper)


def _has_marks(sheet: Sheet) -> bool:
    return sheet.recipe.kind is SheetKind.PAPER and sheet.recipe.part is not Part.WARM_UP


def _lesson(marked: Marked) -> str:
    return f"sheet-{marked.sheet.recipe.kind}"


def _records(
    marked: Marked, conventions: Conventions, sheet: tuple[object, ...]
) -> tuple[Record, ...]:
    """An attempt for each task, by ids of the sheet and its number."""
    lesson, ways = _lesson(marked), ways_of(marked.sheet)
    return tuple(
        Record(
            id_of(*sheet, one.number),
            one.number,
            _attempt(one, way, lesson, conventions),
            Origin.PAPER,
        )
        for one, way in zip(marked.marks, ways, strict=True)
    )


def keep_on_paper(store: Store, learner: Learner, kept: OnPaper, now: datetime) -> None:
    """Keep a marked sheet with its learner, who has done it where it was given; once more it
    changes nothing. Raises StoreError."""
    around = Circumstances(kept.conventions, _NO_WINDOW, VERSION)
    store.begin_sitting(kept.sitting, learner, around, kept.began)
    store.record(kept.sitting, kept.records, learner, kept.lesson, None, now)
    if kept.paper is not None:
        store.keep_paper(kept.paper)
    store.end_sitting(kept.sitting, now)
    store.tick_off(learner, Work.SHEET, kept.code, now)


def keep_marked(
    store: Store, learner: Learner, marked: Marked, conventions: Conventions, now: datetime
) -> bool:
    """Keep each task of a sheet as an attempt, in a sitting of its own, unless it was kept on this
    day; whether it is new. Raises StoreError."""
    kept = on_paper(learner, marked, conventions, now)
    is_new = not store.has_sitting(kept.sitting)
    keep_on_paper(store, learner, kept, now)
    return is_new


def ways_of(sheet: Sheet) -> tuple[Way, ...]:
    """How each task of a sheet is to be done."""
    return tuple(section.way for section in sheet.sections for _ in section.tasks)


def _attempt(one: Mark, way: Way, lesson: str, conventions: Conventions) -> Attempt:
    answers = () if one.answer is None else tuple(n for n in one.answer if n is not None)
    return Attempt(
        lesson, _worked(one.task, way), unaided=one.is_right, right=one.is_right, helps=0,
        slips=() if one.is_right else (WRONG_ANSWER,),
        outcome=Outcome.RIGHT if one.is_right else Outcome.WRONG_ANSWER, answers=answers,
        log=Log(_work(one.task, conventions)),
    )  # fmt: skip


def _work(task: Exercise, conventions: Conventions) -> tuple[Worked, ...]:
    """What each step of a task asked, by the school of its learner, for which it may need more rods
    than the sheet thought; nothing where no frame has them."""
    try:
        if task.kind is Kind.SUM:
            plan: Plan | None = plan_of(task.sum, conventions, at_least=task.rods)
        else:
            plan = plan_for(task, conventions)
    except RodsError:
        return ()
    return tuple(worked_in(plan)) if plan else ()


def _worked(task: Exercise, way: Way) -> Exercise:
    rung = _RUNGS.get(way, Rung.ALONE)
    return replace(task, rung=rung, own=task.kind is Kind.SUM and rung is not Rung.NUMBER)
