"""A child who began on two computers is here twice: a grown-up says so, or takes it back."""

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.nickname import search_key
from frame.room import Room
from frame.screens.choosing.joined import each_of, joined_text
from frame.screens.choosing.one_child import OneChild
from frame.screens.choosing.parting import Parting
from frame.screens.parts.portraits import by_name, called, portrait_name
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.widgets import Brushes, Button, paint_ticket


class SameChild(TicketPage):
    """Everybody else who is here, those of the same name first, to be chosen; and the way to part
    those who are joined."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, "same_child.title")
        self.said: Line | None = None
        self.others: tuple[Learner, ...] = ()
        self.joined = ""
        self._read()

    def _read(self) -> None:
        learner = self.room.learner
        if learner is None:
            return
        ids, name = {one.id for one in each_of(self.room, learner)}, search_key(learner.nickname)
        others = by_name(one for one in self.room.learners() if one.id not in ids)
        self.others = tuple(sorted(others, key=lambda one: search_key(one.nickname) != name))
        self.joined = joined_text(self.room)

    @property
    def greeting(self) -> Line:
        """What is asked; before it, what was done."""
        learner, words = self.room.learner, self.room.words
        name = called(words, learner) if learner else Line("", "")
        asked = words.line("same_child.title", name=name)
        return Line(asked.show, f"{self.said.speak} {asked.speak}") if self.said else asked

    def resumed(self, result: object) -> Change | None:
        """What was done is said."""
        self.said = result if isinstance(result, Line) else None
        self._read()
        self.rearrange()
        return None

    def tickets(self) -> list[Ticket]:
        """A ticket for each of the others."""
        words = self.room.words

        def ticket(one: Learner) -> Ticket:
            spoken = portrait_name(words, one.picture)
            return Ticket(one.picture, one.nickname, lambda: self._ask(one), spoken)

        return [ticket(one) for one in self.others]

    def _ask(self, other: Learner) -> Change:
        return Push(OneChild(self.room, other))

    def _part(self) -> Change:
        return Push(Parting(self.room))

    # How it is laid out

    @property
    def area(self) -> pygame.Rect:
        """Where tickets hang."""
        return self.band(27, (77 if self.joined else 88) - 27)

    @property
    def _face(self) -> pygame.Rect:
        """The picture of whom it is asked, which one of the same name may not have."""
        place = self.band(3, 8)
        return pygame.Rect(place.right - place.h, place.top, place.h, place.h)

    def arrange(self) -> None:
        """The others, and the way to part."""
        super().arrange()
        if self.joined:
            foot = self.band(79, 9)
            foot.w = min(round(46 * self.unit), foot.w)
            text = self.room.words.text("same_child.part")
            self.buttons.append(Button(foot, self._part, text))

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, what was done, who is joined, and the others."""
        words, learner = self.room.words, self.room.learner
        title = self.rect(12, 3, self._face.left / self.unit - 14, 8)
        brushes.text(self.greeting.show, title, 2, bold=True)
        if learner is not None:
            paint_ticket(brushes, self._face, learner.picture)
        done = self.said.show if self.said else ""
        about = self.joined or (words.text("same_child.about") if not done else "")
        nobody = words.text("same_child.nobody") if not self.others else ""
        told = " ".join(filter(None, (done, about, nobody)))
        brushes.text(told, self.band(12, 10), 1, soft=not done)
        self.paint_told(brushes, self.band(22.6, 3), align="left")
        self.paint_rails(brushes)
