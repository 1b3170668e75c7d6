"""Placement under way: where to begin is found by few tasks, without marks, and left at any moment.

A second slip in a task ends it, a later one in long work, as does passing it by. It is over after
four minutes sharp; what is half done then counts neither way.
"""

from dataclasses import replace
from functools import partial

from frame.course.attempts import Origin
from frame.course.lesson import Ask, Lesson, Mark, Say
from frame.course.placement import Placement, Result
from frame.course.quiet import forgiven
from frame.course.runner import Runner
from frame.learner.settings import Age
from frame.learner.store import NOT_BEGUN
from frame.practice.asking import MOST_SECONDS
from frame.practice.exercises import Exercise
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.unmarked import Unmarked

_MOST_DIGITS = 9


def begin_placement(room: Room) -> "PlacementScreen":
    """Placement from its beginning. What is done, or was found known before, counts as known."""
    done = {lesson for lesson, state in room.lessons.items() if state.is_known}
    young = room.settings.age is Age.YOUNG
    conventions = room.settings.conventions
    lessons = room.course.lessons
    return PlacementScreen(room, Placement.begin(lessons, room.random, conventions, done, young))


class PlacementScreen(Unmarked):
    """One task after another, the next chosen from all that was done so far."""

    def __init__(self, room: Room, placement: Placement) -> None:
        self.placement = placement
        self._began: float | None = None
        self._since = 0.0
        super().__init__(room, _keeping(room, placement))

    def go_on(self) -> None:
        """From the first task on it takes time."""
        super().go_on()
        if self._began is None:
            self._began = self._since = self.room.seconds()

    def coming(self, work: Work, now: float) -> Exercise | None:
        """What tells most, after all that was done."""
        is_right = work.right and len(work.slips) <= forgiven(work)
        self.placement = self.placement.answered(is_right, now - self._since)
        self._since = now
        coming = self.placement.next_item()
        if coming is not None:
            self.runner.known = coming.facts
        return coming

    def found(self) -> Result:
        """Where to begin; and whether there was no more time."""
        return self.placement.result()._replace(is_late=self._left == 0)

    @property
    def has_found(self) -> bool:
        """Whether anything was answered."""
        return bool(self.placement.answers)

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked, or time is up."""
        return super().is_over or self._left == 0

    @property
    def _left(self) -> float | None:
        """How many seconds are left; None before the first task."""
        if self._began is None:
            return None
        return max(0.0, self._began + MOST_SECONDS - self.room.seconds())

    def wakes_in(self, now: float) -> float | None:
        """When time is up, too."""
        waits = (super().wakes_in(now), self._left)
        return min((wait for wait in waits if wait is not None), default=None)

    def leave(self) -> None:
        """Where to begin is kept."""
        super().leave()
        if self.has_found:
            _keep(self.room, self.placement.result())


def _keep(room: Room, result: Result) -> None:
    learner, now = room.learner, room.now()
    for lesson in result.known:
        room.lessons[lesson] = replace(room.lessons.get(lesson, NOT_BEGUN), placed=True)
    if learner is not None:
        room.keeper.write(lambda store: store.place(learner, result.known, now))


def _keeping(room: Room, placement: Placement) -> Keeping:
    words, mark, item = room.words, Mark(1, 1), placement.next_item()
    is_young = room.settings.age is Age.YOUNG
    begin = words.line("placement.begin_young" if is_young else "placement.begin")
    asked = (Ask(item, None, None, mark),) if item is not None else ()
    steps = (Say(begin, mark), *asked)
    lesson = Lesson("placement", words.text("placement.title"), None, _MOST_DIGITS, (), steps)
    runner = Runner(
        lesson, item.facts if item is not None else frozenset(), placement.asking.seed,
        room.settings.conventions, room.settings.strictness, goes_back=False,
    )  # fmt: skip
    return Keeping(room, runner, partial(_keeping, room, placement), origin=Origin.PLACEMENT)
