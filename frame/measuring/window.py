"""What the real window does on this computer: touch to picture, frames, idle, start, flashed
numbers."""

import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles

import pygame

from frame.app import App, Push, open_window
from frame.language.catalogue import Words
from frame.learner.settings import Settings
from frame.measuring.flash import FlashFigures, measure_flash
from frame.measuring.technique import process_ms
from frame.practice.flashing import FlashSetting
from frame.resources import ASSETS
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.who import Who
from frame.screens.start import build_app
from frame.technique.beads import BeadMove
from frame.view.geometry import Point
from frame.view.lettering import Lettering
from frame.view.presenting import find_presentation
from frame.view.theme import LIGHT

SIZE = (1920, 1080)
FOUR_K = (3840, 2160)
TOUCHES = 120
IDLE_SECONDS = 3.0
STARTS = 5
FLASH_RUNS = 4
"""Runs of flashed numbers at each speed; with 0 they are not measured."""

FLASHED = FlashSetting.of_total(3, 15, 2.0), FlashSetting.of_total(3, 15, 1.5)
"""Fifteen numbers of three digits, in two speeds that contests know."""

_BARE = """
import pygame
pygame.display.init()
window = pygame.display.set_mode((1280, 720), pygame.RESIZABLE)
window.fill((250, 246, 238))
pygame.display.flip()
"""
_OURS = """
import sys
from pathlib import Path
from frame.cli import english
from contextlib import suppress
from frame.screens.start import NoFolder, build_app, data_folder
with suppress(NoFolder):
    data_folder()
app = build_app(Path(sys.argv[1]), english())
app.draw()
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowFigures:
    """Milliseconds unless said otherwise. `frame_p99` is the work of one picture while beads
    glide, `large_p99` of one at 3840 x 2160 that is painted and not shown; `start` and `bare`
    are whole processes up to the first picture, ours and an empty window's. `flash` are the
    figures of flashed numbers, the slower first, or none."""

    driver: str
    size: tuple[int, int]
    touch_median: float
    touch_p99: float
    frame_median: float
    frame_p99: float
    large_median: float
    large_p99: float
    idle_cpu_percent: float
    start: float
    bare: float
    flash: tuple[FlashFigures, ...] = ()


def measure_window(words: Words, size: tuple[int, int] = SIZE) -> WindowFigures:
    """Open the window and measure it. Raises NoScreen."""
    with tempfile.TemporaryDirectory() as folder:
        app = build_app(Path(folder), words, size)
        try:
            touches, frames = _touches(app, TOUCHES)
            _, large = _touches(App(app.room, pygame.Surface(FOUR_K), Who(app.room)), TOUCHES // 3)
            idle = _idle_percent(app)
            driver, real = pygame.display.get_driver(), app.window.get_size()
        finally:
            app.close()
            app.room.store.close()
            pygame.display.quit()
        ours = process_ms([sys.executable, "-c", _OURS, folder], time.perf_counter, STARTS)
    bare = process_ms([sys.executable, "-c", _BARE], time.perf_counter, STARTS)
    return WindowFigures(
        driver=driver,
        size=real,
        touch_median=round(median(touches), 2),
        touch_p99=_p99(touches),
        frame_median=round(median(frames), 2),
        frame_p99=_p99(frames),
        large_median=round(median(large), 2),
        large_p99=_p99(large),
        idle_cpu_percent=round(idle, 2),
        start=ours,
        bare=bare,
        flash=_flash_figures(size),
    )


def _flash_figures(size: tuple[int, int]) -> tuple[FlashFigures, ...]:
    """Flashed numbers in a window of their own, shown the best way that is found."""
    if not FLASH_RUNS:
        return ()
    window = open_window(size)
    try:
        best, window = find_presentation(window, _darken, time.perf_counter)
        lettering = Lettering(ASSETS / "fonts")
        return tuple(
            measure_flash(window, setting, best, lettering, time.perf_counter, FLASH_RUNS)
            for setting in FLASHED
        )
    finally:
        pygame.display.quit()


def _darken(window: pygame.Surface) -> None:
    window.fill(LIGHT.flash_ground)


def _touches(app: App, count: int) -> tuple[list[float], list[float]]:
    """For each touch of a bead, press to picture; and the work of every picture of its glide."""
    app.room.settings = Settings()
    free = FreeFrame(app.room)
    app.take(Push(free))
    app.draw()
    touches, frames = [], []
    for number in range(count):
        move = BeadMove(free.field.frame.lowest + number % 5, 1 if number // 5 % 2 == 0 else -1)
        at = _bead_at(free, move)
        touches.append(_mouse_ms(app, pygame.MOUSEBUTTONDOWN, at))
        _mouse_ms(app, pygame.MOUSEBUTTONUP, at)
        while free.field.is_moving:
            began = time.perf_counter()
            free.advance(app.room.seconds())
            app.draw()
            frames.append(1000 * (time.perf_counter() - began))
            time.sleep(0.01)
    return touches, frames


def _bead_at(free: FreeFrame, move: BeadMove) -> Point:
    layout, pose = free.field.layout, free.field.pose
    column = layout.units - move.rod
    bead = pose.bead_to_touch(column, move.change)
    return layout.bead_box(column, bead, pose.rods[column][bead]).centre


def _mouse_ms(app: App, kind: int, at: Point) -> float:
    """From posting a mouse event to the picture being handed to the screen."""
    place = round(at[0]), round(at[1])
    began = time.perf_counter()
    pygame.event.post(pygame.event.Event(kind, {"pos": place, "button": 1, "touch": False}))
    app.turn(0)
    return 1000 * (time.perf_counter() - began)


def _idle_percent(app: App) -> float:
    """The share of one core that a still picture takes."""
    app.turn(0.2)
    began, used = time.perf_counter(), time.process_time()
    while time.perf_counter() - began < IDLE_SECONDS:
        app.turn(min(app.patience() or IDLE_SECONDS, IDLE_SECONDS))
    return 100 * (time.process_time() - used) / (time.perf_counter() - began)


def _p99(times: list[float]) -> float:
    return round(quantiles(times, n=100)[98], 2)
