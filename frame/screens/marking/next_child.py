"""Whose sheet comes next, where several worked the same one."""

from collections.abc import Sequence
from functools import partial

import pygame

from frame.app import Change, Pop
from frame.learner.class_kept import Member, kept_class
from frame.learner.learners import Learner
from frame.learner.on_paper import sitting_of
from frame.room import Room
from frame.screens.parts.portraits import by_name, called, portrait_name
from frame.screens.parts.tickets import MANY, Ticket, TicketPage
from frame.view.widgets import Button, Style


def was_kept(room: Room, learner: Learner, code: str) -> bool:
    """Whether the sheet of a code was kept of a learner on this day."""
    sitting = sitting_of(learner, code, room.now())
    return room.keeper.read(lambda store: store.has_sitting(sitting), False)


def waiting(room: Room, learner: Learner, code: str) -> tuple[Learner, ...]:
    """Who may have worked a sheet as well: the class of a learner, or else everybody who is here,
    without those of whom it was kept on this day. Who follows the learner comes first."""
    classed = [one.learner for one in room.keeper.read(kept_class, tuple[Member, ...]())]
    everybody = tuple(classed) if learner in classed else room.learners()
    if len(everybody) >= MANY:
        everybody = by_name(everybody)
    at = everybody.index(learner) if learner in everybody else -1
    others, now = (*everybody[at + 1 :], *everybody[: max(0, at)]), room.now()
    return room.keeper.read(
        lambda store: tuple(
            one for one in others if not store.has_sitting(sitting_of(one, code, now))
        ),
        others,
    )


class NextChild(TicketPage):
    """A ticket for each of them, and one button for the first. Its result is who it is."""

    def __init__(self, room: Room, learners: Sequence[Learner]) -> None:
        super().__init__(room, "marks.whose")
        self.learners = tuple(learners)

    def tickets(self) -> list[Ticket]:
        """Everybody whose sheet may come next."""
        words = self.room.words
        return [
            Ticket(one.picture, one.nickname, partial(self._take, one),
                   portrait_name(words, one.picture))
            for one in self.learners
        ]  # fmt: skip

    def _take(self, learner: Learner) -> Change:
        return Pop(learner)

    @property
    def foot(self) -> pygame.Rect:
        """Where it stands who comes first."""
        place = self.band(79, 8.5)
        wide = min(place.w, round(50 * self.unit))
        return pygame.Rect(place.right - wide, place.top, wide, place.h)

    def arrange(self) -> None:
        """The tickets, and who comes first."""
        super().arrange()
        first, words = self.learners[0], self.room.words
        line = words.line("marks.next_child", name=called(words, first))
        take = partial(self._take, first)
        self.buttons.append(
            Button(self.foot, take, line.show, name=line.speak, style=Style.MAIN, step=2)
        )
