"""A tutor's own lessons: which files there are, one read with its problems, and what has changed.

They lie in one folder, each checked as `lessons --check` would, and none is part of the course.
"""

import os
import re
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from frame.course.checker import with_known
from frame.course.course import CourseIndex, check_script, known_before
from frame.course.draft import Script, read_file
from frame.course.lesson import Lesson
from frame.course.loader import read_lesson
from frame.course.problems import LessonError, Problem

SUFFIX = ".yaml"
TEMPLATE_ID = "my-lesson"
"""The id in the template, and what the names of new files begin with."""


@dataclass(frozen=True, slots=True)
class OwnLesson:
    """A file as it was when it was read; `content` is None where it could not be. There is a
    lesson only where there is no problem; `title` may be known all the same."""

    path: Path
    content: bytes | None = field(repr=False)
    title: str
    lesson: Lesson | None
    known: frozenset[str]
    problems: tuple[Problem, ...]

    @property
    def has_changed(self) -> bool:
        """Whether the file is now another than it was. Its bytes are compared, for a time of
        change can be as coarse as two seconds, and some editors set it back."""
        return content_of(self.path) != self.content


def own_files(folder: Path) -> tuple[Path, ...]:
    """The lesson files in a folder, by name and number; none where it cannot be looked into."""
    try:
        names = os.listdir(folder)
    except OSError:
        return ()
    lessons = (name for name in names if name.lower().endswith(SUFFIX) and name[0] != ".")
    files = (folder / name for name in sorted(lessons, key=_by_number))
    return tuple(path for path in files if os.path.isfile(path))


def _by_number(name: str) -> tuple[tuple[int, str], ...]:
    """Text and numbers by turns, so that 2 comes before 10; without the ending, so that a name
    comes before longer ones."""
    parts = re.split(r"([0-9]{1,9})", os.path.splitext(name)[0].casefold())
    return tuple((int(part), "") if at % 2 else (0, part) for at, part in enumerate(parts))


def read_own(path: Path, course: CourseIndex) -> OwnLesson:
    """The lesson in a file, or every problem of it. Never raises for what the file is."""
    try:
        content = read_file(path)
    except LessonError as error:
        return OwnLesson(path, None, "", None, frozenset(), error.problems)
    lesson, problems = read_lesson(content, str(path))
    script = Script(path, "", lesson, problems)
    problems = check_script(script, course)
    title = lesson.title if lesson else ""
    if lesson is None or problems:
        return OwnLesson(path, content, title, None, frozenset(), problems)
    known = known_before(script, course) | set(lesson.new)
    return OwnLesson(path, content, title, with_known(lesson, known), known, ())


def content_of(path: Path) -> bytes | None:
    """What is in a file, or None where it cannot be read."""
    try:
        return read_file(path)
    except LessonError:
        return None


def write_new(folder: Path, template: str) -> Path:
    """Write the template under a name not taken; the new file. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    number = 1
    while True:
        name = TEMPLATE_ID if number == 1 else f"{TEMPLATE_ID}-{number}"
        path = folder / f"{name}{SUFFIX}"
        try:
            stream = path.open("xb")
        except FileExistsError:
            number += 1
            continue
        try:
            with stream:
                stream.write(template.replace(TEMPLATE_ID, name).encode())
        except OSError:
            with suppress(OSError):
                path.unlink()
            raise
        return path
