"""The quick way to mark a sheet: the numbers of the tasks that are wrong are touched."""

from functools import partial

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.sheet_page import SheetPage
from frame.screens.parts.keypad import ERASE, key_sign
from frame.view.inputs import Key
from frame.view.widgets import Brushes, Button, Style

_DIGITS = 2
_IN_LINE, _IN_LINE_UPRIGHT = 12, 6
_MOST_LINES = 7


class TouchWrong(SheetPage):
    """All tasks as tiles. With keys a number is typed, and Enter takes it."""

    def __init__(self, at_hand: AtHand) -> None:
        super().__init__(at_hand)
        self.number = ""

    @property
    def greeting(self) -> Line:
        """What is touched."""
        return self.room.words.line("marks.touch")

    @property
    def _places(self) -> list[pygame.Rect]:
        count = len(self.at_hand.sheet.tasks)
        usual = _IN_LINE_UPRIGHT if self.is_upright else _IN_LINE
        in_line = max(usual, -(-count // _MOST_LINES))
        lines = -(-count // in_line)
        high = min(50.0, lines * 11.0)
        return self.tiles(self.band(29, high), in_line, round(self.unit))

    def arrange(self) -> None:
        """A tile for each task."""
        super().arrange()
        words = self.room.words
        step = 1 if self.is_upright else 2
        for number, place in enumerate(self._places, 1):
            is_wrong = number in self.at_hand.wrong
            name = words.line("marks.tile_wrong", number=number).speak if is_wrong else ""
            act = partial(self.toggle, number)
            tile = Button(place, act, str(number), name=name, style=Style.SIGN, step=step,
                          bold=is_wrong)  # fmt: skip
            self.buttons.append(tile)

    def toggle(self, number: int) -> None:
        """A task is wrong, or not after all."""
        self.at_hand.toggle(number)
        self.number = ""
        self.rearrange()

    def press_key(self, key: Key) -> Change | None:
        """Digits are the number of a task."""
        if sign := key_sign(key):
            self.focus_button(None)
            self.number = self.number[:-1] if sign == ERASE else (self.number + sign)[-_DIGITS:]
            self.touch_up()
            return None
        if key.code in (pygame.K_RETURN, pygame.K_KP_ENTER) and self.focus is None:
            return self._take()
        return super().press_key(key)

    def _take(self) -> Change | None:
        if not self.number:
            return self.end()
        number = int(self.number)
        if 1 <= number <= len(self.at_hand.sheet.tasks):
            self.toggle(number)
        self.number = ""
        self.touch_up()
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """What to do, the tiles, and the number that is typed."""
        super().paint_rest(brushes)
        words, theme = self.room.words, self.room.theme
        brushes.text(words.text("marks.touch"), self.band(20, 8), 1)
        for number, place in enumerate(self._places, 1):
            is_wrong = number in self.at_hand.wrong
            brushes.box(place, theme.card, None if is_wrong else theme.hairline)
            if is_wrong:
                self.paint_dashes(brushes, place)
        key = "marks.told.typed_number" if self.number else "marks.told.by_keys"
        brushes.text(
            words.text(key, number=self.number), self.band(80, 4), 0, bold=bool(self.number)
        )
        brushes.text(words.text("marks.told.unkept"), self.band(84, 4.5), 0, soft=True)
