"""Whom a name in a list stands for, where only the tutor can say."""

from functools import partial

import pygame

from frame.app import Change, Pop
from frame.language.lines import Line
from frame.learner.class_taking import Named, Whom
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.parts.portraits import portrait_name
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.widgets import Brushes, Button

_NEWCOMER = "newcomer"


def near_names(named: Named) -> str:
    """Who is here and called nearly so."""
    return ", ".join(one.nickname for one in named.known)


class WhomPage(TicketPage):
    """Everybody who is here under the name, or nearly so, and somebody new; or the line is left
    out. Its result is who it is."""

    def __init__(self, room: Room, named: Named) -> None:
        super().__init__(room, "class.whom")
        self.named = named

    @property
    def greeting(self) -> Line:
        """What is asked."""
        listed, words = self.named.listed, self.room.words
        shown = words.text("class.told.whom", name=listed.name, line=listed.line)
        return Line(shown, words.line("class.whom").speak)

    @property
    def told(self) -> str:
        """Why it is asked."""
        words, named = self.room.words, self.named
        if named.is_again:
            return words.text("class.told.is_again")
        if named.is_near:
            return words.text("class.told.is_near", who=near_names(named))
        return words.text("class.told.are_several")

    @property
    def foot(self) -> pygame.Rect:
        """Where it stands that the line is left out."""
        place = self.band(79, 9)
        place.w = min(place.w, round(50 * self.unit))
        return place

    def tickets(self) -> list[Ticket]:
        """A ticket for each who is here, and one for somebody new."""
        words = self.room.words
        new = words.text("class.another" if self.named.is_again else "class.new")
        here = [
            Ticket(one.picture, words.text("class.told.is_here", name=one.nickname),
                   partial(self._say, one), portrait_name(words, one.picture))
            for one in self.named.known
        ]  # fmt: skip
        return [*here, Ticket(_NEWCOMER, new, partial(self._say, Whom.NEW), new)]

    def arrange(self) -> None:
        """The tickets, and what leaves the line out."""
        super().arrange()
        key = "class.same_one" if self.named.is_again else "class.left_out"
        act = partial(self._say, Whom.NOBODY)
        self.buttons.append(Button(self.foot, act, self.room.words.text(key)))

    def _say(self, whom: Learner | Whom) -> Change:
        return Pop(whom)

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, why it is asked, and the answers."""
        title = self.band(12.3, 6.2) if self.is_narrow else self.rect(20, 3, self.across - 40, 8)
        brushes.text(self.greeting.show, title, 2, bold=True, align="centre")
        below = self.band(18.5, 3) if self.is_narrow else self.rect(20, 12.7, self.across - 40, 3)
        self.paint_told(brushes, below)
        self.paint_rails(brushes)
