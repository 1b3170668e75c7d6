"""A marked sheet in words: each mark, the fault that cost most, and what to practise."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from frame.language.catalogue import Words
from frame.language.habits import off_by_text
from frame.language.numbers import grouped
from frame.language.printed import printed_parts
from frame.practice.exercises import Exercise
from frame.practice.families import family_of
from frame.sheets.marking import Answer, Mark, Marked
from frame.technique.reading import plain

_MOST_FAMILIES = 2
_NO_BREAK = "\u00a0"
"""Between a sign and its number."""
_MOST_SIGNS, _LEAST_PARTS = 40, 3
"""What is longer than so many signs is not told whole, unless it has no more parts than these."""


def answer_text(answer: Answer, words: Words) -> str:
    """A number, and what is left over where something is."""
    number = grouped(plain(answer.number))
    if not answer.rest:
        return number
    return words.text("marks.told.with_rest", number=number, rest=grouped(plain(answer.rest)))


def right_text(one: Mark, words: Words) -> str:
    """The right answer to a task."""
    result, rest = one.task.sum.result, one.task.sum.remainder
    return answer_text(Answer(result, rest or Decimal(0)), words)


def task_text(task: Exercise, words: Words) -> str:
    """What a task asks; of a long column its beginning and its last number."""
    parts = [one.replace(" ", _NO_BREAK) for one in printed_parts(task.sum, words)]
    text = " ".join(parts)
    if len(text) <= _MOST_SIGNS or len(parts) <= _LEAST_PARTS:
        return text
    return f"{parts[0]} {parts[1]} … {parts[-1]}"


def mark_text(one: Mark, words: Words) -> str:
    """What is told of one task; of a wrong one the right answer beside what was written."""
    right = right_text(one, words)
    if one.is_right:
        return words.text("marks.told.right", number=one.number, right=right)
    if one.answer is None:
        return words.text("marks.told.none", number=one.number, right=right)
    written = answer_text(one.answer, words)
    return words.text("marks.told.wrong", number=one.number, right=right, written=written)


def written_text(one: Mark, words: Words) -> str:
    """What was written for a task."""
    if one.answer is None:
        return words.text("marks.told.nothing")
    return words.text("marks.told.written", written=answer_text(one.answer, words))


def fault_text(one: Mark, words: Words) -> str:
    """What was likely behind a wrong answer, as a sentence, else what it is off by; or nothing."""
    if one.behind is None:
        return off_by_text(one.off_by, words)
    habit = one.behind.site.habit
    return words.text("marks.told.fault", fault=words.text(f"report.habit.{habit}.parent"))


def fault_name(one: Mark, words: Words) -> str:
    """The same in a few words, as tutors say it."""
    if one.behind is None:
        return ""
    habit = one.behind.site.habit
    return words.text(f"report.habit.{habit}.tutor")


def summary_lines(marked: Marked, words: Words) -> Iterator[str]:
    """What an adult is told of the whole: the marks of a paper, the fault that cost most, and what
    to practise. What was not answered tells of neither, where answers were given."""
    if paper := " ".join(_of_paper(marked, words)):
        yield paper
    if not marked.wrong:
        yield words.text("marks.told.all_right")
        return
    has_answers = any(one.answer is not None for one in marked.marks)
    wrong = [one for one in marked.wrong if one.answer is not None or not has_answers]
    faults = Counter(filter(None, (fault_name(one, words) for one in wrong)))
    for fault, count in faults.most_common(1):
        yield words.text("marks.told.most", fault=fault, count=count, all=len(wrong))
    missed = Counter(family_of(one.task.facts) for one in wrong)
    names = [words.text(f"family.{family}") for family, _ in missed.most_common(_MOST_FAMILIES)]
    if names:
        yield words.text("marks.told.practise", families="; ".join(names))


def _of_paper(marked: Marked, words: Words) -> Iterator[str]:
    """Of a sheet that has marks: how many, and whether that is enough."""
    if marked.most == len(marked.marks) and marked.is_passed is None:
        return
    yield words.text("marks.told.marks", marks=marked.points, most=marked.most)
    if marked.sheet.pass_marks:
        yield words.text("marks.told.enough", enough=marked.sheet.pass_marks)
    if marked.is_passed is not None:
        yield words.text("marks.told.passed" if marked.is_passed else "marks.told.not_passed")
    if marked.rank:
        yield words.text("marks.told.rank", rank=marked.rank)
