"""A small lock for grown-ups: a product that a young child does not know."""

import pygame

from frame.app import Change, Replace
from frame.room import Room
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.parts.keypad import key_sign, keypad
from frame.screens.parts.panel import Panel
from frame.view.inputs import Input, Key
from frame.view.widgets import Brushes


class Lock(Panel):
    """Asks for a product; the right answer opens the settings."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.one, self.other = room.random.randint(6, 9), room.random.randint(3, 9)
        self.typed = ""

    def arrange(self) -> None:
        """The digit keys in the middle."""
        area = self.rect(self.across / 2 - 26, 36, 52, 48)
        self.buttons += keypad(area, self.unit, self.type_digit, self.answer)

    def type_digit(self, digit: str) -> None:
        """A digit key; `<` takes the last one away."""
        self.typed = self.typed[:-1] if digit == "<" else (self.typed + digit)[:2]
        self.touch_up()

    def answer(self) -> Change | None:
        """The typed number is the answer."""
        if self.typed == str(self.one * self.other):
            return Replace(SettingsScreen(self.room))
        self.typed = ""
        self.touch_up()
        return None

    def handle(self, event: Input) -> Change | None:
        """Digits may be typed as well."""
        if isinstance(event, Key) and (digit := key_sign(event)):
            self.type_digit(digit)
            return None
        enter = isinstance(event, Key) and event.code in (pygame.K_RETURN, pygame.K_KP_ENTER)
        if enter and self.focus is None:
            return self.answer()
        return super().handle(event)

    def paint_rest(self, brushes: Brushes) -> None:
        """The question and what is typed."""
        question = self.room.words.text("settings.lock", a=self.one, b=self.other)
        brushes.text(question, self.rect(14, 6, self.across - 28, 12), 2, bold=True, align="centre")
        box = self.rect(self.across / 2 - 26, 21, 52, 12)
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        brushes.text(self.typed or "?", box, 3, bold=True, align="centre")
