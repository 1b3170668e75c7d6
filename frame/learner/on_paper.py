"""A sheet that was worked on paper, kept with its learner.

Nobody saw how long a task took or what was tried before: it tells what is known, and moves no
ladder.
"""

from dataclasses import replace
from datetime import datetime

from frame.course.attempts import Attempt, Origin
from frame.learner.ids import new_id
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
from frame.sheets.marking import Mark, Marked
from frame.sheets.sheet import Sheet, Way
from frame.technique.conventions import Conventions
from frame.technique.judge import VERSION

_NO_WINDOW = (0, 0)
_RUNGS = {Way.COVERED: Rung.COVERED, Way.EYES_SHUT: Rung.NUMBER, Way.MIND: Rung.NUMBER}
"""How much of a frame is in sight; all of one's own in other ways."""


def keep_marked(
    store: Store, learner: Learner, marked: Marked, conventions: Conventions, now: datetime
) -> None:
    """Keep each task of a sheet as an attempt, in a sitting of its own. Raises StoreError."""
    sitting, lesson = new_id(), f"sheet-{marked.sheet.recipe.kind}"
    ways = ways_of(marked.sheet)
    records = [
        Record(new_id(), one.number, _attempt(one, way, lesson, conventions), Origin.PAPER)
        for one, way in zip(marked.marks, ways, strict=True)
    ]
    store.begin_sitting(sitting, learner, Circumstances(conventions, _NO_WINDOW, VERSION), now)
    store.record(sitting, records, learner, lesson, None, now)
    store.end_sitting(sitting, now)


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
