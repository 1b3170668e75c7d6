"""How far a plan is done: where the frame stands, what is left, and the way on from there.

While the hand follows the convention's way nobody asks what else it may mean, so that a right
stroke stays cheap; once it has departed, the way is planned anew from where the frame stands.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from frame.technique.beads import BeadMove, Frame, Stroke, covers, without
from frame.technique.plan import Freedom, Plan, Step, WorkLine
from frame.technique.tracks import Track, spent, tracks_at
from frame.technique.ways import way_on


@dataclass(frozen=True, eq=False)
class Progress:
    """The frame now and the line under way, with the convention's way on from there.

    `way` is what is left of the line of `plan` from where the hand last left the convention, None
    when all is done; `at` counts its strokes that are done, `rest` is what is left of the next one
    where it is begun. `known` are the lines that the hand may mean, where it has left the
    convention; else they follow from the progress `before` and the bead made there, or the line is
    not begun. They are worked out when they are asked for. `made` are the beads since the line was
    begun.
    """

    plan: Plan
    frame: Frame
    way: WorkLine | None
    at: int = 0
    rest: Stroke = ()
    known: tuple[Track, ...] | None = None
    before: "tuple[Progress, BeadMove] | None" = None
    made: Stroke = ()

    @classmethod
    def begin(cls, plan: Plan, strokes: int = 0) -> "Progress":
        """A plan with so many of its strokes done, in its order."""
        frame = plan.start
        for line in plan.lines:
            if strokes < len(line.strokes):
                progress = cls(plan, frame, line)
                for stroke in line.strokes[:strokes]:
                    for move in stroke:
                        progress = progress.follow(move) or progress
                return progress
            strokes -= len(line.strokes)
            for stroke in line.strokes:
                frame = frame.apply_all(stroke)
        return cls(plan, frame, None)

    @cached_property
    def tracks(self) -> tuple[Track, ...]:
        """The lines that the hand may mean by its beads, the likeliest first."""
        if self.known is not None:
            return self.known
        if self.before is not None:
            progress, move = self.before
            return after_bead(progress.tracks, progress.frame, move)
        return () if self.way is None else tracks_at(self.plan, self.way.index, self.frame)

    @property
    def finished(self) -> bool:
        """Whether the work is done."""
        return self.way is None

    @property
    def step(self) -> Step | None:
        """The step under way, or None when all is done."""
        way = self.way
        return None if way is None else way.steps[way.step_of[self.at]]

    @property
    def step_index(self) -> int:
        """How many steps of the plan are done."""
        way = self.way
        if way is None:
            return len(self.plan.steps)
        return way.last - len(way.steps) + way.step_of[self.at]

    @property
    def next_stroke(self) -> Stroke:
        """The stroke to make next, or what is left of it; empty when all is done."""
        if self.way is None:
            return ()
        return self.rest or self.way.strokes[self.at]

    @property
    def strokes_left(self) -> Iterator[Stroke]:
        """What is left of the line under way, stroke by stroke."""
        if self.way is not None:
            yield self.next_stroke
            yield from self.way.strokes[self.at + 1 :]

    @property
    def left_in_line(self) -> Stroke:
        """What is left of the line under way, in order."""
        return tuple([move for stroke in self.strokes_left for move in stroke])

    @property
    def left_in_step(self) -> Stroke:
        """What is left of the step under way, in order."""
        way = self.way
        if way is None:
            return ()
        here = way.step_of[self.at]
        left = zip(way.step_of[self.at :], self.strokes_left, strict=True)
        return tuple([move for step, stroke in left if step == here for move in stroke])

    @property
    def is_astray(self) -> bool:
        """Whether a wrong bead still lies where it was put."""
        return bool(self.tracks) and self.tracks[0].intents[0].is_astray

    @property
    def coming(self) -> WorkLine | None:
        """The line after the one under way, by the plan."""
        if self.way is None:
            return None
        lines = self.plan.lines
        index = self.way.index + 1
        while index < len(lines) and lines[index].last <= self.way.last:
            index += 1
        return lines[index] if index < len(lines) else None

    def follow(self, move: BeadMove) -> "Progress | None":
        """The progress after a bead of the next stroke, all or a part of it; None for another."""
        way, at = self.way, self.at
        if way is None or not self.frame.can(move):
            return None
        left = self.rest or way.strokes[at]
        if not any([covers(one, move) for one in left]):
            return None
        frame, before, made = self.frame.apply(move), (self, move), (*self.made, move)
        is_own = any([way is line for line in self.plan.lines[way.index : way.index + 1]])
        if way.freedom is Freedom.DIGIT or not (is_own or move in left):
            # A part of a stroke may be the whole of what the hand means.
            return settled(after_bead(self.tracks, self.frame, move), frame, self, move)
        if not is_own:
            # A hand that has left the convention may be done before the way on is.
            tracks = after_bead(self.tracks, self.frame, move)
            if any([track.is_done(frame) for track in tracks]):
                return settled(tracks, frame, self, move)
        rest = tuple([part for one in left for part in without(one, move)])
        if rest:
            return Progress(self.plan, frame, way, at, rest, None, before, made)
        if at + 1 < len(way.strokes):
            return Progress(self.plan, frame, way, at + 1, (), None, before, made)
        if is_own and self.plan.orders is None:
            return Progress(self.plan, frame, self.coming)
        return settled(after_bead(self.tracks, self.frame, move), frame, self, move)

    def depart(self, move: BeadMove) -> "Progress | None":
        """The progress after a bead that is no part of the next stroke, where some lawful digit
        work makes it; else None."""
        if not self.frame.can(move):
            return None
        found = after_bead(self.tracks, self.frame, move)
        return settled(found, self.frame.apply(move), self, move) if found else None

    def choose(self, move: BeadMove) -> "Progress | None":
        """The progress after a bead that goes on with a trial digit, as it stands, that is another
        than the convention's; None where it does not."""
        if self.way is None or self.way.freedom is not Freedom.DIGIT:
            return None
        for track in self.tracks:
            if track.line.freedom is Freedom.DIGIT and track.may_go_on(self.frame):
                for chosen in track.following(self.frame):
                    begun = Progress(chosen.plan, self.frame, chosen.line, known=self.tracks)
                    if after := begun.follow(move):
                        return after
        return None

    def astray(self, stroke: Stroke) -> "Progress":
        """The progress with the wrong beads of a stroke left lying: they are mended first, or on
        the way. Raises IllegalMove."""
        tracks, frame = self.tracks, self.frame.apply_all(stroke)
        if not tracks:
            tracks = (spent(self.plan, self.frame),)
        strayed = tuple([track.strayed(self.frame, frame) for track in tracks])
        return settled(strayed, frame, self, *stroke)


