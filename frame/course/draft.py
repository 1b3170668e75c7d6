"""A course in draft: its files read as far as they can be, and every problem in them."""

import os
import re
import stat
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from frame.course.checker import check_lesson
from frame.course.lesson import Lesson, Mark, Unit
from frame.course.loader import load_unit, read_lesson
from frame.course.nodes import MOST_BYTES
from frame.course.problems import LessonError, Problem, Report

UNIT_FILE = "unit.yaml"
LESSONS_IN_UNIT = 5
"""A unit is a rod on home: four earth beads, and the heaven bead for its last lesson."""

_FIRST = Mark(1, 1)
_KINDS = {stat.S_IFDIR: "folder", stat.S_IFIFO: "pipe", stat.S_IFSOCK: "socket"}


class Follower(Protocol):
    """What comes after something: a lesson, or its entry in an index."""

    @property
    def after(self) -> str | None:
        """The id of the one before, or None."""


@dataclass(frozen=True, slots=True)
class Script:
    """A lesson file as far as it could be read. `unit` is the name of its folder."""

    path: Path
    unit: str
    lesson: Lesson | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Draft:
    """A course as far as it could be read: units by folder, and the scripts."""

    units: Mapping[str, Unit]
    scripts: tuple[Script, ...]
    problems: tuple[Problem, ...]

    @property
    def lessons(self) -> tuple[Lesson, ...]:
        """The lessons that could be read, in the order of their files."""
        return tuple(script.lesson for script in self.scripts if script.lesson)

    @property
    def by_id(self) -> dict[str, Lesson]:
        """The lessons by id; of two with the same id, the first."""
        return {lesson.id: lesson for lesson in reversed(self.lessons)}


def read_course(folder: Path) -> Draft:
    """The course as far as it can be read, its chain of lessons checked but none played."""
    units: dict[str, Unit] = {}
    scripts: list[Script] = []
    problems: list[Problem] = []
    for unit_file in sorted(folder.glob(f"*/{UNIT_FILE}"), key=_by_number):
        unit, found = read_unit(unit_file)
        problems += found
        if unit is not None:
            units[unit_file.parent.name] = unit
    for path in lesson_files(folder):
        scripts.append(read_script(path))
    if not scripts:
        problems.append(Problem(str(folder), 1, 1, "no-lessons"))
    draft = Draft(units, tuple(scripts), ())
    problems += _unit_problems(draft, folder)
    problems += _chain_problems(draft)
    return Draft(units, draft.scripts, tuple(problems))


def read_script(path: Path) -> Script:
    """The lesson in a file as far as it can be read."""
    try:
        lesson, problems = read_lesson(read_file(path), str(path))
    except LessonError as error:
        lesson, problems = None, error.problems
    return Script(path, path.parent.name, lesson, problems)


def read_file(path: Path) -> bytes:
    """The content of a file, cut where it is too long to be taken, in UTF-8 where the file says by
    its first bytes that it is in UTF-16, as some editors write. What is no file, as a pipe that
    nobody writes to, is never waited for. Raises LessonError."""
    report = Report(str(path))
    try:
        if kind := _kind_but_file(path):
            report.add(_FIRST, "no-file", kind=kind)
        else:
            with open(path, "rb", opener=_without_waiting) as stream:
                return _in_utf8(stream.read(MOST_BYTES + 1) or b"")  # None where it would wait.
    except OSError as error:
        report.add(_FIRST, "unreadable", reason=error.strerror or "")
    except ValueError:  # A NUL, or half a letter.
        report.add(_FIRST, "file-name")
    raise LessonError(report.problems)


def _in_utf8(content: bytes) -> bytes:
    is_other = content.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) and len(content) <= MOST_BYTES
    return content.decode("utf-16", "replace").encode() if is_other else content


def _kind_but_file(path: Path) -> str | None:
    """The name of the kind of thing that lies there, None for a file. Raises OSError; ValueError
    for a name that nothing can have."""
    kind = stat.S_IFMT(path.stat().st_mode)
    return None if kind == stat.S_IFREG else _KINDS.get(kind, "device")


