"""What can be given to do, in words."""

from typing import TYPE_CHECKING

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.assigned import Work
from frame.learner.settings import stored_object
from frame.practice.kept_choices import set_from
from frame.practice.rungs import Asked
from frame.printing.titles import title_of
from frame.sheets.code import CodeError, recipe_of

if TYPE_CHECKING:
    from frame.course.course import CourseIndex

_ASKED = {Asked.CALLED: "practise.called", Asked.FLASHED: "practise.flashed"}


def work_line(work: Work, text: str, course: "CourseIndex", words: Words) -> Line | None:
    """What it is called; None where it can't be read here, as what a newer version gave."""
    match work:
        case Work.LESSON:
            entry = course.by_id.get(text)
            return Line(entry.title, entry.title) if entry else None
        case Work.SET:
            return _set_line(text, words)
        case Work.SHEET:
            return _sheet_line(text, words)
        case Work.DUE:
            return words.line("today.title")


def _set_line(text: str, words: Words) -> Line | None:
    choices = set_from(stored_object(text))
    if choices is None:
        return None
    if choices.asked in _ASKED:
        return words.line(_ASKED[choices.asked])
    return words.line(f"family.{choices.beads.family}")


def _sheet_line(text: str, words: Words) -> Line | None:
    try:
        title = title_of(recipe_of(text), words)
    except CodeError:
        return None
    # No voice can say what stands on every sheet.
    return Line(words.text("given.sheet", title=title), words.text("given.sheet_said"))
