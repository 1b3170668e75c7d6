"""Before a paper is handed in with tasks that are open: which they are, each to be gone to."""

from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Pop
from frame.course.paper import Paper
from frame.language.lines import Line
from frame.room import Room
from frame.screens.paper.graded import paper_title, section_names
from frame.screens.parts.page import abreast
from frame.screens.parts.paged import PagedPage
from frame.view.widgets import Brushes, Button, Style

HAND_IN = "hand in"
"""What the paper gets to know where it is to be handed in after all."""
_TOP, _BOTTOM, _HIGH, _GAP = 23.0, 76.0, 6.6, 1.0
"""Units: where the rows begin and end, how high each is, and what is free between two."""
_ACROSS, _ACROSS_NARROW = 15, 6
"""At most so many numbers stand in a row, and so many in a narrow window."""
_LEAST = 8.0
"""Units that a number takes in a wide window, with what is free beside it."""
_NAME, _NAME_NARROW = 19, 14
"""How many units the name of a section takes before them."""
_ANSWERS, _ANSWERS_NARROW = 0.5, 0.58
"""Of the width, for the two answers."""
_TOLD = 75.8
"""Units: where the number of the page stands."""


class Row(NamedTuple):
    """Open tasks of a section, by their indices, with its place among all and its name."""

    section: int
    name: str
    tasks: tuple[int, ...]


class OpenTasks(PagedPage):
    """Ends with the index of the task to go to, with HAND_IN, or with None for going on."""

    def __init__(self, room: Room, paper: Paper) -> None:
        super().__init__(room)
        self.paper = paper

    @property
    def greeting(self) -> Line:
        """How many are open, and what can be done."""
        return self.room.words.line("paper.ask", count=len(self.paper.open))

    @property
    def rows(self) -> list[Row]:
        """All that is open, as many in a row as have room."""
        across = self._in_row
        names = section_names(self.paper.sheet.recipe, self.room.words)
        return [
            Row(section, name, tasks[first : first + across])
            for section, (name, tasks) in enumerate(
                zip(names, self.paper.open_of_sections, strict=True)
            )
            for first in range(0, len(tasks), across)
        ]

    @property
    def _in_row(self) -> int:
        """How many numbers have room in a row."""
        if self.is_narrow:
            return _ACROSS_NARROW
        free = self.band(0, 1).w / self.unit - _NAME
        return min(_ACROSS, int(free / _LEAST))

    @property
    def _on_page(self) -> int:
        return int((_BOTTOM - _TOP + _GAP) // (_HIGH + _GAP))

    @property
    def pages(self) -> int:
        """How many pages the rows take."""
        return max(1, -(-len(self.rows) // self._on_page))

    @property
    def _shown(self) -> list[Row]:
        return self.rows[self._on_page * self.page :][: self._on_page]

    # How it is laid out

    def _row(self, at: int) -> tuple[pygame.Rect, list[pygame.Rect]]:
        """The places of a row: for the name of its section, and for the numbers."""
        whole = self.band(_TOP + at * (_HIGH + _GAP), _HIGH)
        wide = round((_NAME_NARROW if self.is_narrow else _NAME) * self.unit)
        name = pygame.Rect(whole.left, whole.top, wide - round(self.unit), whole.h)
        rest = pygame.Rect(whole.left + wide, whole.top, whole.w - wide, whole.h)
        return name, abreast(rest, self._in_row, _GAP * self.unit)

    def arrange(self) -> None:
        """The numbers, what turns the page, and the two answers."""
        self.buttons += self.speaker(self.corner)
        text = self.room.words.text
        for at, row in enumerate(self._shown):
            for place, task in zip(self._row(at)[1], row.tasks, strict=False):
                self.buttons.append(
                    Button(
                        place, partial(Pop, task), str(task + 1), style=Style.CHOICE,
                        name=text("paper.told.open_of", part=row.name, number=task + 1),
                    )
                )  # fmt: skip
        main, turners, _ = self.foot_places(_ANSWERS_NARROW if self.is_narrow else _ANSWERS)
        self.buttons += self.turners(abreast(turners, 2, self.unit))
        hand_in, go_on = abreast(main, 2, 2 * self.unit)
        self.buttons += [
            Button(hand_in, partial(Pop, HAND_IN), text("paper.hand_in")),
            Button(go_on, Pop, text("paper.go_on"), style=Style.MAIN),
        ]

    # What is seen

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the question, and the names of the sections before their first numbers."""
        self.paint_title(brushes, paper_title(self.paper.sheet.recipe, self.room.words))
        brushes.text(self.greeting.show, self.band(12.5, 9), 1 if self.is_narrow else 2)
        named = None
        for at, row in enumerate(self._shown):
            if row.section != named:
                brushes.text(row.name, self._row(at)[0], 1, bold=True)
            named = row.section
        if self.pages > 1:
            told = self.room.words.text("sheet.page", page=self.page + 1, pages=self.pages)
            brushes.text(told, self.band(_TOLD, 3), 0, soft=True)
