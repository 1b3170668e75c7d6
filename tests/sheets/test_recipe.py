"""What may be needed on a sheet is what was taught, by the course as it stands."""

from itertools import chain

from each import each_row

from frame.course.course import index
from frame.resources import LESSONS
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.taught_order import TAUGHT
from frame.technique.facts import ALL_FACTS

COURSE = index(LESSONS, None)


def known(*facts):
    return Recipe(kind=Kind.COLUMNS, facts=facts).known


def test_the_order_is_that_of_the_course():
    """Where the course has changed: a recipe's code that was printed means another sheet, so the
    version of the code must be raised with the table."""
    taught = [one.new for one in COURSE.lessons if one.new]
    assert list(TAUGHT) == taught
    assert sorted(chain.from_iterable(TAUGHT)) == sorted(ALL_FACTS)


@each_row("lesson", [one for one in COURSE.lessons if one.new])
def test_a_sheet_for_a_lesson_needs_what_was_taught_by_then(lesson):
    so_far = COURSE.lessons[: COURSE.lessons.index(lesson) + 1]
    assert known(*lesson.new) == {fact for one in so_far for fact in one.new}


def test_without_facts_everything_may_be_needed():
    assert known() == frozenset(ALL_FACTS)


def test_the_order_in_which_facts_are_named_says_nothing():
    assert known("add-ten-3", "add-five-1") == known("add-five-1", "add-ten-3")
