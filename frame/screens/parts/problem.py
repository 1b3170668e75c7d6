"""A problem of a tutor's file, or of what was typed, as it is told in the window."""

from dataclasses import replace
from functools import cache

from frame.course.problems import Problem, Wording, problem_text, read_words
from frame.course.typed import TypedSum
from frame.language.catalogue import Words
from frame.resources import PROBLEM_WORDS
from frame.screens.parts.fitting import short_name
from frame.technique.expression import ExpressionError, parse_calculation


@cache
def _wording() -> Wording:
    return read_words(PROBLEM_WORDS)


def problem_line(problem: Problem) -> str:
    """The problem as `lessons --check` words it, with the file's name alone; of pasted text, which
    has no file, line and column alone."""
    named = replace(problem, file=short_name(problem.file))
    return problem_text(named, _wording()).removeprefix(":")


def refusal_line(typed: TypedSum, words: Words) -> str:
    """Why what was typed cannot be worked: what stands where it stops being a sum, as the command
    line words it, or else the problem that a file with it would have, without its place."""
    try:
        parse_calculation(typed.text)
    except ExpressionError as error:
        found = f"'{error.found}'" if error.found else words.text("cli.the_end")
        expected = words.text(f"cli.expected.{error.expected}")
        return words.text("board.refused", found=found, expected=expected)
    problem = typed.problem
    if problem is None:
        return ""
    said = problem_line(problem).split(" ", 1)[1]
    return f"{said[:1].upper()}{said[1:]}."
