"""Stages for flashed numbers, on clocks of their own, that keep what they show."""

from math import ceil

import pygame

from frame.view.flash_stage import WindowStage


def thinned(picture, step):
    """Every `step`th pixel of every `step`th line."""
    return pygame.surfarray.pixels3d(picture).swapaxes(0, 1)[::step, ::step].copy()


class Recorder:
    """Keeps what it shows, each `step`th pixel of it, and when.

    The clock runs when it is looked at or waited for. With a `refresh` a show lasts until the
    screen's next picture; `delays` make those shows late that are so numbered; `stop` is when
    the person has had enough.
    """

    def __init__(self, step, refresh, delays, stop):
        self.step, self.refresh, self.delays, self.stop = step, refresh, delays or {}, stop
        self.now, self.drawn = 0.0, None
        self.onsets, self.pictures = [], []

    def seconds(self):
        self.now += 1e-4
        return self.now

    def wait(self, seconds):
        is_stopped = self.now < self.stop <= self.now + seconds
        self.now = self.stop if is_stopped else self.now + seconds
        return is_stopped

    def draw(self, picture):
        self.drawn = thinned(picture, self.step)

    def show(self):
        self.now += self.delays.get(len(self.onsets), 0.0)
        if self.refresh:
            self.now = ceil(self.now * self.refresh - 1e-9) / self.refresh
        self.onsets.append(self.now)
        self.pictures.append(self.drawn)


class Filmed(WindowStage):
    """The real window, that keeps what it shows: each eighth pixel of it."""

    STEP = 8

    def __init__(self, window, rect):
        self.now, self.onsets, self.pictures = 0.0, [], []
        super().__init__(window, rect, self._clock)

    def _clock(self):
        self.now += 1e-4
        return self.now

    def wait(self, seconds):
        self._keep()
        self.now += seconds
        return False

    def show(self):
        super().show()
        self._keep()

    def _keep(self):
        picture = thinned(self.window, self.STEP)
        if not self.pictures or (picture != self.pictures[-1]).any():
            self.onsets.append(self.now)
            self.pictures.append(picture)
