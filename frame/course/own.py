"""A tutor's own lessons and agendas: which files there are, one read with its problems, and what
has changed.

Each kind lies in a folder of its own, checked as `lessons --check` would; none is of the course.
"""

import os
import re
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from frame.course.agenda import SUFFIXES, SUMS, Item, read_agenda, read_sums
from frame.course.checker import with_known
from frame.course.course import CourseIndex, check_script, known_before
from frame.course.draft import Script, read_file
from frame.course.lesson import Lesson
from frame.course.loader import read_lesson
from frame.course.problems import LessonError, Problem


@dataclass(frozen=True, slots=True)
class OwnFile:
    """A file as it was when it was read; `content` is None where it could not be. Of one with
    problems the `title` may be known all the same."""

    path: Path
    content: bytes | None = field(default=None, repr=False)
    title: str = ""
    problems: tuple[Problem, ...] = ()

    @property
    def has_changed(self) -> bool:
        """Whether the file is now another than it was. Its bytes are compared, for a time of
        change can be as coarse as two seconds, and some editors set it back."""
        return content_of(self.path) != self.content


@dataclass(frozen=True, slots=True)
class OwnLesson(OwnFile):
    """There is a lesson only where there is no problem."""

    lesson: Lesson | None = None
    known: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class OwnAgenda(OwnFile):
    """An agenda, or a column of sums, whose title is the file's name. There are items only where
    there is no problem."""

    items: tuple[Item, ...] = ()


def own_files(folder: Path, suffixes: tuple[str, ...] = SUFFIXES) -> tuple[Path, ...]:
    """The files in a folder whose names end so, by name and number; none where it cannot be looked
    into."""
    try:
        names = os.listdir(folder)
    except OSError:
        return ()
    own = (name for name in names if name.lower().endswith(suffixes) and name[0] != ".")
    files = (folder / name for name in sorted(own, key=_by_number))
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
        return OwnLesson(path, problems=error.problems)
    lesson, problems = read_lesson(content, str(path))
    script = Script(path, "", lesson, problems)
    problems = check_script(script, course)
    title = lesson.title if lesson else ""
    if lesson is None or problems:
        return OwnLesson(path, content, title, problems)
    known = known_before(script, course) | set(lesson.new)
    return OwnLesson(path, content, title, (), with_known(lesson, known), known)


def read_own_agenda(path: Path) -> OwnAgenda:
    """The agenda or the sums in a file, or every problem of it. Never raises for what the file
    is."""
    try:
        content = read_file(path)
    except LessonError as error:
        return OwnAgenda(path, problems=error.problems)
    if path.suffix.lower() == SUMS:
        items, problems = read_sums(content, str(path))
        return OwnAgenda(path, content, path.stem, problems, () if problems else items)
    agenda, problems = read_agenda(content, str(path))
    title, items = (agenda.title, agenda.items) if agenda else ("", ())
    return OwnAgenda(path, content, title, problems, () if problems else items)


def content_of(path: Path) -> bytes | None:
    """What is in a file, or None where it cannot be read."""
    try:
        return read_file(path)
    except LessonError:
        return None


def write_new(folder: Path, template: str, template_id: str, suffix: str = SUFFIXES[0]) -> Path:
    """Write the template under a name not taken, which ends so; the new file. The id in the
    template is what names of new files begin with. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    number = 1
    while True:
        name = template_id if number == 1 else f"{template_id}-{number}"
        path = folder / f"{name}{suffix}"
        try:
            stream = path.open("xb")
        except FileExistsError:
            number += 1
            continue
        try:
            with stream:
                stream.write(template.replace(template_id, name).encode())
        except OSError:
            with suppress(OSError):
                path.unlink()
            raise
        return path
