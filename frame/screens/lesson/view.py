"""What the lesson screen's layout and painting may know of it."""

from typing import Protocol

import pygame

from frame.app import Change
from frame.course.answering import Answer
from frame.course.runner import Runner
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.calling import Calling
from frame.technique.beads import Stroke
from frame.view.bead_field import BeadField
from frame.view.widgets import Button


class LessonView(Protocol):
    """A lesson under way: its state, its frame on the screen, and what its buttons do. `is_lesson`
    tells a lesson, be it of the course or a tutor's own, from a set practised."""

    room: Room
    runner: Runner
    field: BeadField
    answer: Answer
    calling: Calling | None
    said: Line | None
    buttons: list[Button]
    focus: int | None
    is_wide: bool
    is_lesson: bool

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""

    @property
    def across(self) -> float:
        """How many units wide the window is."""

    @property
    def answer_signs(self) -> str:
        """The signs that an answer may have beside digits."""

    @property
    def has_field(self) -> bool:
        """Whether there is a frame on the screen."""

    @property
    def is_one_digit(self) -> bool:
        """Whether the answer is what one rod reads: then a digit is all of it."""

    @property
    def line(self) -> Line | None:
        """The sentence that stands there."""

    @property
    def is_course(self) -> bool:
        """Whether it is a lesson of the course, not a set practised."""

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

    def say_rod(self) -> None:
        """The rod that the keys work is named, where it is not seen."""

    def say_done(self) -> None:
        """The learner says the work is done."""

    def say_again(self) -> None:
        """The sentence is heard again."""

    def type_sign(self, sign: str) -> None:
        """A digit, a minus or a point is typed."""

    def give_answer(self) -> Change | None:
        """The number is the answer."""

    def use_frame(self) -> None:
        """The answer is set on the frame, or taken from it."""

    def start(self) -> Change | None:
        """The numbers begin, from the first."""

    def skip(self) -> None:
        """Numbers that are to be flashed are left out."""

    def hold(self) -> None:
        """The call is held, or goes on."""

    def repeat(self) -> None:
        """The number called last is called again, and the call goes on."""

    def next_lesson(self) -> Change:
        """Go to the next lesson."""

    def once_more(self) -> Change:
        """The same lesson again."""
