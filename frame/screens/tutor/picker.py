"""Who is next: each child once, in an order by chance, until all were. None of it is written; who
comes back to the page goes on with the round."""

from collections.abc import Iterable
from functools import partial

import pygame

from frame.app import Change, Pop
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.portraits import called
from frame.screens.tutor.covering import Shown
from frame.view.widgets import Brushes, Button, Style, paint_ticket


class PickerPage(Page):
    """Who is next stands there at once, without a wheel that turns or a sound. Who is
    passed over is asked no more in this round, and nobody sees why."""

    def __init__(self, room: Room, learners: Iterable[Learner]) -> None:
        super().__init__(room)
        self.by_id = {one.id: one for one in learners}
        self.round = room.tutor.round_of(self.by_id, room.random)

    @property
    def next(self) -> Learner | None:
        """Who is next; None before the first, and after the last."""
        id = self.round.next
        return None if id is None else self.by_id[id]

    @property
    def is_over(self) -> bool:
        """Whether all were."""
        return self.round.is_over

    @property
    def greeting(self) -> Line:
        """Who is next, or what this is."""
        words = self.room.words
        if self.next is not None:
            return called(words, self.next)
        return words.line("class.all_were" if self.is_over else "class.each_once")

    def go_on(self) -> None:
        """The next one; after the last, and after that another round."""
        self.round.go_on(self.room.random)
        self.rearrange()
        self.greet()

    def back(self) -> Change | None:
        """The class may be looking."""
        return Pop(Shown.TO_CLASS)

    def arrange(self) -> None:
        """Who is next, and who is passed over."""
        text = self.room.words.text
        left, right = abreast(self.band(70, 12), 2, 3 * self.unit)
        key = "class.begin" if self.next is None else "class.next"
        self.buttons.append(Button(right, self.go_on, text(key), style=Style.MAIN, step=2))
        if self.next is not None:
            self.buttons.append(Button(left, partial(self.go_on), text("class.pass"), step=2))

    @property
    def _places(self) -> tuple[pygame.Rect, pygame.Rect]:
        """Where the picture is, and beside or below it the name."""
        place = self.band(15, 44)
        side = round((30 if self.is_narrow else 42) * self.unit)
        face = pygame.Rect(place.left, place.top, side, side)
        if self.is_narrow:
            face.centerx = place.centerx
            top = face.bottom + round(self.unit)
            return face, pygame.Rect(place.left, top, place.w, place.bottom - top)
        left = face.right + round(5 * self.unit)
        return face, pygame.Rect(left, place.top, place.right - left, side)

    def paint_rest(self, brushes: Brushes) -> None:
        """The ticket, as large as a class can see it, and how many were."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.who_next"))
        if self.next is None:
            brushes.text(self.greeting.show, self.band(28, 20), 2, align="centre")
            return
        face, name = self._places
        paint_ticket(brushes, face, self.next.picture)
        align = "centre" if self.is_narrow else "left"
        brushes.text(self.next.nickname, name, 3, bold=True, align=align)
        count = words.text("class.told.of", at=self.round.at, all=len(self.by_id))
        brushes.text(count, self.band(61, 5), 1, soft=True, align="centre")
