"""What learners have to do, as slips of paper."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from frame.language.catalogue import Words
from frame.learner.assigned import Work
from frame.learner.giving import Gift
from frame.learner.learners import Learner
from frame.printing.slips import Slip
from frame.screens.parts.given_work import work_line

if TYPE_CHECKING:
    from frame.course.course import CourseIndex

_KEYS = {Work.LESSON: "given.slip_lesson", Work.SET: "given.slip_set"}


def slips_of(
    gifts: Iterable[Gift], course: "CourseIndex", words: Words, due: Mapping[Learner, str]
) -> tuple[Slip, ...]:
    """A slip for each that can be read here; today's set with the code of the sheet of what is
    `due`, where somebody has one."""
    found = []
    for learner, one in gifts:
        line = work_line(one.work, one.text, course, words)
        if line is None:
            continue
        what = words.text(_KEYS[one.work], title=line.show) if one.work in _KEYS else line.show
        code = one.text if one.work is Work.SHEET else ""
        if one.work is Work.DUE:
            code = due.get(learner, "")
            what = words.text("given.slip_due_sheet" if code else "given.slip_due")
        found.append(Slip(learner.nickname, what, code))
    return tuple(found)
