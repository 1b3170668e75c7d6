"""Screens with frames on them: glides, clicks and what to paint; and, where a frame is under the
fingers, presses, drags and wipes."""

from dataclasses import replace

from frame.app import Change
from frame.room import Room
from frame.screens.parts.panel import Panel
from frame.technique.beads import Frame, Stroke
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.gestures import Strokes, Wipe
from frame.view.inputs import Drag, Input, Lost, Press, Release


class GlidingPanel(Panel):
    """Frames whose beads move by themselves. Subclasses take what falls due once the beads are at
    rest in `rest`."""

    def field_of(self, frame: Frame, least: int = 0) -> BeadField:
        """A frame on the screen, as the settings have it; placed when all is laid out."""
        settings = self.room.settings
        field = BeadField(
            self.room.painter, frame, self.rect(0, 0, 1, 1), settings.marks_every,
            reduced=settings.reduced_motion, least=least,
        )  # fmt: skip
        field.appear(replace(field.look, tint=settings.bead_tint))
        return field

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames on the screen."""
        return ()

    @property
    def is_moving(self) -> bool:
        """Whether beads are on their way."""
        return any(field.is_moving for field in self.fields)

    @property
    def clicks(self) -> bool:
        """Whether beads are heard when they come to rest."""
        return True

    def rest(self, now: float) -> Change | None:
        """The beads are at rest: what has fallen due is done."""
        return None

    def advance(self, now: float) -> Change | None:
        """Beads glide, and are heard where they come to rest; then what falls due."""
        super().advance(now)
        for field in self.fields:
            field.advance(now)
            if field.take_landed() and self.clicks:
                self.room.click()
        self.touch_up_fields()
        return None if self.is_moving else self.rest(now)

    def wakes_in(self, now: float) -> float | None:
        """At once while beads move; else when something falls due."""
        return 0 if self.is_moving else super().wakes_in(now)

    def touch_up_fields(self) -> None:
        """Note what looks different on the frames."""
        for field in self.fields:
            for place in field.stale:
                self.touch_up(place)
            field.stale = []


class FramePanel(GlidingPanel):
    """A frame that can be touched. Subclasses take what a hand does in `touch` and `wipe`."""

    def __init__(self, room: Room, frame: Frame) -> None:
        super().__init__(room)
        self.field = self.field_of(frame)

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames on the screen."""
        return (self.field,)

    def may_press(self, at: Point) -> bool:
        """Whether a finger that comes down here may be one for beads."""
        return self.button_at(at) is None

    def touch(self, stroke: Stroke) -> None:
        """A hand makes a stroke."""

    def wipe(self, rods: tuple[int, ...]) -> None:
        """A hand wipes along the beam over these rods."""

    def fall_short(self) -> None:
        """A hand lets beads go half way, and they settle back."""

    def handle(self, event: Input) -> Change | None:
        """Fingers work beads; all else is the buttons'."""
        self._finger(event, self.room.seconds())
        self.touch_up_fields()
        return super().handle(event)

    def _finger(self, event: Input, now: float) -> None:
        match event:
            case Press(finger, at) if self.may_press(at):
                self.press(finger, at, now)
            case Drag(finger, at):
                self.field.drag(finger, at, now)
            case Release(finger, at):
                self.let_go(finger, at, now)
            case Lost():
                self.field.cancel(now)

    def press(self, finger: int, at: Point, now: float) -> None:
        """A finger comes down."""
        self.field.press(finger, at, now)

    def let_go(self, finger: int, at: Point, now: float) -> None:
        """A finger goes up: what it did on the frame is no button's."""
        for done in self.field.release(finger, at, now):
            self.press_no_button(finger)
            if isinstance(done, Strokes):
                self.touch(done.stroke)
            elif isinstance(done, Wipe):
                self.wipe(done.rods)
            else:
                self.fall_short()
