"""A lesson under way: touches go to the runner, its state is shown and kept."""

from frame.app import Change, Pop, Push, Replace
from frame.course.attempts import Position
from frame.course.runner import Stage
from frame.language.lines import Line
from frame.practice.exercises import Kind
from frame.practice.fading import sure_facts
from frame.practice.flashing import FlashReport
from frame.practice.replay import replay_of
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.asking import AskingScreen
from frame.screens.lesson.exercise import IDLE_SECONDS
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.keys import take_key
from frame.screens.lesson.layout import arrange
from frame.screens.lesson.painting import paint
from frame.screens.lesson.places import places_of
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.rung_look import faded_rods, look_of
from frame.screens.parts import flashing
from frame.technique.beads import Stroke
from frame.view.flash_safety import FlashRefused
from frame.view.inputs import Key
from frame.view.motion import SHOW_SECONDS
from frame.view.widgets import Brushes

PAUSE_AFTER_DONE = 1.2
PAUSE_TO_READ = 2.5
PAUSE_BEFORE_DEMO = 0.7
PAUSE_AFTER_DEMO = 1.5
GLANCE_SECONDS = 2.0
DEAF_SECONDS = 0.4
"""What comes up where a button was pressed: a second press of that is not meant for it."""


class LessonScreen(AskingScreen):
    """One lesson, from where the learner left it, or one set practised."""

    def __init__(self, room: Room, keeping: Keeping) -> None:
        super().__init__(room, keeping.runner)
        self.keeping = keeping
        self.is_lesson = keeping.has_position
        self.quiet_at = 0.0
        self._stage_shown: tuple[object, ...] | None = None
        self._spoken: tuple[Line | None, Position | None] | None = None
        self._pale_done = 0
        self._sure = sure_facts(room.tries())
        self._faded: frozenset[int] = frozenset()

    @property
    def is_course(self) -> bool:
        """Whether it is a lesson of the course, not a set practised."""
        return self.keeping.has_position

    @property
    def line(self) -> Line | None:
        """The sentence to show: what was just said, the lesson's own, or the last word. A half-done
        move's sentence is about the learner's half, so it waits until that comes."""
        words, runner = self.room.words, self.runner
        if runner.stage is Stage.END and self.is_lesson:
            return words.line("lesson.passed" if runner.passed else "lesson.another_day")
        if runner.stage is Stage.END:
            return words.line("practise.over")
        if runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS):
            return self.said
        work = runner.work
        if work is not None and work.exercise.rung is Rung.FINISH and work.is_playing:
            return self.feedback.of_work(work) or words.line("lesson.watch")
        asks = self.feedback.of_stage(runner)
        exercise = work.exercise if work is not None else None
        is_told = exercise is not None and exercise.by_answer and exercise.asked is Asked.SHOWN
        of_work = self.feedback.of_work(work) if work is not None else None
        own = runner.line or self.feedback.of_unsaid(work)
        return self.said or (own or asks if is_told else asks or of_work or own)

    def arrange(self) -> None:
        """Lay out for what the lesson waits for."""
        arrange(self)
        self.sync(self.room.seconds())

    def take_key(self, key: Key) -> bool:
        """Keys that work beads, type digits or hold a call. Whether the key was meant so."""
        return take_key(self, key)

    def resumed(self, result: object) -> Change | None:
        """A run of flashed numbers is over, or what was to be seen was seen."""
        if isinstance(result, FlashReport):
            self.take_report(result)
        elif isinstance(result, FlashRefused):
            self.said = flashing.refusal(result, self.room.words)
        elif self.runner.stage is Stage.REVEAL:
            self.runner.go_on()
            self.go_on()
        elif self.runner.stage is Stage.RESULTS:
            self.go_on()
        self.show(self.room.seconds())
        return None

    def go_on(self) -> None:
        """Leave a sentence, or what is done."""
        self.calling = None
        self.runner.go_on()
        self.said = None
        self.answer.clear()
        self.looking = False
        if self.runner.position.round and not self.runner.position.item:
            self.said = self.room.words.line("lesson.once_more")
        self.field.mend(None)
        self.show(self.room.seconds())

    def next_lesson(self) -> Change:
        """Home, and from there to the next lesson."""
        return Pop("next")

    def once_more(self) -> Change:
        """The same lesson from its start, with other numbers."""
        return Replace(LessonScreen(self.room, self.keeping.anew()))

    def advance(self, now: float) -> Change | None:
        """Beads glide, demonstrations are played, what is done is kept and left."""
        self.field.advance(now)
        if self.field.take_landed() and not self._is_unseen:
            self.room.click()
        self.touch_up_field(self.field)
        if self.field.is_moving:
            return None
        self.keeping.keep()
        self.advance_call(now)
        if self.unmend_at is not None and now >= self.unmend_at:
            self.unmend_at = None
            self.field.mend(None)
            self.touch_up_field(self.field)
        if self.unglance_at is not None and now >= self.unglance_at:
            self.unglance_at = None
            self.sync(now)
        if self.idle_at is not None and now >= self.idle_at:
            self.idle_at = None
            self._point()
        if self.due is not None and now >= max(self.due, self.quiet_at):
            self.due = None
            return self._fall_due(now)
        return None

    def _fall_due(self, now: float) -> Change | None:
        work, stage = self.runner.work, self.runner.stage
        if stage is Stage.DEMO and work is not None:
            if self.runner.play() is None:
                self.said = self.room.words.line("lesson.your_turn")
            last = not work.to_play
            self.due = now + SHOW_SECONDS + (PAUSE_AFTER_DEMO if last else PAUSE_BEFORE_DEMO)
            self.show(now, SHOW_SECONDS)
        elif stage is Stage.PRESENT:
            return self.start()
        elif stage is Stage.REVEAL and work is not None:
            return Push(ReplayScreen(self.room, work, replay_of(work), self.said))
        elif stage is Stage.RESULTS:
            return Push(ResultsScreen(self.room, self.runner.results))
        elif stage is Stage.DONE:
            self.go_on()
        return None

    def _point(self) -> None:
        """Nothing was touched for a while: say where to look, once. It counts as no help."""
        work = self.runner.work
        if self.runner.stage is Stage.WORK and work is not None and self.said is None:
            self.said = self.feedback.of_waiting(work)
            self.field.point(work.rod_to_work if self.said else None)
            self.touch_up_field(self.field)
            self.touch_up(places_of(self).line)
            self._speak(self.room.seconds())

    def wakes_in(self, now: float) -> float | None:
        """At once while beads move; else when something falls due."""
        if self.field.is_moving:
            return 0
        call = self.calling.next_change(now) if self.calling else None
        due = max(self.due, self.quiet_at) if self.due is not None else None
        called = None if call is None else now + call
        all_times = (due, self.idle_at, self.unmend_at, self.unglance_at, called)
        times = [time for time in all_times if time is not None]
        return max(0.001, min(times) - now) if times else None

    def sync(self, now: float) -> None:
        """Show the runner's state."""
        runner, work = self.runner, self.runner.work
        can_undo = work is not None and work.can_undo
        shown = (
            runner.stage, runner.position, self._is_unseen, can_undo, self.line is None,
            self.has_field,
        )  # fmt: skip
        if shown != self._stage_shown:
            before = self._stage_shown
            is_new = before is None or shown[:3] != before[:3]
            had_field = before is not None and before[-1]
            self._stage_shown = shown
            if is_new:
                self._enter_stage(now)
            self.lay_out()
            for place in places_of(self).between_exercises:
                self.touch_up(place)
            if self.has_field != had_field:
                self.touch_up()
            return
        pointed = work is not None and work.level is Help.POINT and runner.stage is Stage.WORK
        pointed = pointed and len(runner.frame.digits) > 1
        self.field.point(work.rod_to_work if work and pointed else None)
        self.field.hint(self._hinted())
        look, blind = look_of(
            runner, self.room.settings, looking=self._sees_all,
            pale_done=self._pale_done, faded=self._faded,
        )  # fmt: skip
        self.field.appear(look, blind=blind)
        self.touch_up_field(self.field)
        for place in places_of(self).changing:
            self.touch_up(place)
        self._speak(now)

    def _speak(self, now: float) -> None:
        """Say a sentence once it is new; while numbers are called nothing else is said."""
        place = self.runner.position if self.room.settings.eyes_shut else None
        if self._spoken == (self.line, place):
            return
        is_same_sum = self._spoken is not None and self._spoken[1] == place
        self._spoken = self.line, place
        if not self.is_calling:
            self.quiet_at = now + self.room.say(self.line if is_same_sum else self.aloud)

    @property
    def _sees_all(self) -> bool:
        """Whether the frame is seen although the rung would cover it."""
        on_frame = self.answer.frame is not None
        return self.looking or on_frame or self.unglance_at is not None

    @property
    def _is_unseen(self) -> bool:
        """Whether beads stay unseen and unjudged until the end."""
        work = self.runner.work
        return work is not None and work.is_silent and work.exercise.rung.is_unseen

    def _hinted(self) -> Stroke:
        """The moves with a badge: what is played next, or what help shows."""
        work = self.runner.work
        if work is None:
            return ()
        if self.runner.stage is Stage.DEMO:
            return work.to_play[0] if work.to_play else ()
        lit = self.runner.stage is Stage.WORK and work.is_lit
        return tuple(work.next_moves) if lit else ()

    def _enter_stage(self, now: float) -> None:
        work, stage = self.runner.work, self.runner.stage
        self.due = None
        if work is None or stage is Stage.RESULTS:
            self.due = now if stage is Stage.RESULTS else None
        elif stage is Stage.DONE:
            self._enter_done(work, now)
        elif stage is Stage.DEMO:
            self.due = now + PAUSE_BEFORE_DEMO
        elif stage is Stage.WORK:
            self.field.focus_on(None if self.field.focus is None else 0)
            self.keeping.since = now
            self.idle_at = now + IDLE_SECONDS
            is_pale = work.exercise.rung is Rung.PALE
            self._faded = faded_rods(work, self._sure) if is_pale else frozenset()
        elif stage is Stage.ANSWER and work.exercise.kind is not Kind.READ:
            self.deaf_until = now + DEAF_SECONDS
        elif stage is Stage.ANSWER:
            self.keeping.since = now
            self.unglance_at = now + GLANCE_SECONDS if work.exercise.rung.is_unseen else None
        elif stage is Stage.PRESENT:
            self.deaf_until = now + DEAF_SECONDS
            self.keeping.since = now
            self.enter_present(work, now)
        elif stage is Stage.REVEAL:
            self.due = now + PAUSE_AFTER_DONE

    def _enter_done(self, work: Work, now: float) -> None:
        self.field.mend(None)
        self._pale_done += work.exercise.rung is Rung.PALE
        explains = self.said is not None and work.exercise.kind is not Kind.READ
        self.due = now + (PAUSE_TO_READ if explains else PAUSE_AFTER_DONE)
        self.said = self.said or self.feedback.of_done(work)
        if work.right and work.exercise.asked is Asked.SHOWN:
            self.room.click("right")

    def leave(self) -> None:
        """Keep where the lesson stands."""
        self.room.hush()
        if self.calling is not None:
            self.calling.stop()
        self.keeping.keep()

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, the sentence, the frame, the card, the string of progress."""
        paint(self, brushes)
