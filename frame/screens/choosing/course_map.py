"""The course as the harbour that it leads along: a quay, on it what stands for each unit, and below
it a frame with a rod for each.

The four earth beads of a rod are its first lessons, the heaven bead its covered last one; what is
done lies at the beam, and so does what is known by placement, with a hole. The bead of the next
lesson is lit. What stands for a unit is hollow until all of it is done. For the young three units
are large, and the frames beside them small.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import pygame

from frame.course.course import LessonEntry
from frame.course.lesson import Unit
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.parts.rod_names import HEIGHT, paint_rod_names
from frame.screens.parts.way import Way, beads_of
from frame.technique.beads import BeadMove, Frame
from frame.view.bead_field import BeadField
from frame.view.geometry import Bead, Layout, Point
from frame.view.motion import SHOW_SECONDS
from frame.view.painter import Appearance
from frame.view.widgets import Brushes

_LARGE = 3
"""So many units are large for the young."""
_LEAST_BESIDE = 90.0
"""So many units wide is an area that has room for large rods beside small ones."""
_LARGE_WIDTH = 0.28
"""Of the width, for the large rods."""
_MOST_SMALL = 0.5
"""How wide a small rod is at most, in large ones."""
_APART = 1.5
"""Units of space between frames."""
_THING = 0.96
"""How wide what stands for a unit is, in rods."""
_FRAME_SHARE = 0.78
"""Of the height of things and frame: what a frame has whose rods are as wide as things."""
_PLANK = 1.4
"""How high the quay is, in units of space."""
_SEA = 0.62
"""How high the sea's end stands above the quay, in shares of the largest thing."""


@dataclass(frozen=True)
class _Part:
    """Some of the units, from the `first` on, on a frame of their own."""

    first: int
    units: tuple[Unit, ...]
    field: BeadField
    is_large: bool

    @property
    def thing(self) -> int:
        """How wide what stands for a unit is, in pixels."""
        return round(self.field.layout.spacing * _THING)


