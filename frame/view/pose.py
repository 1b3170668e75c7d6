"""Where the beads of a frame stand on their rods."""

from dataclasses import dataclass
from enum import IntEnum

from frame.technique.beads import Frame

RodOffsets = tuple[float, float, float, float, float]
"""Where the five beads of a rod stand, in bead heights from the upper end of their way.

Heaven bead first: 0 at rest, 1 at the beam. Then the earth beads from the top: 0 on the
beam's side, 1 at rest.
"""


class Bead(IntEnum):
    """One bead of a rod; its value is its index in the rod's offsets."""

    HEAVEN = 0
    EARTH_1 = 1
    EARTH_2 = 2
    EARTH_3 = 3
    EARTH_4 = 4

    @property
    def is_heaven(self) -> bool:
        """Whether this is the heaven bead."""
        return self is Bead.HEAVEN


@dataclass(frozen=True, slots=True)
class Pose:
    """Where all beads of a frame stand at one moment, rods from the left.

    Offsets lie in 0..1 and those of the earth beads never fall from one bead to the next, so
    no bead overlaps another or leaves the frame.
    """

    rods: tuple[RodOffsets, ...]

    def with_rod(self, index: int, offsets: RodOffsets) -> "Pose":
        """The pose with other offsets on one rod."""
        return Pose((*self.rods[:index], offsets, *self.rods[index + 1 :]))

    def earth_up(self, index: int) -> int:
        """How many earth beads of a rod stand nearer to the beam than to rest."""
        return sum(offset < 0.5 for offset in self.rods[index][1:])

    def bead_to_touch(self, index: int, change: int) -> Bead:
        """The bead of a rod that a finger touches for a change: it pushes the others along."""
        if change in (5, -5):
            return Bead.HEAVEN
        up = self.earth_up(index)
        place = up + change - 1 if change > 0 else up + change
        return Bead(Bead.EARTH_1 + min(max(place, 0), 3))


_OFFSETS_OF_DIGIT: tuple[RodOffsets, ...] = tuple(
    (float(heaven), float(up < 1), float(up < 2), float(up < 3), float(up < 4))
    for heaven, up in (divmod(digit, 5) for digit in range(10))
)


def pose_of(frame: Frame) -> Pose:
    """The pose in which all beads of the frame stand still."""
    return Pose(tuple(_OFFSETS_OF_DIGIT[int(digit)] for digit in frame.digits))
