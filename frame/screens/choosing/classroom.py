"""The classroom: how large the screen is and where the seats are; then what the last row reads."""

import math
from collections.abc import Callable, Sequence
from decimal import Decimal

import pygame

from frame.language.lines import Line
from frame.learner.settings import DIAGONALS, SEATS, ScreenShape
from frame.practice.flashing import LEVELS
from frame.room import Room
from frame.screens.parts.dials import Choice, Dial, beside
from frame.screens.parts.flashing import height_of
from frame.screens.parts.panel import Panel
from frame.view.classroom import (
    LEAST_ANGLE,
    PREFERRED_ANGLE,
    SUM_SHARE,
    TEXT_SHARE,
    Classroom,
    Legibility,
    classroom_of,
    reference_distance,
)
from frame.view.widgets import Brushes

METRES_IN_INCH = 0.0254

QUICK = LEVELS[-1].setting
"""The quickest numbers of the ladder: of these it is said how large they come."""


class ClassroomScreen(Panel):
    """Whether sizes are for a class, the measures of its room, and what follows from them."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.dials: tuple[Dial, ...] = ()

    @property
    def greeting(self) -> Line | None:
        """The title."""
        return self.room.words.line("classroom.title")

    @property
    def verdict(self) -> str:
        """What the last row can read; empty without a classroom."""
        classroom, words = classroom_of(self.room.settings), self.room.words
        if classroom is None:
            return ""
        match classroom.legibility(TEXT_SHARE), classroom.legibility(SUM_SHARE):
            case Legibility.EASY, _:
                return words.text("classroom.reads_all")
            case Legibility.JUST, _:
                return words.text("classroom.reads_closely")
            case _, Legibility.EASY:
                return words.text("classroom.reads_sums")
            case _, Legibility.JUST:
                return words.text("classroom.reads_sums_closely")
        return words.text("classroom.reads_nothing")

    @property
    def details(self) -> tuple[str, ...]:
        """What stands below the verdict: angles, flashed numbers, and where it all holds."""
        classroom, words = classroom_of(self.room.settings), self.room.words
        if classroom is None:
            distance = _down(reference_distance(self.size))
            return (words.text("classroom.single", distance=distance),)
        angles = words.text(
            "classroom.angles",
            text_share=_down(100 * TEXT_SHARE), text=_down(classroom.angle(TEXT_SHARE)),
            sum_share=_down(100 * SUM_SHARE), sum=_down(classroom.angle(SUM_SHARE)),
            preferred=_down(PREFERRED_ANGLE), easy=_up(100 * classroom.share(PREFERRED_ANGLE)),
            least=_down(LEAST_ANGLE), just=_up(100 * classroom.share(LEAST_ANGLE)),
        )  # fmt: skip
        return angles, self._flashed(classroom), words.text("classroom.holds")

    def _flashed(self, classroom: Classroom) -> str:
        words = self.room.words
        share = height_of(self.room, QUICK, self.size) / self.size[1]
        high, digits = _down(100 * share), QUICK.digits
        match classroom.legibility(share):
            case Legibility.EASY:
                return words.text("classroom.flashed_easy", digits=digits, share=high)
            case Legibility.JUST:
                return words.text("classroom.flashed_just", digits=digits, share=high)
        return words.text("classroom.flashed_not", digits=digits, share=high)

    def arrange(self) -> None:
        """The rows; those of the measures only for a class."""
        self.dials = self._dials()
        for index, dial in enumerate(self.dials):
            self.buttons += dial.buttons(self._row(index), round(self.unit * 0.7))

    def _row(self, index: int) -> pygame.Rect:
        return self.rect(12, 14 + index * 8.2, self.across - 24, 7)

    def _dials(self) -> tuple[Dial, ...]:
        now, text = self.room.settings, self.room.words.text
        on_off = ((text("settings.on"), True), (text("settings.off"), False))
        use = self._pick(text("classroom.use"), "classroom", on_off)
        if not now.classroom:
            return (use,)
        nearest = [seat for seat in SEATS if seat <= now.farthest_seat]
        farthest = [seat for seat in SEATS if seat >= now.nearest_seat]
        shapes = [(shape.value, shape) for shape in ScreenShape]
        return (
            use,
            self._turn(text("classroom.screen"), "screen_diagonal", DIAGONALS, self._across()),
            self._pick(text("classroom.shape"), "screen_shape", shapes),
            self._turn(text("classroom.nearest"), "nearest_seat", nearest, self._seat("nearest")),
            self._turn(
                text("classroom.farthest"), "farthest_seat", farthest, self._seat("farthest")
            ),
        )

    def _across(self) -> Line:
        diagonal = self.room.settings.screen_diagonal
        inches = round(diagonal / METRES_IN_INCH)
        return self.room.words.line("classroom.across", metres=_metres(diagonal), inches=inches)

    def _seat(self, which: str) -> Line:
        seat = getattr(self.room.settings, f"{which}_seat")
        return self.room.words.line("classroom.metres", metres=_metres(seat))

    def _pick(self, label: str, name: str, values: Sequence[tuple[str, object]]) -> Dial:
        now = getattr(self.room.settings, name)
        choices = tuple(Choice(text, now == one, self._setter(name, one)) for text, one in values)
        return Dial(label, choices, names=self._names)

    def _turn(self, label: str, name: str, values: Sequence[float], shown: Line) -> Dial:
        before, after = beside(getattr(self.room.settings, name), values)
        less = self._setter(name, before[-1]) if before else None
        more = self._setter(name, after[0]) if after else None
        return Dial(label, value=shown, less=less, more=more, names=self._names)

    @property
    def _names(self) -> tuple[str, str, str]:
        text = self.room.words.text
        return text("sign.less"), text("sign.more"), text("sign.chosen")

    def _setter(self, name: str, value: object) -> Callable[[], None]:
        def change() -> None:
            self.room.set(**{name: value})
            self.rearrange()
            self.speak_focus()

        return change

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, and what follows from the measures."""
        words, wide = self.room.words, self.across - 24
        title = self.rect(12, 3, wide, 8)
        brushes.text(words.text("classroom.title"), title, 2, bold=True)
        for index, dial in enumerate(self.dials):
            dial.paint(brushes, self._row(index))
        if not self.verdict:
            brushes.text(self.details[0], self.rect(12, 24, wide, 12), 1)
            return
        brushes.text(self.verdict, self.rect(12, 55.5, wide, 8), 1, bold=True)
        for index, text in enumerate(self.details):
            soft = index == len(self.details) - 1
            brushes.text(text, self.rect(12, 64 + index * 8, wide, 7.5), 0, soft=soft)


def _metres(length: float) -> Decimal:
    return Decimal(f"{length:.2f}".rstrip("0").rstrip("."))


def _down(value: float) -> Decimal:
    """The value to a tenth, never more than it is: nothing is told as larger than it is."""
    return Decimal(math.floor(round(10 * value, 6))) / 10


def _up(value: float) -> Decimal:
    """The value to a tenth, never less than it is."""
    return Decimal(math.ceil(round(10 * value, 6))) / 10
