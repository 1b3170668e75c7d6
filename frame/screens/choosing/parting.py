"""Those who were joined as one child, to be parted again: one of them, or all."""

from collections.abc import Callable
from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Change, Pop
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.store import Store
from frame.room import Room
from frame.screens.choosing.joined import apart_text, each_of, kept, part_one
from frame.screens.parts.page import Page
from frame.screens.parts.portraits import called, portrait_name
from frame.view.widgets import Brushes, Button, paint_ticket

_ROWS = 5
"""As many as are seen; once one of them is parted the next one is."""
_HIGHEST = 13.0
_WIDEST = 3.0
"""How many times as wide as high a ticket is at the most."""


class _Row(NamedTuple):
    """The places of a ticket, of what is told of it, and of what parts it."""

    ticket: pygame.Rect
    told: pygame.Rect
    part: pygame.Rect


class Parting(Page):
    """A row for each of those who are one child, with the name and the picture of their own. Its
    result is what was done once nobody is joined any more."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said: Line | None = None
        self.joined: tuple[Learner, ...] = ()
        self.told: tuple[str, ...] = ()
        self._read()

    def _read(self) -> None:
        learner = self.room.learner
        self.joined = each_of(self.room, learner) if learner else ()
        self.told = tuple(apart_text(self.room, one, [one.id]) for one in self.joined[:_ROWS])

    @property
    def greeting(self) -> Line:
        """What can be done; before it, what was."""
        who = self.room.words.line("same_child.who")
        return Line(who.show, f"{self.said.speak} {who.speak}") if self.said else who

    # What is done

    def part(self, one: Learner) -> Change | None:
        """One is a child of their own again."""
        others, now = [other for other in self.joined if other != one], self.room.now()
        return self._keep(lambda store: part_one(store, one, others, now), one)

    def part_all(self) -> Change | None:
        """Each is a child of their own again."""
        learner, now = self.joined[0], self.room.now()
        return self._keep(lambda store: store.part(learner, now), None)

    def _keep(self, write: Callable[[Store], None], one: Learner | None) -> Change | None:
        words = self.room.words
        done = words.line("same_child.parted")
        if one is not None:
            done = words.line("same_child.parted_one", name=called(words, one))
        self.said = kept(self.room, write, done)
        self._read()
        if len(self.joined) < 2:
            return Pop(self.said)
        self.greet()
        self.rearrange()
        return None

    # How it is laid out

    def _rows(self) -> list[_Row]:
        apart = min(_HIGHEST, 60 / max(1, len(self.told)))
        return [self._row(16 + at * apart, apart * 0.9) for at in range(len(self.told))]

    def _row(self, top: float, high: float) -> _Row:
        """A row; in a narrow window what is told stands below the ticket."""
        place = self.band(top, high)
        part = pygame.Rect(
            place.topleft, (round(0.3 * place.w), round(min(9 * self.unit, place.h)))
        )
        part.right, part.centery = place.right, place.centery
        left, gap = part.left - place.left, round(3 * self.unit)
        if self.is_narrow:
            high, wide = round(0.6 * place.h), left - gap
            told = pygame.Rect(place.left, place.top + high, wide, place.h - high)
        else:
            high, wide = place.h, round(0.5 * left)
        ticket = pygame.Rect(place.topleft, (min(wide, round(_WIDEST * high)), high))
        if not self.is_narrow:
            beside = ticket.right + gap
            told = pygame.Rect(beside, place.top, part.left - gap - beside, place.h)
        return _Row(ticket, told, part)

    def arrange(self) -> None:
        """What parts each, and what parts all."""
        text = self.room.words.text
        for one, row in zip(self.joined, self._rows(), strict=False):
            name = f"{portrait_name(self.room.words, one.picture)} {text('same_child.part_one')}"
            act = partial(self.part, one)
            self.buttons.append(Button(row.part, act, text("same_child.part_one"), name=name))
        if len(self.joined) > 2:
            place = self.band(78, 9)
            place.w = min(round(46 * self.unit), place.w)
            self.buttons.append(Button(place, self.part_all, text("same_child.part_all")))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what was done, and who is joined."""
        self.paint_title(brushes, self.greeting.show)
        if self.said:
            brushes.text(self.said.show, self.band(12.1, 2.8), 0)
        for one, told, row in zip(self.joined, self.told, self._rows(), strict=False):
            paint_ticket(brushes, row.ticket, one.picture, one.nickname)
            brushes.text(told, row.told, 0, soft=True)
