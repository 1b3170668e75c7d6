"""Whether two are one child: asked before anything is done."""

import pygame

from frame.app import Change, Pop
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.choosing.joined import apart_text, each_of, kept
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.portraits import called
from frame.view.widgets import Brushes, Button, Style, paint_ticket

_WIDE = 2.5
"""How many times as wide as high a ticket is, where there is room for its name beside it."""


class OneChild(Page):
    """Both tickets, with what tells the one from the other; the ticket that both would have; and
    the question. Its result is what was done."""

    def __init__(self, room: Room, other: Learner) -> None:
        super().__init__(room)
        self.learner, self.other = room.learner or other, other
        self.as_one = room.keeper.read(
            lambda store: store.as_one(self.learner, other), self.learner
        )
        self.told = tuple(
            apart_text(room, one, [part.id for part in each_of(room, one)])
            for one in (self.learner, other)
        )

    @property
    def greeting(self) -> Line:
        """What is asked."""
        words = self.room.words
        name, other = called(words, self.learner), called(words, self.other)
        return words.line("same_child.ask", name=name, other=other)

    def join(self) -> Change:
        """They are one child."""
        now = self.room.now()
        done = self.room.words.line("same_child.done", name=called(self.room.words, self.as_one))
        return Pop(kept(self.room, lambda store: store.join(self.learner, self.other, now), done))

    def arrange(self) -> None:
        """The answers."""
        text = self.room.words.text
        no, yes = abreast(self.band(76, 11), 2, 3 * self.unit)
        self.buttons += [
            Button(no, self.back, text("same_child.no"), style=Style.MAIN),
            Button(yes, self.join, text("same_child.yes")),
        ]

    def paint_rest(self, brushes: Brushes) -> None:
        """Who they are, what is asked, and as whom both would be known."""
        words = self.room.words
        title = words.text("same_child.title", name=self.learner.nickname)
        self.paint_title(brushes, title)
        tickets = abreast(self.band(13, 16), 2, 3 * self.unit)
        below = abreast(self.band(29.5, 9), 2, 3 * self.unit)
        for one, told, place, text in zip(
            (self.learner, self.other), self.told, tickets, below, strict=True
        ):
            paint_ticket(brushes, _flat(place), one.picture, one.nickname)
            brushes.text(told, text, 0 if self.is_narrow else 1, soft=True)
        brushes.text(self.greeting.show, self.band(40, 12), 1)
        stays, ticket = abreast(self.band(54, 16), 2, 3 * self.unit)
        brushes.text(words.text("same_child.stays"), stays, 1)
        paint_ticket(brushes, _flat(ticket), self.as_one.picture, self.as_one.nickname)


def _flat(place: pygame.Rect) -> pygame.Rect:
    """A place for a ticket with its name beside the picture."""
    high = min(place.h, round(place.w / _WIDE))
    return place.inflate(0, high - place.h)
