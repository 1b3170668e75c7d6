"""How large and how quick flashed numbers may be, by WCAG 2.2 SC 2.3.1 (three flashes or below
threshold), on the strict side throughout. No claim of medical safety is made. All is worked out
here without a window; a meter in the tests, written from the definition alone, looks at what a run
really shows, on time, late and stopped.

A flash is a pair of opposing changes of relative luminance of 10 % of the maximum or more, where
the darker one is below 0.80. Allowed are three flashes in any one second, or any number of them
where together they take no more than a quarter of any ten degrees of the field of view.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations
from typing import NamedTuple

from frame.view.theme import Colour, luminance

WindowSize = tuple[int, int]
"""Width and height in pixels."""

# WCAG 2.2, definition of "general flash and red flash thresholds".
FLASH_CHANGE = 0.10
FLASH_DARKER_BELOW = 0.80
RED_SHARE = 0.8
# The same: 341 x 256 pixels at 1024 x 768 are ten degrees wide; technique G176: a quarter of it.
REFERENCE_WINDOW = (1024, 768)
REFERENCE_AREA = 21_824
QUARTER_FIELD = 0.1745 * 0.1309 / 4
"""A quarter of that field, 10 by 7.5 degrees, on a screen at distance 1."""

MOST_CHANGES = 6
SECOND = 1.001
"""Six changes within any second are three flashes; the second here is a little longer."""

# A number without a blank changes a place once, with one twice.
SHORTEST_BY_COUNT = 0.167
SHORTEST_BY_COUNT_BLANKED = 0.334
# One number may be late by almost a change's time, and the next one is on time again: of seven
# changes 0.21 s apart, the first so much later, the last still comes more than a second after.
CALM_CHANGE = 0.21

SAFE_RATE = 3
"""Numbers a second at which a new learner starts, or slower; quicker is an adult's choice."""

SHIFT = 0.12
"""By what share of its height a repeated number shifts aside."""

BLANK = CALM_CHANGE
"""Seconds that slow numbers leave the place empty before the next one."""


class Ruling(StrEnum):
    """Why a setting is allowed, or that it is not."""

    BY_COUNT = "count"
    BY_AREA = "area"
    REFUSE = "refuse"


@dataclass(frozen=True, slots=True)
class FlashVerdict:
    """What is said of a setting.

    `largest_height` is the largest height of the digits, in pixels, at which this rate is
    allowed here, 0 for none; `shortest_interval` the least seconds from number to number at
    which this height is allowed, infinite for none.
    """

    outcome: Ruling
    largest_height: int
    shortest_interval: float

    @property
    def is_allowed(self) -> bool:
        """Whether it may be shown."""
        return self.outcome is not Ruling.REFUSE

    @property
    def fastest_rate(self) -> float:
        """The most numbers a second at this height; infinite where it may be any."""
        return 1 / self.shortest_interval if self.shortest_interval else math.inf


class FlashRefused(ValueError):
    """Numbers that may not be shown so; `verdict` names the largest size and the fastest rate."""

    def __init__(self, verdict: FlashVerdict) -> None:
        super().__init__(
            f"at this rate digits of {verdict.largest_height} pixels at most, "
            f"at this size {verdict.fastest_rate:.2f} numbers a second at most"
        )
        self.verdict = verdict


@dataclass(frozen=True, slots=True)
class Viewing:
    """From how far the nearest eye looks, in heights of the screen; None stands for the
    reference of WCAG, 1024 x 768 pixels, whose share of the window is then kept."""

    distance: float | None = None

    @classmethod
    def of(cls, screen_height: float, distance: float) -> "Viewing":
        """The viewing of a screen so high from so far, both in the same unit.

        Raises ValueError unless both are above 0.
        """
        if not (screen_height > 0 and distance > 0):
            raise ValueError("the screen's height and the distance are above 0")
        return cls(distance / screen_height)


REFERENCE = Viewing()


class Glyphs(NamedTuple):
    """Measured widths, with the space about them, as shares of the digits' height."""

    digit: float
    minus: float


