"""`lessons`: the course, and the problems of lesson scripts."""

from collections.abc import Sequence
from pathlib import Path

from frame.commands.output import Json, columns, need_file, write_json
from frame.course.agenda import SUMS, is_agenda, read_agenda, read_sums
from frame.course.course import CourseIndex, check_file, index
from frame.course.draft import UNIT_FILE, read_file, read_unit
from frame.course.problems import LessonError, Problem, problem_text, read_words
from frame.language.catalogue import Words
from frame.resources import PROBLEM_WORDS


def show_course(folder: Path, is_json: bool, words: Words) -> int:
    """The units and lessons go to standard output; 0, or 1 when the course has problems."""
    try:
        course = index(folder, None)
    except LessonError as error:
        return _show_problems(error.problems, is_json, words)
    if is_json:
        write_json(course_shape(course))
    else:
        print(_course_text(course, words))
    return 0


def course_shape(course: CourseIndex) -> Json:
    """The course as JSON."""
    return {
        "units": [
            {
                "id": unit.id,
                "title": unit.title,
                "lessons": [
                    {"id": one.id, "title": one.title, "after": one.after, "new": list(one.new)}
                    for one in course.lessons_of(unit.id)
                ],
            }
            for unit in course.units
        ]
    }


def _course_text(course: CourseIndex, words: Words) -> str:
    rows = [words.listed("cli.lessons.heads")]
    for unit in course.units:
        for place, one in enumerate(course.lessons_of(unit.id)):
            new = ", ".join(one.new)
            rows.append(("" if place else unit.title, one.id, one.title, new))
    return columns(rows)


def check(paths: Sequence[Path], folder: Path, is_json: bool, words: Words) -> int:
    """Every problem of lessons, units, agendas and sums goes to standard output; 0 when there is
    none, else 1.

    Raises Refusal for a path that is no file.
    """
    for path in paths:
        need_file(path, words.text("cli.lessons.a_file"), ".yaml", words)
    try:
        course = index(folder, None)
    except LessonError as error:
        return _show_problems(_nearest(error.problems, paths), is_json, words)
    problems = [problem for path in paths for problem in _problems(path, course)]
    return _show_problems(problems, is_json, words)


def _problems(path: Path, course: CourseIndex) -> tuple[Problem, ...]:
    """Every problem of a file: of a unit and of a column of sums by its name, of an agenda or a
    lesson by its keys."""
    if path.name == UNIT_FILE:
        return read_unit(path)[1]
    try:
        content = read_file(path)
    except LessonError as error:
        return error.problems
    if path.suffix.lower() == SUMS:
        return read_sums(content, str(path))[1]
    if is_agenda(content):
        return read_agenda(content, str(path))[1]
    return check_file(path, course)


def _nearest(problems: Sequence[Problem], paths: Sequence[Path]) -> Sequence[Problem]:
    """With the course itself broken: the problems of the files asked for, or else of the rest."""
    asked = {path.resolve() for path in paths}
    return [one for one in problems if Path(one.file).resolve() in asked] or problems


def _show_problems(problems: Sequence[Problem], is_json: bool, words: Words) -> int:
    wording = read_words(PROBLEM_WORDS)
    said = [problem_text(problem, wording) for problem in problems]
    if is_json:
        shapes = [
            {"file": one.file, "line": one.line, "column": one.column, "says": text}
            for one, text in zip(problems, said, strict=True)
        ]
        write_json({"problems": shapes})
    else:
        print("\n".join(said) or words.text("cli.lessons.clean"))
    return 1 if problems else 0
