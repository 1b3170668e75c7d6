"""Curves by the week. Dates stand on the axis; a week without practice has no point, and nothing
marks it. One's own best is a quiet line."""

from collections.abc import Sequence
from datetime import date
from itertools import pairwise

import pygame

from frame.language.days import day_text
from frame.language.lines import Line
from frame.practice.figures import Point
from frame.practice.growth import monday_of
from frame.screens.grown.charts import Chart, charts_of
from frame.screens.grown.sentences import point_line
from frame.screens.grown.view import GlidingPage, Spot, View, turners
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button

_FEWEST_WEEKS = 4
"""The axis has at least so many."""
_HEADS, _FOOT = 12.0, 4.0
"""Units left of the plot for what names its heights, and below it for dates."""

_MOST_DATES = 4


def _are_apart(dated: list[tuple[int, pygame.Rect]]) -> bool:
    """Whether no date lies on another."""
    return all(one.right <= other.left for (_, one), (_, other) in pairwise(dated))


class Curves(View):
    """One curve at a time, and what turns to the others."""

    def __init__(self, page: GlidingPage) -> None:
        super().__init__(page)
        self.charts = charts_of(self.room.known.growth, self.words)
        self.shown = self._latest()
        self.plot = page.rect(0, 0, 1, 1)

    def _latest(self) -> int:
        """The curve whose last week is the latest and had the most tries."""

        def order(at: int) -> tuple[int, int]:
            last = self.charts[at].curve.points[-1]
            return last.week, last.tally.of

        return max(range(len(self.charts)), key=order, default=0)

    @property
    def chart(self) -> Chart | None:
        """The one that is shown."""
        return self.charts[self.shown] if self.charts else None

    @property
    def points(self) -> tuple[Point, ...]:
        """Those of the curve that is shown."""
        return self.chart.curve.points if self.chart else ()

    @property
    def told(self) -> Line:
        """Which curve it is, and how it is read."""
        if self.chart is None:
            return self.words.line("grown.no_curve")
        points = self.words.line("grown.points")
        return Line(points.show, f"{self.chart.name.speak}. {points.speak}")

    def turn(self, way: int) -> None:
        """Another curve; after the last comes the first."""
        self.shown = (self.shown + way) % len(self.charts)
        self.page.rearrange()
        self.page.greet()

    # How it is laid out

    def arrange(self) -> Sequence[Button]:
        """A spot for each point, as high as the plot; and what turns to other curves."""
        page = self.page
        area = page.band(34, 38)
        heads, foot = round(_HEADS * page.unit), round(_FOOT * page.unit)
        self.plot = pygame.Rect(area.left + heads, area.top, area.w - heads, area.h - foot)
        self.spots = [
            Spot(place, point_line(point, self.words))
            for place, point in zip(self._strips(), self.points, strict=True)
        ]
        if len(self.charts) < 2:
            return ()
        return turners(*self._turns, self.turn)

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        row = self.page.band(22.5, 7.5)
        back = pygame.Rect(row.left, row.top, row.h, row.h)
        return back, back.move(row.w - row.h, 0)

    def _strips(self) -> list[pygame.Rect]:
        """The part of the plot that is nearer to each point than to any other."""
        plot, middles = self.plot, [self.place_of(point)[0] for point in self.points]
        borders = [(one + other) // 2 for one, other in pairwise(middles)]
        edges = [plot.left, *borders, plot.right] if middles else []
        return [
            pygame.Rect(left, plot.top, max(1, right - left), plot.h)
            for left, right in pairwise(edges)
        ]

    @property
    def _weeks(self) -> tuple[int, int]:
        """The first and the last week of the axis."""
        first, last = self.points[0].week, self.points[-1].week
        return first, max(last, first + _FEWEST_WEEKS - 1)

    def place_of(self, point: Point) -> tuple[int, int]:
        """Where a point is."""
        return self._across(point.week), self._down(point.height)

    def _across(self, week: int) -> int:
        (first, last), plot = self._weeks, self.plot
        pad = self.page.unit * 2
        return round(plot.left + pad + (plot.w - 2 * pad) * (week - first) / (last - first))

    def _down(self, height: float) -> int:
        chart, plot = self.chart, self.plot
        if chart is None:
            return plot.bottom
        return round(plot.bottom - plot.h * (height - chart.low) / (chart.high - chart.low))

    # How it is painted

    def paint(self, brushes: Brushes, at: int | None) -> None:
        """The curve with its axes, and what is told."""
        chart = self.chart
        if chart is not None:
            back, on = self._turns
            between = pygame.Rect(back.right, back.top, on.left - back.right, back.h)
            name, all_of_them = chart.name.show, len(self.charts)
            if all_of_them > 1:
                page = self.words.text("own.page", page=self.shown + 1, all=all_of_them)
                name = f"{name}, {page}"
            brushes.text(name, between, 1, bold=True, align="centre")
            self._paint_heights(brushes, chart)
            self._paint_dates(brushes)
            self._paint_best(brushes, chart)
            self._paint_curve(brushes, at)
        self.paint_told(brushes, self.page.band(74 if chart else 23, 10), at)

    def _paint_heights(self, brushes: Brushes, chart: Chart) -> None:
        """Named heights, as many as there is room for, the main ones with a thin line."""
        plot, high = self.plot, round(1.5 * type_size(0, brushes.height))
        taken: list[int] = []
        for height, name in (*chart.marks, *chart.between):
            middle = self._down(height)
            if any(abs(other - middle) < high for other in taken):
                continue
            taken.append(middle)
            if (height, name) in chart.marks:
                brushes.surface.fill(brushes.theme.hairline, (plot.left, middle, plot.w, 1))
            left = self.page.band(0, 0).left
            place = pygame.Rect(left, middle - high // 2, plot.left - left, high)
            place.w -= round(self.page.unit)
            brushes.text(name, place, 0, soft=True, align="right")

    def _paint_dates(self, brushes: Brushes) -> None:
        first, last = self._weeks
        plot, unit = self.plot, self.page.unit
        pixels = type_size(0, brushes.height)
        texts = [self._day(monday_of(week)) for week in (first, last)]
        wide = max(brushes.lettering.width(text, pixels) for text in texts) + round(6 * unit)
        most = max(2, min(_MOST_DATES, plot.w // wide, last - first + 1))
        ways = (self._dated(wide, count) for count in range(most, 2, -1))
        for week, place in next(filter(_are_apart, ways), self._dated(wide, 2)):
            tick = pygame.Rect(self._across(week), plot.bottom, 1, round(unit))
            brushes.surface.fill(brushes.theme.soft_ink, tick)
            moved = place.centerx - tick.x
            align = "centre" if not moved else "left" if moved > 0 else "right"
            brushes.text(self._day(monday_of(week)), place, 0, soft=True, align=align)

    def _dated(self, wide: int, count: int) -> list[tuple[int, pygame.Rect]]:
        """So many weeks from the first to the last, and where the date of each has room within the
        plot."""
        first, last = self._weeks
        top, high = self.plot.bottom + round(self.page.unit / 2), round(_FOOT * self.page.unit)
        dated = []
        for index in range(count):
            week = first + round((last - first) * index / (count - 1))
            place = pygame.Rect(0, top, wide, high)
            place.centerx = self._across(week)
            dated.append((week, place.clamp((self.plot.left, top), (self.plot.w, high))))
        return dated

    def _day(self, day: date) -> str:
        return day_text(self.words, day)

    def _paint_best(self, brushes: Brushes, chart: Chart) -> None:
        """A line of dots at the highest point, with its name."""
        best, plot, unit = chart.curve.best, self.plot, self.page.unit
        if best is None:
            return
        top = self._down(best.height)
        for left in range(plot.left, plot.right, max(4, round(unit))):
            brushes.surface.fill(brushes.theme.soft_ink, (left, top, max(1, round(unit / 6)), 1))
        text, pixels = self.words.text("grown.best"), type_size(0, brushes.height)
        place = pygame.Rect(plot.left, top - round(3.4 * unit), plot.w, round(3.2 * unit))
        place.w = min(plot.w, brushes.lettering.width(text, pixels) + round(unit))
        brushes.surface.fill(brushes.theme.ground, place)  # No line runs through it.
        brushes.text(text, place, 0, soft=True)

    def _paint_curve(self, brushes: Brushes, at: int | None) -> None:
        """Lines between weeks that follow one another, and a dot for each that has a point."""
        surface, theme, unit = brushes.surface, brushes.theme, self.page.unit
        colour, thick = theme.bead_used.face, max(2, round(unit / 3))
        places = [self.place_of(point) for point in self.points]
        for one, other in pairwise(self.points):
            if other.week - one.week == 1:
                pygame.draw.line(surface, colour, self.place_of(one), self.place_of(other), thick)
        apart = self._across(self._weeks[0] + 1) - self._across(self._weeks[0])
        radius = max(2, min(round(0.6 * unit), apart // 2))
        for place in places:
            pygame.draw.circle(surface, colour, place, radius)
        if at is not None:
            around = pygame.Rect(0, 0, round(2 * unit), round(2 * unit))
            around.center = places[at]
            brushes.ring(around)
