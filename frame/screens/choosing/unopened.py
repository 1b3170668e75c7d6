"""The learners' file can't be opened now: why, and how one goes on all the same."""

from collections.abc import Callable
from enum import StrEnum

from frame.app import Change, Replace
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.room import RETRY_SECONDS, Room
from frame.screens.choosing.who import Who
from frame.screens.parts.page import Page
from frame.screens.parts.trouble import trouble_text
from frame.view.widgets import Brushes, Button, Style


class Due(StrEnum):
    """What is waited for."""

    TRY = "try"


class Unopened(Page):
    """Tries to open the file now and then. Whoever can't wait goes on, and nothing is kept."""

    goes_back = False

    def __init__(self, room: Room, opening: Callable[[], Store], error: StoreError) -> None:
        super().__init__(room)
        self.opening = opening
        self.error = error
        self.dues.put(Due.TRY, room.seconds() + RETRY_SECONDS)

    def arrange(self) -> None:
        """To try at once, or to go on without."""
        text, across = self.room.words.text, self.across
        width = min(60.0, across - 8)
        for top, key, act, style in (
            (58, "store.now", self._try, Style.MAIN),
            (72, "store.without", self._go_on, Style.PLAIN),
        ):
            place = self.rect((across - width) / 2, top, width, 11)
            self.buttons.append(Button(place, act, text(key), style=style, step=1))

    def advance(self, now: float) -> Change | None:
        """Try again when it is time."""
        super().advance(now)
        return self._try() if self.dues.take(Due.TRY, now) else None

    def back(self) -> Change | None:
        """Esc never closes the window."""
        return None

    def _try(self) -> Change | None:
        try:
            store = self.opening()
        except StoreError as error:
            self.error = error
            self.dues.put(Due.TRY, self.room.seconds() + RETRY_SECONDS)
            self.rearrange()
            return None
        self.room.use_store(store)
        return self._go_on()

    def _go_on(self) -> Change:
        return Replace(Who(self.room))

    def paint_rest(self, brushes: Brushes) -> None:
        """What is wrong, with which file."""
        words, error = self.room.words, self.error
        brushes.text(
            trouble_text(error.trouble, words), self.band(10, 16), 3, bold=True, align="centre"
        )
        key = "store.what_newer" if error.trouble is Trouble.NEWER else "store.what"
        what = words.text(key, path=str(error.where), found=error.found)
        brushes.text(what, self.band(28, 14), 0, soft=True, align="centre")
        brushes.text(words.text("store.again"), self.band(43, 10), 1, align="centre")
