"""What fingers and the mouse do on a frame, turned into bead moves."""

from dataclasses import dataclass, field

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.view.geometry import Bead, Layout, Point, Pose, RodOffsets, pose_of

PINCH_SECONDS = 0.15
SLOP_IN_SPACINGS = 0.12
SMALLEST_SLOP_PIXELS = 4.0
FLICK_BEAD_HEIGHTS_A_SECOND = 6.0
FLICK_WINDOW_SECONDS = 0.08
WIPE_IN_SPACINGS = 1.5
WIPE_START_IN_BEAD_HEIGHTS = 0.5
WIPE_BAND_IN_BEAD_HEIGHTS = 1.0


@dataclass(frozen=True, slots=True)
class Strokes:
    """A stroke was made: one bead move, or two at once with the earth beads' move first.

    `pose` is where the beads stood when the finger left: a glide begins there. On a blind
    frame the stroke says what the learner meant, and the beads may not allow it.
    """

    stroke: Stroke
    pose: Pose


@dataclass(frozen=True, slots=True)
class Settles:
    """Dragged beads were let go where they settle back: no move, but a glide from `pose`."""

    pose: Pose


@dataclass(frozen=True, slots=True)
class Wipe:
    """A finger passed along the beam over these rods (place numbers, in the order passed)."""

    rods: tuple[int, ...]


Event = Strokes | Settles | Wipe


@dataclass(slots=True)
class _Touch:
    """One finger on the frame: the bead it took, and where it has been."""

    index: int
    bead: Bead
    began: float
    start: Point
    at: Point
    near_beam: bool
    trail: list[tuple[float, Point]] = field(default_factory=list)
    dragging: bool = False
    wiping: bool = False
    lifted: bool = False

    @property
    def rise(self) -> float:
        """How far the finger is from its start, in pixels, upwards negative."""
        return self.at[1] - self.start[1]

    @property
    def run(self) -> float:
        """How far the finger is from its start sideways, in pixels, to the left negative."""
        return self.at[0] - self.start[0]

    def follow(self, point: Point, seconds: float) -> None:
        """Notes a new place, and forgets the places too old to tell the finger's speed."""
        self.at = point
        self.trail.append((seconds, point))
        while len(self.trail) > 2 and seconds - self.trail[0][0] > FLICK_WINDOW_SECONDS:
            del self.trail[0]

    def speed(self) -> float:
        """How fast the finger went at last, in pixels a second, upwards negative."""
        (first, (_, above)), (last, (_, below)) = self.trail[0], self.trail[-1]
        return (below - above) / (last - first) if last > first else 0.0


