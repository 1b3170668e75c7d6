"""A lesson under way: touches go to the runner, its state is shown and kept."""

from decimal import Decimal

from frame.app import Change, Pop, Replace
from frame.course.runner import Stage
from frame.language.lines import Line
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.practice.work import Help
from frame.room import Room
from frame.screens.feedback import Feedback, listener_of
from frame.screens.keeping import Keeping
from frame.screens.lesson_layout import arrange, places_of, take_key
from frame.screens.lesson_painting import paint
from frame.screens.panel import Panel
from frame.screens.rung_look import look_of
from frame.technique.beads import Stroke
from frame.view.bead_field import BeadField
from frame.view.gestures import Event, Strokes, Wipe
from frame.view.inputs import Drag, Input, Key, Lost, Press, Release
from frame.view.motion import MOVE_SECONDS, SHOW_SECONDS
from frame.view.widgets import Brushes

PAUSE_AFTER_DONE = 1.2
PAUSE_TO_READ = 2.5
PAUSE_BEFORE_DEMO = 0.7
PAUSE_AFTER_DEMO = 1.5
MENDING_SECONDS = 1.8
IDLE_SECONDS = 10.0
MOST_DIGITS = 4


class LessonScreen(Panel):
    """One lesson, from where the learner left it."""

    def __init__(self, room: Room, lesson_id: str) -> None:
        super().__init__(room)
        self.keeping = Keeping.begin(room, lesson_id)
        self.runner = self.keeping.runner
        self.feedback = Feedback(room.words, listener_of(room.settings.age))
        self.field = BeadField(
            room.painter,
            self.runner.frame,
            self.rect(0, 0, 1, 1),
            room.settings.marks_every,
            reduced=room.settings.reduced_motion,
        )
        self.typed = ""
        self.said: Line | None = None
        self.due: float | None = None
        self.idle_at: float | None = None
        self.unmend_at: float | None = None
        self.looking = False
        self.pale_done = 0
        self._stage_shown: tuple[object, ...] | None = None

    def arrange(self) -> None:
        """Lay out for what the lesson waits for."""
        arrange(self)
        self._sync(self.room.seconds())

    def handle(self, event: Input) -> Change | None:
        """Touches on the frame are judged; the rest is for the buttons."""
        now = self.room.seconds()
        self.idle_at = now + IDLE_SECONDS
        self._handle_on_frame(event, now)
        self.touch_up_field(self.field)
        if isinstance(event, Key) and take_key(self, event):
            return None
        return super().handle(event)

    def _handle_on_frame(self, event: Input, now: float) -> None:
        match event:
            case Press(finger, at) if self.runner.stage is Stage.WORK:
                self.field.press(finger, at, now)
            case Press(_, at) if self.runner.stage is Stage.DONE and self.button_at(at) is None:
                self.go_on()
            case Drag(finger, at):
                self.field.drag(finger, at, now)
            case Release(finger, at):
                for done in self.field.release(finger, at, now):
                    self._take(done, now)
            case Lost():
                self.field.cancel(now)

    def _take(self, event: Event, now: float) -> None:
        """A stroke or a wipe on the frame."""
        if isinstance(event, Strokes):
            self.touch(event.stroke)
        elif isinstance(event, Wipe) and self.runner.wipe(event.rods):
            self._show(now)

    def touch(self, stroke: Stroke) -> None:
        """The learner makes a stroke."""
        work, now = self.runner.work, self.room.seconds()
        covered = work is not None and work.is_covered
        verdict = self.runner.touch(stroke)
        if verdict is None or work is None:
            return
        self.looking = False
        if covered:
            self.said = None
            self.room.click()
        else:
            self.said = self.feedback.of_verdict(verdict, work)
            self.field.mend(None if verdict.kept else stroke[0])
            self.unmend_at = None if verdict.kept else now + MENDING_SECONDS
        if not verdict.kept:
            self.field.bounce(stroke, now)
        if not verdict.is_right and work.is_lit:
            self.field.preview(work.next_stroke, now)
        self._show(now)

    def _show(self, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Let the beads go where the runner has them, and show its state."""
        if self.field.frame != self.runner.frame:
            self.field.show(self.runner.frame, now, seconds)
        self._sync(now)

    def say_done(self) -> None:
        """The learner says the work is done."""
        work, now = self.runner.work, self.room.seconds()
        if work is not None and not self.runner.say_done():
            self.said = self.feedback.of_saying_done(work)
        self._show(now)

    def show_me(self) -> None:
        """A little more help; on an unseen frame a look."""
        work = self.runner.work
        if work is not None:
            self.runner.help()
            self.looking = True
            self.field.mend(None)
            self.said = self.feedback.of_help(work)
            if work.level is Help.SHOW:
                self.field.preview(work.next_stroke, self.room.seconds())
            self._sync(self.room.seconds())

    def undo(self) -> None:
        """The last right stroke goes back."""
        if self.runner.undo():
            self.said = None
            self._show(self.room.seconds())

    def type_digit(self, digit: str) -> None:
        """A digit key; `<` takes the last one away. On one rod a digit is the whole answer."""
        self.typed = self.typed[:-1] if digit == "<" else (self.typed + digit)[:MOST_DIGITS]
        self.touch_up(places_of(self).side)
        if len(self.runner.frame.digits) == 1:
            self.answer()

    def answer(self) -> Change | None:
        """The typed number is the answer."""
        work = self.runner.work
        if work is not None and self.typed:
            number = Decimal(self.typed)
            right = self.runner.answer(number)
            self.said = self.feedback.of_answer(number, right, work)
            self.typed = ""
            self._sync(self.room.seconds())
        return None

    def go_on(self) -> None:
        """Leave a sentence, or what is done."""
        now, words = self.room.seconds(), self.room.words
        was_revealed = self.runner.stage is Stage.REVEAL
        self.runner.go_on()
        self.said = words.line("lesson.replay") if was_revealed else None
        self.typed, self.looking = "", False
        if self.runner.place.round and not self.runner.place.item:
            self.said = words.line("lesson.once_more")
        self.field.mend(None)
        self._show(now)

    def next_lesson(self) -> Change:
        """Home, and from there to the next lesson."""
        return Pop("next")

    def once_more(self) -> Change:
        """The same lesson from its start, with other numbers."""
        return Replace(LessonScreen(self.room, self.runner.lesson.id))

    def advance(self, now: float) -> Change | None:
        """Beads glide, demonstrations are played, what is done is kept and left."""
        self.field.advance(now)
        if self.field.take_landed() and not self._is_covered:
            self.room.click()
        self.touch_up_field(self.field)
        if self.field.is_moving:
            return None
        self.keeping.keep()
        if self.due is not None and now >= self.due:
            self.due = None
            self._fall_due(now)
        if self.unmend_at is not None and now >= self.unmend_at:
            self.unmend_at = None
            self.field.mend(None)
            self.touch_up_field(self.field)
        if self.idle_at is not None and now >= self.idle_at:
            self.idle_at = None
            self._point()
        return None

    def _fall_due(self, now: float) -> None:
        work = self.runner.work
        if self.runner.stage is Stage.DEMO and work is not None:
            if self.runner.play() is None:
                self.said = self.room.words.line("lesson.your_turn")
            last = not work.to_play
            self.due = now + SHOW_SECONDS + (PAUSE_AFTER_DEMO if last else PAUSE_BEFORE_DEMO)
            self._show(now, SHOW_SECONDS)
        elif self.runner.stage in (Stage.DONE, Stage.REVEAL):
            self.go_on()

    def _point(self) -> None:
        """Nothing was touched for a while: say where to look, once. It counts as no help."""
        work = self.runner.work
        if self.runner.stage is Stage.WORK and work is not None and self.said is None:
            self.said = self.feedback.of_waiting(work)
            self.field.point(work.rod_to_work if self.said else None)
            self.touch_up_field(self.field)
            self.touch_up(places_of(self).line)

    def wakes_in(self, now: float) -> float | None:
        """At once while beads move; else when something falls due."""
        if self.field.is_moving:
            return 0
        due = (self.due, self.idle_at, self.unmend_at)
        times = [time for time in due if time is not None]
        return max(0.001, min(times) - now) if times else None

    def _sync(self, now: float) -> None:
        """Show the runner's state."""
        runner, work = self.runner, self.runner.work
        can_undo = work is not None and work.can_undo
        shown = (runner.stage, runner.place, self._is_covered, can_undo)
        if shown != self._stage_shown:
            is_new = self._stage_shown is None or shown[:3] != self._stage_shown[:3]
            self._stage_shown = shown
            if is_new:
                self._enter_stage(now)
            self.lay_out()
            for place in places_of(self).between_exercises:
                self.touch_up(place)
            return
        pointed = work is not None and work.level is Help.POINT and runner.stage is Stage.WORK
        pointed = pointed and len(runner.frame.digits) > 1
        self.field.point(work.rod_to_work if work and pointed else None)
        self.field.hint(self._hinted())
        look, blind = look_of(
            runner, self.room.settings, looking=self.looking, pale_done=self.pale_done
        )
        self.field.appear(look, blind=blind)
        self.touch_up_field(self.field)
        for place in places_of(self).changing:
            self.touch_up(place)

    @property
    def _is_covered(self) -> bool:
        return self.runner.work is not None and self.runner.work.is_covered

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
        work = self.runner.work
        if self.runner.stage is Stage.DONE and work is not None:
            self.field.mend(None)
            self.pale_done += work.exercise.rung is Rung.PALE
            explains = self.said is not None and work.exercise.kind is not Kind.READ
            self.due = now + (PAUSE_TO_READ if explains else PAUSE_AFTER_DONE)
            self.said = self.said or self.feedback.of_done(work)
            if work.right:
                self.room.click("right")
        elif self.runner.stage is Stage.DEMO:
            self.due = now + PAUSE_BEFORE_DEMO
        elif self.runner.stage is Stage.WORK:
            self.idle_at = now + IDLE_SECONDS
        elif self.runner.stage is Stage.REVEAL and work is not None:
            self.due = now + PAUSE_TO_READ
            self.field.mend(work.first_mend)

    def leave(self) -> None:
        """Keep where the lesson stands."""
        self.keeping.keep()

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, the sentence, the frame, the card, the string of progress."""
        paint(self, brushes)
