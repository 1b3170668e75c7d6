"""A sheet that was worked on paper, kept with its learner.

Nobody saw how long a task took or what was tried before: it tells what is known, and moves no
ladder.
"""

from dataclasses import replace
from datetime import datetime
from typing import NamedTuple

from frame.course.attempts import Attempt, Origin
from frame.learner.ids import id_of
from frame.learner.learners import Learner
from frame.learner.rows import Record
from frame.learner.sitting import Circumstances
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.items import worked_in
from frame.practice.log import Log
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Rung
from frame.practice.touches import WRONG_ANSWER
from frame.sheets.code import code_of
from frame.sheets.marking import Mark, Marked
from frame.sheets.sheet import Sheet, Way
from frame.technique.conventions import Conventions
from frame.technique.judge import VERSION

_NO_WINDOW = (0, 0)
_RUNGS = {Way.COVERED: Rung.COVERED, Way.EYES_SHUT: Rung.NUMBER, Way.MIND: Rung.NUMBER}
"""How much of a frame is in sight; all of one's own in other ways."""


class OnPaper(NamedTuple):
    """A marked sheet as it is kept: a sitting of its own, with an attempt for each task."""

    sitting: str
    lesson: str
    conventions: Conventions
    records: tuple[Record, ...]


def on_paper(learner: Learner, marked: Marked, conventions: Conventions, now: datetime) -> OnPaper:
    """A marked sheet to be kept. Its ids are those of this sheet, learner and day: who keeps it
    once more on that day keeps it once."""
    recipe = marked.sheet.recipe
    lesson, ways = f"sheet-{recipe.kind}", ways_of(marked.sheet)
    sheet = learner.id, code_of(recipe), now.date()
    records = tuple(
        Record(
            id_of(*sheet, one.number),
            one.number,
            _attempt(one, way, lesson, conventions),
            Origin.PAPER,
        )
        for one, way in zip(marked.marks, ways, strict=True)
    )
    return OnPaper(id_of(*sheet), lesson, conventions, records)


def keep_on_paper(store: Store, learner: Learner, kept: OnPaper, now: datetime) -> None:
    """Keep a marked sheet with its learner; once more it changes nothing. Raises StoreError."""
    around = Circumstances(kept.conventions, _NO_WINDOW, VERSION)
    store.begin_sitting(kept.sitting, learner, around, now)
    store.record(kept.sitting, kept.records, learner, kept.lesson, None, now)
    store.end_sitting(kept.sitting, now)


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
    plan = plan_for(one.task, conventions)
    answers = () if one.answer is None else tuple(n for n in one.answer if n is not None)
    return Attempt(
        lesson, _worked(one.task, way), unaided=one.is_right, right=one.is_right, helps=0,
        slips=() if one.is_right else (WRONG_ANSWER,),
        outcome=Outcome.RIGHT if one.is_right else Outcome.WRONG_ANSWER, answers=answers,
        log=Log(tuple(worked_in(plan)) if plan else ()),
    )  # fmt: skip


def _worked(task: Exercise, way: Way) -> Exercise:
    rung = _RUNGS.get(way, Rung.ALONE)
    return replace(task, rung=rung, own=task.kind is Kind.SUM and rung is not Rung.NUMBER)
