"""What a learner is told of a paper that was handed in: its marks beside those that are enough, its
sections, its time, what cost most, and what to practise."""

from collections import Counter
from collections.abc import Iterator

from frame.course.paper import HandedIn
from frame.language.catalogue import Words
from frame.language.habits import habit_line, off_by_text
from frame.language.lines import Line
from frame.language.wording import Listener
from frame.practice.families import Family, family_of
from frame.screens.paper.dots import minutes_line
from frame.screens.paper.graded import PARTS
from frame.sheets.grades import GradedSection, grade
from frame.sheets.marking import Mark, Marked
from frame.sheets.papers import section_scores

_APART = "\u00a0· "
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


def told_lines(
    handed: HandedIn, marked: Marked, words: Words, listener: Listener, *, is_weighed: bool
) -> Iterator[Line]:
    """What is told below the marks, a line each. `marked` is the whole paper, with what was behind
    its answers once all `is_weighed`."""
    yield Line.joined(_of_tasks(handed, marked, words))
    if handed.is_paper:
        yield from _of_sections(handed, words)
        yield from _of_late(handed, words)
    if is_weighed and answered_wrong(marked):
        yield most_line(marked, words, listener)


def _of_tasks(handed: HandedIn, marked: Marked, words: Words) -> Iterator[Line]:
    """How many tasks are right, how many are not, and by the clock how long all took."""
    wrong, count = len(answered_wrong(marked)), len(marked.marks)
    none = len(marked.wrong) - wrong
    if right := count - len(marked.wrong):
        yield words.line("paper.right", count=right)
    if not marked.wrong:
        yield words.line("paper.all_right")
    if wrong:
        yield words.line("paper.mend", count=wrong)
    if none:
        yield words.line("paper.none", count=none)
    if handed.is_paper and handed.is_clocked:
        yield minutes_line(handed.seconds, handed.pauses, words)


def _of_sections(handed: HandedIn, words: Words) -> Iterator[Line]:
    """The marks of each section, where there are several, and the rank that is reached."""
    sheet, marked = handed.sheet, handed.marked
    told = []
    if len(sheet.sections) > 1:
        scores = section_scores(sheet, [one.is_right for one in marked.marks])
        sections = grade(sheet.recipe.grade).sections
        told += [
            _of_section(section, score, words)
            for section, score in zip(sections, scores, strict=True)
        ]
    if marked.rank:
        told.append(words.line("paper.rank", rank=marked.rank))
    if told:
        yield Line.joined(told, _APART)


def _of_section(section: GradedSection, score: int, words: Words) -> Line:
    key = "paper.part_enough" if section.pass_marks else "paper.part"
    return words.line(
        key, part=words.line(PARTS[section.part]), marks=score, most=section.full_marks,
        enough=section.pass_marks,
    )  # fmt: skip


def _of_late(handed: HandedIn, words: Words) -> Iterator[Line]:
    """What came too late to count."""
    whole = handed.marked_whole.points
    if whole > handed.marked.points:
        yield words.line("paper.late", minutes=round(handed.sheet.minutes), marks=whole)


def answered_wrong(marked: Marked) -> tuple[Mark, ...]:
    """The tasks with an answer that is not right."""
    return tuple(one for one in marked.wrong if one.answer is not None)


def most_line(marked: Marked, words: Words, listener: Listener) -> Line:
    """What cost most of the answers that are wrong: a rule that was behind several of them, else
    the family that cost most marks."""
    wrong = answered_wrong(marked)
    sites = [one.behind.site for one in wrong if one.behind is not None]
    for habit, count in Counter(site.habit for site in sites).most_common(1):
        if count >= _FEWEST:
            site = next(one for one in sites if one.habit is habit)
            rule = habit_line(site, words, listener)
            return words.line("paper.most", what=rule, count=count, all=len(wrong))
    family = missed_families(marked)[0]
    count = sum(family_of(one.task.facts) is family for one in wrong)
    what = words.line(f"family.{family}")
    if count < _FEWEST:
        return words.line("paper.most_one", what=what)
    return words.line("paper.most", what=what, count=count, all=len(wrong))


def fault_line(one: Mark, words: Words, listener: Listener) -> str:
    """The rule that was likely forgotten in a wrong answer, else what it is off by; or nothing."""
    if one.behind is None:
        return off_by_text(one.off_by, words)
    return habit_line(one.behind.site, words, listener).show


def missed_families(marked: Marked) -> list[Family]:
    """The families of the answers that are wrong, the one that cost most marks first."""
    marks = [section.marks for section in marked.sheet.sections for _ in section.tasks]
    missed = Counter[Family]()
    for one in answered_wrong(marked):
        missed[family_of(one.task.facts)] += marks[one.number - 1]
    return [family for family, _ in missed.most_common()]
