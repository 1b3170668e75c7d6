"""The room before a screen: what its last row can read, and from how near its first row looks.

Lengths are in metres, angles in minutes of arc, sizes of text in shares of the picture's height,
from 0 to 1. The size of text is the height of its capital letters and digits, not of its lines.
All takes for granted that the picture fills the screen and that eyes look straight at it.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from frame.learner.settings import ScreenShape, Settings
from frame.view.flash_safety import (
    QUARTER_FIELD,
    REFERENCE,
    Numeral,
    Viewing,
    WindowSize,
    least_distance,
    legal_area,
)

# ISO 9241-3: letters of 20 to 22 minutes of arc are preferred, those of 16 are the least.
PREFERRED_ANGLE = 22.0
LEAST_ANGLE = 16.0

TEXT_SHARE = 0.031
"""How high text before a class is at least, as a share of the picture's height."""
SUM_SHARE = 0.086
"""How high the numbers of a sum are that is not too long, as such a share."""

_MINUTES = 60.0
"""Minutes of arc in a degree."""


class Legibility(StrEnum):
    """How well something is read: with ease, just so, or not."""

    EASY = "easy"
    JUST = "just"
    NOT = "not"


def legibility(angle: float) -> Legibility:
    """How well letters seen at so many minutes of arc are read."""
    if angle >= PREFERRED_ANGLE:
        return Legibility.EASY
    return Legibility.JUST if angle >= LEAST_ANGLE else Legibility.NOT


def reference_distance(window: WindowSize) -> float:
    """From how many heights of the screen WCAG's reference looks at a window of so many pixels."""
    return math.sqrt(legal_area(window) / QUARTER_FIELD) / window[1]


@dataclass(frozen=True, slots=True)
class Classroom:
    """A screen `diagonal` metres from corner to corner, `aspect` times as wide as high, and the
    seats `nearest` to it and `farthest` from it, in metres.

    Raises ValueError unless all are finite and above 0, and no seat is farther than the farthest.
    """

    diagonal: float
    nearest: float
    farthest: float
    aspect: float = 16 / 9

    def __post_init__(self) -> None:
        given = (self.diagonal, self.nearest, self.farthest, self.aspect)
        if not all(math.isfinite(value) and value > 0 for value in given):
            raise ValueError("the measures of a room are finite and above 0")
        if self.nearest > self.farthest:
            raise ValueError("the nearest seat is no farther than the farthest")

    @property
    def height(self) -> float:
        """The height of the picture in metres."""
        return self.diagonal / math.hypot(1, self.aspect)

    @property
    def viewing(self) -> Viewing:
        """From how far the nearest seat looks."""
        return Viewing.of(self.height, self.nearest)

    def angle(self, share: float) -> float:
        """At how many minutes of arc the farthest seat sees letters of a share of the height."""
        half = math.atan(share * self.height / (2 * self.farthest))
        return math.degrees(2 * half) * _MINUTES

    def legibility(self, share: float) -> Legibility:
        """How well the farthest seat reads letters of a share of the height."""
        return legibility(self.angle(share))

    def share(self, angle: float = LEAST_ANGLE) -> float:
        """The share of the height that the farthest seat sees at so many minutes of arc; above 1
        where the picture itself is too small."""
        half = math.radians(angle / _MINUTES) / 2
        return 2 * self.farthest * math.tan(half) / self.height

    def flash_viewing(self, numeral: Numeral, window: WindowSize) -> Viewing:
        """The viewing for which quick numbers are sized in a window of so many pixels.

        It is never farther than the nearest seat, and farther than the reference of WCAG only as
        far as the farthest seat needs it to read the numbers with ease: nothing is larger than
        there is reason for, since somebody may come nearer.
        """
        reference = reference_distance(window)
        needed = math.ceil(self.share(PREFERRED_ANGLE) * window[1]) + 1
        wanted = max(reference, least_distance(numeral.box(needed), window))
        own = self.viewing
        if own.distance is not None and own.distance < wanted:
            return own
        return REFERENCE if wanted == reference else Viewing(wanted)


_ASPECTS = {ScreenShape.WIDE: 16 / 9, ScreenShape.LESS_WIDE: 16 / 10, ScreenShape.OLD: 4 / 3}


def classroom_of(settings: Settings) -> Classroom | None:
    """The room as it is set; None where it is no classroom."""
    if not settings.classroom:
        return None
    return Classroom(
        settings.screen_diagonal, settings.nearest_seat, settings.farthest_seat,
        _ASPECTS[settings.screen_shape],
    )  # fmt: skip
