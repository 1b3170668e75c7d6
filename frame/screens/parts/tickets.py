"""A page of tickets, of learners or of sets, that hang on rails, to take one: on more than one page
where they are many for the window."""

from collections.abc import Callable, Sequence
from enum import StrEnum
from typing import NamedTuple

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.learner.nickname import beginning, search_key, typed_name
from frame.room import Room
from frame.screens.parts.hanging import Hanging, hang, per_page
from frame.screens.parts.paged import PagedPage
from frame.view.inputs import Input, Key, Typed, Wheel
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Drawing, Style

_LEAST_PIXELS = 44
"""The side of a target: WCAG 2.2, success criterion 2.5.5."""
_LEAST_SHARE = 0.07
MANY = 13
"""More tickets than one for each animal, and one for whoever is new, are not told apart at a
glance, by the animal alone."""
_LETTERS_BELONG = 2.5
"""Seconds within which letters that are typed are of one name."""
_TURNING = 10
"""Units for what turns the pages."""
_NOBODY = Hanging((), (), 1)
_ALONG = {pygame.K_LEFT: -1, pygame.K_RIGHT: 1}
_UPRIGHT = {pygame.K_UP: -1, pygame.K_DOWN: 1}


class Due(StrEnum):
    """What the page waits for."""

    LETTERS = "letters"


class Ticket(NamedTuple):
    """A ticket: a picture, a name, what taking it does, what is said of it, whether it is punched,
    as one that somebody has, what draws the picture, where it has no name, and whether it is in
    use, as the one that is to be changed for another."""

    picture: str
    name: str
    act: Callable[[], object]
    spoken: str
    punched: bool = False
    drawing: Drawing | None = None
    in_use: bool = False


