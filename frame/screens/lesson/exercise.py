"""An exercise on the screen: the learner's hand on the frame, help, and the answer."""

from decimal import Decimal

from frame.app import Change
from frame.course.answering import Answer
from frame.course.feedback import Feedback
from frame.course.runner import Runner, Stage
from frame.language.lines import Line
from frame.language.numbers import rod_name
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import Help
from frame.room import Room
from frame.screens.lesson.places import is_wide
from frame.screens.parts.calling import Calling
from frame.screens.parts.panel import Panel
from frame.technique.beads import Frame, Stroke
from frame.technique.reading import plain
from frame.view.bead_field import BeadField
from frame.view.gestures import Event, Strokes, Wipe
from frame.view.inputs import Drag, Input, Key, Lost, Press, Release
from frame.view.motion import MOVE_SECONDS

MENDING_SECONDS = 1.8
IDLE_SECONDS = 10.0
LEAST_DIGITS = 4


class ExerciseScreen(Panel):
    """What the learner does goes to the runner; a lesson adds its course of stages."""

    def __init__(self, room: Room, runner: Runner) -> None:
        super().__init__(room)
        self.runner = runner
        self.feedback = Feedback(room.words, room.listener)
        self.field = BeadField(
            room.painter,
            runner.frame,
            self.rect(0, 0, 1, 1),
            room.settings.marks_every,
            reduced=room.settings.reduced_motion,
        )
        self.field.recentre(room.hand_at)
        self.answer = Answer(max(LEAST_DIGITS, runner.lesson.rods))
        self.is_wide = is_wide(runner.lesson)
        self.calling: Calling | None = None
        self.said: Line | None = None
        self.due: float | None = None
        self.idle_at: float | None = None
        self.unmend_at: float | None = None
        self.looking = False
        self.unglance_at: float | None = None

    @property
    def has_field(self) -> bool:
        """Whether there is a frame on the screen: not while the learner's own lies on the table,
        or a number is all there is."""
        work = self.runner.work
        if work is None or self.answer.frame is not None:
            return True
        is_number = work.exercise.by_answer and work.exercise.rung is Rung.NUMBER
        return not work.exercise.own and (not is_number or work.finished)

    @property
    def line(self) -> Line | None:
        """The sentence that stands there."""
        return self.said

    def sync(self, now: float) -> None:
        """Show the runner's state."""

    def resized(self, size: tuple[int, int]) -> None:
        """Lay everything out; in a window of another size the hand is looked for again."""
        if self.size not in ((0, 0), size):
            self.room.hand_at = None
            self.field.recentre(None)
        super().resized(size)

    def take_key(self, key: Key) -> bool:
        """Keys that work beads, type digits or hold a call. Whether the key was meant so."""
        return False

    def go_on(self) -> None:
        """Leave a sentence, or what is done."""

    def handle(self, event: Input) -> Change | None:
        """Touches on the frame are judged; the rest is for the buttons."""
        now = self.room.seconds()
        self.idle_at = now + IDLE_SECONDS
        self._handle_on_frame(event, now)
        self.touch_up_field(self.field)
        if isinstance(event, Key) and self.take_key(event):
            return None
        return super().handle(event)

    def _handle_on_frame(self, event: Input, now: float) -> None:
        match event:
            case Press(finger, at) if self._takes_beads and self._is_for_beads(at):
                self._cover_again(now)
                if not self._finds_hand(at):
                    self.field.press(finger, at, now)
            case Press(_, at) if self.runner.stage is Stage.DONE and self.button_at(at) is None:
                self.go_on()
            case Drag(finger, at):
                self.field.drag(finger, at, now)
            case Release(finger, at):
                is_tap = not self.field.hands.is_dragging
                if self._is_felt and is_tap and self.button_at(at) is not None:
                    self.field.cancel(now)
                for done in self.field.release(finger, at, now):
                    self.press_no_button(finger)
                    self._take(done, now)
            case Lost():
                self.field.cancel(now)

    @property
    def _takes_beads(self) -> bool:
        return self.runner.takes_touches or self.answer.frame is not None

    def _is_for_beads(self, at: tuple[float, float]) -> bool:
        """Whether a press may be one of beads. A hand with eyes shut may lie over buttons: there a
        stroke is one of beads, and a tap is the button's."""
        return self.button_at(at) is None or self._is_felt

    @property
    def _is_felt(self) -> bool:
        """Whether touches are felt where the hand lies, wherever that is."""
        return self.field.anchor is not None and self.field.hands.blind

    def _cover_again(self, now: float) -> None:
        """A touch ends a look at an unseen frame, and is then felt where the hand lies."""
        work = self.runner.work
        if self.looking and work is not None and work.exercise.rung.is_unseen:
            self.looking = False
            self.sync(now)

    def _finds_hand(self, at: tuple[float, float]) -> bool:
        """With eyes shut, the first touch of a sitting on the empty field shows where the hand
        is: that is the beam on the unit rod, and no bead moves."""
        if not self.room.settings.eyes_shut or not self.field.hands.blind:
            return False
        if self.room.hand_at is None:
            self.room.hand_at = at
            self.field.recentre(at)
            self.room.click("settle")
            self.said = self.room.words.line("lesson.hand_found")
            self.sync(self.room.seconds())
            return True
        return False

    def _take(self, event: Event, now: float) -> None:
        """A stroke or a wipe on the frame."""
        if isinstance(event, Strokes):
            self.touch(event.stroke)
        elif isinstance(event, Wipe) and self.runner.wipe(event.rods):
            self.show(now)

    def touch(self, stroke: Stroke) -> None:
        """The learner makes a stroke: on the answer's own frame, or one that is judged."""
        now = self.room.seconds()
        if self.answer.frame is not None:
            self.answer.touch(stroke)
            self.show(now)
            return
        work = self.runner.work
        is_silent = work is not None and work.is_silent
        verdict = self.runner.touch(stroke)
        if verdict is None or work is None:
            return
        self.looking = False
        if is_silent:
            self.said = None
            if work.exercise.rung.is_unseen:
                self.room.click()
        else:
            self.said = None if work.asks else self.feedback.of_verdict(verdict, work)
            self.field.mend(None if verdict.kept else stroke[0])
            self.unmend_at = None if verdict.kept else now + MENDING_SECONDS
        if not verdict.kept:
            self.field.bounce(stroke, now)
        if not verdict.is_right and work.is_lit:
            self.field.preview(work.next_stroke, now)
        self.show(now)

    @property
    def frame(self) -> Frame:
        """The frame that is seen."""
        work, is_told_later = self.runner.work, self.runner.is_set_told_at_end
        if work is not None and work.finished and not work.touches and not is_told_later:
            return work.plan.end if work.plan else work.frame
        return self.answer.frame or self.runner.frame

    def show(self, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Let the beads go where the runner has them, and show its state."""
        if self.field.frame != self.frame:
            self.field.show(self.frame, now, seconds)
        self.sync(now)

    def say_again(self) -> None:
        """The sentence is heard again."""
        self.room.say(self.aloud)

    @property
    def aloud(self) -> Line | None:
        """What is said: the sentence, and for who works with eyes shut the sum before it."""
        work, line = self.runner.work, self.line
        is_silent = work is not None and work.is_silent and work.exercise.asked is Asked.SHOWN
        if work is None or not is_silent or not self.room.settings.eyes_shut:
            return line
        asked = self.feedback.of_sum(work)
        return asked if line is None else Line(line.show, f"{asked.speak} {line.speak}")

    def say_rod(self) -> None:
        """The rod that the keys work is named, where it is not seen."""
        rod, words = self.field.focus, self.room.words
        if rod is not None and self.field.hands.blind:
            self.room.say(words.line("verdict.next_rod", rod=rod_name(rod, words)))

    def say_done(self) -> None:
        """The learner says the work is done."""
        work, now = self.runner.work, self.room.seconds()
        self.looking, self.said = False, None
        if work is not None and not self.runner.say_done():
            self.said = self.feedback.of_saying_done(work)
        self.show(now)

    def show_me(self) -> None:
        """A little more help; on an unseen frame a look."""
        work = self.runner.work
        if work is not None:
            self.runner.help()
            self.looking = True
            self.field.mend(None)
            self.said = self.feedback.of_help(work)
            if work.level is Help.SHOW and not work.is_silent:
                self.field.preview(work.next_stroke, self.room.seconds())
            self.sync(self.room.seconds())

    def undo(self) -> None:
        """The last right stroke goes back."""
        if self.runner.undo():
            self.said = None
            self.show(self.room.seconds())

    @property
    def is_one_digit(self) -> bool:
        """Whether the answer is what one rod reads: then a digit is all of it."""
        work = self.runner.work
        by_answer = work is not None and work.exercise.by_answer
        return len(self.runner.frame.digits) == 1 and not by_answer and not self.answer_signs

    @property
    def answer_signs(self) -> str:
        """The signs that an answer may have beside digits, as far as they are taught or wanted."""
        known, work = self.runner.known, self.runner.work
        calculation = work.exercise.sum if work is not None else None
        numbers = (calculation.result, calculation.remainder or 0) if calculation else ()
        wanted = " ".join(plain(Decimal(number)) for number in numbers)
        minus = "-" if known & {"below-zero", "signs"} or "-" in wanted else ""
        return minus + ("." if known & {"decimals", "unit-rod"} or "." in wanted else "")

    def type_sign(self, sign: str) -> None:
        """A digit key, a minus or a point; `<` takes the last one away. On one rod a digit is the
        whole answer."""
        used_frame = self.answer.frame is not None
        self.answer.type(sign)
        if used_frame:
            self.rearrange()
        self.sync(self.room.seconds())
        if self.is_one_digit:
            self.give_answer()
        elif self.answer.typed[-1:].isdigit():
            self.room.say_number(Decimal(self.answer.typed[-1]))

    def use_frame(self) -> None:
        """The answer is taken from the frame where one was worked, else set on an empty one."""
        if self.runner.takes_touches:
            self.answer.take(self.runner.frame)
        elif self.answer.frame is None:
            self.answer.set_on_frame(self.runner.lesson.rods)
        self.rearrange()
        self.show(self.room.seconds())

    def give_answer(self) -> Change | None:
        """The number is the answer."""
        work, number = self.runner.work, self.answer.number
        if work is not None and number is not None:
            self.runner.answer(number)
            is_last = not self.runner.is_set_told_at_end
            self.said = self.feedback.of_answer(number, work, is_last=is_last)
            self.answer.clear()
            self.show(self.room.seconds())
        return None
