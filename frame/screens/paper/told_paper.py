"""What a learner is told of a paper that was handed in: its marks beside those that are enough, its
sections, its time, what cost most, and what to practise."""

from collections import Counter
from collections.abc import Iterator

from frame.course.paper import HandedIn
from frame.language.catalogue import Words
from frame.language.habits import habit_line
from frame.language.lines import Line
from frame.language.wording import Listener
from frame.practice.families import Family, family_of
from frame.screens.paper.dots import minutes_line
from frame.screens.paper.graded import PARTS
from frame.sheets.grades import GradedSection, grade
from frame.sheets.marking import Mark, Marked
from frame.sheets.papers import section_scores

_APART = "  ·  "
_MOST_FAMILIES = 2
_FEWEST = 2
"""What was behind fewer answers is told beside them alone."""


def score_line(handed: HandedIn, words: Words) -> Line:
    """The marks, and beside them how many are enough; of a warm-up how many are right."""
    marked = handed.marked
    right, count = len(marked.marks) - len(marked.wrong), len(marked.marks)
    if not handed.is_paper:
        return words.line("results.title", right=right, all=count)
    enough = enough_for(handed)
    if enough:
        return words.line(
            "paper.score_enough", marks=marked.points, most=marked.most, enough=enough
        )
    return words.line("paper.score", marks=marked.points, most=marked.most)


def enough_for(handed: HandedIn) -> int:
    """The marks that are enough for all of it, 0 where the grade says none, or each section has its
    own."""
    sheet = handed.sheet
    alone = sheet.sections[0].pass_marks if len(sheet.sections) == 1 else 0
    return sheet.pass_marks or alone


def told_lines(handed: HandedIn, marked: Marked, words: Words, listener: Listener) -> Iterator[str]:
    """What is told below the marks, a line each. `marked` is the whole paper, with what was behind
    its answers as far as that is known."""
    if handed.is_paper:
        yield from filter(None, (_of_sections(handed, words), _of_time(handed, words)))
    if count := sum(one.answer is None for one in marked.marks):
        yield words.text("paper.told.none", count=count)
    wrong = answered_wrong(marked)
    if wrong:
        yield from _of_fault(wrong, words, listener)
    elif not marked.wrong:
        yield words.text("paper.told.all_right")


def _of_sections(handed: HandedIn, words: Words) -> str:
    """The marks of each section, where there are several, and the rank that is reached."""
    sheet, marked = handed.sheet, handed.marked
    told = [words.text("marks.told.rank", rank=marked.rank)] if marked.rank else []
    if len(sheet.sections) > 1:
        scores = section_scores(sheet, [one.is_right for one in marked.marks])
        sections = grade(sheet.recipe.grade).sections
        parts = (
            _of_section(section, score, words)
            for section, score in zip(sections, scores, strict=True)
        )
        told.insert(0, _APART.join(parts))
    return _APART.join(told)


def _of_section(section: GradedSection, score: int, words: Words) -> str:
    key = "paper.told.part_enough" if section.pass_marks else "paper.told.part"
    return words.text(
        key, part=words.text(PARTS[section.part]), marks=score, most=section.full_marks,
        enough=section.pass_marks,
    )  # fmt: skip


def _of_time(handed: HandedIn, words: Words) -> str:
    """By the clock: how long it took, and what came too late to count."""
    told = []
    if handed.is_clocked:
        told.append(minutes_line(handed.seconds, handed.pauses, words).show)
    whole = handed.marked_whole.points
    if whole > handed.marked.points:
        told.append(words.text("paper.told.late", minutes=round(handed.sheet.minutes), marks=whole))
    return " ".join(told)


def answered_wrong(marked: Marked) -> tuple[Mark, ...]:
    """The tasks with an answer that is not right."""
    return tuple(one for one in marked.wrong if one.answer is not None)


def _of_fault(wrong: tuple[Mark, ...], words: Words, listener: Listener) -> Iterator[str]:
    """What cost most, where it was behind several answers."""
    behind = [one.behind.site for one in wrong if one.behind is not None]
    for habit, count in Counter(site.habit for site in behind).most_common(1):
        if count < _FEWEST:
            return
        site = next(one for one in behind if one.habit is habit)
        rule = habit_line(site, words, listener).show
        yield words.text("paper.told.most", rule=rule, count=count, all=len(wrong))


def fault_line(one: Mark, words: Words, listener: Listener) -> str:
    """The rule that was likely forgotten in a wrong answer; empty where none is likely."""
    return "" if one.behind is None else habit_line(one.behind.site, words, listener).show


def missed_families(marked: Marked) -> list[Family]:
    """The families of the answers that are wrong, the one most often missed first."""
    missed = Counter(family_of(one.task.facts) for one in answered_wrong(marked))
    return [family for family, _ in missed.most_common()]


def practise_lines(marked: Marked, words: Words) -> Iterator[str]:
    """The families that were missed most often, where any were."""
    if missed := missed_families(marked)[:_MOST_FAMILIES]:
        names = [words.text(f"family.{family}") for family in missed]
        yield words.text("marks.told.practise", families="; ".join(names))