def _without_waiting(path: str, flags: int) -> int:
    """Open what is a file, unless it has become a pipe by now."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def read_unit(unit_file: Path) -> tuple[Unit | None, tuple[Problem, ...]]:
    """A unit, None where it cannot be read, and every problem: of its
    file, and that more or fewer lessons lie beside it than a unit has."""
    unit, problems = None, tuple(_size_problems(unit_file))
    try:
        unit = load_unit(read_file(unit_file), str(unit_file))
    except LessonError as error:
        problems = (*error.problems, *problems)
    return unit, problems


def _size_problems(unit_file: Path) -> Iterator[Problem]:
    count = sum(path.name != UNIT_FILE for path in unit_file.parent.glob("*.yaml"))
    if count != LESSONS_IN_UNIT:
        facts = {"count": count, "most": LESSONS_IN_UNIT}
        yield Problem(str(unit_file), 1, 1, "unit-lessons", facts)


def lesson_files(folder: Path) -> tuple[Path, ...]:
    """The lesson files of a course, by the numbers before their names."""
    found = (path for path in folder.glob("*/*.yaml") if path.name != UNIT_FILE)
    return tuple(sorted(found, key=_by_number))


def _by_number(path: Path) -> tuple[tuple[int, str], ...]:
    return tuple(_numbered(name) for name in (path.parent.name, path.name))


def _numbered(name: str) -> tuple[int, str]:
    digits = re.match(r"[0-9]{1,9}", name)
    return (int(digits[0]) if digits else 10**9, name)


def every_problem(draft: Draft) -> tuple[Problem, ...]:
    """The problems of a draft with those found in play, in the order of files and places."""
    found = list(draft.problems)
    ids = Counter(lesson.id for lesson in draft.lessons)
    by_id = draft.by_id
    for script in draft.scripts:
        found += script.problems
        if lesson := script.lesson:
            others = set((ids - Counter([lesson.id])).keys())
            taught = taught_before(lesson, by_id)
            whole = not script.problems
            found += check_lesson(lesson, str(script.path), taught, others, whole)
    order = {str(script.path): at for at, script in enumerate(draft.scripts)}
    return tuple(sorted(found, key=lambda p: (order.get(p.file, -1), p.line, p.column)))


def taught_before(lesson: Lesson, by_id: Mapping[str, Lesson]) -> frozenset[str]:
    """The facts taught by the lessons that a lesson comes after."""
    before = (one for one in chain_of(lesson.after, by_id) if one != lesson.id)
    return frozenset(fact for one in before for fact in by_id[one].new)


def chain_of(lesson_id: str | None, by_id: Mapping[str, Follower]) -> tuple[str, ...]:
    """A lesson's id and the ids of those it comes after, each once; unknown ids are left out."""
    chain: dict[str, None] = {}
    while lesson_id and lesson_id in by_id and lesson_id not in chain:
        chain[lesson_id] = None
        lesson_id = by_id[lesson_id].after
    return tuple(chain)


def _unit_problems(draft: Draft, folder: Path) -> Iterator[Problem]:
    for name in dict.fromkeys(script.unit for script in draft.scripts):
        unit_file = folder / name / UNIT_FILE
        if name not in draft.units and not unit_file.exists():
            yield Problem(str(unit_file), 1, 1, "unit-missing")
    seen: set[str] = set()
    for name, unit in draft.units.items():
        if unit.id in seen:
            yield Problem(str(folder / name / UNIT_FILE), 1, 1, "unit-taken", {"found": unit.id})
        seen.add(unit.id)


def _chain_problems(draft: Draft) -> Iterator[Problem]:
    """Lessons besides the first that come after none, and rings of lessons."""
    by_id = draft.by_id
    known: set[str] = set()
    has_first = False
    for script in draft.scripts:
        lesson = script.lesson
        if lesson is None:
            continue
        if lesson.after is None:
            if has_first:
                yield _at(script, "lesson", "after-missing")
            has_first = True
            continue
        chain = chain_of(lesson.id, by_id)
        last = by_id[chain[-1]].after
        if last == lesson.id != lesson.after and not known & set(chain):
            known |= set(chain)
            yield _at(script, "after", "after-ring", ring=" - ".join(chain))


def _at(script: Script, key: str, code: str, **facts: str) -> Problem:
    mark = script.lesson.marks[key] if script.lesson else _FIRST
    return Problem(str(script.path), mark.line, mark.column, code, dict(facts))
