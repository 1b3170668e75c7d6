"""Sets that are kept by a name: one gets a name, another one, or goes."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.language.lines import Line
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.practice.choices import Choices
from frame.practice.kept_choices import set_from, set_to
from frame.room import Room
from frame.screens.choosing.shown_sets import ShownSet, drawing_of, shown_set, unknown_set
from frame.screens.choosing.usual import choices_of, keep_set, kept_sets, remove_set
from frame.screens.lesson.practice import known_facts
from frame.screens.parts.naming import NamePage
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.widgets import Brushes, Button, Style, paint_ticket


def shown(room: Room, one: KeptSet) -> ShownSet:
    """What a kept set asks for, as far as it is known here."""
    choices = choices_of(room, one)
    return unknown_set(room) if choices is None else shown_set(room, choices)


def can_begin(room: Room, one: KeptSet) -> bool:
    """Whether what a kept set asks for is known here."""
    choices = set_from(one.asked)
    return choices is not None and choices.can_be_asked(known_facts(room))


def set_tickets(room: Room, act: Callable[[KeptSet], object]) -> list[Ticket]:
    """A ticket for each kept set; punched where it can't begin."""

    def ticket(one: KeptSet) -> Ticket:
        what, is_open = shown(room, one), can_begin(room, one)
        name = one.name or what.short
        spoken = what.spoken if is_open else room.words.text("practise.unknown")
        drawing = drawing_of(room, what.card)
        return Ticket("", name, partial(act, one), spoken, not is_open, drawing)

    return [ticket(one) for one in kept_sets(room)]


class _SetName(NamePage):
    """The name of a set; where nothing is typed it has none."""

    question = "practise.name"

    def __init__(self, room: Room, one: KeptSet) -> None:
        what = shown(room, one)
        super().__init__(room, "", one.name, what.short)
        self.one, self.drawing = one, drawing_of(room, what.card)

    def take(self, nickname: str) -> Change | None:
        """Keep it."""
        one = replace(self.one, name="" if nickname == self.usual else nickname)
        keep_set(self.room, one)
        return Pop(one)


class NewSet(_SetName):
    """The name of a set that is kept from now on."""

    def __init__(self, room: Room, choices: Choices) -> None:
        super().__init__(room, KeptSet(new_id(), "", set_to(choices)))


class AnotherName(_SetName):
    """Another name for a kept set."""


class KeptSets(TicketPage):
    """Which of the kept sets is to be changed."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, "practise.which")

    def tickets(self) -> Sequence[Ticket]:
        """A ticket for each set."""
        return set_tickets(self.room, lambda one: Push(OneSet(self.room, one)))

    def resumed(self, result: object) -> Change | None:
        """One was changed, or went, perhaps the last."""
        if not kept_sets(self.room):
            return Pop()
        self.rearrange()
        return None


class OneSet(Page):
    """A kept set that may get another name, or go, which is asked once more."""

    def __init__(self, room: Room, one: KeptSet) -> None:
        super().__init__(room)
        self.one = one
        self.asks = False

    @property
    def greeting(self) -> Line:
        """What it asks for, or whether it is to go."""
        if self.asks:
            return self.room.words.line("practise.remove_ask")
        what = shown(self.room, self.one)
        return Line(what.title.show, what.spoken)

    def arrange(self) -> None:
        """What can be done with it, or the answers."""
        text = self.room.words.text
        left, right = abreast(self.band(62, 11), 2, 3 * self.unit)
        if self.asks:
            self.buttons += [
                Button(left, partial(self.ask, False), text("who.remove_no"), style=Style.MAIN),
                Button(right, self.remove, text("who.remove_yes")),
            ]
            return
        self.buttons += [
            Button(left, self._name, text("who.change_name")),
            Button(right, partial(self.ask, True), text("practise.remove")),
        ]

    def ask(self, asks: bool) -> None:
        """Ask whether it is to go, or no more."""
        self.asks = asks
        self.rearrange()
        self.greet()

    def remove(self) -> Change:
        """It goes."""
        remove_set(self.room, self.one)
        return Pop()

    def _name(self) -> Change:
        return Push(AnotherName(self.room, self.one))

    def resumed(self, result: object) -> Change | None:
        """It has another name, unless it was left as it is."""
        if isinstance(result, KeptSet):
            self.one = result
        self.rearrange()
        return None

    @property
    def _ticket(self) -> pygame.Rect:
        """Where its ticket is."""
        place = self.band(15, 24)
        return place if self.is_narrow else place.inflate(-round(0.4 * place.w), 0)

    def paint_rest(self, brushes: Brushes) -> None:
        """Its ticket, and what it asks for; or the question."""
        what = shown(self.room, self.one)
        name = self.one.name or what.short
        paint_ticket(brushes, self._ticket, drawing_of(self.room, what.card), name)
        told = f"{what.title.show}. {what.detail.show}".strip()
        text = self.greeting.show if self.asks else told
        brushes.text(text, self.band(43, 15), 1, bold=self.asks, align="centre")