class Numeral(NamedTuple):
    """The widest number that can come: so many digits, perhaps behind a minus sign."""

    digits: int
    minus: bool
    glyphs: Glyphs

    def box(self, height: int) -> WindowSize:
        """The pixels that hold every such number of that height, and its shift."""
        minus = self.glyphs.minus if self.minus else 0.0
        share = self.digits * self.glyphs.digit + minus + SHIFT
        return math.ceil(share * height), height


def needs_caution(interval: float) -> bool:
    """Whether numbers so many seconds apart are quicker than a new learner starts with."""
    return interval * SAFE_RATE < 1 - 1e-9


def blank_seconds(interval: float) -> float:
    """How long the place stays empty between numbers so many seconds apart: 0 where a blank
    would make the changes too many."""
    return BLANK if interval >= CALM_CHANGE + BLANK else 0.0


def legal_area(window: WindowSize, viewing: Viewing = REFERENCE) -> float:
    """Square pixels that may flash at any rate.

    The window counts as if it filled the screen: where it does not, the area is smaller than
    it might be.
    """
    if viewing.distance is None:
        scale = min(have / want for have, want in zip(window, REFERENCE_WINDOW, strict=True))
        return REFERENCE_AREA * scale**2
    return QUARTER_FIELD * (viewing.distance * window[1]) ** 2


def least_distance(box: WindowSize, window: WindowSize) -> float:
    """From how many heights of the screen on a box may flash at any rate."""
    return math.sqrt(box[0] * box[1] / QUARTER_FIELD) / window[1]


def largest_height(numeral: Numeral, window: WindowSize, viewing: Viewing = REFERENCE) -> int:
    """The largest height of digits, in whole pixels, that may flash at any rate; 0 for none."""
    area = legal_area(window, viewing)
    height = math.floor(math.sqrt(area / (numeral.digits * numeral.glyphs.digit)))
    while height and math.prod(numeral.box(height)) > area:
        height -= 1
    return height


def safe_height(
    wanted: int, interval: float, numeral: Numeral, window: WindowSize, viewing: Viewing = REFERENCE
) -> int:
    """The wanted height of digits, or what is allowed of it, with room for numbers that come
    late: such a number crowds the next one."""
    if interval >= CALM_CHANGE:
        return wanted
    return min(wanted, largest_height(numeral, window, viewing))


def flash_verdict(
    interval: float, numeral: Numeral, height: int, window: WindowSize, *, inks: Iterable[Colour],
    ground: Colour, blank: bool = False, viewing: Viewing = REFERENCE,
) -> FlashVerdict:  # fmt: skip
    """Whether numbers `interval` seconds apart, their digits `height` pixels high, may be shown.

    `inks` are the colours of the numbers; with `blank` the place is empty between them. A
    saturated red is refused at any size and rate.
    """
    colours = (*inks, ground)
    if any(is_saturated_red(colour) for colour in colours):
        return FlashVerdict(Ruling.REFUSE, 0, math.inf)
    by_count = SHORTEST_BY_COUNT_BLANKED if blank else SHORTEST_BY_COUNT
    is_small = math.prod(numeral.box(height)) <= legal_area(window, viewing)
    is_calm = interval >= by_count or not any(is_flash(*pair) for pair in combinations(colours, 2))
    outcome = (
        Ruling.BY_COUNT if is_calm
        else Ruling.BY_AREA if is_small
        else Ruling.REFUSE
    )  # fmt: skip
    largest = window[1] if is_calm else largest_height(numeral, window, viewing)
    return FlashVerdict(outcome, largest, 0.0 if is_small else by_count)


def is_flash(one: Colour, other: Colour) -> bool:
    """Whether going from one colour to the other and back is a general flash."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return lighter - darker >= FLASH_CHANGE and darker < FLASH_DARKER_BELOW


def is_saturated_red(colour: Colour) -> bool:
    """Whether red makes up 80 % or more of a colour, of its light or of its numbers."""
    plain = [channel / 255 for channel in colour]
    light = [luminance((channel, channel, channel)) for channel in colour]
    return any(sum(part) > 0 and part[0] / sum(part) >= RED_SHARE for part in (plain, light))
