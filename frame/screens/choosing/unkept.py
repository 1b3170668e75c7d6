"""The window was closed while not all is on disk: it stays until it is, or is closed again."""

from frame.app import Change, Quit
from frame.screens.parts.page import Page
from frame.screens.parts.trouble import waiting_line
from frame.view.widgets import Brushes, Button, Style


class Unkept(Page):
    """Says what is wrong with the learners' file; the room goes on trying to write it."""

    goes_back = False

    def arrange(self) -> None:
        """To close at once, whatever is lost."""
        width = min(60.0, self.across - 8)
        place = self.rect((self.across - width) / 2, 64, width, 11)
        text = self.room.words.text("store.close")
        self.buttons.append(Button(place, Quit, text, style=Style.PLAIN, step=1))

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
