"""`lessons`: the course, and the problems of lesson scripts."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from frame.commands.output import Json, columns, need_file, write_json
from frame.course.agenda import SUMS, is_agenda, read_agenda, read_sums
from frame.course.course import CourseIndex, check_file, index, load_one, taught
from frame.course.draft import UNIT_FILE, read_file, read_unit
from frame.course.minutes import Playing, Reading
from frame.course.problems import LessonError, Problem, problem_text, read_words
from frame.language.catalogue import Words
from frame.language.speech import Clips
from frame.resources import PROBLEM_WORDS, VOICE
from frame.view.motion import SHOW_SECONDS


def show_course(folder: Path, is_json: bool, words: Words) -> int:
    """The units and lessons go to standard output; 0, or 1 when the course has problems."""
    try:
        course = index(folder, None)
    except LessonError as error:
        return _show_problems(error.problems, is_json, words)
    minutes = _minutes(course, words)
    if is_json:
        write_json(_course_shape(course, minutes))
    else:
        print(_course_text(course, minutes, words))
    return 0


def _minutes(course: CourseIndex, words: Words) -> Mapping[str, float]:
    """How long each lesson takes, by its id."""
    playing = Playing(words, Reading(Clips(VOICE)), SHOW_SECONDS)
    seconds = {
        one.id: playing.seconds(load_one(course, one.id), taught(course, one.id))
        for one in course.lessons
    }
    return {lesson: round(taken / 60, 1) for lesson, taken in seconds.items()}


def _course_shape(course: CourseIndex, minutes: Mapping[str, float]) -> Json:
    """The course as JSON."""
    return {
        "units": [
            {
                "id": unit.id,
                "title": unit.title,
                "lessons": [
                    {
                        "id": one.id, "title": one.title, "after": one.after,
                        "minutes": minutes[one.id], "new": list(one.new),
                    }
                    for one in course.lessons_of(unit.id)
                ],
            }
            for unit in course.units
        ]
    }  # fmt: skip


def _course_text(course: CourseIndex, minutes: Mapping[str, float], words: Words) -> str:
    rows = [words.listed("cli.lessons.heads")]
    for unit in course.units:
        for place, one in enumerate(course.lessons_of(unit.id)):
            name, long = "" if place else unit.title, str(minutes[one.id])
            rows.append((name, one.id, one.title, long, ", ".join(one.new)))
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
