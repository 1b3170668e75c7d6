"""The course: its units and lessons, and an index of them that needs no lesson to be parsed.

The index is kept in a small JSON file, with a digest against damage, and trusted only while every
lesson file has the size and the time of change that it had then. So home opens without parsing a
lesson.
"""

import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cached_property
from hashlib import sha256
from pathlib import Path

from frame.course.checker import check_lesson, with_known
from frame.course.draft import (
    Draft,
    Script,
    chain_of,
    every_problem,
    read_course,
    read_file,
    read_script,
)
from frame.course.lesson import Lesson, Unit, in_order
from frame.course.loader import load_lesson
from frame.course.problems import LessonError, Problem
from frame.technique.facts import ALL_FACTS

_VERSION = 3

Stamps = Mapping[str, tuple[int, int]]
"""The size and the time of change (ns) of every file, by its path below the course's folder."""


@dataclass(frozen=True, slots=True)
class LessonEntry:
    """A lesson as home needs it; `path` is its file below the course's folder."""

    id: str
    title: str
    path: str
    unit: str
    after: str | None
    new: tuple[str, ...]


@dataclass(frozen=True)
class CourseIndex:
    """The units in the order of their folders and the lessons in the order they are taught."""

    folder: Path
    units: tuple[Unit, ...]
    lessons: tuple[LessonEntry, ...]

    @cached_property
    def by_id(self) -> Mapping[str, LessonEntry]:
        """The lessons by id."""
        return {lesson.id: lesson for lesson in self.lessons}

    def lessons_of(self, unit_id: str) -> tuple[LessonEntry, ...]:
        """The lessons of a unit, in order."""
        return tuple(lesson for lesson in self.lessons if lesson.unit == unit_id)


def index(folder: Path, cache_file: Path | None) -> CourseIndex:
    """The index of the course in a folder, from the cache while it holds, else built anew.

    Where the cache cannot be written the index is built each time. Raises LessonError when a
    script cannot be loaded.
    """
    stamps = _stamps(folder)
    kept = _read_cache(folder, cache_file, stamps) if cache_file else None
    if kept is not None:
        return kept
    built = _build(folder)
    if cache_file:
        _write_cache(built, cache_file, stamps)
    return built


def load_one(course: CourseIndex, lesson_id: str) -> Lesson:
    """One lesson of the course; its drawn sets may need all that is taught by then.

    Raises KeyError for an id that is not in the course, LessonError for a broken file.
    """
    path = course.folder / course.by_id[lesson_id].path
    return with_known(load_lesson(read_file(path), str(path)), taught(course, lesson_id))


def taught(course: CourseIndex, lesson_id: str) -> frozenset[str]:
    """The facts taught by a lesson and by those it comes after. Raises KeyError."""
    entry = course.by_id[lesson_id]
    chain = (course.by_id[one] for one in chain_of(entry.id, course.by_id))
    return frozenset(fact for one in chain for fact in one.new)


def check_file(path: Path, course: CourseIndex) -> tuple[Problem, ...]:
    """Every problem of a script that is to go into the course, or that is in it."""
    return check_script(read_script(path), course)


def check_script(script: Script, course: CourseIndex) -> tuple[Problem, ...]:
    """Every problem of a script that was read from a file, in the order of their places."""
    lesson = script.lesson
    if lesson is None:
        return script.problems
    others, known = _others(script, course), known_before(script, course)
    found = check_lesson(lesson, str(script.path), known, others, not script.problems)
    return tuple(sorted((*script.problems, *found), key=lambda one: (one.line, one.column)))


def known_before(script: Script, course: CourseIndex) -> frozenset[str]:
    """The facts taught before a script. For one of its own that names no lesson it comes `after`
    the whole course is taken as taught."""
    others = _others(script, course)
    after = script.lesson.after if script.lesson else None
    if after in others:
        return taught(course, str(after))
    is_its_own = len(others) == len(course.lessons)
    return frozenset(ALL_FACTS) if after is None and is_its_own else frozenset()


def _others(script: Script, course: CourseIndex) -> set[str]:
    """The ids of the course's lessons without the one in the script's own file."""
    path, folder = script.path, course.folder.resolve()
    names = path.resolve(), path.parent.resolve() / path.name
    return {one.id for one in course.lessons if folder / one.path not in names}


def _build(folder: Path) -> CourseIndex:
    draft = read_course(folder)
    entries = _entries(draft, folder)
    are_sound = not any(script.problems for script in draft.scripts)
    if draft.problems or not are_sound or len(entries) < len(draft.scripts):
        raise LessonError(every_problem(draft))
    return CourseIndex(folder, tuple(draft.units.values()), entries)


def _entries(draft: Draft, folder: Path) -> tuple[LessonEntry, ...]:
    """The lessons in order, without those that no chain from the first lesson leads to."""
    scripts = {script.lesson.id: script for script in draft.scripts if script.lesson}
    entries = []
    for one in in_order(tuple(draft.by_id.values())):
        script = scripts[one.id]
        path = script.path.relative_to(folder).as_posix()
        unit = draft.units.get(script.unit)
        entries.append(
            LessonEntry(one.id, one.title, path, unit.id if unit else "", one.after, one.new)
        )
    return tuple(entries)


def _stamps(folder: Path) -> Stamps:
    stamps = {}
    for path in sorted(folder.glob("*/*.yaml")):
        try:
            stat = path.stat()
        except OSError:
            continue  # Gone, or a link to nothing: reading it will say so.
        stamps[path.relative_to(folder).as_posix()] = (stat.st_size, stat.st_mtime_ns)
    return stamps


def _read_cache(folder: Path, cache_file: Path, stamps: Stamps) -> CourseIndex | None:
    """The index in the cache, or None when it is stale, damaged or not to be read."""
    try:
        if not cache_file.is_file():  # A pipe would be waited for.
            return None
        digest, _, body = cache_file.read_bytes().partition(b"\n")
    except OSError:
        return None
    if digest != _digest(body):
        return None
    kept = json.loads(body)
    if kept["version"] != _VERSION or kept["folder"] != str(folder):
        return None
    if {path: tuple(stamp) for path, stamp in kept["stamps"].items()} != stamps:
        return None
    units = tuple(Unit(**unit) for unit in kept["units"])
    lessons = tuple(LessonEntry(**{**one, "new": tuple(one["new"])}) for one in kept["lessons"])
    return CourseIndex(folder, units, lessons)


def _write_cache(course: CourseIndex, cache_file: Path, stamps: Stamps) -> None:
    """Keep the index; a disk that does not take it is no reason to stop."""
    content = {
        "version": _VERSION,
        "folder": str(course.folder),
        "stamps": stamps,
        "units": [asdict(unit) for unit in course.units],
        "lessons": [asdict(lesson) for lesson in course.lessons],
    }
    body = json.dumps(content).encode()
    fresh = cache_file.with_name(f"{cache_file.name}.{os.getpid()}")
    try:
        cache_file.parent.mkdir(parents=True, exist_ok=True)
        fresh.write_bytes(_digest(body) + b"\n" + body)
        fresh.replace(cache_file)
    except OSError:
        return


def _digest(body: bytes) -> bytes:
    return sha256(body).hexdigest().encode()
