"""The learner's touches beside the right ones, bead by bead, with the place where they parted."""

from enum import StrEnum

import pygame

from frame.app import Change, Pop
from frame.course.feedback import Feedback
from frame.language.habits import habit_line
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.language.printed import printed_sum
from frame.language.verdicts import omission_line, verdict_line
from frame.practice.replay import Replay, replay_of
from frame.practice.work import Work
from frame.practice.written import is_written, lines_of, unused_at
from frame.room import Room
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.sentence import is_heard, paint_sentence
from frame.screens.parts.written import paint_written
from frame.technique.beads import BeadMove
from frame.technique.expression import Sum
from frame.technique.reading import plain, read
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.inputs import Input, Key
from frame.view.motion import SHOW_SECONDS
from frame.view.widgets import Brushes, Button, Style, paint_string

STEP_SECONDS = 1.2
PARTING_SECONDS = 3.0
LATE_PARTING = 6
"""Nobody sits through more strokes than so many that were the same."""
MOST_RODS_ABREAST = 7
"""Two frames of more rods stand one above the other."""
WRITTEN = 10.0
"""Units above the frame of the way for its written work, where there is any."""

_LEAST_ROW = 104
"""Units across that all buttons in one row need."""
_ROW_ABOVE = 11
"""Units for a row of its own, above the way on, in a narrow window."""


def replay_screen(room: Room, work: Work, feedback: Feedback, first: Line | None) -> "ReplayScreen":
    """The replay of an exercise that is over, begun with a sentence."""
    behind = feedback.behind(work)
    if behind is None:
        return ReplayScreen(room, work, replay_of(work), first)
    habit = habit_line(behind.site, room.words, room.listener)
    is_there = all(work.start.has(move.rod) for stroke in behind.hand for move in stroke)
    replay = replay_of(work, behind.hand if is_there else ())
    return ReplayScreen(room, work, replay, first, habit)


class Due(StrEnum):
    """What the replay waits for."""

    STROKE = "stroke"