class TicketPage(PagedPage):
    """A question, and the `tickets` that answer it. Typed letters go to the name that begins with
    them, and are shown below the question, where with many tickets it is told that one may."""

    def __init__(self, room: Room, question: str) -> None:
        super().__init__(room)
        self.question = question
        self.hanging = _NOBODY
        self._count = 0
        self._on_page = 1
        self._first = 0
        self._typed = ""

    def tickets(self) -> Sequence[Ticket]:
        """The tickets there are, in an order that stays."""
        raise NotImplementedError

    @property
    def pages(self) -> int:
        """How many pages the tickets take."""
        return max(1, -(-self._count // self._on_page))

    @property
    def note(self) -> str:
        """What is told at the foot; usually nothing."""
        return ""

    @property
    def told(self) -> str:
        """What is told below the question: where there are many tickets, that a name may be
        typed."""
        return self.room.words.text("who.find") if self._count > MANY else ""

    @property
    def _sought(self) -> str:
        """What is being typed, and whether nobody is called so."""
        key = "who.typed" if self._at_focus is not None else "who.typed_nobody"
        return self.room.words.text(key, typed=self._typed)

    @property
    def greeting(self) -> Line | None:
        """What is asked."""
        return self.room.words.line(self.question)

    def advance(self, now: float) -> Change | None:
        """What is typed after a while is another name."""
        if self.dues.take(Due.LETTERS, now):
            self._typed = ""
            self.touch_up()
        return super().advance(now)

    def arrange(self) -> None:
        """The tickets of a page, and what turns it."""
        tickets, one = self.tickets(), min(self.size) / 90
        self._first, self._count = len(self.buttons), len(tickets)
        self.hanging = _NOBODY
        if not tickets:
            return
        seen_high = min(self.size[1], self.size[0] * 9 / 16)
        least = max(_LEAST_PIXELS, _LEAST_SHARE * seen_high)
        area, turning = self.area, round(_TURNING * self.unit)
        self._on_page = per_page(area, turning, len(tickets), least, one)
        self.page = min(self.page, self.pages - 1)
        if self.pages > 1:
            area.h -= turning
        self.hanging = hang(area, self._on_page, least, one)
        shown = tickets[self.page * self._on_page :][: self._on_page]
        self.buttons += map(_button, self.hanging.places, shown)
        text = self.room.words.text
        texts = text("who.before"), text("who.more")
        self.buttons += self.turners(self._turns, ("less", "more"), texts)

    @property
    def foot(self) -> pygame.Rect | None:
        """Where a button stands below the tickets; None where there is none."""
        return None

    @property
    def area(self) -> pygame.Rect:
        """Where tickets hang."""
        top = 22 if self.is_narrow else 17
        area = self.band(top, (83 if self.note else 88) - top)
        if self.foot is not None:
            area.h = self.foot.top - round(2 * self.unit) - area.top
        return area if self.is_narrow else area.inflate(round(16 * self.unit), 0)

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        """Where the pages are turned back and on."""
        area, wide = self.area, min(34 * self.unit, 0.36 * self.area.w)
        high = round((_TURNING - 2) * self.unit)
        back = pygame.Rect(area.left, area.bottom - high, round(wide), high)
        return back, back.move(area.w - back.w, 0)

    def handle(self, event: Input) -> Change | None:
        """The wheel turns pages; letters look for a name."""
        if isinstance(event, Wheel) and event.notches:
            self.turn(1 if event.notches > 0 else -1)
        elif isinstance(event, Typed):
            self._seek(event.text)
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Arrows go along the rails and from one to the next, Page Up and Down turn pages."""
        if key.code in (pygame.K_PAGEDOWN, pygame.K_PAGEUP):
            self.turn(1 if key.code == pygame.K_PAGEDOWN else -1)
            return None
        if key.code == pygame.K_SPACE and self._typed:
            return None
        there = self._beside(key.code)
        if there is None:
            return super().press_key(key)
        self._focus_ticket(there)
        return None

    def _beside(self, code: int) -> int | None:
        """The ticket that an arrow leads to from the one in focus; None where that is none."""
        at = self._at_focus
        if at is None:
            return None
        if code in _ALONG:
            there = at + _ALONG[code]
            return there if 0 <= there < self._count else None
        rails = self._rails
        here = next(index for index, rail in enumerate(rails) if at in rail)
        there = here + _UPRIGHT.get(code, len(rails))
        if not 0 <= there < len(rails):
            return None
        return rails[there][: at - rails[here].start + 1][-1]

    @property
    def _rails(self) -> list[range]:
        """Which tickets hang on each rail of all pages."""
        on_page, abreast = self._on_page, self.hanging.columns
        pages = [
            range(first, min(first + on_page, self._count))
            for first in range(0, self._count, on_page)
        ]
        return [page[at : at + abreast] for page in pages for at in range(0, len(page), abreast)]

    @property
    def _at_focus(self) -> int | None:
        """Which of all tickets is in focus."""
        if self.focus is None or self.buttons[self.focus].style is not Style.TICKET:
            return None
        return self.page * self._on_page + self.focus - self._first

    def _focus_ticket(self, at: int) -> None:
        """Put the ring around one of all tickets, and say which it is."""
        page = at // self._on_page
        self.turn(page - self.page)
        self.focus_button(self._first + at % self._on_page)
        self.speak_focus()

    def _seek(self, text: str) -> None:
        """Go to the name that begins with what was typed, and with the same letter again, or
        with the same name after a while, to the next; where none does, no ticket is in focus."""
        before, typed = self._typed, typed_name(self._typed + text)
        if not before and not search_key(text).strip():
            return
        at = self._at_focus
        here = 0 if at is None else at + (not before)
        found = self._beginning(typed, here)
        if found is None and set(search_key(before)) == set(search_key(text)):
            found = self._beginning(text, here + 1)
        self._typed = typed
        self.dues.put(Due.LETTERS, self.room.seconds() + _LETTERS_BELONG)
        self.touch_up()
        if found is None:
            self.focus_button(None)
        else:
            self._focus_ticket(found)

    def _beginning(self, typed: str, start: int) -> int | None:
        """The ticket, from one on and round, whose name begins so."""
        names = [one.name for one in self.tickets()]
        found = beginning(typed, names)
        return min(found, key=lambda at: (at - start) % len(names), default=None)

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, what is told below it, the rails and what the tickets hang by."""
        words = self.room.words
        title = self.band(12.3, 6.2) if self.is_narrow else self.rect(20, 3, self.across - 40, 10)
        below = self.band(18.5, 3) if self.is_narrow else self.rect(20, 12.7, self.across - 40, 3)
        brushes.text(words.text(self.question), title, 3, bold=True, align="centre")
        self.paint_told(brushes, below)
        brushes.text(self.note, self.band(84, 6), 0, soft=True, align="centre")
        self.paint_rails(brushes)

    def paint_told(self, brushes: Brushes, place: pygame.Rect, *, align: str = "centre") -> None:
        """What is being typed, or else told."""
        text = self._sought if self._typed else self.told
        pixels = type_size(0, self.size[1])
        brushes.name(text, place, pixels, align=align, soft=not self._typed)

    def paint_rails(self, brushes: Brushes) -> None:
        """The rails, what the tickets hang by, and the pages."""
        for rail in self.hanging.rails:
            brushes.surface.fill(brushes.theme.beam, rail)
        for button in self.buttons:
            if button.style is Style.TICKET:
                self._paint_strings(brushes, button.place)
        if self.pages > 1:
            self._paint_pages(brushes)

    def _paint_strings(self, brushes: Brushes, place: pygame.Rect) -> None:
        """What a ticket hangs by, from its rail."""
        rail = min(
            (one for one in self.hanging.rails if one.bottom <= place.top),
            key=lambda one: place.top - one.bottom,
        )
        thick = max(2, rail.h * 2 // 3)
        for share in (0.12, 0.88):
            left = round(place.left + share * place.w) - thick // 2
            string = pygame.Rect(left, rail.top, thick, place.top - rail.top + 2)
            brushes.surface.fill(brushes.theme.rod, string)

    def _paint_pages(self, brushes: Brushes) -> None:
        """A dot for each page, a filled one for that which is seen."""
        back, on = self._turns
        apart = min(3 * self.unit, (on.left - back.right) / (self.pages + 1))
        radius = max(2, round(min(0.9 * self.unit, 0.35 * apart)))
        left = (back.right + on.left - apart * (self.pages - 1)) / 2
        for page in range(self.pages):
            at = round(left + page * apart), back.centery
            width = 0 if page == self.page else max(1, radius // 3)
            pygame.draw.circle(brushes.surface, brushes.theme.ink, at, radius, width)


def _button(place: pygame.Rect, one: Ticket) -> Button:
    """A ticket that hangs at a place."""
    return Button(
        place, one.act, one.name, picture=one.picture, name=one.spoken, style=Style.TICKET,
        chosen=one.punched, drawing=one.drawing, in_use=one.in_use,
    )  # fmt: skip
