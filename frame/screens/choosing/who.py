"""Who is here: a picture each, no reading needed."""

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.learner.store import Learner, StoreError
from frame.learner.trouble import Trouble
from frame.room import Room
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.trouble import saved_text, trouble_text, unsaved_line
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


class Who(Page):
    """The portraits of everybody who learns here, and one place for a new face, who is asked
    for an age band: it decides sizes and wording, and no birthday is kept."""

    goes_back = False

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.choosing = not room.learners()
        self.newcomer: Face | None = None
        self.trouble: Trouble | None = None

    @property
    def greeting(self) -> Line | None:
        """What is asked: who is here, which picture, which age."""
        words = self.room.words
        question = words.line(self._question)
        if self.newcomer is None:
            return question
        ages = " ".join(words.line(key).speak for key, _ in AGES)
        return Line(question.show, f"{question.speak} {ages}")

    @property
    def _question(self) -> str:
        if self.newcomer is not None:
            return "who.age"
        return "who.choose_picture" if self.choosing else "who.title"

    @property
    def _note(self) -> str:
        """What is wrong with the learners' file, or what became of a damaged one."""
        words, saved = self.room.words, self.room.store.saved
        if self.room.store.is_damaged:
            return words.text("store.found_damaged")
        if self.trouble is not None:
            return f"{trouble_text(self.trouble, words)} {words.text('store.try_again')}"
        if self.room.is_unsaved:
            return unsaved_line(self.room.keeper, words)
        return saved_text(saved, words) if saved else ""

    def resumed(self, result: object) -> Change | None:
        """Nobody is here again."""
        self.trouble = None
        self.room.leave()
        self.choosing = not self.room.learners()
        self.rearrange()
        return None

    def arrange(self) -> None:
        """Who may be here; in a corner the tutor's board and the computer's settings."""
        self._arrange_people()
        if self.newcomer is None:
            corner = self.rect(self.across - 9.5, 3, 8, 8)
            self.buttons.append(Button(corner, self._board, sign="board", style=Style.SIGN))
            beside = self.rect(self.across - 18.5, 3, 8, 8)
            self.buttons.append(Button(beside, self._settings, sign="gear", style=Style.SIGN))

    def _arrange_people(self) -> None:
        """A portrait each; while choosing, one for each animal."""
        learners = self.room.learners()
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

    def _settings(self) -> Change:
        # The settings bring the board with them.
        from frame.screens.choosing.lock import for_grown_ups

        return Push(for_grown_ups(self.room))

    def _choose(self) -> None:
        self._ask(choosing=True)

    def _stop_choosing(self) -> None:
        self._ask(choosing=False)

    def _ask(self, choosing: bool, newcomer: Face | None = None) -> None:
        """Ask something else."""
        self.choosing, self.newcomer = choosing, newcomer
        self.rearrange()
        self.greet()

    def _meet(self, animal: str, name: str) -> None:
        """A picture is chosen: its name, with a number where it is taken."""
        names = [one.nickname for one in self.room.learners()]
        nickname, number = name, 2
        while nickname in names:
            nickname, number = f"{name} {number}", number + 1
        self._ask(choosing=True, newcomer=Face(animal, nickname, self._stop_choosing))

    def _arrange_ages(self) -> None:
        """Three large choices."""
        row = self.band(56, 14)
        row.inflate_ip(min(0, round(98 * self.unit) - row.w), 0)
        for (key, age), place in zip(AGES, abreast(row, len(AGES), 4 * self.unit), strict=True):
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
        self.newcomer = None
        self.room.welcome(Learner.new(face.name, face.picture), age)
        return self._home()

    def _enter(self, learner: Learner) -> Change | None:
        try:
            self.room.enter(learner)
        except StoreError as error:
            self.trouble = error.trouble
            self.rearrange()
            return None
        return self._home()

    def _home(self) -> Change:
        # Home brings the course with it, and faces must be seen before that is loaded.
        from frame.screens.choosing.home import Home

        return Push(Home(self.room))

    def back(self) -> Change | None:
        """Esc leaves the choice of a face or an age; it never closes the window."""
        if self.newcomer is not None:
            self._choose()
        elif self.choosing and self.room.learners():
            self._stop_choosing()
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, and the face that is asked."""
        title = self.band(11, 9) if self.is_narrow else self.rect(20, 6, self.across - 40, 10)
        brushes.text(self.room.words.text(self._question), title, 3, bold=True, align="centre")
        brushes.text(self._note, self.band(84, 6), 0, soft=True, align="centre")
        if self.newcomer is None:
            return
        size = round(30 * self.unit)
        picture = brushes.pictures.get(self.newcomer.picture, size)
        middle = self.size[0] // 2, round(36 * self.unit)
        brushes.surface.blit(picture, picture.get_rect(center=middle))
