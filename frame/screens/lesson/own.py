"""A tutor's own lesson under way: each save of its file is taken up, or its problem is told."""

from concurrent.futures import Future
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Replace
from frame.course.attempts import Origin, Position
from frame.course.own import OwnLesson, content_of, read_own
from frame.course.runner import Runner
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.fitting import fitting
from frame.screens.parts.own_files import ANSWER_SECONDS, LOOK_SECONDS
from frame.screens.parts.problem import problem_line
from frame.view.widgets import Brushes

SETTLE_SECONDS = 0.2
"""How long a file must stay as it is to be taken: half of a lesson may look like a whole one."""


class FileDue(StrEnum):
    """What an own lesson waits for besides what every lesson does."""

    LOOK = "look at the file"
    ANSWER = "has it been read"


class OwnLessonScreen(LessonScreen):
    """Played as a lesson is; no place is kept. A save is read, and so checked, beside the window's
    thread. Meanwhile, and while the file has problems, the last good text goes on; the first
    problem stands in a strip at the bottom edge."""

    def __init__(
        self, room: Room, own: OwnLesson, seed: int | None = None, place: Position | None = None
    ) -> None:
        super().__init__(room, _keeping(room, own, seed, place or Position()))
        self.own = self.seen = own
        self.dues.put(FileDue.LOOK, room.seconds() + LOOK_SECONDS)
        self._content = own.content
        self._reading: Future[OwnLesson] | None = None
        self.problem = ""

    @property
    def strip(self) -> pygame.Rect:
        """The bottom edge, where else the progress stands."""
        top = round(83.2 * self.unit)
        return pygame.Rect(0, top, self.size[0], self.size[1] - top)

    def once_more(self) -> Change:
        """The same lesson from its start, with other numbers."""
        return Replace(OwnLessonScreen(self.room, self.own))

    def rest(self, now: float) -> Change | None:
        """The lesson goes on; once a second its file is looked at."""
        # What falls due to the lesson is taken with all that has fallen due.
        is_time, is_asked = (self.dues.take(due, now) for due in FileDue)
        change = super().rest(now)
        if is_time:
            is_asked = self._look(now)
        if is_asked and change is None:
            return self._answer(now)
        if is_asked:
            self.dues.put(FileDue.ANSWER, now + ANSWER_SECONDS)
        return change

    def _look(self, now: float) -> bool:
        """Whether the file was saved anew, or is gone, and has come to rest: then it is read."""
        content, before = content_of(self.own.path), self._content
        self._content = content
        is_new, is_settled = content != self.seen.content, content == before
        if is_new and is_settled:
            read = partial(read_own, self.own.path, self.room.course)
            self._reading = self.room.aside.do(read)
            return True
        self.dues.put(FileDue.LOOK, now + (SETTLE_SECONDS if is_new else LOOK_SECONDS))
        return False

    def _answer(self, now: float) -> Change | None:
        """Take up what was read, once it is; but not where the file had changed again by then."""
        if self._reading is None or not self._reading.done():
            self.dues.put(FileDue.ANSWER, now + ANSWER_SECONDS)
            return None
        seen = self._reading.result()
        is_settled = seen.content == self._content
        self.dues.put(FileDue.LOOK, now + (LOOK_SECONDS if is_settled else SETTLE_SECONDS))
        return self._take_up(seen) if is_settled else None

    def _take_up(self, seen: OwnLesson) -> Change | None:
        self.seen, lesson = seen, seen.lesson
        if lesson is None:
            self._tell(problem_line(seen.problems[0]))
        elif seen.content == self.own.content:
            self._tell("")
        else:
            step = self.runner.position.step
            place = Position(step if step < len(lesson.steps) else 0)
            return Replace(OwnLessonScreen(self.room, seen, self.runner.seed, place))
        return None

    def _tell(self, problem: str) -> None:
        if problem != self.problem:
            self.problem = problem
            self.touch_up(self.strip)

    def paint_rest(self, brushes: Brushes) -> None:
        """The lesson, and over its bottom edge the strip."""
        if not self.problem:
            super().paint_rest(brushes)
            return
        surface, strip = brushes.surface, self.strip
        clip = surface.get_clip()
        surface.set_clip(clip.clip(pygame.Rect(0, 0, surface.get_width(), strip.top)))
        super().paint_rest(brushes)
        surface.set_clip(clip)
        surface.fill(brushes.theme.card, strip)
        edge = pygame.Rect(strip.topleft, (strip.w, max(1, round(self.unit / 4))))
        surface.fill(brushes.theme.soft_ink, edge)
        place = strip.inflate(-round(4 * self.unit), -2 * edge.h)
        brushes.text(fitting(brushes, self.problem, place, 0), place, 0)


def _keeping(room: Room, own: OwnLesson, seed: int | None, place: Position) -> Keeping:
    """What is kept of it: attempts, as of a set practised. Raises ValueError for one with
    problems."""
    if own.lesson is None:
        raise ValueError(own.path)
    seed = room.random.randrange(2**31) if seed is None else seed
    settings = room.settings
    runner = Runner(
        own.lesson, own.known, seed, settings.conventions, settings.strictness, place
    )  # fmt: skip
    return Keeping(
        room, runner, lambda: _keeping(room, own, None, Position()), origin=Origin.OWN_LESSON
    )
