"""How exactly flashed numbers are shown on this computer."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from statistics import pstdev

import pygame

from frame.practice.flashing import FlashReport, FlashSetting
from frame.view.flash_run import FlashRun, play
from frame.view.flash_stage import Clock, WindowStage
from frame.view.lettering import Lettering
from frame.view.presenting import Presentation
from frame.view.theme import LIGHT

READY = 0.3


@dataclass(frozen=True, slots=True)
class FlashFigures:
    """Of all numbers of some runs together, `interval_ms` apart in truth.

    `onset_sd_ms` is the standard deviation of the time from when a number was due to when it had
    been handed to the screen, `worst_ms` the longest such time; `drift_ms` the most that a run's
    last number came later, or sooner, than its first. `missed_frames` counts numbers that came
    more than `late_after_ms` late or not at all. `refresh_hz` is None where showing does not wait
    for the screen.
    """

    runs: int
    count: int
    interval_ms: float
    onset_sd_ms: float
    worst_ms: float
    drift_ms: float
    late_after_ms: float
    missed_frames: int
    refresh_hz: float | None
    path: str


def measure_flash(
    window: pygame.Surface, setting: FlashSetting, presentation: Presentation,
    lettering: Lettering, clock: Clock, runs: int,
) -> FlashFigures:  # fmt: skip
    """Show so many columns in the window, without fades; `runs` is 1 or more."""
    window.fill(LIGHT.flash_ground)
    pygame.display.flip()
    reports = []
    for number in range(runs):
        column = setting.column(Random(number))
        run = FlashRun(setting, column, presentation, lettering, LIGHT)
        pictures = run.pictures(window.get_size())
        stage = WindowStage(window, pictures.rect, clock)
        reports.append(play(stage, pictures, run.schedule, presentation.path, ready=READY))
    return pooled(reports)


def pooled(reports: Sequence[FlashReport]) -> FlashFigures:
    """The figures of runs with one schedule."""
    schedule = reports[0].schedule
    drifts = [abs(report.drift_ms) for report in reports]
    errors = [error for report in reports for error in report.errors_ms]
    return FlashFigures(
        runs=len(reports),
        count=schedule.count,
        interval_ms=round(1000 * schedule.interval, 3),
        onset_sd_ms=round(pstdev(errors), 3),
        worst_ms=round(max(map(abs, errors)), 3),
        drift_ms=round(max(drifts), 3),
        late_after_ms=round(reports[0].late_after_ms, 3),
        missed_frames=sum(len(report.missed) for report in reports),
        refresh_hz=schedule.refresh and round(schedule.refresh, 2),
        path=reports[0].path,
    )
