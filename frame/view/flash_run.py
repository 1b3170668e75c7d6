"""A run of flashed numbers: everything is ready before, each is shown at its own time, and what
really happened is told.

The schedule is counted from one start, so that no delay adds to the next. A number is drawn long
before its time and only handed to the screen at it, and the time is read after that.
"""

import gc
import math
from collections import deque
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple, Protocol

import pygame

from frame.practice.flashing import FlashReport, FlashSetting, ItemTime, Schedule
from frame.view.flash_pictures import FlashPictures, prerender
from frame.view.flash_safety import (
    CALM_CHANGE,
    MOST_CHANGES,
    REFERENCE,
    SECOND,
    Viewing,
    blank_seconds,
)
from frame.view.flash_stage import Clock, WindowStage
from frame.view.lettering import Lettering
from frame.view.presenting import Presentation
from frame.view.theme import Theme

READY = 1.0
"""Seconds of calm before the first number, with a mark for the eye."""

REST = 0.5
"""Seconds of calm after the last number has gone."""

SPIN = 0.003
"""Seconds before a time at which waiting gives way to watching the clock."""


class FlashStage(Protocol):
    """What a run plays on: a clock, a wait, and one place of the window."""

    def seconds(self) -> float:
        """Seconds that never run backwards."""

    def wait(self, seconds: float) -> bool:
        """Wait at most so long, a millisecond more or less; whether the run is to stop."""

    def draw(self, picture: pygame.Surface) -> None:
        """Draw a picture in its place, unseen as yet."""

    def show(self) -> None:
        """Show what was drawn."""


class _Step(NamedTuple):
    """Something to show, in seconds from the first number; `item` is the number it is of."""

    at: float
    picture: pygame.Surface
    item: int | None


@dataclass(frozen=True, slots=True)
class FlashRun:
    """One run, to be played once. `viewing` is how near the nearest eye is."""

    setting: FlashSetting
    column: Sequence[Decimal]
    presentation: Presentation
    lettering: Lettering
    theme: Theme
    viewing: Viewing = REFERENCE

    @property
    def schedule(self) -> Schedule:
        """When the numbers come, with the true interval on this screen."""
        return Schedule.of(self.setting, self.presentation.refresh)

    def pictures(self, window: tuple[int, int]) -> FlashPictures:
        """The pictures for a window of that size. Raises ValueError where none are allowed."""
        return prerender(
            self.column, self.setting, window, self.viewing, self.lettering, self.theme,
            self.schedule.interval,
        )  # fmt: skip

    def run(self, window: pygame.Surface, clock: Clock) -> FlashReport:
        """Fade to the dark ground, show the numbers, fade back to the theme's ground; how it
        went. A key of a remote, a press or the window's closing stops it."""
        pictures, schedule = self.pictures(window.get_size()), self.schedule
        stage = WindowStage(window, pictures.rect, clock)
        is_stopped = stage.open(self.theme.flash_ground, pictures.ready)
        report = play(
            stage, pictures, schedule, self.presentation.path, ready=READY, is_stopped=is_stopped
        )
        stage.close(REST, self.theme.ground)
        return report


def play(
    stage: FlashStage, pictures: FlashPictures, schedule: Schedule, path: str, *,
    ready: float, is_stopped: bool = False,
) -> FlashReport:  # fmt: skip
    """Show the numbers after `ready` seconds with the mark, and leave the place blank; how it
    went.

    A number whose successor is already due is left out, so that none crowd after a delay.
    """
    shown: list[ItemTime] = [ItemTime(at, None) for at in schedule.onsets]
    with _without_collecting():
        start = _begin(stage, pictures, schedule.pause(ready))
        is_stopped = is_stopped or _play(stage, _steps(pictures, schedule), schedule, start, shown)
    return FlashReport(schedule, tuple(shown), path, is_stopped)


def _begin(stage: FlashStage, pictures: FlashPictures, pause: float) -> float:
    """The time of the first number, in step with the screen's frames; the mark is shown."""
    stage.draw(pictures.ready)
    stage.show()
    return stage.seconds() + pause


def _steps(pictures: FlashPictures, schedule: Schedule) -> list[_Step]:
    """All that is shown, in order: numbers, the blanks between slow ones, the end."""
    blank = blank_seconds(schedule.interval)
    steps = []
    for item, at in enumerate(schedule.onsets):
        steps.append(_Step(at, pictures.surfaces[item], item))
        if blank:
            steps.append(_Step(at + schedule.interval - blank, pictures.blank, None))
    return steps if blank else [*steps, _Step(schedule.total, pictures.blank, None)]


def _play(
    stage: FlashStage,
    steps: Sequence[_Step],
    schedule: Schedule,
    start: float,
    shown: list[ItemTime],
) -> bool:
    """Show every step at its time and note the numbers' times; whether it was stopped.

    On a screen with frames each show that came with its frame sets the time of the next, since
    the refresh is known only so well; a late one sets nothing.
    """
    changes = _changes(schedule)
    known, seen = 0.0, start
    for step, following in zip(steps, [*steps[1:], None], strict=True):
        due = seen + step.at - known
        now = stage.seconds()
        is_overtaken = following and now >= due + following.at - step.at - schedule.lead
        if is_overtaken or (following and max(now, due) < _free_at(changes)):
            continue
        stage.draw(step.picture)
        if _wait_until(stage, max(due - schedule.lead, _free_at(changes))):
            _take_away(stage, steps[-1].picture, _free_at(changes))
            return True
        stage.show()
        changes.append(stage.seconds())
        if step.item is not None:
            shown[step.item] = ItemTime(due - start, changes[-1] - start)
        if schedule.is_in_step(changes[-1] - due):
            known, seen = step.at, changes[-1]
    return False


def _changes(schedule: Schedule) -> deque[float]:
    """Where the times of the last changes are kept. Slow numbers may have any size because they
    change a place no more than six times in a second; after a delay that must be seen to."""
    return deque(maxlen=MOST_CHANGES if schedule.interval >= CALM_CHANGE else 1)


def _free_at(changes: deque[float]) -> float:
    """From when on one more change is not the seventh in a second."""
    return changes[0] + SECOND if len(changes) == MOST_CHANGES else -math.inf


def _take_away(stage: FlashStage, blank: pygame.Surface, free_at: float) -> None:
    """Empty the place, at once where one more change is free."""
    stage.draw(blank)
    while (left := free_at - stage.seconds()) > 0:
        stage.wait(left)
    stage.show()


def _wait_until(stage: FlashStage, time: float) -> bool:
    """Wait, and for the last milliseconds watch the clock; whether the run is to stop."""
    left = 1.0
    while left > 0:
        left = time - SPIN - stage.seconds()
        if stage.wait(max(0.0, left)):
            return True
    while stage.seconds() < time:
        pass
    return False


@contextmanager
def _without_collecting() -> Iterator[None]:
    """Python clears up before, not meanwhile."""
    was_on = gc.isenabled()
    gc.collect()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
