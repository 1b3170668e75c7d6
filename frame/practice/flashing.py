"""Flashed numbers: settings, our own ladder of levels, the schedule, and how a run went.

Without a clock or a window: times are handed in and come out in seconds.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from random import Random
from statistics import pstdev
from typing import NamedTuple

from frame.practice.columns import draw_column

DIGITS = (1, 6)
"""From one digit to six: a number longer than six no longer fits the area that may flash
quickly at a size that is read at a glance. Longer numbers are for calling."""

COUNT = (2, 30)
"""A sum needs two numbers; twice a contest's fifteen is the most."""

INTERVAL = (0.08, 5.0)
"""Seconds from number to number: five pictures of a 60 Hz screen, quicker than our own ladder
goes; and slow enough for a first time."""

LATE_SHARE = 0.1
LATE_SECONDS = 0.008
"""How late a number may come while its run still counts: a tenth of the time to the next one, and
8 ms at most, half a picture of a 60 Hz screen. Our own choice."""

STEP_SHARE = 0.2
"""Where a screen has frames, a number comes with its frame or a whole frame later; a fifth of a
frame parts the two."""


@dataclass(frozen=True, slots=True)
class FlashSetting:
    """`count` numbers of `digits` digits, `interval` seconds apart; with `minus` some are taken
    away. Raises ValueError outside DIGITS, COUNT and INTERVAL."""

    digits: int
    count: int
    interval: float
    minus: bool = False

    def __post_init__(self) -> None:
        given = (self.digits, self.count, self.interval)
        for value, (least, most) in zip(given, (DIGITS, COUNT, INTERVAL), strict=True):
            if not least <= value <= most:
                raise ValueError(f"{value} is not from {least} to {most}")

    @classmethod
    def of_total(
        cls, digits: int, count: int, total: float, minus: bool = False
    ) -> "FlashSetting":  # fmt: skip
        """The setting by the seconds that all numbers take together. Raises ValueError."""
        return cls(digits, count, total / count, minus)

    def column(self, random: Random) -> tuple[Decimal, ...]:
        """Numbers drawn for it."""
        return draw_column(self.digits, self.count, random, minus=self.minus)

    @property
    def total(self) -> float:
        """Seconds from the first number's coming to the last one's going."""
        return self.count * self.interval


class Level(NamedTuple):
    """A rung of the ladder, counted from 1."""

    number: int
    setting: FlashSetting


_LADDER = (
    (1, 3, 6.0), (1, 5, 8.0), (1, 5, 6.0), (1, 7, 7.0), (1, 10, 10.0), (1, 10, 7.0),
    (2, 5, 8.0), (2, 5, 6.0), (2, 7, 7.0), (2, 10, 10.0), (2, 10, 7.0),
    (3, 5, 7.0), (3, 10, 12.0), (3, 15, 15.0), (3, 15, 10.0), (3, 15, 7.0), (3, 15, 5.0),
    (3, 15, 4.0), (3, 15, 3.0), (3, 15, 2.5), (3, 15, 2.0), (3, 15, 1.75), (3, 15, 1.5),
    (3, 15, 1.3),
)  # fmt: skip

