"""A report, with where a learner stands in the course."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from frame.course.course import CourseIndex
from frame.learner.learners import Learner
from frame.learner.store import Store
from frame.practice.families import Family, family_of
from frame.report.figures import Lessons, Report
from frame.report.reading import read_report
from frame.room import Room
from frame.screens.parts.way import Way


def report_folder(room: Room) -> Path:
    """Where pages are saved."""
    return room.documents or room.folder / "reports"


def read_reported(store: Store, learner: Learner, course: CourseIndex, now: datetime) -> Report:
    """The report of a learner by their own settings. Raises StoreError."""
    settings = store.settings(learner)
    way = Way(course, store.lessons(learner), settings.all_open)
    return read_report(store, learner, settings, lessons_of(way), now)


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