def after_bead(tracks: tuple[Track, ...], frame: Frame, move: BeadMove) -> tuple[Track, ...]:
    """The lines that a bead may belong to: those that may follow the lines under way, then these
    themselves."""
    found: list[Track] = []
    while tracks:
        found = [after for one in tracks if (after := one.after(frame, move)) is not None] + found
        tracks = tuple(
            next_one
            for track in tracks
            if track.may_go_on(frame)
            for next_one in track.following(frame)
        )
    return tuple(found)


def settled(
    tracks: tuple[Track, ...], frame: Frame, before: Progress, *moves: BeadMove
) -> Progress:
    """The progress on the first line that is not done, of the first track and what follows it,
    after some moves; finished where any track is."""
    lines = [_to_come(track, frame) for track in tracks]
    if None in lines:
        return Progress(tracks[lines.index(None)].plan, frame, None, known=tracks)
    first = lines[0]
    assert first is not None
    is_alone = len(tracks) == 1 and tracks[0].is_spent
    if first is not tracks[0] and is_alone:
        return Progress(first.plan, frame, first.line)
    way = way_on(first, frame)
    is_same = before.way is not None and first is tracks[0] and way.index == before.way.index
    made = (*before.made, *moves) if is_same else moves if first is tracks[0] else ()
    return Progress(first.plan, frame, way, known=tracks, made=made)


def _to_come(track: Track, frame: Frame) -> Track | None:
    """The track, or the first that follows it and is not done; None where all is done."""
    while track.is_done(frame):
        following = track.following(frame)
        if not following:
            return None
        track = following[0]
    return track
