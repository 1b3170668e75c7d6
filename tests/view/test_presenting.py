"""Finding the way to the screen: on screens of paper, and on the real window."""

import time
from dataclasses import dataclass
from random import Random

import pygame
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.view import presenting
from frame.view.presenting import (
    PATHS,
    USUAL,
    Presentation,
    WindowShower,
    find_presentation,
    probe,
    stable_refresh,
)


@dataclass
class Behaviour:
    """How a path behaves: seconds a show takes, give or take; the frames it waits for, if any."""

    call: float
    jitter: float = 0.0
    refresh: float | None = None
    opens: bool = True


class PaperShower:
    """Shows that take their time on the test's own clock."""

    is_closing = False

    def __init__(self, **behaviours):
        self.behaviours = dict(zip([path.name for path in PATHS], behaviours.values(), strict=True))
        self.now, self.opened, self.open_times, self.random = 5.0, [], {}, Random(1)

    def clock(self):
        self.now += 1e-5
        return self.now

    def open(self, path):
        self.opened.append(path.name)
        if not self.behaviours[path.name].opens:
            raise pygame.error("not here")

    def restore(self):
        self.opened.append(USUAL)

    def show(self):
        path = self.behaviours[self.opened[-1]]
        self.now += path.call + self.random.uniform(0, path.jitter)
        if path.refresh:
            self.now = (int(self.now * path.refresh) + 1) / path.refresh
            self.now += self.random.uniform(0, 1e-4)


def probed(plain, texture, synchronised):
    shower = PaperShower(plain=plain, texture=texture, synchronised=synchronised)
    return probe(shower, shower.clock), shower.opened


QUICK = Behaviour(0.0002, 0.00005)
SLOW = Behaviour(0.013, 0.002)
NONE = Behaviour(0.0, opens=False)


@pytest.mark.parametrize("refresh", [50.0, 59.94, 60.0, 75.0, 144.0, 240.0])
def test_a_screen_that_is_waited_for_is_chosen(refresh):
    found, opened = probed(QUICK, Behaviour(0.001), Behaviour(0.001, 0.0005, refresh))
    assert found.path == opened[-1] == "texture-vsync"
    assert found.refresh == pytest.approx(refresh, rel=2e-4)


def test_without_one_the_quickest_path_is_chosen():
    found, opened = probed(QUICK, SLOW, SLOW)
    assert (found.path, found.refresh) == ("plain", None)
    assert found.call_ms == pytest.approx(0.2, abs=0.1)
    assert opened == ["plain", "texture", "texture-vsync", "plain"]
    assert probed(SLOW, QUICK, SLOW)[0].path == "texture"


@pytest.mark.parametrize("call", [0.004, 0.0125, 1 / 60])
def test_a_slow_call_is_not_taken_for_a_screen(call):
    steady = Behaviour(call, 1e-5)
    found, _ = probed(QUICK, steady, steady)
    assert (found.path, found.refresh) == ("plain", None)


def test_a_steady_call_beats_one_that_is_as_quick_but_uneven():
    uneven = Behaviour(0.0005, 0.004)
    assert probed(uneven, Behaviour(0.003), uneven)[0].path == "texture"


def test_a_path_that_does_not_open_is_left_out():
    found, opened = probed(NONE, QUICK, NONE)
    assert found.path == opened[-1] == "texture"


def test_where_no_path_opens_the_window_is_as_it_was():
    found, opened = probed(NONE, NONE, NONE)
    assert found == Presentation(USUAL, None, 0.0)
    assert opened[-1] == USUAL


def test_where_the_best_opens_only_once_the_next_best_serves():
    shower = PaperShower(plain=QUICK, texture=SLOW, synchronised=SLOW)
    open_first = shower.open

    def open_once(path):
        open_first(path)
        if shower.opened[-1] == "plain" and shower.opened.count("plain") == 2:
            raise pygame.error("only once")

    shower.open = open_once
    assert probe(shower, shower.clock).path == shower.opened[-1] == "texture"


def test_a_window_that_is_to_close_is_not_opened_anew():
    shower = PaperShower(plain=QUICK, texture=QUICK, synchronised=QUICK)
    shower.is_closing = True
    assert probe(shower, shower.clock).path == "plain"
    assert shower.opened == ["plain"]


@pytest.mark.parametrize(
    ("milliseconds", "refresh"),
    [
        ([16.7] * 10, 59.9),
        ([16.7] * 9, None),
        ([16.2, 16.7, 17.1] * 4, 60.0),
        ([16.0, 17.1] * 20, None),
        ([30.0, 2.0, 45.0] + [13.3] * 10 + [40.0], 75.2),
        ([40.0] * 20, None),  # 25 Hz is no screen's.
        ([1.5] * 20, None),  # Nor is 667 Hz.
        ([0.0] * 20, None),
        ([], None),
    ],
)
def test_what_is_a_stable_refresh(milliseconds, refresh):
    found = stable_refresh([each / 1000 for each in milliseconds])
    assert found == (refresh and pytest.approx(refresh, abs=0.1))


@given(st.floats(31, 480), st.integers(0, 80), st.randoms(use_true_random=False))
def test_a_refresh_is_found_behind_an_uneven_start(refresh, uneven, random):
    start = [random.choice((0.0005, 0.05)) * (1 + number % 3) for number in range(uneven)]
    assert stable_refresh([*start, *[1 / refresh] * 20]) == pytest.approx(refresh, rel=0.06)


def darken(window):
    window.fill((28, 34, 48))


def test_the_real_window_is_opened_anew_as_it_was(monkeypatch):
    monkeypatch.setattr(presenting, "SETTLE", 0.0)
    monkeypatch.setattr(presenting, "TRIAL_SECONDS", 0.05)
    for name in ("SDL_FRAMEBUFFER_ACCELERATION", "SDL_RENDER_VSYNC"):
        monkeypatch.setenv(name, "0")
    pygame.display.init()
    before = pygame.display.set_mode((320, 240), pygame.RESIZABLE)
    pygame.display.set_caption("harbour")
    try:
        found, window = find_presentation(before, darken, time.perf_counter)
        assert found.path in [USUAL, *(path.name for path in PATHS)]
        assert window is pygame.display.get_surface()
        assert window.get_size() == (320, 240)
        assert not window.get_flags() & pygame.FULLSCREEN
        assert pygame.display.get_caption()[0] == "harbour"
        assert tuple(window.get_at((5, 5)))[:3] == (28, 34, 48)
    finally:
        pygame.display.quit()


def test_a_window_that_is_resized_meanwhile_stays_so(monkeypatch):
    monkeypatch.setattr(presenting, "SETTLE", 0.0)
    pygame.display.init()
    shower = WindowShower(pygame.display.set_mode((320, 240)), darken)
    try:
        pygame.display.set_mode((400, 300))
        shower.open(PATHS[0])
        assert pygame.display.get_window_size() == (400, 300)
        assert tuple(shower.window.get_at((390, 290)))[:3] == (28, 34, 48)
    finally:
        pygame.display.quit()
