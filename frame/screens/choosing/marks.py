"""A sheet that was worked on paper is marked: its code is typed, and it is made from that."""

from concurrent.futures import Future
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.choosing.at_hand import AtHand
from frame.screens.choosing.code_of_sheet import code_lines, code_signs, code_trouble
from frame.screens.choosing.marks_end import Left
from frame.screens.choosing.sheet_page import Turned
from frame.screens.choosing.touch_wrong import TouchWrong
from frame.screens.choosing.type_answers import TypeAnswers
from frame.screens.parts.keypad import ERASE
from frame.screens.parts.page import Page
from frame.sheets.code import CodeError, recipe_of
from frame.sheets.making import SheetError, sheet_of
from frame.sheets.sheet import Sheet
from frame.view.clipboard import clipboard_text
from frame.view.inputs import Input, Key, Typed
from frame.view.widgets import Brushes, Button, Style

MADE_SECONDS = 0.05
"""How long after one question whether the sheet is made the next one is."""
_KEYS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_IN_LINE, _IN_LINE_NARROW = 11, 7


class Due(StrEnum):
    """What the page waits for."""

    MADE = "made"


class MarksScreen(Page):
    """The code of a sheet, typed or touched. Behind it are the answers."""

    def __init__(self, room: Room, learner: Learner) -> None:
        super().__init__(room)
        self.learner = learner
        self.signs = ""
        self.trouble = ""
        self.nearest = ""
        self.at_hand: AtHand | None = None
        self._making: Future[Sheet] | None = None

    @property
    def greeting(self) -> Line:
        """What is typed, or that it is none."""
        key = "marks.making" if self._making else "marks.no_code" if self.trouble else "marks.ask"
        return self.room.words.line(key)

    def greet(self) -> None:
        """Have a system that has a keyboard on the screen show it."""
        super().greet()
        # Never stopped: without it no screen would hear what keys type.
        pygame.key.start_text_input()
        pygame.key.set_text_input_rect(self._box)

    @property
    def _box(self) -> pygame.Rect:
        return self.band(20, 11) if self.is_narrow else self.rect(12, 21, self.across - 60, 14)

    def arrange(self) -> None:
        """The signs of codes, and the way on."""
        words = self.room.words
        on = self.band(78.5, 7) if self.is_narrow else self.rect(self.across - 45, 21, 33, 14)
        if self._making is None:
            text = words.text("marks.go_on")
            self.buttons.append(Button(on, self.take, text, style=Style.MAIN, step=2))
        if self.nearest:
            text = words.text("marks.code.near", code=self.nearest)
            near = self.band(40, 6) if self.is_narrow else self.band(42.5, 7.5)
            self.buttons.append(Button(near, self._take_nearest, text))
        self.buttons += self._keys(self.band(47, 30) if self.is_narrow else self.band(52, 29))

    def _keys(self, place: pygame.Rect) -> list[Button]:
        in_line = _IN_LINE_NARROW if self.is_narrow else _IN_LINE
        lines, gap = -(-(len(_KEYS) + 1) // in_line), self.unit
        high = (place.h - gap * (lines - 1)) / lines
        wide = (place.w - gap * (in_line - 1)) / in_line
        step = 1 if self.is_narrow else 2
        keys = []
        for at, sign in enumerate((*_KEYS, ERASE)):
            left = round(place.left + at % in_line * (wide + gap))
            top = round(place.top + at // in_line * (high + gap))
            key, touch = pygame.Rect(left, top, round(wide), round(high)), partial(self.touch, sign)
            is_erase = sign == ERASE
            keys.append(
                Button(key, touch, "" if is_erase else sign, "erase" if is_erase else "", step=step)
            )
        return keys

    # What is typed

    def touch(self, sign: str) -> None:
        """A sign is touched; `<` takes the last one away."""
        self._show(self.signs[:-1] if sign == ERASE else code_signs(self.signs + sign))

    def _show(self, signs: str) -> None:
        self.signs, self.trouble, self.nearest = signs, "", ""
        if self._making is not None:
            self._making.cancel()
            self._making = None
        self.rearrange()

    def handle(self, event: Input) -> Change | None:
        """What the keyboard types, in any case."""
        if isinstance(event, Typed):
            self._show(code_signs(self.signs + event.text))
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Keys that type nothing: they take away, paste, go on, or go round the buttons."""
        if key.code == pygame.K_BACKSPACE:
            self._show("" if key.control else self.signs[:-1])
        elif key.control and key.code == pygame.K_v:
            self._show(code_signs(self.signs + clipboard_text()))
        elif key.code != pygame.K_SPACE or self.focus is not None:
            return super().press_key(key)
        return None

    # The sheet

    def _take_nearest(self) -> Change | None:
        self._show(code_signs(self.nearest))
        return self.take()

    def take(self) -> Change | None:
        """Have the sheet of this code made, or tell what is wrong with it."""
        try:
            recipe = recipe_of(self.signs)
        except CodeError as error:
            self._refuse(code_trouble(error, self.room.words), error.nearest)
            return None
        self._making = self.room.aside.do(partial(sheet_of, recipe))
        return self._made()

    def _refuse(self, why: str, nearest: str = "") -> None:
        self.trouble, self.nearest, self._making = why, nearest, None
        self.rearrange()
        self.greet()

    def _made(self) -> Change | None:
        """Mark the sheet once it is made."""
        making = self._making
        if making is None:
            return None
        if not making.done():
            self.dues.put(Due.MADE, self.room.seconds() + MADE_SECONDS)
            self.rearrange()
            return None
        try:
            sheet = making.result()
        except SheetError:
            self._refuse(self.room.words.text("marks.code.unmade"))
            return None
        self._making = None
        if not sheet.tasks:
            self._refuse(self.room.words.text("marks.code.empty"))
            return None
        self._put_away()
        self.at_hand = AtHand(self.room, self.learner, sheet)
        return self._open(self.at_hand)

    def _open(self, at_hand: AtHand) -> Change:
        return Push(TouchWrong(at_hand) if at_hand.is_quick else TypeAnswers(at_hand))

    def advance(self, now: float) -> Change | None:
        """The sheet may be made."""
        change = self._made() if self.dues.take(Due.MADE, now) else None
        return change or super().advance(now)

    def resumed(self, result: object) -> Change | None:
        """The other way of marking is wanted; or all is kept, and another code may come."""
        if result is Turned.OTHER and self.at_hand is not None:
            return self._open(self.at_hand)
        self._put_away()
        if result is Left.KEPT:
            self._show("")
        return None

    def _put_away(self) -> None:
        if self.at_hand is not None:
            self.at_hand.leave()
            self.at_hand = None

    def leave(self) -> None:
        """What is not made yet need not be."""
        if self._making is not None:
            self._making.cancel()
        self._put_away()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what to do, the code as far as it is typed, and what is wrong with it."""
        words, theme = self.room.words, self.room.theme
        self.paint_title(brushes, words.text("marks.told.title", name=self.learner.nickname))
        brushes.text(words.text("marks.ask"), self.band(12.5, 6.5), 1)
        brushes.box(self._box, theme.card, None if self.trouble else theme.ink)
        if self.trouble:
            brushes.dashes(self._box, theme.mending)
        inside = self._box.inflate(-round(4 * self.unit), -round(2 * self.unit))
        lines = code_lines(self.signs)
        for at, line in enumerate(lines):
            high = inside.h // len(lines)
            place = pygame.Rect(inside.left, inside.top + at * high, inside.w, high)
            brushes.text(line, place, 3 if len(lines) == 1 else 2, bold=True)
        below = self.band(32, 7.5) if self.is_narrow else self.band(36, 6)
        if self._making is not None:
            brushes.text(words.text("marks.making"), below, 1, soft=True)
        elif self.trouble:
            brushes.text(f"{words.text('marks.no_code')} {self.trouble}", below, 1)
        unkept = self.band(87, 2.4) if self.is_narrow else self.band(83, 5)
        brushes.text(words.text("marks.told.unkept"), unkept, 0, soft=True)
