"""A sheet that was given to do: what it is, and that it is worked on paper."""

import pygame

from frame.app import Screen
from frame.course.next_paper import graded_recipe
from frame.language.lines import Line
from frame.printing.titles import title_of
from frame.room import Room
from frame.screens.paper.papers import PapersPage
from frame.screens.parts.code_of_sheet import code_lines, code_signs
from frame.screens.parts.page import Page
from frame.sheets.code import recipe_of
from frame.view.widgets import Brushes

_SIGN = 24
"""Units that the side of the sign takes."""


def sheet_screen(room: Room, code: str) -> Screen:
    """Where a sheet with this code is worked: on paper, or on the screen if it is a graded one."""
    graded = graded_recipe(code)
    return GivenSheet(room, code) if graded is None else PapersPage(room, graded)


class GivenSheet(Page):
    """The slip of paper, and the code by which the printed sheet is found."""

    def __init__(self, room: Room, code: str) -> None:
        super().__init__(room)
        self.code = code
        self.title = title_of(recipe_of(code), room.words)

    @property
    def greeting(self) -> Line:
        """What is to be done."""
        return self.room.words.line("given.on_paper")

    def arrange(self) -> None:
        """What lets it be heard again."""
        self.buttons += self.speaker(self.corner)

    def paint_rest(self, brushes: Brushes) -> None:
        """The sign, what it is, and its code, as it stands at the foot of the sheet."""
        self.paint_title(brushes, self.room.words.text("given.title"))
        side = round(_SIGN * self.unit)
        sign = brushes.pictures.get("icon-slip", side, self.room.theme.ink)
        place = pygame.Rect(0, round(14 * self.unit), side, side)
        place.centerx = round(self.size[0] / 2)
        brushes.surface.blit(sign, place)
        brushes.text(self.title, self.band(41, 9), 2, bold=True, align="centre")
        brushes.text(self.greeting.show, self.band(51, 8), 1, align="centre")
        lines = code_lines(code_signs(self.code))
        for at, line in enumerate(lines):
            brushes.text(line, self.band(62 + 8 * at, 8), 2, bold=True, align="centre")
