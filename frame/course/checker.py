"""Checks a lesson by playing it: what its exercises need, end in, and let the learner practise."""

from collections.abc import Collection, Iterable
from dataclasses import replace
from decimal import Decimal, localcontext
from itertools import accumulate
from random import Random

from frame.course.lesson import Ask, Lesson, LessonStep, Mark, Practise, Show
from frame.course.problems import Problem, Report
from frame.practice.drawing import ExerciseError, Request, draw, effort
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.rungs import Rung
from frame.technique.conventions import Conventions
from frame.technique.expression import Calculation, Sum
from frame.technique.facts import ALL_FACTS
from frame.technique.planning import plan_of
from frame.technique.reading import EXACT, RodsError, decimals, plain, whole_digits
from frame.technique.trials import with_first_trial

SEEDS = (1, 2, 3)
MOST_IN_VAIN = 100_000
"""So many digits are made up in vain for a lesson before no more facts are tried. Each fact that is
tried in vain is a problem, and so no lesson is refused for those that are not tried."""

_FIRST = Mark(1, 1)


def check_lesson(
    lesson: Lesson,
    name: str,
    taught: frozenset[str],
    others: Collection[str],
    is_whole: bool = True,
) -> tuple[Problem, ...]:
    """Every problem in a lesson that could be loaded; none when it can be played as it stands.

    `taught` are the facts of all lessons before it, `others` the ids of all other lessons. A
    lesson of which a part could not be loaded is not whole: then nothing is said to be left out.
    """
    report = Report(name)
    _check_head(lesson, taught, others, report)
    play = _Play(lesson, taught | set(lesson.new), report)
    for step in lesson.steps:
        play.step(step)
    if is_whole:
        for fact in lesson.new:
            if fact not in play.practised:
                report.add(lesson.marks.get(fact, _FIRST), "never-practised", found=fact)
    return report.problems


def with_known(lesson: Lesson, known: frozenset[str]) -> Lesson:
    """The lesson with drawn sets that may need every fact that is known by then."""
    steps = tuple(_knowing(step, known) for step in lesson.steps)
    return replace(lesson, steps=steps)


def _knowing(step: LessonStep, known: frozenset[str]) -> LessonStep:
    if isinstance(step, Practise):
        return replace(step, request=replace(step.request, known=known))
    return step


def _check_head(
    lesson: Lesson, taught: frozenset[str], others: Collection[str], report: Report
) -> None:
    if lesson.id in others:
        report.add(lesson.marks.get("lesson", _FIRST), "id-taken", found=lesson.id)
    if lesson.after == lesson.id:
        report.add(lesson.marks.get("after", _FIRST), "after-itself", found=lesson.id)
    elif lesson.after is not None and lesson.after not in others:
        mark = lesson.marks.get("after", _FIRST)
        report.add_unknown(mark, "after-unknown", lesson.after, sorted(others))
    for fact in lesson.new:
        if fact in taught:
            report.add(lesson.marks.get(fact, _FIRST), "not-new", found=fact)


def can_be_worked(exercise: Exercise, mark: Mark, report: Report) -> bool:
    """Whether the rods hold the work, and a trial digit asked for can be gone on with."""
    rods = exercise.rods
    if not all(fits(number, rods, mark, report) for number in _readings(exercise.sum)):
        return False
    try:
        work = plan_of(exercise.sum, rods=exercise.rods)
    except RodsError as error:
        report.add(mark, "rods", found=str(exercise), needed=error.needed, rods=rods)
        return False
    if exercise.trial and with_first_trial(work, exercise.trial) is None:
        report.add(mark, "trial", found=exercise.trial, sum=str(exercise))
        return False
    return True


def fits(number: Decimal, rods: int, mark: Mark, report: Report) -> bool:
    """Whether the rods can show a number."""
    places = decimals(number)
    needed = max(whole_digits(number), 1) + places
    if needed <= rods:
        return True
    if places:
        report.add(mark, "rods", found=plain(number), needed=needed, rods=rods)
    else:
        report.add(mark, "fit", found=plain(number), most=10**rods - 1, rods=rods)
    return False


