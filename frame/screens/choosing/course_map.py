"""The course as what it is about: a frame with a rod for each unit.

The four earth beads of a rod are its first lessons, the heaven bead its covered last one; what
is done lies at the beam, and so does what is known by placement, with a hole. The bead of the
next lesson is lit.
"""

import pygame

from frame.course.course import LessonEntry
from frame.course.lesson import Unit
from frame.room import Room
from frame.screens.parts.rod_names import paint_rod_names
from frame.screens.parts.way import Way, beads_of
from frame.technique.beads import BeadMove, Frame
from frame.view.bead_field import BeadField
from frame.view.geometry import Bead, Point
from frame.view.motion import SHOW_SECONDS
from frame.view.painter import Appearance
from frame.view.widgets import Brushes


class CourseMap:
    """The course in an area, as a learner stands in it. From where it stood `before`, beads glide
    to where they are now."""

    def __init__(
        self, room: Room, way: Way, area: pygame.Rect, before: Frame | None = None
    ) -> None:
        self._room, self._way, self._area = room, way, area
        self._digits = "".join(str(way.digit(self._lessons(unit))) for unit in self._units)
        now = Frame(self._digits, len(self._digits) - 1)
        reduced = room.settings.reduced_motion
        self.field = BeadField(room.painter, before or now, area, reduced=reduced)
        if self.field.frame != now:
            self.field.show(now, room.seconds(), SHOW_SECONDS)
        self.field.appear(Appearance())
        self.field.hint([self._move_of(way.upcoming)] if way.upcoming else [])

    @property
    def _units(self) -> tuple[Unit, ...]:
        return self._room.course.units

    def _lessons(self, unit: Unit) -> tuple[LessonEntry, ...]:
        return self._room.course.lessons_of(unit.id)

    def lessons_at(self, place: Point) -> list[LessonEntry]:
        """The lessons of the bead at a place."""
        hit = self.field.layout.bead_at(place, self.field.pose)
        if hit is None:
            return []
        column, bead = hit
        lessons = self._lessons(self._units[column])
        return [one for one in lessons if self._bead_of(one) is bead]

    def _column_of(self, entry: LessonEntry) -> int:
        return [unit.id for unit in self._units].index(entry.unit)

    def _bead_of(self, entry: LessonEntry) -> Bead:
        lessons = self._room.course.lessons_of(entry.unit)
        return beads_of(len(lessons))[lessons.index(entry)]

    def _move_of(self, entry: LessonEntry) -> BeadMove:
        """The bead move that stands for doing a lesson."""
        column, bead = self._column_of(entry), self._bead_of(entry)
        at_beam = int(self._digits[column]) % 5
        rod = len(self._digits) - 1 - column
        return BeadMove(rod, 5 if bead.is_heaven else bead - at_beam)

    def paint(self, brushes: Brushes, touched: LessonEntry | None, named: Unit | None) -> None:
        """The frame; the bead of a lesson that is touched; the name of each unit below its rod,
        one of them strong and, where rods are narrow, alone."""
        self.field.paint(brushes.surface)
        draw = self.field.painter
        for entry in filter(self._way.is_placed, self._room.course.lessons):
            column, bead = self._column_of(entry), self._bead_of(entry)
            draw.draw_known(brushes.surface, self.field.layout, column, bead, self.field.pose)
        if touched:
            column, bead = self._column_of(touched), self._bead_of(touched)
            draw.draw_touched(brushes.surface, self.field.layout, column, bead, self.field.pose)
        units = self._units
        names = [unit.title for unit in units]
        strong = units.index(named) if named is not None else None
        paint_rod_names(brushes, self.field, self._area, names, strong)
