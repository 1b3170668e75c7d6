"""The answers of a sheet are typed, one after another, and each is marked at once."""

from enum import StrEnum

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.screens.marking.answer_fields import paint_fields
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.sheet_page import SheetPage
from frame.screens.paper.told_marks import fault_text, mark_text, task_text
from frame.screens.parts.keypad import ERASE, MINUS, POINT, key_gap, key_sign, keypad
from frame.sheets.marking import Mark, mark_at_once
from frame.view.inputs import Key
from frame.view.widgets import Brushes, Button, paint_tick

ANSWER_SECONDS = 0.05
"""How long after one question what is behind an answer the next one is."""
_BACK, _ON = (pygame.K_LEFT, pygame.K_UP), (pygame.K_RIGHT, pygame.K_DOWN)
_IN_LINE, _IN_LINE_UPRIGHT = 30, 15


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class TypeAnswers(SheetPage):
    """A task, its number and its fields; below it how the one before went, and all of them."""

    def __init__(self, at_hand: AtHand) -> None:
        super().__init__(at_hand)
        self.typed = at_hand.typed

    @property
    def greeting(self) -> Line:
        """What is typed."""
        return self.room.words.line("marks.type")

    # Places

    @property
    def _pad(self) -> pygame.Rect:
        if self.is_upright:
            return self.band(47, 26)
        place = self.band(22, 47)
        wide = round(min(52 * self.unit, 0.45 * place.w))
        place.left, place.w = place.right - wide, wide
        return place

    def _beside(self, first: int, last: int) -> pygame.Rect:
        """The place beside some of the four rows of keys, counted from 0."""
        place, gap = self.band(22, 47), key_gap(self.unit)
        high = (place.h - 3 * gap) // 4
        place.w = self._pad.left - round(4 * self.unit) - place.left
        place.top += first * (high + gap)
        place.h = high + (last - first) * (high + gap)
        return place

    @property
    def _task(self) -> pygame.Rect:
        return self.band(20, 7) if self.is_upright else self._beside(0, 0)

    @property
    def _line(self) -> pygame.Rect:
        """Where the fields stand, between the ways to the tasks before and after."""
        return self.band(28, 8) if self.is_upright else self._beside(1, 1)

    @property
    def _told(self) -> pygame.Rect:
        return self.band(37.5, 8.5) if self.is_upright else self._beside(2, 3)

    @property
    def _cells(self) -> list[pygame.Rect]:
        in_line = _IN_LINE_UPRIGHT if self.is_upright else _IN_LINE
        lines = -(-len(self.at_hand.sheet.tasks) // in_line)
        place = self.band(74.5, min(11.0, 5.5 * lines))
        return self.tiles(place, in_line, round(self.unit / 2))

    def arrange(self) -> None:
        """The keys, and the ways to the tasks before and after."""
        super().arrange()
        self.buttons += keypad(self._pad, self.unit, self.press_sign, self.enter, MINUS + POINT)
        line, typed, text = self._line, self.typed, self.room.words.text
        before = pygame.Rect(line.left, line.top, line.h, line.h)
        after = pygame.Rect(line.right - line.h, line.top, line.h, line.h)
        is_last = typed.at == len(self.at_hand.sheet.tasks) - 1
        self.buttons += [
            Button(before, self._before if typed.at else None, sign="step_back",
                   name=text("marks.before")),
            Button(after, None if is_last else self._after, sign="step_on",
                   name=text("marks.after")),
        ]  # fmt: skip

    # What is typed

    def press_sign(self, sign: str) -> None:
        """A sign more, or `<` for one less."""
        if sign == ERASE:
            self.typed.erase()
        else:
            self.typed.type(sign)
        self.touch_up()

    def enter(self) -> Change | None:
        """Take what is typed, and go on; behind the last task is the end."""
        goes_on = self.typed.enter()
        self._moved()
        return None if goes_on else self.end()

    def _before(self) -> None:
        self.typed.step(-1)
        self._moved()

    def _after(self) -> None:
        self.typed.step(1)
        self._moved()

    def _moved(self) -> None:
        """Another task is here: ask what was behind the one that was given."""
        self.at_hand.note()
        if self.told is not None and self._is_weighing:
            self.at_hand.weigh(self.told.number)
            self._wait()
        self.rearrange()

    def _wait(self) -> None:
        self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    def advance(self, now: float) -> Change | None:
        """What was behind an answer may be known."""
        if self.dues.take(Due.ANSWER, now):
            self.touch_up()
            if self._is_weighing:
                self._wait()
        return super().advance(now)

    def press_key(self, key: Key) -> Change | None:
        """Signs and Enter are for the answer, and arrows go from task to task, unless a button has
        the ring."""
        if sign := key_sign(key, MINUS + POINT):
            self.focus_button(None)
            self.press_sign(sign)
            return None
        if self.focus is None and key.code in (pygame.K_RETURN, pygame.K_KP_ENTER):
            return self.enter()
        if self.focus is None and key.code in (*_BACK, *_ON):
            self.typed.step(-1 if key.code in _BACK else 1)
            self._moved()
            return None
        return super().press_key(key)

    # What is seen

    @property
    def told(self) -> Mark | None:
        """The mark that is told: of the task that is here where it is given, else of the one given
        last."""
        typed = self.typed
        at = typed.at if typed.at in typed.given else typed.last_given
        if at is None or at not in typed.given:
            return None
        at_once = mark_at_once(self.at_hand.sheet, typed.answers[: at + 1])
        return (self.at_hand.weighed(at + 1) or at_once).marks[at]

    @property
    def _is_weighing(self) -> bool:
        told = self.told
        if told is None or told.answer is None or told.is_right:
            return False
        return self.at_hand.weighed(told.number) is None

    def paint_rest(self, brushes: Brushes) -> None:
        """The task, the fields, how the last one went, and all of them."""
        super().paint_rest(brushes)
        words, task = self.room.words, self._task
        wide, step = (8, 2) if self.is_upright else (12, 3)
        number = pygame.Rect(task.left, task.top, round(wide * self.unit), task.h)
        text = words.text("marks.told.number", number=self.typed.at + 1)
        brushes.text(text, number, step, bold=True)
        sum_at = pygame.Rect(number.right, task.top, task.right - number.right, task.h)
        shown = self.at_hand.sheet.tasks[self.typed.at]
        brushes.text(task_text(shown, words), sum_at, step)
        inside = self._line.inflate(-2 * (self._line.h + round(self.unit)), 0)
        paint_fields(brushes, self.room, self.typed, inside)
        self._paint_told(brushes, self._told)
        for at, cell in enumerate(self._cells):
            self._paint_cell(brushes, at, cell)

    def _paint_told(self, brushes: Brushes, place: pygame.Rect) -> None:
        """How the last answer was, with a tick or a dashed edge; before the first what to do."""
        words, told = self.room.words, self.told
        if told is None:
            step, half = 0 if self.is_upright else 1, place.h // 2
            first = pygame.Rect(place.topleft, (place.w, half))
            brushes.text(words.text("marks.type"), first, step)
            brushes.text(words.text("marks.told.unkept"), first.move(0, half), step, soft=True)
            return
        inside = place.inflate(-round(3 * self.unit), -round(1.5 * self.unit))
        if told.is_right:
            tick = pygame.Rect(inside.left, inside.top, round(5 * self.unit), round(5 * self.unit))
            paint_tick(brushes, tick)
            inside.left, inside.w = tick.right + round(self.unit), inside.w - tick.w
            inside.h = tick.h
            brushes.text(mark_text(told, words), inside, 1)
            return
        brushes.dashes(place, self.room.theme.mending)
        fault = words.text("marks.told.weighing") if self._is_weighing else fault_text(told, words)
        high = round((0.5 if self.is_upright else 0.4) * inside.h) if fault else inside.h
        first = pygame.Rect(inside.topleft, (inside.w, high))
        step = 1 if self.is_upright else 2
        brushes.text(mark_text(told, words), first, step, bold=True)
        if fault:
            below = pygame.Rect(inside.left, first.bottom, inside.w, inside.bottom - first.bottom)
            brushes.text(fault, below, step - 1)

    def _paint_cell(self, brushes: Brushes, at: int, cell: pygame.Rect) -> None:
        """A task among all: its number, a tick where it is right, dashes where it is not."""
        theme, is_right = self.room.theme, self.typed.is_right(at)
        is_here = at == self.typed.at
        if is_here:
            brushes.box(cell, theme.card, theme.ink)
        if is_right:
            paint_tick(brushes, cell.inflate(-cell.w // 5, -cell.h // 5))
            return
        if is_right is False:
            self.paint_dashes(brushes, cell, 0.5)
        inside = cell.inflate(-round(self.unit), -round(self.unit / 2))
        brushes.text(str(at + 1), inside, 0, soft=is_right is None and not is_here, align="centre")
