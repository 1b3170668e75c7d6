"""A newcomer is taken in: an animal, a flag, an age band, which decides sizes and wording, and
perhaps a name; no birthday is kept."""

from collections.abc import Callable, Sequence
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.drawn import ANIMALS
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.looks import FLAGS, Portrait, portrait_of
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.parts.naming import NamePage
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.panel import Panel
from frame.screens.parts.portraits import animal_name, flag_name, portrait_name
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, paint_ticket

AGES = (
    ("who.age_young", Age.YOUNG),
    ("who.age_middle", Age.MIDDLE),
    ("who.age_older", Age.OLDER),
)

Then = Callable[[Portrait], Change]
"""What follows a portrait that is chosen."""


class _Step(Panel):
    """One question of several: an answer to a later one is the answer to all."""

    def resumed(self, result: object) -> Change | None:
        """Go on to whoever asked, or ask again."""
        return None if result is None else Pop(result)


class _Look(_Step, TicketPage):
    """One question of the two for a portrait; that of whoever is here, who wants another one, is
    marked."""

    def __init__(self, room: Room, question: str, then: Then) -> None:
        super().__init__(room, question)
        self.then = then

    @property
    def told(self) -> str:
        """Which portrait it is now."""
        learner, words = self.room.learner, self.room.words
        return (
            words.text("who.now", portrait=portrait_name(words, learner.picture)) if learner else ""
        )


class ChooseAnimal(_Look):
    """Which animal."""

    def __init__(self, room: Room, then: Then) -> None:
        super().__init__(room, "who.choose_animal", then)

    def tickets(self) -> Sequence[Ticket]:
        """A ticket for each animal."""
        return animals(self.room, self.then)


class ChooseFlag(_Look):
    """Which flag behind the animal. One that somebody else has is punched and has their name; it
    may be taken all the same, and it is told who has it as soon as it is in focus or pressed."""

    def __init__(self, room: Room, animal: str, then: Then) -> None:
        super().__init__(room, "who.choose_flag", then)
        self.animal = animal

    def tickets(self) -> Sequence[Ticket]:
        """A ticket for each flag."""
        return [self._ticket(Portrait(self.animal, flag)) for flag in FLAGS]

    @property
    def told(self) -> str:
        """Who has the portrait in focus, or under the finger; else which it is now."""
        at = self._pressed[1] if self._pressed else self.focus
        picture = "" if at is None else self.buttons[at].picture
        return shared_text(self.room, picture or "") or super().told

    def focus_button(self, index: int | None) -> None:
        """Another portrait is in focus."""
        super().focus_button(index)
        self.touch_up()

    def _press(self, finger: int, index: int | None) -> None:
        super()._press(finger, index)
        self.touch_up()

    def _ticket(self, portrait: Portrait) -> Ticket:
        words, picture = self.room.words, portrait.picture
        names = [one.nickname for one in self.room.learners() if one.picture == picture]
        name = ", ".join(names) or flag_name(words, portrait.flag)
        act, spoken = partial(self.then, portrait), portrait_name(words, picture)
        is_own = portrait == _own_portrait(self.room)
        is_taken = len(names) > is_own
        return _marked(words, Ticket(picture, name, act, spoken, is_taken, in_use=is_own))


def shared_text(room: Room, picture: str) -> str:
    """Who else has a picture; nothing where nobody has."""
    own = room.learner.id if room.learner else ""
    others = [one.nickname for one in room.learners() if one.picture == picture and one.id != own]
    if not others:
        return ""
    key = "who.shared" if len(others) == 1 else "who.shared_by_several"
    return room.words.text(key, name=", ".join(others))


def animals(room: Room, then: Then) -> list[Ticket]:
    """A ticket for each animal; punched where somebody has each of its flags."""
    taken, own = {one.picture for one in room.learners()}, _own_portrait(room)

    def ticket(animal: str) -> Ticket:
        name = animal_name(room.words, animal)
        is_taken = {Portrait(animal, flag).picture for flag in FLAGS} <= taken
        is_own = own is not None and own.animal == animal
        act = partial(_to_flags, room, animal, then)
        return _marked(room.words, Ticket(animal, name, act, name, is_taken, in_use=is_own))

    return [ticket(animal) for animal in ANIMALS]


def _to_flags(room: Room, animal: str, then: Then) -> Change:
    return Push(ChooseFlag(room, animal, then))


def _own_portrait(room: Room) -> Portrait | None:
    return portrait_of(room.learner.picture) if room.learner else None


def _marked(words: Words, ticket: Ticket) -> Ticket:
    """The ticket, of which its marks are said too."""
    marks = (("who.taken", ticket.punched), ("who.is_now", ticket.in_use))
    said = [f"{ticket.spoken.rstrip('.')}.", *(words.text(key) for key, is_so in marks if is_so)]
    return ticket._replace(spoken=" ".join(said) if said[1:] else ticket.spoken)


class ChooseAge(_Step, Page):
    """How old."""

    def __init__(self, room: Room, portrait: Portrait) -> None:
        super().__init__(room)
        self.portrait = portrait
        self.shared = shared_text(room, portrait.picture)

    @property
    def greeting(self) -> Line | None:
        """The question and its answers."""
        words = self.room.words
        question, ages = words.line("who.age"), (words.line(key).speak for key, _ in AGES)
        return Line(question.show, " ".join((question.speak, *ages)))

    def arrange(self) -> None:
        """Three large choices."""
        row = self.band(56, 14)
        row.inflate_ip(min(0, round(98 * self.unit) - row.w), 0)
        for (key, age), place in zip(AGES, abreast(row, len(AGES), 4 * self.unit), strict=True):
            line = self.room.words.line(key)
            act = partial(self._name, age)
            self.buttons.append(Button(place, act, line.show, name=line.speak, step=2))

    def _name(self, age: Age) -> Change:
        return Push(FirstName(self.room, self.portrait.picture, age))

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, and who is asked, with whoever else has the portrait."""
        title = self.band(11, 9) if self.is_narrow else self.rect(20, 5, self.across - 40, 10)
        brushes.text(self.room.words.text("who.age"), title, 3, bold=True, align="centre")
        side = round(30 * self.unit)
        ticket = pygame.Rect(0, 0, side, side)
        ticket.center = self.size[0] // 2, round(38 * self.unit)
        paint_ticket(brushes, ticket, self.portrait.picture)
        pixels = type_size(0, self.size[1])
        brushes.name(self.shared, self.band(19.6, 3), pixels, align="centre", soft=True)


class FirstName(NamePage):
    """The name of a newcomer, who is taken in with it, or with that of the animal."""

    def __init__(self, room: Room, picture: str, age: Age) -> None:
        super().__init__(room, picture, "", animal_name(room.words, picture))
        self.age = age

    def take(self, nickname: str) -> Change | None:
        """The newcomer sits down."""
        learner = Learner.new(nickname, self.picture)
        self.room.welcome(learner, self.age)
        return Pop(learner)
