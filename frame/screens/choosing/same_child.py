"""A child who began on two computers is here twice: a grown-up says so, or takes it back."""

from collections.abc import Callable, Iterator
from functools import partial

import pygame

from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError
from frame.room import Room
from frame.screens.parts.page import Page, abreast, lines
from frame.screens.parts.portraits import called, portrait_name
from frame.screens.parts.trouble import trouble_text
from frame.view.widgets import Brushes, Button, Style, paint_ticket

_IN_LINE, _IN_NARROW_LINE, _LINES = 3, 2, 4
_WIDE = 2.5
"""How many times as wide as high a ticket is, where there is room for its name beside it."""


class SameChild(Page):
    """Everybody else who is here, to be chosen; then the question, before anything is done."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.page = 0
        self.said: Line | None = None
        self.chosen: Learner | None = None
        self.others: tuple[Learner, ...] = ()
        self.is_joined = False
        self._read()

    def _read(self) -> None:
        learner = self.room.learner
        if learner is None:
            return
        alone: tuple[str, ...] = (learner.id,)
        ids = self.room.keeper.read(lambda store: store.ids_of(learner), alone)
        self.others = tuple(one for one in self.room.learners() if one.id not in ids)
        self.is_joined = len(ids) > 1
        self.page = min(self.page, self.pages - 1)

    @property
    def name(self) -> Line:
        """Of whom it is asked."""
        learner = self.room.learner
        return called(self.room.words, learner) if learner else Line("", "")

    @property
    def greeting(self) -> Line:
        """What was done, or what is asked."""
        words = self.room.words
        if self.chosen is not None:
            other = called(words, self.chosen)
            return words.line("same_child.ask", name=self.name, other=other)
        return self.said or words.line("same_child.title", name=self.name)

    @property
    def _on_page(self) -> int:
        return _LINES * self._in_line

    @property
    def _in_line(self) -> int:
        return _IN_NARROW_LINE if self.is_narrow else _IN_LINE

    @property
    def pages(self) -> int:
        """How many pages the others take."""
        return max(1, -(-len(self.others) // self._on_page)) if self.size[1] else 1

    # What is done

    def choose(self, other: Learner | None) -> None:
        """Ask about one of them; None to go back to all."""
        self.chosen, self.said = other, None
        self.greet()
        self.rearrange()

    def join(self) -> None:
        """They are one child."""
        learner, other, now = self.room.learner, self.chosen, self.room.now()
        if learner is not None and other is not None:
            self._keep(lambda store: store.join(learner, other, now), "same_child.done")

    def part(self) -> None:
        """They are two children after all."""
        learner, now = self.room.learner, self.room.now()
        if learner is not None:
            self._keep(lambda store: store.part(learner, now), "same_child.parted")

    def _keep(self, write: Callable[[Store], None], key: str) -> None:
        try:
            write(self.room.store)
            self.room.read_anew()
            self.said = self.room.words.line(key)
        except StoreError as error:
            text = trouble_text(error.trouble, self.room.words)
            self.said = Line(text, text)
        self.chosen = None
        self._read()
        self.greet()
        self.rearrange()

    def turn(self, way: int) -> None:
        """Another page; after the last comes the first."""
        self.page = (self.page + way) % self.pages
        self.rearrange()

    # How it is laid out

    def resized(self, size: tuple[int, int]) -> None:
        """There may be fewer on a page."""
        self.size = size
        self.page = min(self.page, self.pages - 1)
        super().resized(size)

    def arrange(self) -> None:
        """The others, or the answers."""
        text = self.room.words.text
        if self.chosen is not None:
            no, yes = abreast(self.band(62, 11), 2, 3 * self.unit)
            self.buttons += [
                Button(no, partial(self.choose, None), text("same_child.no"), style=Style.MAIN),
                Button(yes, self.join, text("same_child.yes")),
            ]
            return
        self.buttons += self._portraits()
        foot = self.band(78, 9)
        if self.is_joined:
            part = pygame.Rect(foot.topleft, (round(min(46 * self.unit, foot.w * 0.6)), foot.h))
            self.buttons.append(Button(part, self.part, text("same_child.part")))
        if self.pages > 1:
            on = pygame.Rect(foot.right - foot.h, foot.top, foot.h, foot.h)
            back = on.move(-on.w - round(self.unit), 0)
            for place, sign, way in ((back, "step_back", -1), (on, "step_on", 1)):
                self.buttons.append(Button(place, partial(self.turn, way), sign=sign))

    def _portraits(self) -> Iterator[Button]:
        shown = self.others[self.page * self._on_page : (self.page + 1) * self._on_page]
        cells = lines(self.band(26, 50), self._on_page, self._in_line, 0)
        for one, cell in zip(shown, cells, strict=False):
            place = cell.inflate(-round(2 * self.unit), -round(2 * self.unit))
            spoken = portrait_name(self.room.words, one.picture)
            act = partial(self.choose, one)
            yield Button(
                place, act, one.nickname, picture=one.picture, name=spoken, style=Style.TICKET
            )

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, and of whom it is asked."""
        words = self.room.words
        if self.chosen is not None:
            self._paint_two(brushes, self.chosen)
            return
        self.paint_title(brushes, self.greeting.show)
        key = "same_child.about" if self.others else "same_child.nobody"
        told = words.text(key)
        if self.is_joined:
            told = f"{words.text('same_child.joined', name=self.name)} {told}"
        brushes.text(told, self.band(14, 10), 1, soft=True)

    def _paint_two(self, brushes: Brushes, other: Learner) -> None:
        learner = self.room.learner
        self.paint_title(brushes, self.room.words.text("same_child.title", name=self.name))
        brushes.text(self.greeting.show, self.band(40, 18), 1, align="centre")
        for one, place in zip((learner, other), self._two, strict=True):
            if one is not None:
                paint_ticket(brushes, place, one.picture, one.nickname)

    @property
    def _two(self) -> tuple[pygame.Rect, pygame.Rect]:
        """Where the tickets of both hang beside one another."""
        left, right = abreast(self.band(16, 22), 2, 3 * self.unit)
        high = min(left.h, round(left.w / _WIDE))
        return left.inflate(0, high - left.h), right.inflate(0, high - right.h)
