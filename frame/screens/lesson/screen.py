"""A lesson under way: touches go to its guide, what stands there is shown, spoken and kept."""

from collections.abc import Callable
from decimal import Decimal

import pygame

from frame.app import Change, Pop, Push, Replace
from frame.course.answer import signs_of
from frame.course.pacing import Due
from frame.course.stages import Stage
from frame.language.numbers import rod_name
from frame.practice.flashing import FlashReport
from frame.practice.log import Happening
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.buttons import answer_keys, buttons_of
from frame.screens.lesson.controls import Control
from frame.screens.lesson.guided_panel import DEAF_SECONDS, GuidedPanel
from frame.screens.lesson.hand import find_hand, is_felt
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.replay import replay_screen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.parts import flashing
from frame.screens.parts.keypad import key_sign
from frame.screens.parts.outcome import Left
from frame.technique.beads import Stroke
from frame.view.flash_safety import FlashRefused
from frame.view.geometry import Point
from frame.view.inputs import Found, Input, Key, Lost, Press
from frame.view.motion import SHOW_SECONDS

_ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)


class LessonScreen(GuidedPanel):
    """One lesson, from where the learner left it, or one set practised."""

    def __init__(self, room: Room, keeping: Keeping) -> None:
        super().__init__(room, keeping)
        self._beads_deaf_until = 0.0
        self._aimed: set[int] = set()  # fingers that came down at what was just shown

    def arrange(self) -> None:
        """The frame, and the buttons for what the lesson waits for."""
        scene = self.scene
        self.field.painter = self.room.painter
        self.field.place(scene.places.frame)
        self.buttons += buttons_of(scene, self.acts)
        if self.runner.stage is Stage.ANSWER:
            self.buttons += answer_keys(scene, self.type_sign, self.give_answer)
        self.sync(self.room.seconds())

    @property
    def acts(self) -> dict[Control, Callable[[], object]]:
        """What each button does."""
        return {
            Control.GO_ON: self.go_on,
            Control.STEP_BACK: self.step_back,
            Control.SAY_AGAIN: self.say_again,
            Control.SHOW_ME: self.show_me,
            Control.UNDO: self.undo,
            Control.DONE: self.say_done,
            Control.START: self.start,
            Control.SKIP: self.skip,
            Control.PASS: self.pass_by,
            Control.HOLD: self.hold,
            Control.RESUME: self.hold,
            Control.REPEAT: self.repeat,
            Control.CALL_AGAIN: self.start,
            Control.TAKE: self.use_frame,
            Control.SET_ANSWER: self.use_frame,
            Control.FOLLOWING: self.follow_given,
            Control.NEXT: self.next_lesson,
            Control.ONCE_MORE: self.once_more,
            Control.HOME: self.back,
            Control.LEAVE: self.back,
        }

    # What the hand does.

    def handle(self, event: Input) -> Change | None:
        """Touches of the frame are strokes; keys may be, too; a touch of what is done goes on."""
        if isinstance(event, Lost):
            self._aimed.clear()
            self.guide.note(Happening.AWAY, self.room.seconds())
        if isinstance(event, Found):
            self.guide.note(Happening.BACK, self.room.seconds())
        if isinstance(event, Key) and self._take_key(event):
            self.touch_up_fields()
            return None
        if isinstance(event, Press) and self.button_at(event.at) is None:
            self._press_beside(event.at)
        return super().handle(event)

    def _press_beside(self, at: Point) -> None:
        """A touch of no button: what is done goes on, what comes up by itself comes now, and on a
        frame that is only shown the way on is told, then the sentence heard again. A touch too
        many does none of it."""
        now = self.room.seconds()
        if now < self.deaf_until or self._hurry(now):
            return
        if self.runner.stage is Stage.TELL and self.field.box.collidepoint(at):
            if not self.guide.seek_on(now):
                self.say_again()
            self.sync(now)

    def _hurry(self, now: float) -> bool:
        """What would go on by itself does so now. Whether it was that."""
        stage = self.runner.stage
        if stage is Stage.DONE:
            self.go_on()
            self._beads_deaf_until = now + DEAF_SECONDS
        elif stage is Stage.REVEAL:
            self.guide.pacing.hurry(now)
        return stage in (Stage.DONE, Stage.REVEAL)

    def may_press(self, at: Point) -> bool:
        """Whether a finger here is one for beads. A hand with eyes shut may lie over buttons: there
        a stroke is one of beads, and a tap is the button's."""
        is_meant = self.guide.takes_beads and self.room.seconds() >= self._beads_deaf_until
        return is_meant and (self.button_at(at) is None or is_felt(self.field))

    def press(self, finger: int, at: Point, now: float) -> None:
        """A touch ends a look at an unseen frame, and is then felt where the hand lies, or shows
        where that is."""
        if self.guide.sight.end_look():
            self.sync(now)
        if self.field.is_aimed_at_preview(at, now):
            self._aimed.add(finger)
        if find_hand(self.room, self.field, at):
            self.room.click("settle")
            self.guide.telling.answer(self.room.words.line("lesson.hand_found"))
            self.sync(now)
        else:
            super().press(finger, at, now)

    def let_go(self, finger: int, at: Point, now: float) -> None:
        """A finger goes up; a tap on a button under a hand with eyes shut is the button's."""
        is_tap = not self.field.hands.is_dragging
        if is_felt(self.field) and is_tap and self.button_at(at) is not None:
            self.field.cancel(now)
        super().let_go(finger, at, now)
        self._aimed.discard(finger)

    def touch(self, stroke: Stroke) -> None:
        """The learner makes a stroke: a wrong one is seen to glide back, and from the second on the
        right one is shown. Beads meant where that showed them just now are no slip."""
        now, was_kept_back = self.room.seconds(), self.guide.sight.keeps_back
        if self._aimed and not self.guide.is_right(stroke):
            self.field.cancel(now)
            return
        verdict = self.guide.touch(stroke, now)
        if verdict is not None and was_kept_back:
            self.room.click()
        if verdict is not None and not verdict.kept:
            self.field.bounce(stroke, now)
        if verdict is not None and not verdict.is_right:
            self.field.preview(self.guide.sight.shows_next, now)
        self.show(now)

    def wipe(self, rods: tuple[int, ...]) -> None:
        """The learner wipes along the beam."""
        self.guide.wipe(rods, self.room.seconds())
        self.show(self.room.seconds())

    def fall_short(self) -> None:
        """Beads were let go half way: what is to be done is told again."""
        now = self.room.seconds()
        self.guide.fall_short(now)
        self.sync(now)

    def _take_key(self, key: Key) -> bool:
        """Keys that work beads, type digits, hold a call or hurry on. Whether the key was meant
        so."""
        stage, now = self.runner.stage, self.room.seconds()
        is_enter = key.code in _ENTER and self.focus is None and now >= self.deaf_until
        if is_enter and self._hurry(now):
            return True
        if stage is Stage.ANSWER:
            return self._type_key(key)
        if stage is Stage.PRESENT and self._is_hold(key):
            self.hold()
            return True
        if not self.runner.takes_touches:
            return False
        if key.control and key.code == pygame.K_z:
            self.undo()
            return True
        return self.take_bead_key(key)

    def _type_key(self, key: Key) -> bool:
        if sign := key_sign(key, signs_of(self.runner)):
            self.focus_button(None)  # Enter is to give what was typed, not to press a digit.
            self.type_sign(sign)
        elif key.code in _ENTER and self.guide.answer.typed and self.focus is None:
            self.give_answer()
        else:
            return False
        return True

    def _is_hold(self, key: Key) -> bool:
        """While numbers are called, space holds the call, or lets it go on."""
        is_free = self.scene.is_calling and self.focus is None
        return key.code == pygame.K_SPACE and is_free

    def come_to_rod(self) -> None:
        """The rod that the keys work is named, where it is not seen."""
        rod, words = self.field.focus, self.room.words
        if rod is not None and self.field.hands.blind:
            self.room.say(words.line("verdict.next_rod", rod=rod_name(rod, words)))

    # What the buttons do.

    def go_on(self) -> None:
        """Leave a sentence, or what is done; it is kept, though beads may still be on their way."""
        self.keeping.keep()
        self._leave(self.guide.go_on)

    def step_back(self) -> None:
        """To what came before."""
        self._leave(self.guide.step_back)

    def skip(self) -> None:
        """Numbers that are to be flashed are left out."""
        self._leave(self.guide.skip)

    def pass_by(self) -> None:
        """An exercise is left as it stands."""
        self._leave(self.guide.pass_by)

    def _leave(self, act: Callable[[float], None]) -> None:
        now = self.room.seconds()
        if self.calling is not None and self.guide.is_presenting:
            self.calling.stop()
        self.calling = None
        act(now)
        self.show(now)

    def say_again(self) -> None:
        """What is asked and what was said are heard again."""
        self.room.say(self.guide.aloud)

    def say_done(self) -> None:
        """The learner says the work is done; where it is not, again, the next bead is shown."""
        now, work = self.room.seconds(), self.runner.work
        self.guide.say_done(now)
        if work is not None and not work.is_silent and not work.finished:
            self.field.preview(self.guide.sight.shows_next, now)
        self.show(now)

    def show_me(self) -> None:
        """A little more help; on an unseen frame a look."""
        now = self.room.seconds()
        self.guide.help(now)
        self.field.preview(self.guide.sight.shows_next, now)
        self.sync(now)

    def undo(self) -> None:
        """The last stroke that was kept goes back."""
        self.guide.undo(self.room.seconds())
        self.show(self.room.seconds())

    def type_sign(self, sign: str) -> None:
        """A digit key, a minus or a point; `<` takes the last one away. On one rod a digit is the
        whole answer."""
        if self.guide.type_sign(sign, self.room.seconds()):
            self.give_answer()
            return
        self.sync(self.room.seconds())
        typed = self.guide.answer.typed[-1:]
        if typed.isdigit():
            self.room.say_number(Decimal(typed))

    def use_frame(self) -> None:
        """The answer is taken from the frame where one was worked, else set on an empty one."""
        self.guide.answer.use_frame(self.runner)
        self.show(self.room.seconds())

    def give_answer(self) -> None:
        """The number is the answer."""
        self.guide.give_answer(self.room.seconds())
        self.show(self.room.seconds())

    def back(self) -> Change | None:
        """The way out; of a set that is left before its end it is told how it went so far."""
        runner, is_set = self.runner, not self.keeping.origin.is_lesson
        if is_set and runner.attempts and runner.stage is not Stage.END:
            return Pop(Left(runner.unaided, len(runner.attempts)))
        return super().back()

    def once_more(self) -> Change:
        """The same lesson from its start, with other numbers."""
        return Replace(LessonScreen(self.room, self.keeping.anew()))

    # Numbers that are called or flashed.

    def start(self) -> Change | None:
        """The numbers of the exercise begin, from the first."""
        work, now, call = self.runner.work, self.room.seconds(), self.calling
        if work is not None and work.exercise.asked is Asked.FLASHED:
            self.room.hush()
            return flashing.flash(self.room, work.exercise)
        was_answer = self.runner.stage is Stage.ANSWER
        if was_answer or (call is not None and call.has_begun):
            self.guide.present_again(now)
        if call is not None and not was_answer:
            self.room.hush()
            call.start(now)
            self.guide.is_called(now)
            self.rearrange()
        self.show(now)
        return None

    def hold(self) -> None:
        """The call is held, or goes on."""
        if self.calling is not None:
            now = self.room.seconds()
            self.calling.hold(now)
            self.guide.note(Happening.HOLD if self.calling.is_held else Happening.RESUME, now)
            self.rearrange()

    def repeat(self) -> None:
        """The number called last is called again, and the call goes on."""
        if self.calling is not None:
            self.calling.repeat(self.room.seconds())
            self.guide.note(Happening.REPEAT, self.room.seconds())
            self.rearrange()

    def resumed(self, result: object) -> Change | None:
        """A run of flashed numbers is over, or what was to be seen was seen."""
        now, work = self.room.seconds(), self.runner.work
        if isinstance(result, FlashReport) and work is not None:
            flashing.keep(self.room, work.exercise, result)
            self.guide.take_report(result, now)
        elif isinstance(result, FlashRefused):
            self.guide.telling.answer(flashing.refusal(result, self.room.words))
        elif self.runner.stage is Stage.REVEAL:
            self.guide.was_shown(now)
            self.go_on()
        elif self.runner.stage is Stage.RESULTS:
            self.go_on()
        self.show(now)
        return None

    # What falls due.

    def rest(self, now: float) -> Change | None:
        """What is done is kept, the call goes on, and what has fallen due is done."""
        self.keeping.keep()
        self._advance_call(now)
        fallen = self.guide.advance(now)
        if fallen:
            self.sync(now)
        return self._fall_due(now) if Due.ON in fallen else None

    def _advance_call(self, now: float) -> None:
        """The call goes on; when it is over the answer is waited for."""
        if self.calling is None or not self.guide.is_presenting:
            return
        self.sync(now)
        if self.calling.is_over(now):
            self.guide.was_shown(now)
            self.show(now)

    def _fall_due(self, now: float) -> Change | None:
        work, stage = self.runner.work, self.runner.stage
        if stage in (Stage.DEMO, Stage.END):
            self.guide.play(now, SHOW_SECONDS)
            self.show(now, SHOW_SECONDS)
        elif stage is Stage.PRESENT:
            return self.start()
        elif stage is Stage.REVEAL and work is not None:
            return Push(replay_screen(self.room, work, self.guide.feedback, self.guide.said))
        elif stage is Stage.RESULTS:
            return Push(self.results())
        elif stage is Stage.DONE:
            self.go_on()
        return None

    def results(self) -> ResultsScreen:
        """How a set went, told at its end."""
        return ResultsScreen(self.room, self.runner.results)

    def wakes_in(self, now: float) -> float | None:
        """At once while beads move; else when something falls due or the next number is called."""
        due = super().wakes_in(now)
        call = self.calling.next_change(now) if self.calling else None
        return min((wait for wait in (due, call) if wait is not None), default=None)

    def leave(self) -> None:
        """Keep where the lesson stands."""
        self.room.hush()
        if self.calling is not None:
            self.calling.stop()
        self.runner.leave()
        self.keeping.keep()
