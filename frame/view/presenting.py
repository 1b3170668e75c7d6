"""Which way pictures take to the screen, found out by trying.

SDL shows a window's picture in a plain way or through the graphics card, and there perhaps with
each picture waiting for the screen. Which is quick and steady differs from computer to computer
and cannot be asked for, so each is tried on the real window, once, before the first run.
"""

import os
from collections.abc import Callable, Sequence
from contextlib import suppress
from itertools import pairwise
from statistics import fmean, median, pstdev
from typing import NamedTuple, Protocol

import pygame

from frame.view.canvas import ask_least_size

Clock = Callable[[], float]
"""Seconds that never run backwards."""
Paint = Callable[[pygame.Surface], None]
"""Paints a window, however large."""

# As PsychoPy measures it (by its documentation): ten intervals alike, out of at most a hundred.
STEADY_SHOWS = 10
MOST_SHOWS = 100
STEADY_SECONDS = 0.001
REFRESHES = (30.0, 500.0)

LEAST_SHOWS = 12
TRIAL_SECONDS = 1.0
CHECKS = 8
SETTLE = 0.5
"""Seconds between opening the window and timing it. It also keeps the openings from flickering:
there are at most two a second."""

LET_GO = 0.1
"""Seconds before a window closes. SDL wakes itself by a message to its window, over a connection of
its own; under X11 one that comes to a window which is gone ends the process."""

_ADVICE = ("SDL_FRAMEBUFFER_ACCELERATION", "SDL_RENDER_VSYNC")


class ScreenPath(NamedTuple):
    """A way to the screen: its name, and what SDL is told of it."""

    name: str
    accelerated: bool
    synchronised: bool

    @property
    def advice(self) -> dict[str, str | None]:
        """What SDL is told, by the names of its variables."""
        values = (str(int(self.accelerated)), str(int(self.synchronised)))
        return dict(zip(_ADVICE, values, strict=True))


USUAL = "usual"
"""The name of the path that the window had at first, where none of ours works."""

PATHS = (
    ScreenPath("plain", False, False),
    ScreenPath("texture", True, False),
    ScreenPath("texture-vsync", True, True),
)


class Presentation(NamedTuple):
    """How pictures are shown: the path's name, the refresh in Hz where showing waits steadily
    for the screen, else None, and the milliseconds that showing takes."""

    path: str
    refresh: float | None
    call_ms: float


class Trial(NamedTuple):
    """What was measured of a path; `spread_ms` is the standard deviation of `call_ms`."""

    path: ScreenPath
    refresh: float | None
    call_ms: float
    spread_ms: float

    @property
    def presentation(self) -> Presentation:
        """What is told of it."""
        return Presentation(self.path.name, self.refresh, self.call_ms)


class Shower(Protocol):
    """What is tried: the window, opened anew for each path."""

    def open(self, path: ScreenPath) -> None:
        """Open the window by a path and let it settle. Raises pygame.error."""

    def restore(self) -> None:
        """Open the window by the path it had at first. Raises pygame.error."""

    def show(self) -> None:
        """Show a small place of the window. Raises pygame.error."""

    @property
    def is_closing(self) -> bool:
        """Whether the window was told to close."""


