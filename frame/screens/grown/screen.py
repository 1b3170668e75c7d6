"""My frame: what has grown. For the young a frame of what they know; from seven on also how well
each digit and product is known, curves by the week, and how the ladder was climbed.

Nothing is counted against anybody: there is no rank, no row of days, and for the young no figure.
"""

from collections.abc import Mapping
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.grown.climb import ClimbList
from frame.screens.grown.curves import Curves
from frame.screens.grown.fact_map import FactMap
from frame.screens.grown.family_frame import FamilyFrame
from frame.screens.grown.view import WAYS, GlidingPage, View, beside, spot_at
from frame.screens.parts.page import Tab
from frame.view.bead_field import BeadField
from frame.view.inputs import Input, Key, Press
from frame.view.theme import type_size
from frame.view.widgets import Brushes

LOOK_SECONDS = 0.2
"""So often it is looked whether all is counted."""
FIRST_STROKE, STEP_SECONDS = 0.8, 1.2
"""From the beginning of what is played to its first stroke, and from stroke to stroke."""


class Part(StrEnum):
    """What is shown."""

    FRAME = "frame"
    MAP = "map"
    CURVES = "curves"
    CLIMB = "climb"


_VIEWS: Mapping[Part, type[View]] = {
    Part.FRAME: FamilyFrame,
    Part.MAP: FactMap,
    Part.CURVES: Curves,
    Part.CLIMB: ClimbList,
}


class Due(StrEnum):
    """What it waits for."""

    COUNTED = "counted"
    STROKE = "stroke"


class GrownScreen(GlidingPage):
    """One part at a time, with a spot of it that may be chosen by touch or arrows. What is folded
    from the record is not waited for: until then it says so."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.part = Part.FRAME
        self.at: int | None = None
        self._views: dict[Part, View] = {}

    @property
    def view(self) -> View | None:
        """The part that is shown, None while it is still counted."""
        if not self.room.known.is_counted:
            return None
        if self.part not in self._views:
            self._views[self.part] = _VIEWS[self.part](self)
        return self._views[self.part]

    @property
    def is_young(self) -> bool:
        """Whether no figures are told."""
        return self.room.settings.age is Age.YOUNG

    @property
    def greeting(self) -> Line:
        """What is shown, and what there is to do."""
        view, line = self.view, self.room.words.line
        if view is None:
            return line("grown.counting")
        title, told = line("grown.title"), view.told
        return told if self.is_young else Line(title.show, f"{title.speak}. {told.speak}")

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames on the screen."""
        return self.view.fields if self.view else ()

    # How it is laid out

    def arrange(self) -> None:
        """The names of the parts, and what can be pressed of the one that is shown."""
        view, words = self.view, self.room.words
        self.buttons += self.speaker(self.corner)
        if view is None:
            self.dues.put(Due.COUNTED, self.room.seconds() + LOOK_SECONDS)
            return
        if not self.is_young:
            tabs = [
                Tab(words.text(f"grown.{part}"), partial(self.open, part), part is self.part)
                for part in Part
            ]
            self.buttons += self.tabs(self.band(13, 7), tabs, 1, narrow=len(tabs))
        chosen = None if self.at is None else view.spots[self.at].line
        self.buttons += view.arrange()
        self.choose(next((at for at, one in enumerate(view.spots) if one.line == chosen), None))

    def open(self, part: Part) -> None:
        """Show another part."""
        self.choose(None)
        self.dues.put(Due.STROKE, None)
        self.part = part
        self.rearrange()
        self.greet()

    # What is chosen

    def choose(self, at: int | None) -> None:
        """A spot, or none."""
        if self.view:
            self.view.choose(at)
        if at is not None:
            self.focus_button(None)
        self.at = at
        self.touch_up()

    def tell(self, at: int) -> None:
        """A spot is chosen, and what is told of it is said."""
        self.choose(at)
        if self.view:
            self.room.say(self.view.spots[at].line)

    def handle(self, event: Input) -> Change | None:
        """A touch of a spot chooses it; of what can be played plays it."""
        view = self.view
        if isinstance(event, Press) and view and self.button_at(event.at) is None:
            at = spot_at(view.spots, event.at)
            if at is not None:
                self._touch(view, at)
        return super().handle(event)

    def _touch(self, view: View, at: int) -> None:
        if view.plays(at):
            self.choose(at)
            self.play()
        else:
            self.tell(at)

    def press_key(self, key: Key) -> Change | None:
        """Arrows go round the spots; Enter plays the one that can be."""
        view = self.view
        if view and view.spots and key.code in WAYS:
            self.focus_button(None)
            at = 0 if self.at is None else beside(view.spots, self.at, key.code)
            self.tell(at)
            return None
        if view and key.code == pygame.K_RETURN and self.at is not None:
            self._touch(view, self.at)
            return None
        if key.code == pygame.K_TAB:
            self.choose(None)
        return super().press_key(key)

    # What is played

    def play(self) -> None:
        """Play what the part has to play, and say what it is."""
        view, now = self.view, self.room.seconds()
        if view is not None and view.heard is not None:
            view.begin(now)
            self.dues.put(Due.STROKE, now + FIRST_STROKE)
            self.room.say(view.heard)
            self.touch_up_fields()

    def rest(self, now: float) -> Change | None:
        """The next stroke when it is due; all, as soon as it is counted."""
        view = self.view
        if self.dues.take(Due.COUNTED, now):
            self.rearrange()
            if view is not None:
                self.greet()
        if view is not None and self.dues.take(Due.STROKE, now) and view.go_on(now):
            self.dues.put(Due.STROKE, now + STEP_SECONDS)
        return None

    # How it is painted

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, who it is, and the part that is shown."""
        view, words = self.view, self.room.words
        if view is None or not self.is_young:
            self._paint_head(brushes)
        else:
            place = self.rect(12, 3, self.across - 24, 8)
            brushes.text(view.told.show, place, 2, bold=True)
        if view is None:
            brushes.text(words.text("grown.counting"), self.band(30, 10), 1)
        else:
            view.paint(brushes, self.at)

    def _paint_head(self, brushes: Brushes) -> None:
        brushes.text(self.room.words.text("grown.title"), self.rect(12, 3, 20, 8), 2, bold=True)
        learner = self.room.learner
        if learner is not None:
            left = 33 if self.is_narrow else 39
            place = self.rect(left, 3, self.across - left - 12, 8)
            pixels = type_size(0 if self.is_narrow else 1, self.size[1])
            brushes.name(learner.nickname, place, pixels, align="right", soft=True)