LEVELS = tuple(
    Level(number, FlashSetting.of_total(*rung)) for number, rung in enumerate(_LADDER, 1)
)
"""Our own ladder, not that of any association: more numbers or less time at each level, and
room to breathe where a digit joins. Fifteen numbers of three digits are the usual contest item
(from memory); levels 1 to 17 keep to three numbers a second or fewer."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """When each number comes, in seconds from the first.

    With a stable `refresh` of so many pictures a second, `interval` is a whole number of
    `frames`, the nearest to the setting's; else `frames` and `refresh` are None and the interval
    is the setting's own.
    """

    count: int
    interval: float
    refresh: float | None = None
    frames: int | None = None

    @classmethod
    def of(cls, setting: FlashSetting, refresh: float | None = None) -> "Schedule":
        """The schedule of a setting on a screen, whose `refresh` is 30 Hz or more."""
        if refresh is None:
            return cls(setting.count, setting.interval)
        frames = round(setting.interval * refresh)
        return cls(setting.count, frames / refresh, refresh, frames)

    @property
    def onsets(self) -> tuple[float, ...]:
        """The seconds at which each number is due, the first at 0."""
        return tuple(number * self.interval for number in range(self.count))

    @property
    def total(self) -> float:
        """The seconds that all numbers take together."""
        return self.count * self.interval

    @property
    def lead(self) -> float:
        """How long before its time a number is handed over: half a frame, for the screen then
        shows it with the frame that is due; 0 without frames."""
        return 0.5 / self.refresh if self.refresh else 0.0

    @property
    def late_after(self) -> float:
        """By how many seconds past its time a number counts as missed."""
        return min(LATE_SHARE * self.interval, LATE_SECONDS)

    def is_in_step(self, error: float) -> bool:
        """Whether what was shown so many seconds after its time came with its own frame; never
        without frames."""
        return self.refresh is not None and abs(error) <= STEP_SHARE / self.refresh

    def pause(self, seconds: float) -> float:
        """So many seconds, or a little more in whole frames."""
        return math.ceil(seconds * self.refresh) / self.refresh if self.refresh else seconds


class ItemTime(NamedTuple):
    """When a number was due and when it was shown, in seconds from the start; `shown` is None
    for one that was left out, because its successor was already due, or the run was stopped."""

    requested: float
    shown: float | None


@dataclass(frozen=True, slots=True)
class FlashReport:
    """How a run went. `path` names the way pictures took to the screen."""

    schedule: Schedule
    items: tuple[ItemTime, ...]
    path: str
    was_stopped: bool = False

    @property
    def errors_ms(self) -> tuple[float, ...]:
        """For each number shown, how many milliseconds after its time it came."""
        return tuple(
            1000 * (item.shown - item.requested) for item in self.items if item.shown is not None
        )

    @property
    def onset_sd_ms(self) -> float:
        """The standard deviation of the errors; 0 where fewer than two numbers were shown."""
        return pstdev(self.errors_ms) if len(self.errors_ms) > 1 else 0.0

    @property
    def worst_ms(self) -> float:
        """The largest error, early or late; 0 where nothing was shown."""
        return max(map(abs, self.errors_ms), default=0.0)

    @property
    def late_after_ms(self) -> float:
        """How many milliseconds after its time a number counts as missed."""
        return 1000 * self.schedule.late_after

    @property
    def drift_ms(self) -> float:
        """How much later after its time the last number shown came than the first one."""
        lags = [
            item.shown - at
            for at, item in zip(self.schedule.onsets, self.items, strict=True)
            if item.shown is not None
        ]
        return 1000 * (lags[-1] - lags[0]) if lags else 0.0

    @property
    def missed(self) -> tuple[int, ...]:
        """The numbers, counted from 0, that came too late or not at all; in a run that was
        stopped, those up to the last one shown."""
        return missed(self.items[: self._played()], self.schedule)

    @property
    def rate(self) -> float:
        """Numbers a second as they were shown, or as planned where fewer than two were."""
        shown = [(at, item.shown) for at, item in enumerate(self.items) if item.shown is not None]
        if len(shown) < 2:
            return 1 / self.schedule.interval
        (first, began), (last, ended) = shown[0], shown[-1]
        return (last - first) / (ended - began)

    @property
    def counts(self) -> bool:
        """Whether the run may count as a result: nothing was missed, and it was not stopped."""
        return not self.missed and not self.was_stopped

    def _played(self) -> int:
        if not self.was_stopped:
            return len(self.items)
        return max(
            (at for at, item in enumerate(self.items, 1) if item.shown is not None), default=0
        )


def missed(items: Sequence[ItemTime], schedule: Schedule) -> tuple[int, ...]:
    """The numbers that were left out or came too late, counted from 0."""
    return tuple(
        at
        for at, item in enumerate(items)
        if item.shown is None or item.shown - item.requested > schedule.late_after
    )
