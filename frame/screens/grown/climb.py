"""How the ladder was climbed: where it came to stand, when, and why; the latest first."""

from collections.abc import Sequence

import pygame

from frame.language.lines import Line
from frame.screens.grown.sentences import step_lines
from frame.screens.grown.view import GlidingPage, Spot, View, turners
from frame.view.widgets import Brushes, Button

_TOP, _FOOT = 22.5, 77.0
_ROW, _NARROW_ROW = 9.0, 10.9
_HEAD = 4.2
"""Units of a row for where; below it is when and why."""


class ClimbList(View):
    """Some steps at a time, and what turns to the others."""

    def __init__(self, page: GlidingPage) -> None:
        super().__init__(page)
        self.steps = self.room.known.growth.steps[::-1]
        self.first = 0
        self._chosen: int | None = None
        """The step that is chosen, the latest being 0."""

    @property
    def told(self) -> Line:
        """How they are read, and the last one; what there will be, where there is none yet."""
        if not self.steps:
            return self.words.line("grown.no_step")
        steps, (where, why, _) = (
            self.words.line("grown.steps"),
            step_lines(self.steps[0], self.words),
        )
        return Line(steps.show, f"{steps.speak} {where.speak} {why.speak}")

    @property
    def on_page(self) -> int:
        """How many steps are shown at a time."""
        return int((_FOOT - _TOP) / self._row)

    @property
    def _row(self) -> float:
        return _NARROW_ROW if self.page.is_narrow else _ROW

    @property
    def pages(self) -> int:
        """How many pages all of them take."""
        return max(1, -(-len(self.steps) // self.on_page))

    def turn(self, way: int) -> None:
        """Another page; after the last comes the first."""
        self._chosen = None
        self.first = (self.first // self.on_page + way) % self.pages * self.on_page
        self.page.rearrange()

    def choose(self, at: int | None) -> None:
        """It is found again, however many there are on a page."""
        self._chosen = None if at is None else self.first + at

    def arrange(self) -> Sequence[Button]:
        """A spot for each step, and what turns the page."""
        at = self.first if self._chosen is None else self._chosen
        self.first = at // self.on_page * self.on_page
        shown = self.steps[self.first :][: self.on_page]
        self._lines = [step_lines(step, self.words) for step in shown]
        self.spots = [
            Spot(self.page.band(_TOP + at * self._row, self._row - 1), _line(*some))
            for at, some in enumerate(self._lines)
        ]
        if self.pages == 1:
            return ()
        return turners(*self._turns, self.turn)

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        foot = self.page.band(79, 8.5)
        back = pygame.Rect(foot.left, foot.top, foot.h, foot.h)
        return back, back.move(round(32 * self.page.unit) - foot.h, 0)

    def paint(self, brushes: Brushes, at: int | None) -> None:
        """A step in two lines: where, and below when and why."""
        if not self.steps:
            self.paint_told(brushes, self.page.band(23, 10), None)
            return
        for (where, why, _), spot in zip(self._lines, self.spots, strict=True):
            above, below = spot.place.copy(), spot.place.copy()
            above.h = round(_HEAD * self.page.unit)
            below.top, below.h = above.bottom, spot.place.bottom - above.bottom
            brushes.text(where.show, above, 0 if self.page.is_narrow else 1, bold=True)
            brushes.text(why.show, below, 0, soft=True)
        if at is not None:
            brushes.ring(self.spots[at].place.inflate(round(2 * self.page.unit), 0))
        told = self.page.band(79, 8.5)
        if self.pages > 1:
            back, on = self._turns
            aside = on.right + round(3 * self.page.unit) - told.left
            told.left, told.w = told.left + aside, told.w - aside
            between = pygame.Rect(back.right, back.top, on.left - back.right, back.h)
            page = self.first // self.on_page + 1
            text = self.words.text("own.page", page=page, all=self.pages)
            brushes.text(text, between, 0, soft=True, align="centre")
        self.paint_told(brushes, told, at)


def _line(where: Line, why: Line, means: Line) -> Line:
    return Line(means.show, f"{where.speak} {why.speak} {means.speak}")
