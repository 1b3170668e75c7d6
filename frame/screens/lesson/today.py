"""Today's set under way: made of what this learner needs now, and over by itself."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from functools import partial
from random import Random

from frame.app import Change, Push, Replace
from frame.course.attempts import Origin, Position
from frame.course.course import LessonEntry
from frame.course.lesson import Ask, Lesson, Mark
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.language.lines import Line
from frame.learner.assigned import Work as Given
from frame.learner.settings import Age
from frame.learner.store import NOT_BEGUN, LessonState
from frame.practice.exercises import Exercise
from frame.practice.items import items_of_facts
from frame.practice.prediction import AFTER_PLACEMENT, USUAL_PREDICTION
from frame.practice.schedule import DAY
from frame.practice.today import Done, Left, Today
from frame.practice.todays import today_of
from frame.practice.wanted import MIDDLE, OLDER, YOUNG, Situation, aloud_of, sets_of
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.controls import Control
from frame.screens.lesson.fault import behind_of
from frame.screens.lesson.given import tick_off
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.one_by_one import OneByOne
from frame.screens.lesson.practice import known_facts
from frame.screens.lesson.scene import Scene
from frame.screens.lesson.tapping import TappingScreen, offer_tapping
from frame.view.inputs import Input

_RULES = {Age.YOUNG: YOUNG, Age.MIDDLE: MIDDLE, Age.OLDER: OLDER}
_WELL = 2
"""So many of a family must be right to be told."""
PAUSE = 60.0
"""Who does nothing for more seconds is not at it, and so many count."""


def situation_of(room: Room, used: float = 0.0) -> Situation:
    """What today's set depends on, where so many of its minutes are used. The same learner on the
    same day, who has done nothing since, has the same set."""
    known, ladder, now = known_facts(room), room.ladder, room.now()
    done = [one for one in room.course.lessons if _state(room, one).done]
    coming = [one for one in room.course.lessons if one.new and not _state(room, one).is_known]
    learner = room.learner.id if room.learner else ""
    hard = [one for one in done[-3:] if not room.lessons[one.id].mastered]
    return Situation(
        mastery=room.mastery,
        known=known,
        sets=sets_of(known, ladder, room.settings.conventions),
        now=now.timestamp(),
        seed=Random(f"{learner} {now.date()}").randrange(2**31),
        rules=replace(_RULES[room.settings.age], minutes=max(0.0, _minutes(room) - used)),
        prediction=AFTER_PLACEMENT if _was_placed(room) else USUAL_PREDICTION,
        aloud=aloud_of(known, ladder, room.settings.conventions),
        new=done[-1].new if done else (),
        hard=tuple(items_of_facts(fact for one in hard for fact in one.new)),
        soon=tuple(fact for one in coming[:1] for fact in one.new),
        seconds=ladder.seconds,
        away=_days_away(room.last_at, now),
        weighed=behind_of(room).weighed,
        conventions=room.settings.conventions,
    )


def _minutes(room: Room) -> float:
    """Those that are set, or usual at the age."""
    return room.settings.today_minutes or _RULES[room.settings.age].minutes


def _was_placed(room: Room) -> bool:
    return any(state.placed for state in room.lessons.values())


def _state(room: Room, entry: LessonEntry) -> LessonState:
    return room.lessons.get(entry.id, NOT_BEGUN)


def _days_away(last: datetime | None, now: datetime) -> float:
    """How many days ago somebody was last here; a day where nobody knows."""
    return 1.0 if last is None else max(0.0, (now - last).total_seconds() / DAY)


def can_begin_today(room: Room) -> bool:
    """Whether there is something to practise."""
    return bool(known_facts(room))


def left_today(room: Room) -> Left | None:
    """The set that was left on this day."""
    left = room.today_left
    return left if left is not None and left.day == room.now().date() else None


def begin_today(room: Room) -> "TodayScreen":
    """The set for today: where one was left on this day it goes on, else as things stand now. Where
    other minutes are set by now, another one takes what is left of them."""
    left, minutes = left_today(room), _minutes(room)
    if left is None or left.minutes != minutes:
        today = today_of(situation_of(room, left.used if left else 0.0))
        left = Left(room.now().date(), today, (), room.mastery.copy(), minutes)
    return TodayScreen(room, left)


class TodayScreen(OneByOne):
    """One exercise after another, as the set has them and as they went; then what went well."""

    def __init__(self, room: Room, left: Left) -> None:
        self.day, self.today, done, self.before, self.minutes = left
        self.done = list(done)
        self.offers_tapping = False
        self._seen_at, self._seconds = room.seconds(), 0.0
        super().__init__(room, _keeping(room, self.today, done))

    def leave(self) -> None:
        """What is left of it can be gone on with on the same day."""
        super().leave()
        if self.runner.stage is Stage.DONE and self.runner.work is not None:
            self._add(self.runner.work)
        is_left = bool(self.done) and self.today.next(self.done) is not None
        left = Left(self.day, self.today, tuple(self.done), self.before, self.minutes)
        self.room.today_left = left if is_left else None

    def handle(self, event: Input) -> Change | None:
        """A pause is no practice, and does not use up the minutes of the set."""
        self._count_time()
        return super().handle(event)

    def _count_time(self) -> None:
        now = self.room.seconds()
        self._seconds += min(now - self._seen_at, PAUSE)
        self._seen_at = now

    def coming(self, work: Work, now: float) -> Exercise | None:
        """As the set has it; at its end what went well is told."""
        self._add(work)
        return self._next()

    def _add(self, work: Work) -> None:
        """An exercise is done; with the last one the set is."""
        self._count_time()
        self.done.append(Done(work.unaided, self._seconds))
        self._seconds = 0.0
        if self.today.next(self.done) is None:
            self.room.today_done = self.room.now().date()
            tick_off(self.room, Given.DUE)

    def skip(self) -> None:
        """What somebody does not want to see flashed is left out of the set."""
        self.today = self.today.without(len(self.done))
        self.runner.put_next(self._next())
        super().skip()
        self._make_room()

    def _next(self) -> Exercise | None:
        coming = self.today.next(self.done)
        if coming is None:
            self.guide.ending = self._ending()
            self.offers_tapping = offer_tapping(self.room)
        return coming.exercise if coming else None

    def _ending(self) -> Line | None:
        """What went well, and that it is enough."""
        words, went = self.room.words, self.today.went(self.done, self.before, self.room.mastery)
        best = max(went.right, key=lambda family: went.right[family], default=None)
        enough = words.line("today.enough")
        if best is None or went.right[best] < _WELL:
            return enough
        what = words.line(f"family.{best}")
        return words.line("today.end", what=what, count=went.right[best], enough=enough)

    @property
    def work_done(self) -> tuple[Given, str]:
        """What is due."""
        return Given.DUE, ""

    @property
    def scene(self) -> Scene:
        """At the end tapping may be offered."""
        return replace(super().scene, offers_tapping=self.offers_tapping)

    @property
    def acts(self) -> dict[Control, Callable[[], object]]:
        """At the end tapping, too."""
        return {**super().acts, Control.TAP: self.tap}

    def tap(self) -> Change:
        """Beads to tap; it is offered once."""
        self.offers_tapping = False
        self.rearrange()
        return Push(TappingScreen(self.room))

    def once_more(self) -> Change:
        """Another set, as things stand by then."""
        return Replace(begin_today(self.room))


def _keeping(room: Room, today: Today, done: tuple[Done, ...] = ()) -> Keeping:
    mark, settings, at = Mark(1, 1), room.settings, len(done)
    coming = today.next(done)
    asked = [*today.exercises[:at], *([coming] if coming else []), *today.exercises[at + 1 :]]
    steps = tuple(Ask(one.exercise, None, None, mark) for one in asked)
    rods = max((one.exercise.rods for one in today.exercises), default=1)
    lesson = Lesson("today", room.words.text("today.title"), None, rods, (), steps)
    runner = Runner(
        lesson, known_facts(room), today.seed, settings.conventions, settings.strictness,
        position=Position(at), goes_back=False,
    )  # fmt: skip
    return Keeping(room, runner, partial(_keeping, room, today), origin=Origin.TODAY)
