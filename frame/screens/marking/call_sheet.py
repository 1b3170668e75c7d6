"""A sheet is called sum by sum by the voice, to be worked on a frame of one's own."""

from functools import partial

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.language.printed import printed_parts
from frame.room import Room
from frame.screens.marking.answer_fields import paint_fields
from frame.screens.paper.told_marks import answer_text, task_text
from frame.screens.parts.calling import Calling
from frame.screens.parts.dials import Dial, DialPage, Press
from frame.screens.parts.keypad import ERASE, MINUS, POINT, key_gap, key_sign, keypad
from frame.screens.parts.panel import Due
from frame.sheets.called import GAPS, CalledSheet
from frame.sheets.marking import Answer
from frame.sheets.sheet import Sheet
from frame.view.inputs import Key
from frame.view.widgets import Brushes, Button, Style, paint_tick

_BESIDE = 115
"""Units across that keys need beside the rest."""
_MOST_BEAD = 7.0
"""Units from one bead to the next, at most."""
_ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
_BACK, _ON = (pygame.K_LEFT, pygame.K_UP), (pygame.K_RIGHT, pygame.K_DOWN)


class CallSheet(DialPage):
    """The sum that is called, its answer, typed or looked at, and the pace. Nothing is kept: what
    is to be kept is marked."""

    def __init__(self, room: Room, sheet: Sheet) -> None:
        super().__init__(room)
        self.sheet = CalledSheet.of(sheet)
        self.pace = "usual"
        self.calling: Calling | None = None
        self._called: set[int] = set()  # the numbers of the sums that were called
        self._seen = (0, False)

    @property
    def greeting(self) -> Line:
        """What there is to do."""
        return self.room.words.line("call_sheet.ask")

    def now(self, name: str) -> object:
        """The pace."""
        return getattr(self, name)

    def choose(self, **changes: object) -> None:
        """Another pace, from the next call on: the one under way ends, as the pace is said."""
        self._stop()
        self.pace = str(changes["pace"])

    def rows(self) -> tuple[Dial, ...]:
        """The paces."""
        values = [(self.room.words.line(f"call_sheet.{pace}"), pace) for pace in GAPS]
        return (self.pick("practise.pace", name="pace", values=values),)

    # Places

    @property
    def is_upright(self) -> bool:
        """Whether all stands in one column."""
        return self.across < _BESIDE

    @property
    def _pad(self) -> pygame.Rect:
        if self.is_upright:
            return self.band(49, 23)
        place = self.band(22, 47)
        wide = round(min(52 * self.unit, 0.45 * place.w))
        place.left, place.w = place.right - wide, wide
        return place

    def _row(self, at: int) -> pygame.Rect:
        """The place of a row, from 0, beside the rows of keys or above them."""
        if self.is_upright:
            return self.band((20, 28.5, 34, 42)[at], (7.5, 5, 7.2, 6)[at])
        place, gap = self.band(22, 47), key_gap(self.unit)
        high = (place.h - 3 * gap) // 4
        wide = self._pad.left - round(4 * self.unit) - place.left
        return pygame.Rect(place.left, place.top + at * (high + gap), wide, high)

    @property
    def _number(self) -> pygame.Rect:
        if self.is_upright:
            return self.band(12, 7)
        place = self._row(0)
        return pygame.Rect(place.left, round(12 * self.unit), place.w, round(8 * self.unit))

    def arrange(self) -> None:
        """The ways to other sums, the call, the keys, the answer, the paces."""
        self.top, self.bottom = (74.0, 82.0) if self.is_upright else (72.0, 80.0)
        super().arrange()
        text, line, sheet = self.room.words.text, self._number, self.sheet
        before = pygame.Rect(line.left, line.top, line.h, line.h)
        after = pygame.Rect(line.right - line.h, line.top, line.h, line.h)
        self.buttons += [
            Button(before, partial(self.step, -1) if sheet.can_step(-1) else None,
                   sign="step_back", name=text("marks.before")),
            Button(after, partial(self.step, 1) if sheet.can_step(1) else None,
                   sign="step_on", name=text("marks.after")),
        ]  # fmt: skip
        sign, key, act = self._main
        self.buttons.append(
            Button(self._row(0), act, text(key), sign=sign, style=Style.MAIN, step=2)
        )
        self.buttons += keypad(self._pad, self.unit, self.press_sign, self.enter, MINUS + POINT)
        if not sheet.is_seen:
            look = self._row(3)
            look.left, look.w = look.left + look.w // 2, look.w - look.w // 2
            self.buttons.append(Button(look, self.look, text("call_sheet.look"), sign="eye"))

    @property
    def _main(self) -> tuple[str, str, Press]:
        """The one main thing to do: its sign, its words, and what does it."""
        call = self.calling
        if call is None or self._is_over:
            key = "call.repeat" if self.sheet.number in self._called else "marks.call"
            return "speaker", key, self.call
        sign, key = ("next", "call.go_on") if call.is_held else ("pause", "call.hold")
        return sign, key, self.hold

    @property
    def _is_over(self) -> bool:
        return self.calling is not None and self.calling.is_over(self.room.seconds())

    # The call

    def call(self) -> None:
        """The sum is called, from its start."""
        self._stop()
        self.dues.put(Due.GREETING, None)
        task, number = self.sheet.task, self.sheet.number
        self.calling = Calling.of_sum(self.room, task.sum, number, GAPS[self.pace])
        self.calling.start(self.room.seconds())
        self._called.add(number)
        self.rearrange()

    def hold(self) -> None:
        """The call is held, or goes on."""
        if self.calling is not None:
            self.calling.hold(self.room.seconds())
            self.rearrange()

    def step(self, way: int) -> None:
        """Another sum, which is called."""
        self.sheet.typed.step(way)
        self.call()

    def _stop(self) -> None:
        self.room.hush()
        if self.calling is not None:
            self.calling.stop()
            self.calling = None

    def leave(self) -> None:
        """Nothing is heard any more."""
        self._stop()

    def advance(self, now: float) -> Change | None:
        """The next part is called, or the call is over."""
        if self.calling is not None and not self.calling.is_held:
            before, self._seen = self._seen, (self.calling.begun(now), self._is_over)
            if self._seen[1] != before[1]:
                self.rearrange()
            elif self._seen != before:
                self.touch_up()  # Not arranged anew, lest a finger that is down be forgotten.
        return super().advance(now)

    def wakes_in(self, now: float) -> float | None:
        """When the next part is called."""
        change = None
        if self.calling is not None and not self._is_over:
            change = self.calling.next_change(now)
        waits = (super().wakes_in(now), change)
        return min((wait for wait in waits if wait is not None), default=None)

    # The answer

    def press_sign(self, sign: str) -> None:
        """A sign more, or `<` for one less."""
        if sign == ERASE:
            self.sheet.typed.erase()
        else:
            self.sheet.typed.type(sign)
        self.rearrange()

    def enter(self) -> None:
        """What is typed is the answer."""
        if self.sheet.enter():
            self._stop()
            right = self.sheet.is_right
            self.room.say(self._answer("lesson.right_answer") if right else self._not_yet)
        self.rearrange()

    def look(self) -> None:
        """The answer is seen and heard."""
        self._stop()
        self.sheet.look()
        self.room.say(self._answer("lesson.it_is"))
        self.rearrange()

    @property
    def _not_yet(self) -> Line:
        return self.room.words.line("call_sheet.not_yet")

    def _answer(self, key: str) -> Line:
        """The answer in a sentence, with what is left over."""
        result, rest = self.sheet.task.sum.result, self.sheet.task.sum.remainder
        line = self.room.words.line(key, number=result)
        if not rest:
            return line
        more = self.room.words.line("lesson.rest_is", rest=rest)
        return Line(f"{line.show} {more.show}", f"{line.speak} {more.speak}")

    def press_key(self, key: Key) -> Change | None:
        """Signs and Enter are for the answer, space holds the call or begins one, and arrows go
        from sum to sum, unless a button has the ring."""
        if sign := key_sign(key, MINUS + POINT):
            self.focus_button(None)
            self.press_sign(sign)
        elif self.focus is not None:
            return super().press_key(key)
        elif key.code in _ENTER and self.sheet.typed.text(self.sheet.typed.into):
            self.enter()
        elif key.code in (*_BACK, *_ON):
            way = -1 if key.code in _BACK else 1
            if self.sheet.can_step(way):
                self.step(way)
        else:
            return super().press_key(key)
        return None

    # What is seen

    def paint_rest(self, brushes: Brushes) -> None:
        """Which sum it is, how far its call is, the answer, and that nothing is kept."""
        words, sheet = self.room.words, self.sheet
        self.paint_title(brushes, words.text("call_sheet.title"))
        self.paint_rows(brushes)
        number = words.text("call_sheet.number", number=sheet.number, count=sheet.count)
        brushes.text(number, self._number, 2, bold=True, align="centre")
        self._paint_call(brushes, self._row(1))
        paint_fields(brushes, self.room, sheet.typed, self._row(2))
        self._paint_told(brushes, self._row(3))
        unkept = self.band(83, 4.5)
        brushes.text(words.text("call_sheet.unkept"), unkept, 0, soft=True)

    def _paint_call(self, brushes: Brushes, place: pygame.Rect) -> None:
        """A bead for each part, those called in use; one that can't be heard itself; before, what
        to do."""
        words, call = self.room.words, self.calling
        if call is None:
            text = "" if self.sheet.number in self._called else words.text("call_sheet.ask")
            brushes.text(text, place, 1, soft=True)
            return
        parts = printed_parts(self.sheet.task.sum, words)
        at = call.unheard(self.room)
        if at is not None and not self._is_over:
            brushes.line(parts[at], place, 3, least=0, bold=True)
            return
        size = min(place.h, place.w / len(parts), round(_MOST_BEAD * self.unit))
        done = call.begun(self.room.seconds())
        for index in range(len(parts)):
            bead = self.room.painter.bead(round(size * 0.86), round(size * 0.6), used=index < done)
            middle = round(place.left + size * (index + 0.5)), place.centery
            brushes.surface.blit(bead, bead.get_rect(center=middle))

    def _paint_told(self, brushes: Brushes, place: pygame.Rect) -> None:
        """Whether the answer is right; and the sum with it, once it is in sight."""
        sheet, words = self.sheet, self.room.words
        if sheet.is_seen:
            if sheet.is_right:
                high = min(place.h, round(5 * self.unit))
                tick = pygame.Rect(place.left, place.centery - high // 2, high, high)
                paint_tick(brushes, tick)
                place = place.move(tick.w + round(self.unit), 0)
                place.w -= tick.w + round(self.unit)
            brushes.text(f"{task_text(sheet.task, words)} = {self._result}", place, 1, bold=True)
        elif sheet.is_right is False:
            told = pygame.Rect(place.topleft, (place.w // 2 - round(2 * self.unit), place.h))
            brushes.text(self._not_yet.show, told, 1)

    @property
    def _result(self) -> str:
        calculation = self.sheet.task.sum
        answer = Answer(calculation.result, calculation.remainder or None)
        return answer_text(answer, self.room.words)
