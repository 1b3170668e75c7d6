"""The ladder from a frame that is shown to a frame that is only imagined, and ways of asking."""

from enum import StrEnum


class Rung(StrEnum):
    """How much of the frame an exercise shows, and how much of the work the learner does."""

    WATCH = "watch"
    FOLLOW = "follow"
    FINISH = "finish"
    ALONE = "alone"
    PALE = "pale"
    TRACES = "traces"
    COVERED = "covered"
    NUMBER = "number only"

    @property
    def is_led(self) -> bool:
        """Whether the tool still leads the hand: the first number stands there already."""
        return self in (Rung.WATCH, Rung.FOLLOW, Rung.FINISH)

    @property
    def is_unseen(self) -> bool:
        """Whether a bead that has moved is seen no longer."""
        return self in (Rung.TRACES, Rung.COVERED, Rung.NUMBER)

    @property
    def is_fading(self) -> bool:
        """Whether beads are seen less than they are, or not at all."""
        return self is Rung.PALE or self.is_unseen

    @property
    def is_told_at_end(self) -> bool:
        """Whether nothing is said of any bead until the work is done."""
        return self in (Rung.COVERED, Rung.NUMBER)


class Asked(StrEnum):
    """How the numbers of an exercise come."""

    SHOWN = "shown"
    CALLED = "called"
    FLASHED = "flashed"
