"""What a tutor gave to do, where there is more than one: a ticket for each."""

from collections.abc import Sequence
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.language.lines import Line
from frame.learner.assigned import Assigned
from frame.room import Room
from frame.screens.choosing.shown_given import given_drawing, given_screen, sign_card
from frame.screens.lesson.given_now import given_now, given_title
from frame.screens.parts.outcome import Next, NextGiven
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.widgets import Brushes


class GivenPage(TicketPage):
    """What is open, what waits, and what of this week is done, with a tick."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, "given.title")
        self.said: Line | None = None

    @property
    def greeting(self) -> Line:
        """Why something can't be done yet; else the title."""
        return self.said or self.room.words.line("given.title")

    @property
    def area(self) -> pygame.Rect:
        """Where tickets hang."""
        top = 14 if self.said is None else 22
        return self.band(top, 88 - top)

    def tickets(self) -> Sequence[Ticket]:
        """Those that are open first, then those that wait for a lesson."""
        now = given_now(self.room)
        return [*map(self._open, (*now.open, *now.waiting)), *map(self._done, now.done)]

    def _open(self, one: Assigned) -> Ticket:
        title, drawing = given_title(self.room, one), given_drawing(self.room, one)
        return Ticket("", title.show, partial(self._begin, one), title.speak, drawing=drawing)

    def _done(self, one: Assigned) -> Ticket:
        spoken = self.room.words.line("given.done", title=self._open(one).spoken).speak
        return self._open(one)._replace(spoken=spoken, drawing=sign_card("icon-tick"))

    def _begin(self, one: Assigned) -> Change | None:
        screen = given_screen(self.room, one)
        if isinstance(screen, Line):
            self.said = screen
            self.greet()
            self.rearrange()
            return None
        return Push(screen)

    def resumed(self, result: object) -> Change | None:
        """One may be done; after it the next may be wanted, which home knows."""
        self.said = None
        self.rearrange()
        return Pop(result) if isinstance(result, Next | NextGiven) else None

    def arrange(self) -> None:
        """The tickets, and what lets it be heard again."""
        super().arrange()
        self.buttons += self.speaker(self.corner)

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, and the rails."""
        self.paint_title(brushes, self.room.words.text("given.title"))
        if self.said is not None:
            brushes.text(self.said.show, self.band(12.5, 8), 1)
        self.paint_rails(brushes)