class Hands:
    """The fingers (or the mouse) on one frame.

    Feed it presses, drags and releases in pixels with the time in seconds; it answers with
    events. It never changes its frame by itself: whoever keeps a bead hands in the next frame.
    A mouse is a finger with an id of its own; leave out mouse events that a touch screen
    makes up (`event.touch` is true), or a tap moves a bead twice.

    On a `blind` frame the learner sees no bead: the length and the direction of a stroke say
    how many beads are meant, wherever on the rod's deck it is made. `reach` is how many pixels
    outside the frame still count as on it.
    """

    def __init__(
        self, layout: Layout, frame: Frame, *, blind: bool = False, reach: float = 0.0
    ) -> None:
        self._layout = layout
        self.blind = blind
        self.reach = reach
        self._frame = frame
        self._touches: dict[int, _Touch] = {}

    @property
    def layout(self) -> Layout:
        """Where the frame lies. Setting another one cancels what is under way."""
        return self._layout

    @layout.setter
    def layout(self, layout: Layout) -> None:
        self.cancel()
        self._layout = layout

    @property
    def frame(self) -> Frame:
        """The frame that touches are read on. Setting another one cancels what is under way."""
        return self._frame

    @frame.setter
    def frame(self, frame: Frame) -> None:
        if frame != self._frame:
            self.cancel()
        self._frame = frame

    @property
    def touched(self) -> tuple[int, Bead] | None:
        """The rod index and bead under the first finger down, to be shown at once, or None."""
        for touch in self._touches.values():
            if not (touch.lifted or touch.wiping):
                return touch.index, touch.bead
        return None

    @property
    def is_dragging(self) -> bool:
        """Whether a finger has gone far enough for a stroke."""
        return any(touch.dragging or touch.wiping for touch in self._touches.values())

    @property
    def wiped(self) -> tuple[int, ...]:
        """The place numbers of the rods that a wipe has passed so far; empty without one."""
        touch = next(iter(self._touches.values()), None)
        return self._rods_passed(touch) if touch and touch.wiping else ()

    @property
    def pose(self) -> Pose:
        """Where the beads stand under the fingers: a dragged bead pushes its neighbours."""
        pose = pose_of(self._frame)
        for touch in self._touches.values():
            if touch.dragging and not self.blind:
                pose = pose.with_rod(touch.index, self._pushed(touch, pose.rods[touch.index]))
        return pose

    def press(self, finger: int, point: Point, seconds: float) -> list[Event]:
        """Takes hold of the bead under a finger that comes down; never makes an event.

        A second finger counts only as the other half of a pinch.
        """
        if finger in self._touches:
            self.cancel()
        hit = self.layout.bead_at(point, pose_of(self._frame), self.reach)
        if hit and (not self._touches or self._is_pinch(*hit, seconds)):
            near = WIPE_START_IN_BEAD_HEIGHTS * self.layout.bead_height
            touch = _Touch(*hit, seconds, point, point, self.layout.on_beam(point, near))
            touch.follow(point, seconds)
            self._touches[finger] = touch
        return []

    def _is_pinch(self, index: int, bead: Bead, seconds: float) -> bool:
        first = next(iter(self._touches.values()))
        others = len(self._touches) == 1 and index == first.index
        in_time = 0 <= seconds - first.began <= PINCH_SECONDS
        return others and in_time and bead.is_heaven != first.bead.is_heaven and not first.wiping

    def drag(self, finger: int, point: Point, seconds: float) -> list[Event]:
        """Moves a finger that is down; beads follow (see `pose`). Never makes an event."""
        touch = self._touches.get(finger)
        if touch is None or touch.lifted:
            return []
        if touch.wiping and not self._along_beam(point):
            return []
        touch.follow(point, seconds)
        if not touch.dragging:
            self._find_intent(touch)
        return []

    def _along_beam(self, point: Point) -> bool:
        return self.layout.on_beam(point, WIPE_BAND_IN_BEAD_HEIGHTS * self.layout.bead_height)

    def _find_intent(self, touch: _Touch) -> None:
        """Tells a wipe from a drag as soon as the finger has gone far enough for one."""
        spacing = self.layout.spacing
        sideways = touch.near_beam and len(self._touches) == 1 and self._along_beam(touch.at)
        if sideways and abs(touch.run) >= max(WIPE_IN_SPACINGS * spacing, 2 * abs(touch.rise)):
            touch.wiping = True
        steep = abs(touch.rise) > abs(touch.run) or not touch.near_beam
        slop = max(SLOP_IN_SPACINGS * spacing, SMALLEST_SLOP_PIXELS)
        touch.dragging = not touch.wiping and steep and abs(touch.rise) > slop

    def release(self, finger: int, point: Point, seconds: float) -> list[Event]:
        """Lifts a finger; the event made, if any, once no finger of the gesture is left."""
        self.drag(finger, point, seconds)
        touch = self._touches.get(finger)
        if touch is None:
            return []
        touch.lifted = True
        if not all(each.lifted for each in self._touches.values()):
            return []
        events = self._settled(list(self._touches.values()))
        self.cancel()
        return events

    def cancel(self) -> None:
        """Forgets all fingers, as when the window loses them; no bead moves."""
        self._touches.clear()

    def _settled(self, touches: list[_Touch]) -> list[Event]:
        if touches[0].wiping:
            return [Wipe(self._rods_passed(touches[0]))]
        earth_first = sorted(touches, key=lambda touch: touch.bead.is_heaven)
        changes = filter(None, map(self._change, earth_first))
        rod = self._frame.units - touches[0].index
        stroke = tuple(BeadMove(rod, change) for change in changes)
        if stroke:
            return [Strokes(stroke, self.pose)]
        dragged = any(touch.dragging for touch in touches) and not self.blind
        return [Settles(self.pose)] if dragged else []

    def _change(self, touch: _Touch) -> int:
        """The signed change that a finger made on its rod, 0 for none."""
        if not touch.dragging:
            strayed = abs(touch.run) > self.layout.spacing / 2
            return 0 if strayed else self._towards_gap(touch)
        if self.blind:
            return self._meant(touch)
        return self._towards_gap(touch) if self._goes_over(touch) else 0

    def _towards_gap(self, touch: _Touch) -> int:
        """The change when the bead, and those between it and the gap, move over."""
        rod = self._frame.rod(self._frame.units - touch.index)
        if touch.bead.is_heaven:
            return -5 if rod.heaven else 5
        place = touch.bead - Bead.EARTH_1
        return place - rod.earth + 1 if place >= rod.earth else place - rod.earth

    def _meant(self, touch: _Touch) -> int:
        """The change that a stroke over unseen beads says by its length and direction."""
        if touch.bead.is_heaven:
            return 5 if touch.rise > 0 else -5
        beads = min(max(round(abs(touch.rise) / self.layout.bead_height), 1), 4)
        return -beads if touch.rise > 0 else beads

    def _goes_over(self, touch: _Touch) -> bool:
        """Whether a dragged bead, let go, settles on the other side: by a flick, or nearer."""
        offsets = pose_of(self._frame).rods[touch.index]
        start, end = offsets[touch.bead], self._pushed(touch, offsets)[touch.bead]
        speed = touch.speed() / self.layout.bead_height
        if start != end and abs(speed) >= FLICK_BEAD_HEIGHTS_A_SECOND:
            return (speed > 0) == (end > start)
        return abs(end - start) >= 0.5

    def _pushed(self, touch: _Touch, offsets: RodOffsets) -> RodOffsets:
        """The rod's offsets when the bead follows the finger and pushes those in its way."""
        held = offsets[touch.bead] + touch.rise / self.layout.bead_height
        held = min(max(held, 0.0), 1.0)
        heaven, first, second, third, fourth = (
            held if bead == touch.bead else _out_of_the_way(bead, offset, touch.bead, held)
            for bead, offset in zip(Bead, offsets, strict=True)
        )
        return heaven, first, second, third, fourth

    def _rods_passed(self, touch: _Touch) -> tuple[int, ...]:
        """The place numbers from the rod where a finger came down to the one where it is."""
        first, last = (
            min(max(int(self.layout.to_frame(point)[0] // 1), 0), self.layout.rods - 1)
            for point in (touch.start, touch.at)
        )
        step = 1 if last >= first else -1
        return tuple(self._frame.units - index for index in range(first, last + step, step))


def _out_of_the_way(bead: Bead, offset: float, pusher: Bead, held: float) -> float:
    if bead.is_heaven or pusher.is_heaven:
        return offset
    return min(offset, held) if bead < pusher else max(offset, held)
