"""The grown-ups' code: keys to type it on, and how it is set."""

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.keypad import ERASE, key_sign, keypad
from frame.screens.parts.page import Page, abreast
from frame.view.inputs import Key
from frame.view.widgets import Brushes

DIGITS = 4


class CodePad(Page):
    """A question, and keys for four digits. Subclasses take the code in `give`."""

    def __init__(self, room: Room, question: str) -> None:
        super().__init__(room)
        self.question = question
        self.typed = ""

    @property
    def greeting(self) -> Line | None:
        """The question."""
        return self.room.words.line(self.question)

    @property
    def notes(self) -> tuple[str, ...]:
        """What is told at the foot."""
        return ("code.purpose",)

    def give(self, code: str) -> Change | None:
        """Four digits are given."""
        raise NotImplementedError

    def ask(self, question: str) -> None:
        """Ask for four digits anew."""
        self.question, self.typed = question, ""
        self.greet()
        self.touch_up()

    def arrange(self) -> None:
        """The digit keys in the middle."""
        area = self.rect(self.across / 2 - 26, 31, 52, 44)
        self.buttons += keypad(area, self.unit, self.type_digit, self.answer)

    def type_digit(self, digit: str) -> None:
        """A digit key; `<` takes the last one away."""
        self.typed = self.typed[:-1] if digit == ERASE else (self.typed + digit)[:DIGITS]
        self.touch_up()

    def answer(self) -> Change | None:
        """What is typed is the code, once it is long enough."""
        return self.give(self.typed) if len(self.typed) == DIGITS else None

    def press_key(self, key: Key) -> Change | None:
        """Digits may be typed as well."""
        if digit := key_sign(key):
            self.focus_button(None)  # Enter is to give what was typed, not to press a digit.
            self.type_digit(digit)
            return None
        if key.code in (pygame.K_RETURN, pygame.K_KP_ENTER) and self.focus is None:
            return self.answer()
        return super().press_key(key)

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, how much is typed, the notes."""
        words, middle = self.room.words, self.across / 2
        question = self.rect(12, 4, self.across - 24, 12)
        brushes.text(words.text(self.question), question, 2, bold=True, align="centre")
        box = self.rect(middle - 26, 18, 52, 11)
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        for at, place in enumerate(abreast(box.inflate(-box.w // 2, 0), DIGITS, 0)):
            radius, edge = round(1.5 * self.unit), max(2, round(self.unit / 3))
            width = 0 if at < len(self.typed) else edge
            pygame.draw.circle(brushes.surface, brushes.theme.ink, place.center, radius, width)
        notes = " ".join(words.text(note) for note in self.notes)
        brushes.text(notes, self.band(77, 11), 0, soft=True, align="centre")


class NewCode(CodePad):
    """Has the code set, typed twice; then comes what follows."""

    def __init__(self, room: Room, follows: Change) -> None:
        super().__init__(room, "code.new")
        self.follows = follows
        self.first = ""

    def give(self, code: str) -> Change | None:
        """The first time it is asked for again, the second time it must be the same."""
        if not self.first:
            self.first = code
            self.ask("code.again")
        elif code != self.first:
            self.first = ""
            self.ask("code.other")
        else:
            return self._keep(code)
        return None

    def _keep(self, code: str) -> Change:
        self.room.keeper.write(lambda store: store.set_code(code), "code")
        return self.follows
