"""Placement under way: where to begin is found by few tasks, without marks, and left at any moment.

A second slip in a task ends it, as does passing it by. It is over after four minutes sharp, though
something may be half done; that counts neither way.
"""

from dataclasses import replace
from functools import partial

from frame.app import Change, Pop
from frame.course.attempts import Origin
from frame.course.lesson import Ask, Lesson, Mark, Say
from frame.course.placement import Placement, Result
from frame.course.quiet import SLIPS
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.learner.settings import Age
from frame.learner.store import NOT_BEGUN
from frame.practice.asking import MOST_SECONDS
from frame.practice.exercises import Exercise
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.one_by_one import OneByOne

_MOST_DIGITS = 9


def begin_placement(room: Room) -> "PlacementScreen":
    """Placement from its beginning. What is done counts as known."""
    done = {lesson for lesson, state in room.lessons.items() if state.done}
    young = room.settings.age is Age.YOUNG
    conventions = room.settings.conventions
    lessons = room.course.lessons
    return PlacementScreen(room, Placement.begin(lessons, room.random, conventions, done, young))


class PlacementScreen(OneByOne):
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
        is_right = work.finished and work.unaided
        self.placement = self.placement.answered(is_right, now - self._since)
        self._since = now
        coming = self.placement.next_item()
        if coming is not None:
            self.runner.known = coming.facts
        return coming

    @property
    def _is_spent(self) -> bool:
        """Whether enough slips were made in this task."""
        work = self.runner.work
        is_open = self.runner.stage in (Stage.WORK, Stage.ANSWER)
        return is_open and work is not None and len(work.slips) >= SLIPS

    @property
    def _left(self) -> float | None:
        """How many seconds are left; None before the first task."""
        if self._began is None:
            return None
        return max(0.0, self._began + MOST_SECONDS - self.room.seconds())

    def rest(self, now: float) -> Change | None:
        """A task with enough slips is passed by. When time is up, or nothing more is asked, it is
        told where to begin."""
        if self._is_spent:
            self.pass_by()
        change = super().rest(now)
        is_over = self.runner.stage is Stage.END or self._left == 0
        return Pop(self.placement.result()) if is_over and change is None else change

    def wakes_in(self, now: float) -> float | None:
        """When time is up, too, and where a task is to be passed by."""
        waits = (super().wakes_in(now), self._left, 0.0 if self._is_spent else None)
        return min((wait for wait in waits if wait is not None), default=None)

    def back(self) -> Change | None:
        """It may be left at any moment, with what is known by then."""
        return Pop()

    def leave(self) -> None:
        """Where to begin is kept."""
        super().leave()
        if self.placement.answers:
            _keep(self.room, self.placement.result())


def _keep(room: Room, result: Result) -> None:
    learner, now = room.learner, room.now()
    for lesson, state in room.lessons.items():
        room.lessons[lesson] = replace(state, placed=lesson in result.known)
    for lesson in set(result.known) - room.lessons.keys():
        room.lessons[lesson] = replace(NOT_BEGUN, placed=True)
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