class ReplayScreen(KeyedPanel):
    """Plays by itself, and can be stepped through by hand. It begins at the start, or where the two
    part late there at once; `first` is said there. Where nothing was touched, and a `habit` may be
    behind the answer, the hand is one that has it, and that is told where the two part."""

    def __init__(
        self,
        room: Room,
        work: Work,
        replay: Replay,
        first: Line | None = None,
        habit: Line | None = None,
    ) -> None:
        self.has_two = replay.parting is not None
        parting = replay.parting or 0
        self.begin = parting if parting > LATE_PARTING else 0
        hand, way = replay.frames_at(self.begin)
        super().__init__(room, hand if self.has_two else way)
        self.other = self.field_of(way)
        self.work = work
        self.replay = replay
        self.first, self.habit = first, habit
        self.is_written = is_written(work.exercise)
        self.at = self.begin
        self.plays = True
        self.dues.put(Due.STROKE, room.seconds() + PARTING_SECONDS)

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frame of the hand, and that of the way; where they never part the way's alone."""
        return (self.field, self.other) if self.has_two else (self.field,)

    @property
    def has_two_rows(self) -> bool:
        """Whether the way on stands below the other buttons, and not beside them."""
        return self.across < _LEAST_ROW

    def may_press(self, at: Point) -> bool:
        """Nothing is to be moved here."""
        return False

    @property
    def line(self) -> Line | None:
        """What is said of the step shown."""
        words, parting = self.room.words, self.replay.parting
        if self.at == self.begin:
            return self.first
        if parting is None:
            return self._together()
        if self.at <= parting:
            return words.line("replay.same")
        if self.at == parting + 1:
            return self._parted()
        if self.at < self.replay.last:
            return words.line("replay.goes_on")
        return words.line("replay.ends", number=self.work.exercise.sum.result)

    def _together(self) -> Line:
        """What is said where the two never part: nothing was touched, or all of it was right."""
        words, given = self.room.words, self.work.given
        if self.replay.hand and self.at == self.replay.last and given is not None:
            number = self.work.exercise.sum.result
            return words.line("replay.said_other", given=given, number=number)
        return words.line("replay.hand_right" if self.replay.hand else "replay.way_only")

    def _parted(self) -> Line | None:
        """What is said where hand and way have parted."""
        words, listener = self.room.words, self.room.listener
        verdict, judge = self.replay.verdict, self.work.judge
        here = words.line("replay.parted")
        if self.habit is not None:
            said = self.habit
        elif verdict is not None:
            said = verdict_line(verdict, words, listener)
        elif judge is not None and (fault := judge.omission()):
            said = omission_line(fault, judge.progress, words, listener)
        else:
            said = words.line("replay.more_to_come")
        return words.line("verdict.then", what=here, act=said)

    def arrange(self) -> None:
        """The frames, with room for the written work above that of the way, and below them back,
        play and forward."""
        wide, above = self.across - 24, WRITTEN if self.is_written else 0
        bottom = 72 - (_ROW_ABOVE if self.has_two_rows else 0)
        rods = len(self.fields[0].frame.digits)
        if len(self.fields) == 1:
            self.fields[0].place(self.rect(12, 27 + above, wide, bottom - 27 - above))
        elif rods <= MOST_RODS_ABREAST:
            for index, field in enumerate(self.fields):
                left, half = 12 + index * (wide + 4) / 2, (wide - 4) / 2
                field.place(self.rect(left, 27 + above, half, bottom - 27 - above))
        else:
            high = (bottom - 20 - above) / 2
            for index, field in enumerate(self.fields):
                top = 19 + index * (high + above + 2)
                field.place(self.rect(28, top, wide - 16, high))
        self._arrange_buttons(wide)

    def _arrange_buttons(self, wide: float) -> None:
        signs = [
            ("step_back", self.step_back),
            ("pause" if self.plays else "play", self.toggle),
            ("step_on", self.step_on),
        ]
        for index, (sign, act) in enumerate(signs):
            place = self.rect(12 + index * 12, 67.5 if self.has_two_rows else 78.5, 10, 9)
            self.buttons.append(Button(place, act, sign=sign, style=Style.PLAIN))
        on = self.rect(12 + wide - 36, 78.5, 36, 9)
        if self.has_two_rows:
            on = self.rect(12, 78.5, wide, 9)
        text = self.room.words.text("lesson.go_on")
        self.buttons.append(Button(on, self.back, text, sign="next", style=Style.MAIN))
        if is_heard(self.room):
            again = self.rect(12, 11, 7, 7)
            say = self.say_again
            self.buttons.append(Button(again, say, sign="speaker", style=Style.SIGN))

    def say_again(self) -> None:
        """The sentence is heard again."""
        self.room.say(self.line)

    def toggle(self) -> None:
        """Play, from the start where the end is reached, or hold."""
        self.plays = not self.plays
        now = self.room.seconds()
        self.dues.put(Due.STROKE, now + STEP_SECONDS / 2 if self.plays else None)
        if self.plays and self.at == self.replay.last:
            self._go_to(0)
        self.rearrange()

    def step_back(self) -> None:
        """One stroke back, by hand."""
        self._step_by_hand(-1)

    def step_on(self) -> None:
        """One stroke on, by hand."""
        self._step_by_hand(1)

    def _step_by_hand(self, way: int) -> None:
        self.plays = False
        self.dues.put(Due.STROKE, None)
        self._go_to(self.at + way)
        self.rearrange()

    def _go_to(self, at: int) -> None:
        """Show both frames after so many strokes, the strokes that parted marked."""
        self.at = min(max(at, 0), self.replay.last)
        now, parting = self.room.seconds(), self.replay.parting
        frames = self.replay.frames_at(self.at)[0 if self.has_two else 1 :]
        for field, frame in zip(self.fields, frames, strict=True):
            field.show(frame, now, SHOW_SECONDS)
        self.field.mend(None)
        if self.has_two:
            self.field.mend(self._undoing(parting) if self.at - 1 == parting else None)
            self.other.hint(self.replay.way[self.at] if self._is_about_to_part else ())
        self.room.say(self.line)
        self.touch_up()

    @property
    def _is_about_to_part(self) -> bool:
        return self.at == self.replay.parting and self.at < len(self.replay.way)

    def _undoing(self, parting: int | None) -> BeadMove | None:
        """The move that takes back what the hand did where the two parted."""
        if parting is None or parting >= len(self.replay.hand):
            return None
        move = self.replay.hand[parting][0]
        return BeadMove(move.rod, -move.change)

    def handle(self, event: Input) -> Change | None:
        """Arrows step; space plays and holds."""
        if isinstance(event, Key) and self.focus is None and event.code in _KEYS:
            _KEYS[event.code](self)
            return None
        return super().handle(event)

    def rest(self, now: float) -> Change | None:
        """The next stroke when it is due."""
        if not self.dues.take(Due.STROKE, now):
            return None
        if self.at == self.replay.last:
            self.plays = False
            self.rearrange()
        else:
            self._go_to(self.at + 1)
            is_parting = self.replay.parting in (self.at - 1, self.at)
            self.dues.put(Due.STROKE, now + (PARTING_SECONDS if is_parting else STEP_SECONDS))
        return None

    def back(self) -> Change | None:
        """Enough seen."""
        self.room.hush()
        return Pop("seen")

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, what is said, the frames with their names and numbers, how far it is."""
        words = self.room.words
        title = printed_sum(self.work.exercise.sum, words)
        brushes.line(title, self.rect(12, 2.5, self.across - 24, 8), 3, bold=True)
        line = self.line
        if line is not None:
            left = 20 if is_heard(self.room) else 12
            place = self.rect(left, 11, self.across - 12 - left, 8)
            paint_sentence(self.room, brushes, line.show, place, brushes.theme.ink)
        # A hand that nobody saw is one that may have been.
        hand = "replay.hand" if self.work.touches else "replay.perhaps"
        names = (hand, "replay.way") if self.has_two else ("replay.way",)
        for field, name in zip(self.fields, names, strict=True):
            field.paint(brushes.surface)
            self._paint_name(brushes, field, words.text(name))
        if self.is_written:
            self._paint_written(brushes, self.fields[-1])
        string = self.rect(50, 81, max(10, self.across - 24 - 38 - 42), 3.6)
        if self.has_two_rows:
            string = self.rect(12, 62, self.across - 24, 3.6)
        paint_string(brushes, self.room.painter, string, self.at, self.replay.last)

    def _paint_written(self, brushes: Brushes, field: BeadField) -> None:
        """The work on the way, as far as it has come."""
        states = self.replay.way_states[: self.at + 1]
        box = field.box
        place = pygame.Rect(0, box.top - round(WRITTEN * self.unit), 0, round(WRITTEN * self.unit))
        place.left, place.w = field.area.left, field.area.w
        unused = unused_at(states[-1]) if states else None
        lines, words = lines_of(states), self.room.words
        paint_written(brushes, place, field, lines, words, unused=unused)

    def _paint_name(self, brushes: Brushes, field: BeadField, name: str) -> None:
        is_column = isinstance(self.work.exercise.sum, Sum)
        # Where operands stand on the frame, what it reads as a whole is no number of the work.
        number = grouped(plain(read(field.frame))) if is_column else ""
        one = self.unit
        if not self.has_two or len(field.frame.digits) <= MOST_RODS_ABREAST:
            top = field.box.top - round((7.5 + (WRITTEN if self.is_written else 0)) * one)
            above = pygame.Rect(field.box.left, top, 0, round(7 * one))
            room = pygame.Rect(field.area).right - field.box.left
            above.w = max(field.box.w, min(room, round(44 * one)))
        else:
            above = pygame.Rect(round(9 * one), field.box.top, round(18 * one), field.box.h)
        brushes.text(f"{name}  {number}".rstrip(), above, 1, bold=True)


_KEYS = {
    pygame.K_LEFT: ReplayScreen.step_back,
    pygame.K_RIGHT: ReplayScreen.step_on,
    pygame.K_SPACE: ReplayScreen.toggle,
}
