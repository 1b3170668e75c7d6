"""Where a learner stands in the course, as a report has it."""

from collections.abc import Iterator

from frame.practice.families import Family, family_of
from frame.report.figures import Lessons
from frame.screens.choosing.way import Way


def lessons_of(way: Way) -> Lessons:
    """What was done, what was known from the start, and what comes next."""
    lessons, upcoming = way.course.lessons, way.upcoming
    return Lessons(
        sum(map(way.is_done, lessons)), sum(map(way.is_placed, lessons)), len(lessons),
        upcoming.id if upcoming else "", upcoming.title if upcoming else "",
        frozenset(_found(way)),
    )  # fmt: skip


def _found(way: Way) -> Iterator[Family]:
    """The families of which all that the course teaches is known, some of it from the start."""
    taught = [(family_of([fact]), one) for one in way.course.lessons for fact in one.new]
    for family in Family:
        lessons = [one for of, one in taught if of is family]
        if all(map(way.is_known, lessons)) and any(map(way.is_placed, lessons)):
            yield family
