"""A list that was read is looked over before anybody is taken in: how many are new, what is wrong
in its lines, and what only the tutor can say."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.language.lines import Line
from frame.learner.class_kept import Member, keep_class, kept_class
from frame.learner.class_list import MOST_CHILDREN, ClassList, problem_text
from frame.learner.class_taking import Named, Whom, joined, named, taken
from frame.learner.learners import Learner
from frame.learner.settings import Age
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.room import Room
from frame.screens.parts.page import abreast
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.trouble import trouble_text
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.told import names_text
from frame.screens.tutor.whom import WhomPage, near_names
from frame.view.widgets import Brushes, Button, Style

_ROWS, _NARROW_ROWS = 5, 4
_MOST_NAMES, _MOST_NARROWLY = 24, 10
AGES = (
    ("who.age_young", Age.YOUNG),
    ("who.age_middle", Age.MIDDLE),
    ("who.age_older", Age.OLDER),
)


class TakeList(PagedPage):
    """Nothing is done before one of the buttons that say so is touched. Its result is how many
    children the list brought."""

    def __init__(self, room: Room, listed: ClassList) -> None:
        super().__init__(room)
        self.listed = listed
        self.learners = room.learners()
        nobody: tuple[Member, ...] = ()
        self.before = room.keeper.read(kept_class, nobody)
        self.named = named(listed.children, self.learners)
        self.said: dict[int, Learner | Whom] = {}
        self._found = taken(self.named, self.said, self.learners)
        """The same newcomers, however often it is tried to take them in."""
        self.age = room.computer.age
        self.trouble: Trouble | None = None

    @property
    def greeting(self) -> Line:
        """How many are here and how many are new."""
        words, new = self.room.words, len(self._new)
        every = len(self._found.members) + len(self.doubts)
        shown = words.text("class.told.found", all=every, new=new)
        return Line(shown, words.line("class.look_over").speak)

    @property
    def doubts(self) -> tuple[Named, ...]:
        """Those of whom it is not said yet who they are."""
        return tuple(
            one for one in self.named if one.is_doubtful and one.listed.line not in self.said
        )

    @property
    def _new(self) -> list[str]:
        """The names of those who are new, as far as it is known."""
        return [one.nickname for one in self._found.newcomers]

    @property
    def pages(self) -> int:
        """How many pages the problems take."""
        return max(1, -(-len(self._told) // self._on_page))

    @property
    def _told(self) -> list[str]:
        """What is worth a look: whose name is nearly that of somebody here, and what is wrong; but
        not that a name comes again, once it is said who it is."""
        words = self.room.words
        near = (
            words.text("class.told.near", line=line, name=name, who=near_names(one))
            for one in self.doubts
            if one.is_near
            for name, _, line in [one.listed]
        )
        left = (one for one in self.listed.problems if not (one.first and one.line in self.said))
        return [*near, *(problem_text(one, words) for one in left)]

    @property
    def _on_page(self) -> int:
        return _NARROW_ROWS if self.is_narrow else _ROWS

    # What is done

    def ask(self) -> Change:
        """Ask who the next one is of whom it is not known."""
        return Push(WhomPage(self.room, self.doubts[0]))

    def resumed(self, result: object) -> Change | None:
        """It is said who it is: the next one is asked for."""
        if isinstance(result, Learner | Whom) and self.doubts:
            self.said[self.doubts[0].listed.line] = result
            self._found = taken(self.named, self.said, self.learners)
        self.rearrange()
        return self.ask() if result is not None and self.doubts else None

    def take(self, *, adds: bool) -> Change | None:
        """The list is the class, or comes to it; whoever is new is a learner from now on."""
        room, now = self.room, self.room.now()
        found = self._found
        members = joined(self.before, found.members) if adds else found.members
        settings = replace(room.computer, age=self.age)
        try:
            room.store.add_learners(found.newcomers, settings, now)
            keep_class(room.store, members)
        except StoreError as error:
            self.trouble = error.trouble
            self.rearrange()
            return None
        return Pop(len(found.members))

    def _choose_age(self, age: Age) -> None:
        self.age = age
        self.rearrange()

    # How it is laid out

    def arrange(self) -> None:
        """Ages of those who are new, other pages of problems, and what takes the list."""
        self.page = min(self.page, self.pages - 1)
        if self._new or self.doubts:
            self.buttons += self._ages()
        back = self.rect(self.band(0, 0).left / self.unit, 68.5, 7.5, 7.5)
        self.buttons += self.turners((back, back.move(round(24 * self.unit), 0)))
        self.buttons += self._deeds()

    def _ages(self) -> Iterator[Button]:
        words = self.room.words
        places = abreast(self._age_place[1], len(AGES), self.unit)
        for (key, age), place in zip(AGES, places, strict=True):
            line = words.line(key)
            act, is_now = partial(self._choose_age, age), age is self.age
            yield Button(place, act, line.show, name=line.speak, style=Style.CHOICE, chosen=is_now)

    @property
    def _age_place(self) -> tuple[pygame.Rect, pygame.Rect]:
        """Where the question of ages stands, and its answers."""
        if self.is_narrow:
            return self.band(28, 4), self.band(32.5, 6)
        label, area = abreast(self.band(26.5, 7), 2, 2 * self.unit)
        return label, area

    def _deeds(self) -> Iterator[Button]:
        text, (left, right) = self.room.words.text, abreast(self.band(79, 9), 2, 3 * self.unit)
        wide = left.union(right) if self.is_narrow else left
        if self.doubts:
            ask = text("class.ask_whom", count=len(self.doubts))
            yield Button(wide, self.ask, ask, style=Style.MAIN)
            return
        if not self.before:
            take = text("class.take")
            yield Button(wide, partial(self.take, adds=False), take, style=Style.MAIN)
            return
        if len(self._with_those_before) <= MOST_CHILDREN:
            add = partial(self.take, adds=True)
            yield Button(left, add, text("class.add"), style=Style.MAIN)
        yield Button(right, partial(self.take, adds=False), text("class.instead"))

    @property
    def _with_those_before(self) -> tuple[Member, ...]:
        return joined(self.before, self._found.members)

    def paint_rest(self, brushes: Brushes) -> None:
        """What was found in the list."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.list"))
        brushes.text(self.greeting.show, self.band(13, 4.5), 1, bold=True)
        most = _MOST_NARROWLY if self.is_narrow else _MOST_NAMES
        everybody = [one.learner.nickname for one in self._found.members]
        names = names_text(self._new or everybody, most, words)
        Rows(brushes, self.band(18, 9), 0).write(names, soft=True, most=3)
        if self._new or self.doubts:
            brushes.text(words.text("class.told.age"), self._age_place[0], 1)
        self._paint_problems(brushes)
        if self.trouble is not None:
            why = trouble_text(self.trouble, words)
            brushes.text(f"{why} {words.text('class.told.not_all')}", self.band(73, 5), 0)

    def _paint_problems(self, brushes: Brushes) -> None:
        words, told = self.room.words, self._told
        if not told:
            return
        top = 41 if self.is_narrow else 36.5
        rows = Rows(brushes, self.band(top, 68 - top), 0)
        rows.write(words.text("class.told.problems"), bold=True)
        for one in told[self.page * self._on_page :][: self._on_page]:
            rows.space()
            rows.write(one, most=2)
        if self.pages > 1:
            text = words.text("own.page", page=self.page + 1, all=self.pages)
            left = self.band(0, 0).left / self.unit + 7.5
            brushes.text(text, self.rect(left, 68.5, 16.5, 7.5), 0, soft=True, align="centre")
