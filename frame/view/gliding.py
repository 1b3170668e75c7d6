"""Beads on their way on one frame: one glide after another."""

from dataclasses import dataclass, field
from math import inf

from frame.view.geometry import Pose
from frame.view.motion import MOVE_SECONDS, RETURN_SECONDS, SHOW_SECONDS, Glide

PREVIEW_PAUSE = 0.3
PREVIEW_HELD = 0.7


@dataclass
class Gliding:
    """The glides under way. With `is_still` beads jump: there is no motion to see.

    `landed` counts the glides in which beads came to rest; `preview_over` is when the last preview
    is over, or was ended. Times are seconds on the caller's clock.
    """

    is_still: bool = False
    landed: int = 0
    preview_over: float = -inf
    _glides: list[Glide] = field(default_factory=list)
    _way_back: Glide | None = None

    def __bool__(self) -> bool:
        return bool(self._glides)

    @property
    def is_preview(self) -> bool:
        """Whether a preview is under way, until it has gone back."""
        return self._way_back in self._glides

    def clear(self) -> None:
        """Stop all glides."""
        self._glides.clear()

    def go(self, start: Pose, end: Pose, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Glide from one pose to another, in the place of all other glides."""
        self._begin(now, self._glide(start, end, now, seconds))

    def bounce(self, start: Pose, there: Pose, home: Pose, now: float) -> None:
        """Glide to where a wrong bead would go, and back more slowly."""
        out = self._glide(start, there, now, MOVE_SECONDS)
        back = self._glide(there, home, now + out.seconds, RETURN_SECONDS)
        self._begin(now, out, back)

    def _begin(self, now: float, *glides: Glide) -> None:
        self._glides = [*glides]
        self.preview_over = min(self.preview_over, now)

    def preview(self, home: Pose, there: Pose, now: float) -> None:
        """After what is still moving: show the way there, hold a moment, go back; once only."""
        if self.is_preview:
            return
        begin = max([now, *(glide.began + glide.seconds for glide in self._glides)])
        out = self._glide(home, there, begin + PREVIEW_PAUSE, SHOW_SECONDS)
        held = Glide(there, there, out.began + out.seconds, PREVIEW_HELD)
        back = self._glide(there, home, held.began + held.seconds, RETURN_SECONDS)
        self._glides += [out, held, back]
        self._way_back, self.preview_over = back, back.began + back.seconds

    def pose(self, at: float, last: Pose) -> Pose:
        """Where the beads stand at a time; `last` where nothing moves. Glides that are over end."""
        while self._glides and self._glides[0].done(at):
            glide = self._glides.pop(0)
            self.landed += glide.start != glide.end
            last = glide.end
        return self._glides[0].pose(at) if self._glides else last

    def _glide(self, start: Pose, end: Pose, began: float, seconds: float) -> Glide:
        return Glide(start, end, began, 0.0 if self.is_still else seconds)
