"""The figures of flashed numbers: pooled rightly, and measured on a real window."""

import time

import pygame
import pytest

from frame.measuring.flash import measure_flash, pooled
from frame.practice.flashing import FlashReport, FlashSetting, ItemTime, Schedule
from frame.resources import ASSETS
from frame.view.lettering import Lettering
from frame.view.presenting import Presentation

SETTING = FlashSetting(2, 3, 0.1)


def report(*errors_ms):
    schedule = Schedule.of(SETTING)
    items = tuple(
        ItemTime(at, at + error / 1000)
        for at, error in zip(schedule.onsets, errors_ms, strict=True)
    )
    return FlashReport(schedule, items, "plain")


def test_runs_are_pooled():
    figures = pooled([report(0.1, 0.1, 0.1), report(0.3, 0.3, 0.3), report(0.2, 8.2, 0.0)])
    assert (figures.runs, figures.count, figures.interval_ms) == (3, 3, 100.0)
    assert (figures.worst_ms, figures.late_after_ms) == (8.2, 8.0)
    assert figures.drift_ms == 0.2
    assert figures.missed_frames == 1
    assert figures.refresh_hz is None
    # Of 0.1 and 0.3, three times each, the deviation about their common mean.
    assert pooled([report(0.1, 0.1, 0.1), report(0.3, 0.3, 0.3)]).onset_sd_ms == 0.1


def test_a_window_is_measured():
    pygame.display.init()
    pygame.font.init()
    try:
        window = pygame.display.set_mode((640, 480))
        figures = measure_flash(
            window, SETTING, Presentation("plain", None, 0.1), Lettering(ASSETS / "fonts"),
            time.perf_counter, runs=2,
        )  # fmt: skip
    finally:
        pygame.display.quit()
    assert (figures.runs, figures.count, figures.path) == (2, 3, "plain")
    assert figures.worst_ms > 0
    assert 0 <= figures.onset_sd_ms <= figures.worst_ms
    assert figures.interval_ms == pytest.approx(100.0)
