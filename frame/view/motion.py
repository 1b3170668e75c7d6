"""Where beads stand while they glide from one pose to the next."""

from dataclasses import dataclass

from frame.view.geometry import Pose, RodOffsets

MOVE_SECONDS = 0.15
RETURN_SECONDS = 0.4
SHOW_SECONDS = 0.6


def between(start: Pose, end: Pose, share: float) -> Pose:
    """The pose that lies a share (0 to 1) of the way from one pose to another.

    In between two possible poses every pose is possible. Raises ValueError when the poses
    have different numbers of rods.
    """
    pairs = zip(start.rods, end.rods, strict=True)
    return Pose(tuple(a if a == b else _mixed(a, b, share) for a, b in pairs))


def _mixed(start: RodOffsets, end: RodOffsets, share: float) -> RodOffsets:
    # Two products with weights >= 0 keep the order of the beads under rounding; the shorter
    # a + (b - a) * share does not.
    heaven, first, second, third, fourth = (
        a * (1 - share) + b * share for a, b in zip(start, end, strict=True)
    )
    return heaven, first, second, third, fourth


def ease_out(share: float) -> float:
    """How much of the way is done after a share (0 to 1) of the time: quick first, then slow."""
    rest: float = 1 - share
    return 1 - rest * rest * rest


@dataclass(frozen=True, slots=True)
class Glide:
    """Beads on their way from one pose to another; times in seconds on the caller's clock.

    When the aim changes on the way, begin a new glide from `pose(now)` of this one.
    """

    start: Pose
    end: Pose
    began: float
    seconds: float

    def pose(self, at: float) -> Pose:
        """Where the beads stand at a time: at the start before it began, then at the end."""
        if self.done(at):
            return self.end
        if at <= self.began:
            return self.start
        return between(self.start, self.end, ease_out((at - self.began) / self.seconds))

    def done(self, at: float) -> bool:
        """Whether the beads have arrived at a time."""
        return at - self.began >= self.seconds
