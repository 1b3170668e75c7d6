"""The classroom: how large the screen is and where the seats are; then what the last row reads."""

import math
from decimal import Decimal

from frame.language.lines import Line
from frame.learner.settings import DIAGONALS, SEATS, ScreenShape
from frame.practice.flashing import LEVELS
from frame.screens.parts.decimals import to_hundredths
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.flashing import height_of
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


class ClassroomScreen(DialPage):
    """Whether sizes are for a class, the measures of its room, and what follows from them."""

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

    def rows(self) -> tuple[Dial, ...]:
        """Whether there is a class; the measures only where there is."""
        now = self.room.settings
        use = self.switch("classroom.use", name="classroom")
        if not now.classroom:
            return (use,)
        shapes = [(Line(shape.value, shape.value), shape) for shape in ScreenShape]
        return (
            use,
            self.turn(
                "classroom.screen",
                name="screen_diagonal",
                values=DIAGONALS,
                shown=self._corner_to_corner(now.screen_diagonal),
            ),
            self.pick("classroom.shape", name="screen_shape", values=shapes),
            self.turn(
                "classroom.nearest",
                name="nearest_seat",
                values=[seat for seat in SEATS if seat <= now.farthest_seat],
                shown=self._metres(now.nearest_seat),
            ),
            self.turn(
                "classroom.farthest",
                name="farthest_seat",
                values=[seat for seat in SEATS if seat >= now.nearest_seat],
                shown=self._metres(now.farthest_seat),
            ),
        )

    def _corner_to_corner(self, diagonal: float) -> Line:
        inches = round(diagonal / METRES_IN_INCH)
        return self.room.words.line(
            "classroom.across", metres=to_hundredths(diagonal), inches=inches
        )

    def _metres(self, length: float) -> Line:
        return self.room.words.line("classroom.metres", metres=to_hundredths(length))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows, and what follows from the measures."""
        self.paint_title(brushes, self.room.words.text("classroom.title"))
        self.paint_rows(brushes)
        if not self.verdict:
            brushes.text(self.details[0], self.band(27, 12), 1)
            return
        brushes.text(self.verdict, self.band(55.5, 8), 1, bold=True)
        for index, text in enumerate(self.details):
            soft = index == len(self.details) - 1
            brushes.text(text, self.band(64 + index * 8, 7.5), 0, soft=soft)


def _down(value: float) -> Decimal:
    """The value to a tenth, never more than it is: nothing is told as larger than it is."""
    return Decimal(math.floor(round(10 * value, 6))) / 10


def _up(value: float) -> Decimal:
    """The value to a tenth, never less than it is."""
    return Decimal(math.ceil(round(10 * value, 6))) / 10
