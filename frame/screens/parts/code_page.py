"""A page on which the code of a sheet is typed, by keys or by touch."""

from functools import partial

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.code_of_sheet import code_lines, code_signs
from frame.screens.parts.keypad import ERASE
from frame.screens.parts.page import Page
from frame.view.clipboard import clipboard_text
from frame.view.inputs import Input, Key, Typed
from frame.view.widgets import Brushes, Button, Style

_KEYS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_IN_LINE, _IN_LINE_NARROW = 11, 7


class CodePage(Page):
    """The signs as far as they are typed, and what is wrong with them. Subclasses `take` them."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.signs = ""
        self.trouble = ""
        self.nearest = ""
        self._refused = ""

    @property
    def is_busy(self) -> bool:
        """Whether the code is looked at."""
        return False

    @property
    def title(self) -> str:
        """What stands at the top."""
        raise NotImplementedError

    @property
    def note(self) -> str:
        """What is told at the foot; usually nothing."""
        return ""

    def take(self) -> Change | None:
        """What the way on does."""
        raise NotImplementedError

    def again(self) -> Change | None:
        """What the code that was meant does, in the place of one that was none."""
        return self.take()

    def ways_on(self) -> list[Button]:
        """What leads on."""
        on = self.band(78.5, 7) if self.is_narrow else self.rect(self.across - 45, 21, 33, 14)
        text = self.room.words.text("giving.take_code")
        return [Button(on, self.take, text, style=Style.MAIN, step=2)]

    @property
    def greeting(self) -> Line:
        """What is typed, or what is wrong with it."""
        key = "marks.making" if self.is_busy else self._refused or "marks.ask"
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
        if not self.is_busy:
            self.buttons += self.ways_on()
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

    def touch(self, sign: str) -> None:
        """A sign is touched; `<` takes the last one away."""
        self.show_signs(self.signs[:-1] if sign == ERASE else code_signs(self.signs + sign))

    def show_signs(self, signs: str) -> None:
        """Have these typed."""
        self.signs, self.trouble, self.nearest, self._refused = signs, "", "", ""
        self.rearrange()

    def refuse(self, why: str, nearest: str = "", key: str = "marks.no_code") -> None:
        """Tell that it is no code, or what else, and which may have been meant."""
        self.trouble = f"{self.room.words.text(key)} {why}".strip()
        self.nearest, self._refused = nearest, key
        self.rearrange()
        self.greet()

    def _take_nearest(self) -> Change | None:
        self.show_signs(code_signs(self.nearest))
        return self.again()

    def handle(self, event: Input) -> Change | None:
        """What the keyboard types, in any case."""
        if isinstance(event, Typed):
            self.show_signs(code_signs(self.signs + event.text))
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Keys that type nothing: they take away, paste, go on, or go round the buttons."""
        if key.code == pygame.K_BACKSPACE:
            self.show_signs("" if key.control else self.signs[:-1])
        elif key.control and key.code == pygame.K_v:
            self.show_signs(code_signs(self.signs + clipboard_text()))
        elif key.code != pygame.K_SPACE or self.focus is not None:
            return super().press_key(key)
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what to do, the code as far as it is typed, and what is wrong with it."""
        words, theme = self.room.words, self.room.theme
        self.paint_title(brushes, self.title)
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
        if self.is_busy:
            brushes.text(words.text("marks.making"), below, 1, soft=True)
        elif self.trouble:
            brushes.text(self.trouble, below, 1)
        foot = self.band(87, 2.4) if self.is_narrow else self.band(83, 5)
        brushes.text(self.note, foot, 0, soft=True)
