"""Who is here: a picture each, no reading needed."""

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Change, Push
from frame.learner.store import Learner
from frame.room import Room
from frame.screens.panel import Panel
from frame.view.widgets import Brushes, Button, Style

ANIMALS = (
    "otter", "seal", "gull", "crab", "heron", "fox",
    "hare", "owl", "turtle", "whale", "cat", "hedgehog",
)  # fmt: skip


class Face(NamedTuple):
    """A portrait to touch: its picture, its name, and what touching it does."""

    picture: str
    name: str
    act: Callable[[], object]


NEWCOMER = Face("", "", lambda: None)
"""The place for somebody who is not here yet."""


class Who(Panel):
    """The portraits of everybody who learns here, and one place for a new face."""

    goes_back = False

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.choosing = not room.store.learners()

    def resumed(self, result: object) -> Change | None:
        """Nobody is here again."""
        self.room.leave()
        self.choosing = not self.room.store.learners()
        self.rearrange()
        return None

    def arrange(self) -> None:
        """A portrait each; while choosing, one for each animal."""
        learners = self.room.store.learners()
        if not self.choosing:
            faces = [Face(one.picture, one.nickname, partial(self._enter, one)) for one in learners]
            self._arrange_faces([*faces, NEWCOMER])
            return
        names = self.room.words.listed("who.animals")
        self._arrange_faces(
            [
                Face(animal, name, partial(self._welcome, animal, name))
                for animal, name in zip(ANIMALS, names, strict=True)
            ]
        )
        if learners:
            back = self.rect(1.5, 3, 8, 8)
            self.buttons.append(Button(back, self._stop_choosing, sign="back", style=Style.SIGN))

    def _arrange_faces(self, faces: Sequence[Face]) -> None:
        """Portraits in rows, as large as they can be."""
        area, count = self.rect(6, 20, self.across - 12, 64), len(faces)
        columns = max(range(1, count + 1), key=lambda n: self._portrait(area, count, n))
        rows = math.ceil(count / columns)
        size = round(self._portrait(area, count, columns))
        cell_w = min(area.w / columns, self.unit * 34)
        cell_h = min(area.h / rows, self.unit * 34)
        left = area.centerx - cell_w * columns / 2
        top = area.centery - cell_h * rows / 2
        for index, face in enumerate(faces):
            row, column = divmod(index, columns)
            place = pygame.Rect(0, 0, size, size + round(self.unit * 4))
            place.centerx = round(left + cell_w * (column + 0.5))
            place.centery = round(top + cell_h * (row + 0.5))
            self.buttons.append(self._button(face, place))

    def _button(self, face: Face, place: pygame.Rect) -> Button:
        if face is not NEWCOMER:
            style = Style.PORTRAIT
            return Button(place, face.act, face.name, picture=face.picture, style=style)
        square = pygame.Rect(place.left, place.top, place.w, place.w)
        square.inflate_ip(-round(square.w * 0.3), -round(square.w * 0.3))
        return Button(square, self._choose, sign="plus")

    def _portrait(self, area: pygame.Rect, count: int, columns: int) -> float:
        """How large portraits are with so many abreast."""
        rows = math.ceil(count / columns)
        cell = min(area.w / columns, area.h / rows - 5 * self.unit, 30 * self.unit)
        return cell - 2 * self.unit

    def _choose(self) -> None:
        self.choosing = True
        self.rearrange()

    def _stop_choosing(self) -> None:
        self.choosing = False
        self.rearrange()

    def _welcome(self, animal: str, name: str) -> Change:
        names = [one.nickname for one in self.room.store.learners()]
        number = 2
        nickname = name
        while nickname in names:
            nickname = f"{name} {number}"
            number += 1
        return self._enter(self.room.store.add_learner(nickname, animal, self.room.now()))

    def _enter(self, learner: Learner) -> Change:
        # Home brings the course with it, and faces must be seen before that is loaded.
        from frame.screens.home import Home

        self.room.enter(learner)
        return Push(Home(self.room))

    def back(self) -> Change | None:
        """Esc leaves the choice of a face; it never closes the window."""
        if self.choosing and self.room.store.learners():
            self._stop_choosing()
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The question."""
        title = self.rect(12, 6, self.across - 24, 10)
        key = "who.choose_picture" if self.choosing else "who.title"
        brushes.text(self.room.words.text(key), title, 3, bold=True, align="centre")
