"""Keeps a lesson's attempts and position in the store, a step at a time."""

from collections.abc import Callable
from dataclasses import dataclass

from frame.course.attempts import Origin, Position
from frame.course.course import load_one, taught
from frame.course.runner import Runner, Stage
from frame.learner.assigned import Work
from frame.learner.learners import new_id
from frame.learner.rows import Record
from frame.learner.store import NOT_BEGUN, LessonState
from frame.room import Room
from frame.screens.lesson.given import tick_off
from frame.screens.parts.counted import count_records


@dataclass
class Keeping:
    """What has been kept of one lesson, or of one set practised, so far. `anew` begins it again
    with other numbers; at its end it `ticks` off a work with this text, where a tutor gave it."""

    room: Room
    runner: Runner
    anew: Callable[[], "Keeping"]
    origin: Origin = Origin.LESSON
    before: LessonState | None = None
    attempts_kept: int = 0
    ticks: tuple[Work, str] | None = None
    has_ticked: bool = False

    @classmethod
    def begin(cls, room: Room, lesson_id: str) -> "Keeping":
        """The lesson where the learner left it, or from its start with a fresh seed."""
        state = room.lessons.get(lesson_id)
        begun = state if state is not None and state.position != Position() else None
        runner = Runner(
            load_one(room.course, lesson_id),
            taught(room.course, lesson_id),
            begun.seed if begun else room.random.randrange(2**31),
            room.settings.conventions,
            room.settings.strictness,
            begun.position if begun else Position(),
        )
        ticks = Work.LESSON, lesson_id
        return cls(room, runner, lambda: cls.begin(room, lesson_id), before=state, ticks=ticks)

    def keep(self) -> None:
        """Write what is new: how exercises went, where to begin another day, and at the end that it
        is done."""
        self._keep_attempts()
        is_over = self.runner.stage is Stage.END
        if is_over and self.ticks is not None and not self.has_ticked:
            tick_off(self.room, *self.ticks)
            self.has_ticked = True

    def _keep_attempts(self) -> None:
        room, lesson = self.room, self.runner.lesson.id
        fresh = self.runner.record[self.attempts_kept :]
        state = self._state() if self.origin is Origin.LESSON else None
        learner, sitting = room.learner, room.sitting
        if learner is None or sitting is None:
            return
        if not fresh and room.lessons.get(lesson) == state:
            return
        now, origin = room.now(), self.origin
        records = [Record(new_id(), sitting.count_on(), one, origin) for one in fresh]
        if state is not None:
            room.lessons[lesson] = state
        room.keeper.write(
            lambda store: store.record(sitting.id, records, learner, lesson, state, now)
        )
        count_records(room, records, sitting.id, origin, room.settings.conventions, now)
        self.attempts_kept += len(fresh)

    def _state(self) -> LessonState:
        ended = self.runner.stage is Stage.END
        position = Position() if ended else self.runner.upcoming
        before = self.before or NOT_BEGUN
        return LessonState(
            self.runner.seed,
            position,
            done=ended or before.done,
            mastered=(ended and self.runner.mastered) or before.mastered,
            placed=before.placed,
        )
