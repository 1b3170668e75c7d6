"""What the lesson screen's layout and painting may know of it."""

from typing import Protocol

import pygame

from frame.app import Change
from frame.course.runner import Runner
from frame.language.lines import Line
from frame.room import Room
from frame.technique.beads import Stroke
from frame.view.bead_field import BeadField
from frame.view.widgets import Button


class LessonView(Protocol):
    """A lesson under way: its state, its frame on the screen, and what its buttons do."""

    room: Room
    runner: Runner
    field: BeadField
    typed: str
    said: Line | None
    buttons: list[Button]
    focus: int | None

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""

    @property
    def across(self) -> float:
        """How many units wide the window is."""

    def rect(self, x: float, y: float, w: float, h: float) -> pygame.Rect:
        """A rectangle given in units."""

    def back(self) -> Change | None:
        """Leave the lesson."""

    def go_on(self) -> None:
        """Leave a sentence, or what is done."""

    def touch(self, stroke: Stroke) -> None:
        """The learner makes a stroke."""

    def show_me(self) -> None:
        """The learner asks for help."""

    def undo(self) -> None:
        """The last right stroke goes back."""

    def say_done(self) -> None:
        """The learner says the work is done."""

    def type_digit(self, digit: str) -> None:
        """A digit is typed."""

    def answer(self) -> Change | None:
        """The typed number is the answer."""

    def next_lesson(self) -> Change:
        """Go to the next lesson."""

    def once_more(self) -> Change:
        """The same lesson again."""