class WindowShower:
    """The real window: its size, full screen and caption stay as they are, or as somebody makes
    them meanwhile. What `paint` paints on it is seen."""

    def __init__(self, window: pygame.Surface, paint: Paint) -> None:
        self.window = window
        self.paint = paint
        self._size = window.get_size()
        is_full = window.get_flags() & pygame.FULLSCREEN
        self._flags = pygame.FULLSCREEN if is_full else pygame.RESIZABLE
        self._caption = pygame.display.get_caption()[0]
        self._first_advice = {name: os.environ.get(name) for name in _ADVICE}

    def open(self, path: ScreenPath) -> None:
        """Open the window by a path and let it settle. Raises pygame.error."""
        self._open(path.advice)

    def restore(self) -> None:
        """Open the window by the path it had at first. Raises pygame.error."""
        self._open(self._first_advice)

    def _open(self, advice: dict[str, str | None]) -> None:
        for name, value in advice.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
        if pygame.display.get_surface():
            pygame.event.pump()
            self._size = pygame.display.get_window_size()
            pygame.time.wait(round(1000 * LET_GO))
        pygame.display.quit()
        pygame.display.init()
        self.window = pygame.display.set_mode(self._size, self._flags)
        pygame.display.set_caption(self._caption)
        ask_least_size()
        self._paint()
        pygame.time.wait(round(1000 * SETTLE))
        pygame.event.pump()
        if pygame.display.get_window_size() != self._size:
            self.window = pygame.display.get_surface()
            self._paint()

    def _paint(self) -> None:
        self.paint(self.window)
        pygame.display.flip()

    @property
    def is_closing(self) -> bool:
        """Whether the window was told to close; it is left open for whoever takes events next."""
        return pygame.event.peek(pygame.QUIT)

    def show(self) -> None:
        """Show a place in the window's middle as large as a number."""
        width, height = self._size
        pygame.display.update(pygame.Rect(width // 3, height * 2 // 5, width // 3, height // 5))


def find_presentation(
    window: pygame.Surface, paint: Paint, clock: Clock
) -> tuple[Presentation, pygame.Surface]:
    """The best presentation here, and the window, opened anew by it: the old one is gone, and what
    `paint` paints is seen meanwhile.

    It takes some seconds, so it is done once while the program runs. Raises pygame.error where
    no window can be opened any more.
    """
    shower = WindowShower(window, paint)
    return probe(shower, clock), shower.window


def probe(shower: Shower, clock: Clock, paths: Sequence[ScreenPath] = PATHS) -> Presentation:
    """Try every path, and leave the window open by the best. Where it is to close meanwhile,
    which one opened anew would not know, it stays as it is. Raises pygame.error where no path
    works."""
    trials = []
    for path in paths:
        if (trial := _try(shower, path, clock)) is None:
            continue
        if shower.is_closing:
            return trial.presentation
        trials.append(trial)
    for trial in sorted(trials, key=_rank):
        with suppress(pygame.error):
            shower.open(trial.path)
            return trial.presentation
    shower.restore()
    return Presentation(USUAL, None, 0.0)


def _rank(trial: Trial) -> tuple[bool, float]:
    """The better the smaller: a screen that is waited for, then quick and steady calls."""
    return trial.refresh is None, trial.call_ms + trial.spread_ms


def _try(shower: Shower, path: ScreenPath, clock: Clock) -> Trial | None:
    """What a path is worth, or None where it does not work."""
    with suppress(pygame.error):
        shower.open(path)
        return measure_path(path, shower.show, clock)
    return None


def measure_path(path: ScreenPath, show: Callable[[], None], clock: Clock) -> Trial:
    """Show again and again, for a second or a hundred times, and see how long each takes."""
    show()
    ends = [clock()]
    calls: list[float] = []
    while len(calls) < MOST_SHOWS and (
        len(calls) < LEAST_SHOWS or ends[-1] - ends[0] < TRIAL_SECONDS
    ):
        began = clock()
        show()
        ends.append(clock())
        calls.append(1000 * (ends[-1] - began))
    refresh = stable_refresh([after - before for before, after in pairwise(ends)])
    if refresh and not _is_kept(1 / refresh, show, clock):
        refresh = None
    return Trial(path, refresh, median(calls), pstdev(calls))


def stable_refresh(intervals: Sequence[float]) -> float | None:
    """The refresh in Hz behind the seconds between shows, or None: ten in a row are
    alike, and they are a screen's. All that lie by the ten refine it."""
    for at in range(len(intervals) - STEADY_SHOWS + 1):
        ten = intervals[at : at + STEADY_SHOWS]
        usual = median(ten)
        is_steady = max(ten) - min(ten) <= _give(usual)
        if is_steady and 1 / REFRESHES[1] <= usual <= 1 / REFRESHES[0]:
            return 1 / fmean(each for each in intervals if abs(each - usual) <= _give(usual))
    return None


def _give(period: float) -> float:
    """By how many seconds intervals may differ from a period: a millisecond, or a tenth of a
    period that is short."""
    return min(STEADY_SECONDS, period / 10)


def _is_kept(period: float, show: Callable[[], None], clock: Clock) -> bool:
    """Whether shows come a period apart although half of it was spent otherwise: a call that
    is slow, and does not wait for the screen, then comes later."""
    show()
    last = clock()
    for _ in range(CHECKS):
        while clock() < last + period / 2:
            pass
        show()
        now = clock()
        if abs(now - last - period) > _give(period):
            return False
        last = now
    return True