class _Play:
    """A lesson being played: what is known, what the learner has practised so far, which sets of
    one fact can be drawn, and how many digits were made up in vain to find that."""

    def __init__(self, lesson: Lesson, known: frozenset[str], report: Report) -> None:
        self.rods = lesson.rods
        self.known = known
        self.report = report
        self.practised: set[str] = set()
        self.drawable: dict[Request, bool] = {}
        self.in_vain = 0
        self.stopped_by: Mark | None = None

    def step(self, step: LessonStep) -> None:
        """Play one step; what is wrong with it is reported."""
        if self.stopped_by is not None:
            self.report.add(step.mark, "unreachable-draw", line=self.stopped_by.line)
            self.stopped_by = None
        if isinstance(step, Show):
            fits(step.number, self.rods, step.mark, self.report)
        elif isinstance(step, Ask):
            self._ask(step)
        elif isinstance(step, Practise):
            self._practise(step)

    def _ask(self, ask: Ask) -> None:
        exercise = ask.exercise
        if not can_be_worked(exercise, ask.mark, self.report):
            return
        for fact in self._untaught(exercise.facts):
            self.report.add(ask.mark, "untaught", found=str(exercise), fact=fact)
        if exercise.rung is not Rung.WATCH:
            self.practised |= exercise.facts
        end = Decimal(0) if exercise.kind is Kind.CLEAR else exercise.sum.result
        if ask.answer is not None and ask.answer != end:
            self.report.add(ask.mark, "answer", found=plain(ask.answer), right=plain(end))
        if exercise.rung is Rung.FINISH:
            plan = plan_for(exercise, Conventions())
            strokes = len(plan.strokes) if plan else 0
            if exercise.last > strokes:
                self.report.add(ask.mark, "last", found=exercise.last, most=strokes)

    def _untaught(self, facts: Iterable[str]) -> list[str]:
        """Those of the facts that are not known, in the order of all facts."""
        return sorted(set(facts) - self.known, key=ALL_FACTS.index)

    def _practise(self, step: Practise) -> None:
        request = replace(step.request, known=self.known)
        facts = {*request.facts, *request.mix}
        self.practised |= facts
        if untaught := self._untaught(facts):
            for fact in untaught:
                self.report.add(step.mark, "untaught-set", fact=fact)
            return
        untried = []
        for fact in sorted(facts, key=ALL_FACTS.index):
            one = replace(request, facts=(fact,), mix=(), count=1)
            tries = effort(one, fact)
            if tries and one not in self.drawable and self.in_vain >= MOST_IN_VAIN:
                untried.append(fact)
            elif not self._is_drawable(one, tries):
                self.report.add(step.mark, "undrawable", fact=fact)
                self.stopped_by = step.mark
        if untried:
            found, count = untried[0], len(untried)
            self.report.add(step.mark, "untried", found=found, count=count, rods=self.rods)

    def _is_drawable(self, request: Request, tries: int) -> bool:
        """Whether a set for one fact can be drawn with every seed tried; looked at once."""
        if request not in self.drawable:
            self.drawable[request] = _is_drawn(request)
            self.in_vain += 0 if self.drawable[request] else tries
        return self.drawable[request]


def _is_drawn(request: Request) -> bool:
    try:
        for seed in SEEDS:
            draw(request, Random(seed))
    except ExerciseError:
        return False
    return True


def _readings(calculation: Calculation) -> tuple[Decimal, ...]:
    """What the frame shows after each number of a column of whole ones, where it is not below
    zero; nothing of other work, which takes more rods than what it comes to."""
    if not isinstance(calculation, Sum) or any(map(decimals, calculation.terms)):
        return ()
    with localcontext(EXACT):
        return tuple(total for total in accumulate(calculation.terms) if total >= 0)
