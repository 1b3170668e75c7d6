"""A frame on the screen that can be touched: layout, pose, glides, hints and focus together."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

import pygame

from frame.technique.beads import BeadMove, Frame, Stroke
from frame.view.anchor import felt
from frame.view.field_painting import Seen, draw_field
from frame.view.geometry import Bead, Layout, Point, Pose, RodOffsets, pose_of, unit_marks
from frame.view.gestures import Event, Hands, Settles, Strokes
from frame.view.gliding import Gliding
from frame.view.motion import MOVE_SECONDS
from frame.view.painter import Appearance, Painter
from frame.view.scrolling import Panning, fitted, revealing
from frame.view.stale import beads_place, frame_place, middles, rod_place

WIDE_RODS = 17
"""On more rods beads are taller for their width, or they would be hard to touch."""

AIMED_SECONDS = 0.4
"""So soon after a preview is over, a touch on its rods is still aimed at what it showed."""


@dataclass
class BeadField:
    """One frame on the screen. Times are seconds on the caller's clock.

    `stale` collects the places to paint anew. `hints` are the moves with a badge, `mending` a
    bead with a dashed outline, `counted` those that are counted, `focus` the place number of the
    rod with the focus ring, `pointed` of the rod to look at. `anchor` is the place that counts as
    the beam on the unit rod, where it is not where the picture has it. Where rods would be narrower
    than `least` pixels, some of them are seen, and the window of them can be moved; 0 for all rods
    whatever their width. On more rods than `wide_rods` beads are taller for their width.
    """

    painter: Painter
    frame: Frame
    area: pygame.Rect
    marks_every: int = 3
    look: Appearance = field(default_factory=Appearance)
    hints: tuple[BeadMove, ...] = ()
    mending: BeadMove | None = None
    counted: tuple[tuple[int, Bead], ...] = ()
    focus: int | None = None
    pointed: int | None = None
    anchor: Point | None = None
    reduced: bool = False
    least: int = 0
    wide_rods: int = WIDE_RODS
    stale: list[pygame.Rect] = field(default_factory=list)
    _moving: Gliding = field(default_factory=Gliding)
    _panning: Panning = field(default_factory=Panning)
    _previewed: frozenset[int] = frozenset()
    _pose: Pose = field(init=False)

    def __post_init__(self) -> None:
        self.layout = self._fit()
        self.hands = Hands(self.layout, self.frame)
        self._pose = pose_of(self.frame)

    def _fit(self) -> Layout:
        rods = len(self.frame.digits)
        marks = unit_marks(rods, self.frame.units, self.marks_every)
        self.look = replace(self.look, marks=marks)
        x, y, w, h = self.area
        narrow = rods > self.wide_rods
        return fitted((x, y, w, h), rods, self.frame.units, narrow, self.least)

    @property
    def box(self) -> pygame.Rect:
        """Where the frame lies, border and all, as far as it is seen."""
        return pygame.Rect(*map(round, self.layout.frame_box))

    @property
    def is_moving(self) -> bool:
        """Whether beads are on their way."""
        return bool(self._moving)

    def place(self, area: pygame.Rect) -> None:
        """Lay the frame out in an area; where it is another one, beads arrive at once."""
        if area != self.area:
            self.area = area
            self._lay_out()

    def _lay_out(self) -> None:
        before, layout = self.layout, self._fit()
        at = round(before.scroll / before.spacing) * layout.spacing
        layout = layout.scrolled(at) if before.window else revealing(layout, layout.units)
        self.layout = self.hands.layout = layout
        self._moving.clear()
        self._pose = pose_of(self.frame)
        self.painter.prepare(self.layout)

    def reveal(self, rod: int | None) -> None:
        """Move the window of rods so that this one is in sight, where there is a window."""
        if rod is not None:
            self._see(revealing(self.layout, self.layout.units - rod))

    def _see(self, layout: Layout | None) -> None:
        """See other rods of the same frame."""
        if layout is not None and layout != self.layout:
            self.layout = self.hands.layout = layout
            self.stale.append(frame_place(self.layout))

    def show(self, frame: Frame, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Let the beads glide to another frame."""
        if len(frame.digits) != len(self.frame.digits) or frame.units != self.frame.units:
            self.frame = frame
            self.hands.frame = frame
            self._lay_out()
            self._mark(range(self.layout.rods))
            return
        before = self.hands.touched
        self.frame = frame
        self.hands.frame = frame
        self._follow_touch(before)
        self._go_home(self.pose, now, seconds)

    def bounce(self, stroke: Stroke, now: float) -> None:
        """Let a wrong stroke be seen, and glide back."""
        there = pose_of(self.frame.after_all(stroke) or self.frame)
        self._prepare_to_move()
        self._moving.bounce(self.pose, there, pose_of(self.frame), now)

    def preview(self, stroke: Stroke, now: float) -> None:
        """Let a stroke be shown, a moment held, and taken back; after what is still moving. It is
        never judged, nor is a touch that ends it: who touches what is shown makes no slip."""
        after = self.frame.after_all(stroke)
        if after is not None and stroke:
            self._prepare_to_move()
            self._moving.preview(pose_of(self.frame), pose_of(after), now)
            self._previewed = frozenset(self.layout.units - move.rod for move in stroke)

    def is_aimed_at_preview(self, at: Point, now: float) -> bool:
        """Whether a touch comes so soon after a preview, on a rod that it showed, that it is aimed
        at beads which have just gone back."""
        is_soon = 0 <= now - self._moving.preview_over < AIMED_SECONDS
        return is_soon and self.layout.rod_at(at) in self._previewed

    def _go_home(self, start: Pose, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Glide to where the frame has its beads."""
        self._prepare_to_move()
        self._moving.go(start, pose_of(self.frame), now, seconds)

    def _prepare_to_move(self) -> None:
        """Badges come and go with motion. With reduced motion beads jump, unless a trace is all
        there is to see."""
        self._mark(self._marked_indices)
        self._moving.is_still = self.reduced and not self.look.traces

    @property
    def pose(self) -> Pose:
        """Where the beads stand as last drawn."""
        return self._pose

    def advance(self, now: float) -> None:
        """Let the beads move on to where they are at `now`."""
        if self._moving:
            self._set_pose(self._moving.pose(now, self._pose))

    def take_landed(self) -> int:
        """How often beads came to rest since this was last asked: each is a click."""
        landed, self._moving.landed = self._moving.landed, 0
        return landed

    def _set_pose(self, pose: Pose) -> None:
        for index, (old, new) in enumerate(zip(self._pose.rods, pose.rods, strict=True)):
            moved = [bead for bead in Bead if old[bead] != new[bead]]
            if moved and index in self._marked_indices:
                self._mark([index])
            elif moved:
                self._mark_beads(index, moved, old)
                self._mark_beads(index, moved, new)
        self._pose = pose

    def _mark(self, indices: Iterable[int]) -> None:
        """Note that these rods must be painted anew."""
        for index in indices:
            self._note(rod_place(self.layout, index))

    def _note(self, place: pygame.Rect) -> None:
        if place.size != (0, 0):
            self.stale.append(place)

    @property
    def _marked_indices(self) -> set[int]:
        """The rods with a badge or a dashed outline: it may go to a bead that did not move."""
        moves = (*self.hints, self.mending) if self.mending else self.hints
        return {self.layout.units - move.rod for move in moves}

    def _mark_beads(self, index: int, beads: Sequence[Bead], offsets: RodOffsets) -> None:
        """Note that these beads of a rod, outlines and badges included, must be painted anew."""
        self._note(beads_place(self.layout, index, beads, offsets))

    def mark_rods(self, rods: Iterable[int]) -> None:
        """Note that the rods of these place numbers must be painted anew."""
        indices = (self.layout.units - rod for rod in rods)
        self._mark(index for index in indices if 0 <= index < self.layout.rods)

    def hint(self, moves: Iterable[BeadMove]) -> None:
        """Put badges on the beads of these moves, in the place of all others."""
        moves = tuple(sorted(moves))
        if moves != self.hints:
            self.mark_rods(move.rod for move in (*self.hints, *moves))
            self.hints = moves

    def mend(self, move: BeadMove | None) -> None:
        """Outline the bead of a move that needs mending, or none."""
        if move != self.mending:
            self.mark_rods(one.rod for one in (self.mending, move) if one)
            self.mending = move

    def count(self, beads: Iterable[tuple[int, Bead]]) -> None:
        """Light the beads, each with its rod, that have been counted so far."""
        beads = tuple(beads)
        if beads != self.counted:
            self.mark_rods({rod for rod, _ in (*self.counted, *beads)})
            self.counted = beads

    def focus_on(self, rod: int | None) -> None:
        """Put the focus ring around a rod, or take it away."""
        self._mark_change(self.focus, rod)
        self.focus = rod
        self.reveal(rod)

    def point(self, rod: int | None) -> None:
        """Ring a rod to look at, or none."""
        self._mark_change(self.pointed, rod)
        self.pointed = rod

    def _mark_change(self, before: int | None, after: int | None) -> None:
        if before != after:
            self.mark_rods(rod for rod in (before, after) if rod is not None)

    def appear(self, look: Appearance, *, blind: bool = False) -> None:
        """Change how much of the frame is seen; `blind` reads strokes without looking at beads."""
        look = replace(look, marks=self.look.marks)
        self.hands.blind = blind
        if look != self.look:
            self.look = look
            self.stale.append(self.box)

    def recentre(self, at: Point | None) -> None:
        """Take a place for that of the beam on the unit rod, so that a hand need not look for
        it; None for where the picture has it."""
        self.hands.cancel()
        self.anchor = at
        self.stale.append(self.box)

    def _felt(self, at: Point) -> Point:
        """The place on the picture that a touch stands for."""
        anchor = self.anchor if self.hands.blind else None
        return felt(at, anchor, self.layout) if anchor else at

    def press(self, finger: int, at: Point, now: float) -> None:
        """A finger comes down. A preview is over then; where it shows a bead elsewhere than it
        is, the touch only ends it. On the border of a frame seen in part it moves the window."""
        if self._panning.press(finger, at, self.layout):
            return
        if self._moving.is_preview:
            index = self.layout.rod_at(at)
            shown_elsewhere = index is not None and self._seen.strays(index)
            self._go_home(self.pose, now)
            if shown_elsewhere:
                return
        before = self.hands.touched
        self.hands.press(finger, self._felt(at), now)
        self._follow_touch(before)

    def drag(self, finger: int, at: Point, now: float) -> None:
        """A finger moves; beads follow, or the window does."""
        self._see(self._panning.drag(finger, at, self.layout))
        before = self.hands.touched
        self.hands.drag(finger, self._felt(at), now)
        self._follow_touch(before)

    def release(self, finger: int, at: Point, now: float) -> list[Event]:
        """A finger goes up: what it did."""
        self._see(self._panning.release(finger, at, self.layout))
        before = self.hands.touched
        events = self.hands.release(finger, self._felt(at), now)
        self._follow_touch(before)
        for event in events:
            if isinstance(event, Strokes | Settles) and not self.hands.blind:
                self._set_pose(event.pose)
            if isinstance(event, Settles):
                self._go_home(event.pose, now)
        return events

    def cancel(self, now: float) -> None:
        """Forget the fingers; beads that were dragged go back."""
        before, self._panning.held = self.hands.touched, None
        self.hands.cancel()
        self._follow_touch(before)
        self._go_home(self.pose, now)

    def _follow_touch(self, before: tuple[int, Bead] | None) -> None:
        """Mark the rods that look different for a touch, and let dragged beads follow it."""
        after = self.hands.touched
        for index, bead in filter(None, (before, after) if before != after else ()):
            self._mark_beads(index, [bead], self._pose.rods[index])
        if after and not self._moving and not self.hands.blind:
            self._set_pose(self.hands.pose)

    def paint(self, surface: pygame.Surface) -> None:
        """Paint what lies within the surface's clip."""
        if surface.get_clip().colliderect(frame_place(self.layout)):
            draw_field(surface, self.painter, self._seen)

    @property
    def _seen(self) -> Seen:
        units, rest = self.layout.units, pose_of(self.frame)
        counted = tuple((units - rod, bead) for rod, bead in self.counted)
        return Seen(
            self.layout, self._pose, rest, self.look, self.hands.touched, self.mending, counted,
            self.hints,
            None if self.pointed is None else units - self.pointed,
            None if self.focus is None else units - self.focus, self._moving.is_preview,
        )  # fmt: skip

    def rod_places(self) -> Sequence[tuple[int, int]]:
        """The place number and the middle in pixels of each rod that is seen, from the left."""
        return [(self.layout.units - index, middle) for index, middle in middles(self.layout)]