class CourseMap:
    """The course in an area, as a learner stands in it, a digit for each unit. From the digits of
    where it stood `before`, beads glide to where they are now. `unit` is one of space in pixels."""

    def __init__(
        self, room: Room, way: Way, area: pygame.Rect, unit: float, before: str | None = None
    ) -> None:
        self._room, self._way, self._area, self._unit = room, way, area, unit
        self.digits = "".join(str(way.digit(self._lessons(one))) for one in self._units)
        self.parts = tuple(self._laid_out(before or self.digits))

    @property
    def _units(self) -> tuple[Unit, ...]:
        return self._room.course.units

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames."""
        return tuple(part.field for part in self.parts)

    def _lessons(self, unit: Unit) -> tuple[LessonEntry, ...]:
        return self._room.course.lessons_of(unit.id)

    # Where all of it stands.

    def _laid_out(self, before: str) -> Iterator[_Part]:
        """The frames from the left, below one quay, in the middle of the area's height."""
        one, area = self._unit, self._area
        high = area.h - round((HEIGHT + _PLANK) * one)
        spans = self._spans(_FRAME_SHARE * high)
        fits = [
            Layout.fit((0, 0, width, _FRAME_SHARE * high), stop - start, 0)
            for start, stop, width in spans
        ]
        frame = max(fit.frame_box.h for fit in fits)
        thing = min(max(fit.spacing for fit in fits) * _THING, high - frame)
        self.quay = area.top + round((high - frame - thing) / 2 + thing)
        across = sum(fit.frame_box.w for fit in fits) + _APART * one * (len(fits) - 1)
        left = area.centerx - across / 2
        for (start, stop, _), fit in zip(spans, fits, strict=True):
            size = int(fit.frame_box.w), int(fit.frame_box.h)
            place = pygame.Rect((round(left), self.quay + round(_PLANK * one)), size)
            is_large = len(fits) == 1 or stop - start == _LARGE
            yield self._part(start, stop, place, before, is_large)
            left += fit.frame_box.w + _APART * one

    def _spans(self, high: float) -> list[tuple[int, int, float]]:
        """From which unit to which a frame stands for, and how wide it may be, in pixels; it may
        be so high."""
        count, width = len(self._units), self._area.w
        is_young = self._room.settings.age is Age.YOUNG
        if not is_young or count <= _LARGE or width < _LEAST_BESIDE * self._unit:
            return [(0, count, width)]
        upcoming = self._way.upcoming
        at = count - 1 if upcoming is None else self._column_of(upcoming)
        first = min(max(at - 1, 0), count - _LARGE)
        left = (width * (1 - _LARGE_WIDTH) - 2 * _APART * self._unit) / (count - _LARGE)
        large = Layout.fit((0, 0, width * _LARGE_WIDTH, high), _LARGE, 0)
        small = min(left, _MOST_SMALL * large.spacing)
        spans = [
            (0, first, first * small),
            (first, first + _LARGE, width * _LARGE_WIDTH),
            (first + _LARGE, count, (count - first - _LARGE) * small),
        ]
        return [span for span in spans if span[1] > span[0]]

    def _part(
        self, start: int, stop: int, place: pygame.Rect, before: str, is_large: bool
    ) -> _Part:
        stood, now = (
            Frame(digits[start:stop], stop - start - 1) for digits in (before, self.digits)
        )
        reduced = self._room.settings.reduced_motion
        field = BeadField(
            self._room.painter, stood, place, reduced=reduced, wide_rods=len(self._units)
        )
        if stood != now:
            field.show(now, self._room.seconds(), SHOW_SECONDS)
        field.appear(Appearance())
        upcoming = self._way.upcoming
        if upcoming is not None and start <= self._column_of(upcoming) < stop:
            field.hint([self._move_of(upcoming, stop)])
        return _Part(start, self._units[start:stop], field, is_large)

    # Which lesson is which bead.

    def lessons_at(self, place: Point) -> list[LessonEntry]:
        """The lessons of the bead at a place, or of the unit whose drawing stands there."""
        for part in self.parts:
            for unit, standing in self._standing(part):
                if standing.collidepoint(place):
                    return list(self._lessons(unit))
            hit = part.field.layout.bead_at(place, part.field.pose)
            if hit is not None:
                column, bead = hit
                lessons = self._lessons(part.units[column])
                return [one for one in lessons if self._bead_of(one) is bead]
        return []

    def _column_of(self, entry: LessonEntry) -> int:
        return [unit.id for unit in self._units].index(entry.unit)

    def _bead_of(self, entry: LessonEntry) -> Bead:
        lessons = self._room.course.lessons_of(entry.unit)
        return beads_of(len(lessons))[lessons.index(entry)]

    def _move_of(self, entry: LessonEntry, stop: int) -> BeadMove:
        """The bead move that stands for doing a lesson, on a frame of the units before `stop`."""
        column, bead = self._column_of(entry), self._bead_of(entry)
        at_beam = int(self.digits[column]) % 5
        return BeadMove(stop - 1 - column, 5 if bead.is_heaven else bead - at_beam)

    # How it looks.

    def paint(self, brushes: Brushes, touched: LessonEntry | None, named: Unit | None) -> None:
        """The harbour; the bead of a lesson that is touched; the name of each unit below its rod,
        one of them strong and, where rods are narrow, alone."""
        self._paint_sea(brushes)
        for part in self.parts:
            part.field.paint(brushes.surface)
            self._paint_things(brushes, part)
            self._paint_known(brushes, part, touched)
            strong = part.units.index(named) if named in part.units else None
            if part.is_large or strong is not None:
                names = [unit.title for unit in part.units]
                paint_rod_names(brushes, part.field, self._area, names, strong)

    def _paint_sea(self, brushes: Brushes) -> None:
        """Where the sea ends, quietly, and the quay before it, as long as all frames are."""
        colours, one = brushes.theme.drawn, self._unit
        left, right = self.parts[0].field.box.left, self.parts[-1].field.box.right
        tallest = max(part.thing for part in self.parts)
        sea = pygame.Rect(left, 0, right - left, max(1, round(one / 5)))
        sea.bottom = self.quay - round(_SEA * tallest)
        brushes.surface.fill(brushes.theme.hairline, sea)
        plank = pygame.Rect(left, self.quay, right - left, round(_PLANK * one))
        plank.inflate_ip(round(2 * one), 0)
        line = max(1, round(one / 4))
        brushes.surface.fill(colours.ink, plank)
        brushes.surface.fill(colours.wood, plank.inflate(-2 * line, -2 * line))

    def _paint_things(self, brushes: Brushes, part: _Part) -> None:
        """What stands for each unit, above its rod."""
        for unit, standing in self._standing(part):
            if unit.thing is not None:
                is_done = all(map(self._way.is_known, self._lessons(unit)))
                drawn = brushes.theme.drawn
                picture = brushes.pictures.drawn(unit.thing, part.thing, drawn, not is_done)
                brushes.surface.blit(picture, standing)

    def _standing(self, part: _Part) -> Iterator[tuple[Unit, pygame.Rect]]:
        """Where what stands for each unit is, above its rod."""
        for unit, (_, middle) in zip(part.units, part.field.rod_places(), strict=True):
            place = pygame.Rect(0, 0, part.thing, part.thing)
            place.midbottom = middle, self.quay
            yield unit, place

    def _paint_known(self, brushes: Brushes, part: _Part, touched: LessonEntry | None) -> None:
        draw, field = part.field.painter, part.field
        for unit in part.units:
            for entry in self._lessons(unit):
                at = part.units.index(unit), self._bead_of(entry)
                if self._way.is_placed(entry):
                    draw.draw_known(brushes.surface, field.layout, *at, field.pose)
                if entry == touched:
                    draw.draw_touched(brushes.surface, field.layout, *at, field.pose)
