"""Who is here: a picture each, no reading needed."""

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.settings import Age, Settings
from frame.learner.store import Learner
from frame.room import Room
from frame.screens.parts.panel import Panel
from frame.view.widgets import Brushes, Button, Style

ANIMALS = (
    "otter", "seal", "gull", "crab", "heron", "fox",
    "hare", "owl", "turtle", "whale", "cat", "hedgehog",
)  # fmt: skip


AGES = (
    ("who.age_young", Age.YOUNG),
    ("who.age_middle", Age.MIDDLE),
    ("who.age_older", Age.OLDER),
)


class Face(NamedTuple):
    """A portrait to touch: its picture, its name, and what touching it does."""

    picture: str
    name: str
    act: Callable[[], object]


class Who(Panel):
    """The portraits of everybody who learns here, and one place for a new face, who is asked
    for an age band: it decides sizes and wording, and no birthday is kept."""

    goes_back = False

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.choosing = not room.store.learners()
        self.newcomer: Face | None = None

    @property
    def greeting(self) -> Line | None:
        """What there is to do: choose who is here."""
        return self.room.words.line("who.choose_picture" if self.choosing else "who.title")

    def resumed(self, result: object) -> Change | None:
        """Nobody is here again."""
        self.room.leave()
        self.choosing = not self.room.store.learners()
        self.rearrange()
        return None

    def arrange(self) -> None:
        """Who may be here; in a corner the tutor's board."""
        self._arrange_people()
        if self.newcomer is None:
            corner = self.rect(self.across - 9.5, 3, 8, 8)
            self.buttons.append(Button(corner, self._board, sign="board", style=Style.SIGN))

    def _arrange_people(self) -> None:
        """A portrait each; while choosing, one for each animal."""
        learners = self.room.store.learners()
        if not self.choosing:
            faces = [Face(one.picture, one.nickname, partial(self._enter, one)) for one in learners]
            new = self.room.words.text("who.new")
            self._arrange_faces([*faces, Face("newcomer", new, self._choose)])
            return
        if self.newcomer is not None:
            self._arrange_ages()
            return
        names = self.room.words.listed("who.animals")
        self._arrange_faces(
            [
                Face(animal, name, partial(self._meet, animal, name))
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
            style = Style.PORTRAIT
            self.buttons.append(
                Button(place, face.act, face.name, picture=face.picture, style=style)
            )

    def _portrait(self, area: pygame.Rect, count: int, columns: int) -> float:
        """How large portraits are with so many abreast."""
        rows = math.ceil(count / columns)
        cell = min(area.w / columns, area.h / rows - 5 * self.unit, 30 * self.unit)
        return cell - 2 * self.unit

    def _board(self) -> Change:
        # The board brings the painting of beads with it, and faces must be seen before.
        from frame.screens.board.screen import BoardScreen

        return Push(BoardScreen(self.room))

    def _choose(self) -> None:
        self.choosing, self.newcomer = True, None
        self.rearrange()

    def _stop_choosing(self) -> None:
        self.choosing, self.newcomer = False, None
        self.rearrange()

    def _meet(self, animal: str, name: str) -> None:
        """A picture is chosen: its name, with a number where it is taken."""
        names = [one.nickname for one in self.room.store.learners()]
        nickname, number = name, 2
        while nickname in names:
            nickname, number = f"{name} {number}", number + 1
        self.newcomer = Face(animal, nickname, self._stop_choosing)
        self.room.say(self.room.words.line("who.age"))
        self.rearrange()

    def _arrange_ages(self) -> None:
        """Three large choices."""
        width = min(30.0, (self.across - 36) / 3)
        left = self.across / 2 - 1.5 * width - 4
        for index, (key, age) in enumerate(AGES):
            place = self.rect(left + index * (width + 4), 56, width, 14)
            act = partial(self._welcome, age)
            line = self.room.words.line(key)
            self.buttons.append(Button(place, act, line.show, name=line.speak, step=2))
        back = self.rect(1.5, 3, 8, 8)
        self.buttons.append(Button(back, self._choose, sign="back", style=Style.SIGN))

    def _welcome(self, age: Age) -> Change | None:
        """A newcomer is taken in."""
        face = self.newcomer
        if face is None:
            return None
        learner = self.room.store.add_learner(face.name, face.picture, self.room.now())
        self.room.store.save_settings(learner, Settings(age=age))
        self.newcomer = None
        return self._enter(learner)

    def _enter(self, learner: Learner) -> Change:
        # Home brings the course with it, and faces must be seen before that is loaded.
        from frame.screens.choosing.home import Home

        self.room.enter(learner)
        return Push(Home(self.room))

    def back(self) -> Change | None:
        """Esc leaves the choice of a face or an age; it never closes the window."""
        if self.newcomer is not None:
            self._choose()
        elif self.choosing and self.room.store.learners():
            self._stop_choosing()
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, and the face that is asked."""
        words = self.room.words
        title = self.rect(12, 6, self.across - 24, 10)
        if self.newcomer is None:
            text = words.text("who.choose_picture") if self.choosing else words.text("who.title")
            brushes.text(text, title, 3, bold=True, align="centre")
            return
        brushes.text(words.text("who.age"), title, 3, bold=True, align="centre")
        size = round(30 * self.unit)
        picture = brushes.pictures.get(self.newcomer.picture, size)
        middle = self.size[0] // 2, round(36 * self.unit)
        brushes.surface.blit(picture, picture.get_rect(center=middle))
