"""What is arranged and painted of a lesson: its guide, its frame, its call, and the window."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

import pygame

from frame.course.attempts import Origin
from frame.course.guide import Guide
from frame.course.stages import Stage
from frame.drawn import STACK
from frame.language.lines import Line
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.places import Places, beside, wide
from frame.screens.parts.calling import Calling
from frame.screens.parts.sentence import is_heard
from frame.view.ashore import Shore
from frame.view.bead_field import BeadField
from frame.view.theme import unit

_LEAST_PICTURE, _BELOW_PICTURE = 12.0, 3.0
"""How high a picture is at least, and how much lies between it and what is below, in units."""


@dataclass(frozen=True)
class Scene:
    """A lesson as it stands, in a window of this size. `buttons` are the places of those there;
    at its end tapping may be offered, and what follows of what a tutor gave."""

    room: Room
    guide: Guide
    field: BeadField
    calling: Calling | None
    origin: Origin
    size: tuple[int, int]
    is_wide: bool
    buttons: tuple[pygame.Rect, ...] = ()
    offers_tapping: bool = False
    following: Line | None = None

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""
        return unit(self.size[1])

    @property
    def work(self) -> Work | None:
        """The exercise under way."""
        return self.guide.runner.work

    @cached_property
    def places(self) -> Places:
        """The parts for the window's size and the lesson's frame."""
        frame, is_left = self.field.frame, self.room.settings.left_handed
        lay_out = wide if self.is_wide else beside
        across = self.size[0] / self.unit
        return lay_out(across, self.unit, len(frame.digits), frame.units, is_left)

    @cached_property
    def shore(self) -> Shore | None:
        """Where what the beads stand for is seen; None where it is not."""
        story, rods = self.places.story, len(self.field.frame.digits)
        is_seen = self.room.settings.has_things and self.guide.sight.shows_things
        return Shore.fit(story, rods, self.unit) if story.w and is_seen else None

    @property
    def shows_sum(self) -> bool:
        """Whether a column stands at the head: not where its answer is all there is to see, nor
        where what is to be added is the learner's to find."""
        return self.guide.sight.has_field and self.origin is not Origin.FREE

    @property
    def scenery(self) -> tuple[str, ...]:
        """What stands in the lesson's picture; nothing that the beads stand for, alone or in a
        stack, which would be counted with them."""
        lesson = self.guide.runner.lesson
        if lesson.thing is None or not self.room.settings.has_things:
            return lesson.scene
        return tuple(name for name in lesson.scene if name not in (lesson.thing, STACK))

    @property
    def picture(self) -> pygame.Rect | None:
        """Where the lesson's picture has room: in the place of frame and story where it is all
        there is, or of the story; else, where nothing is asked, above the buttons of the side or
        above a wide frame."""
        places, stage = self.places, self.guide.runner.stage
        if self.guide.sight.is_pictured:
            return places.frame.union(places.story) if places.story.w else self.paper
        if places.story.w:
            return places.story
        if stage not in (Stage.TELL, Stage.END) or places.is_stacked:
            return None
        place = places.written.copy() if self.is_wide else places.side.copy()
        within = [one.top for one in self.buttons if place.contains(one)]
        place.h = min(within, default=place.bottom) - place.top - round(_BELOW_PICTURE * self.unit)
        return place if place.h > _LEAST_PICTURE * self.unit else None

    @property
    def has_row(self) -> bool:
        """Whether the keys of an answer stand in a row, below a frame across a wide window."""
        return self.is_wide and self.places.has_row

    @property
    def paper(self) -> pygame.Rect:
        """Where a card stands in the place of a frame."""
        places = self.places
        has_row = self.has_row and places.written.h
        return places.frame.union(places.written) if has_row else places.frame

    @property
    def shown_call(self) -> Decimal | None:
        """The number that is being called, where it is shown because nobody can hear it."""
        call, work = self.calling, self.work
        if call is None or work is None or not self.guide.is_presenting:
            return None
        at = call.unheard(self.room)
        return None if at is None else work.exercise.sum.numbers[at]

    @property
    def is_spoken(self) -> bool:
        """Whether there is something to hear, which can be heard again."""
        return is_heard(self.room) and self.guide.aloud is not None

    @property
    def is_calling(self) -> bool:
        """Whether numbers are being called: then nothing else is said."""
        is_under_way = self.calling is not None and self.calling.has_begun
        return is_under_way and self.guide.is_presenting
