"""A sheet that was worked on paper, marked by its answers or by the numbers of the wrong ones."""

import re
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.practice.suspected import MOST_PAST, Suspected, suspected
from frame.practice.suspects import Given
from frame.sheets.papers import is_passed, rank
from frame.sheets.recipe import Kind
from frame.sheets.sheet import Sheet
from frame.technique.conventions import USUAL, Conventions
from frame.technique.planning import fits_a_frame, plan_of
from frame.technique.reading import NumberError, parse_number

MOST_DIGITS = 21
"""Digits of an answer, as the longest product has, and of what is left over."""
MOST_STEPS = 200
"""Steps of all work that is weighed on a sheet; to weigh a hundred takes about half a second."""
_LONG = 100
"""What a shorter answer is off by is seen at a glance."""
_REST = re.compile(r"\s*(?:[rR]|\s)\s*")
"""Between an answer and what is left over: 3 r 2, or 3 2."""
_GROUPED = re.compile(r"(?<=\d)[,'’\u202f\u00a0](?=\d{3}(?!\d))")


class LongError(NumberError):
    """A number with more digits than any answer has."""

    def __init__(self, digits: int) -> None:
        super().__init__(f"a number of {digits} digits; expected at most {MOST_DIGITS}")
        self.digits = digits


class Answer(NamedTuple):
    """What stands on paper: a number, and what is left over where that was written."""

    number: Decimal
    rest: Decimal | None = None


class Mark(NamedTuple):
    """A task, by its number from 1, with its answer, None where there is none or only that it was
    wrong is told; whether it is right, and what was likely behind it."""

    number: int
    task: Exercise
    answer: Answer | None
    is_right: bool
    behind: Suspected | None = None

    @property
    def off_by(self) -> Decimal | None:
        """By how much a wrong answer is too much (below 0: too little) where that is one digit in
        one place of a long number, as one carry or one bead makes it; None where it is not."""
        right = self.task.sum.result
        if self.answer is None or abs(right) < _LONG:
            return None
        difference = self.answer.number - right
        is_one_digit = len(difference.normalize().as_tuple().digits) == 1
        return difference if difference and is_one_digit else None


class Marked(NamedTuple):
    """A sheet with a mark for each task, how many marks that is, and of how many."""

    sheet: Sheet
    marks: tuple[Mark, ...]
    points: int
    most: int

    @property
    def wrong(self) -> tuple[Mark, ...]:
        """Those that are not right."""
        return tuple(one for one in self.marks if not one.is_right)

    @property
    def is_passed(self) -> bool | None:
        """Whether a paper has marks enough; None where none are asked for."""
        return is_passed(self.sheet, [one.is_right for one in self.marks])

    @property
    def rank(self) -> str:
        """The rank of a dan that is reached; empty where none is, or there are none."""
        is_paper = self.sheet.recipe.kind is Kind.PAPER
        return rank(self.sheet, [one.is_right for one in self.marks]) if is_paper else ""


def answer_of(text: str) -> Answer | None:
    """The answer that is written in a text; None where nothing is. Raises NumberError for what is
    no number, LongError for one with too many digits.

    >>> answer_of("1,234"), answer_of("3 r 2"), answer_of("−5").number
    (Answer(number=Decimal('1234'), rest=None), Answer(number=Decimal('3'), rest=Decimal('2')), \
Decimal('-5'))
    """
    if not text.strip():
        return None
    parts = _REST.split(_GROUPED.sub("", text.strip()))
    if len(parts) > 2:
        raise NumberError(f"no answer: {text!r}; expected a number, or one with what is left over")
    return Answer(*map(_number, parts))


def _number(text: str) -> Decimal:
    text = text.replace("−", "-")
    if text.isascii() and (digits := sum(map(str.isdigit, text))) > MOST_DIGITS:
        raise LongError(digits)
    number = parse_number(text.removeprefix("-"))
    return -number if text.startswith("-") else number


def is_right(task: Exercise, answer: Answer) -> bool:
    """Whether it answers a task, with what is left over where the task has something."""
    rest = task.sum.remainder or Decimal(0)
    return answer.number == task.sum.result and (answer.rest or Decimal(0)) == rest


def mark_at_once(sheet: Sheet, answers: Sequence[Answer | None]) -> Marked:
    """The sheet marked by the answers to its tasks, in order; those that lack at its end are none.
    What was behind a wrong one is not asked, which can take long."""
    padded = [*answers, *[None] * (len(sheet.tasks) - len(answers))]
    marks = [
        Mark(number, task, answer, answer is not None and is_right(task, answer))
        for number, (task, answer) in enumerate(zip(sheet.tasks, padded, strict=True), 1)
    ]
    return _marked(sheet, marks)


def mark(
    sheet: Sheet, answers: Sequence[Answer | None], conventions: Conventions = USUAL
) -> Marked:
    """The same, with what was behind a wrong one, weighed with the answers before it, until all
    that is weighed has MOST_STEPS: a column of ten rows of ten digits has a hundred. Nothing is
    known of work that no frame has rods for."""
    past: list[Given] = []
    marks, weighed, steps = [], 0, 0
    for one in mark_at_once(sheet, answers).marks:
        task, answer, behind = one.task, one.answer, None
        if answer is not None and fits_a_frame(task.sum, conventions):
            if answer.number != task.sum.result and steps < MOST_STEPS:
                some = [*past[weighed:][-MOST_PAST:], Given(task.sum, answer.number)]
                steps += sum(len(plan_of(given.calculation, conventions).steps) for given in some)
                weighed = len(past) + 1
                behind = suspected(task.sum, answer.number, past, conventions)
            past = [given._replace(items_ago=given.items_ago + 1) for given in past]
            past.append(Given(task.sum, answer.number))
        marks.append(one._replace(behind=behind))
    return _marked(sheet, marks)


def mark_wrong(sheet: Sheet, wrong: Iterable[int]) -> Marked:
    """The sheet marked by the numbers of the tasks that are wrong; all others are right."""
    numbers = frozenset(wrong)
    marks = [
        Mark(number, task, None, number not in numbers)
        for number, task in enumerate(sheet.tasks, 1)
    ]
    return _marked(sheet, marks)


def _marked(sheet: Sheet, marks: Sequence[Mark]) -> Marked:
    worth = [section.marks or 1 for section in sheet.sections for _ in section.tasks]
    points = sum(one for one, of in zip(worth, marks, strict=True) if of.is_right)
    return Marked(sheet, tuple(marks), points, sum(worth))
