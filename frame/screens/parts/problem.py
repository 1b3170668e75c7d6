"""A problem of a tutor's file, as it is told in the window."""

from dataclasses import replace
from functools import cache

from frame.course.problems import Problem, Wording, problem_text, read_words
from frame.resources import PROBLEM_WORDS
from frame.screens.parts.fitting import short_name


@cache
def _wording() -> Wording:
    return read_words(PROBLEM_WORDS)


def problem_line(problem: Problem) -> str:
    """The problem as `lessons --check` words it, with the file's name alone; of pasted text, which
    has no file, line and column alone."""
    named = replace(problem, file=short_name(problem.file))
    return problem_text(named, _wording()).removeprefix(":")
