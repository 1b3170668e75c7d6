"""The window was closed while not all is on disk: it stays until it is, or is closed again."""

from frame.app import Change, Quit, Replace
from frame.room import Room
from frame.screens.choosing.who import Who
from frame.screens.parts.page import Page
from frame.screens.parts.trouble import waiting_line
from frame.view.widgets import Brushes, Button, Style


class Unkept(Page):
    """Says what is wrong with the learners' file; the room goes on trying to write it. Whoever
    `goes_on` does not want to close any more."""

    goes_back = False

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.goes_on = False

    def arrange(self) -> None:
        """To go on after all, or to close at once, whatever is lost."""
        text, across = self.room.words.text, self.across
        width = min(60.0, across - 8)
        for top, key, act, style in (
            (58, "store.stay", self._go_on, Style.MAIN),
            (72, "store.close", Quit, Style.PLAIN),
        ):
            place = self.rect((across - width) / 2, top, width, 11)
            self.buttons.append(Button(place, act, text(key), style=style, step=1))

    def _go_on(self) -> Change:
        self.goes_on = True
        return Replace(Who(self.room))

    def wakes_in(self, now: float) -> float | None:
        """At once where nothing is left to wait for."""
        return super().wakes_in(now) if self.room.is_unsaved else 0.0

    def advance(self, now: float) -> Change | None:
        """Close where all is on disk."""
        return super().advance(now) if self.room.is_unsaved else Quit()

    def back(self) -> Change | None:
        """Esc never closes the window."""
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """What is waited for, and why."""
        words = self.room.words
        brushes.text(words.text("store.unkept"), self.band(14, 16), 3, bold=True, align="centre")
        why = waiting_line(self.room.keeper, words)
        brushes.text(why, self.band(34, 22), 1, soft=True, align="centre")
