"""Ctrl+C and a told end close the real window at once, whatever it waits for, and keep what must
be kept."""

import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from itertools import product
from pathlib import Path

import pytest
from processes import running
from proofs import some_daily

from frame.view.stopping import closed_by_signals

ROOT = Path(__file__).parents[2]
AT_ONCE = 5.0
"""Seconds until a process must be gone: it takes 0.2, but more on a computer that is busy."""

SETTLED = 0.3
"""Seconds until a process that is about to wait surely does."""

PROGRAM = """
import sys
import frame.app, frame.screens.start as start
from frame.cli import program
from frame.learner.settings import Age
from frame.learner.learners import Learner

build, wait = start.build_app, frame.app.next_events

def with_somebody(*given, **named):
    app = build(*given, **named)
    app.room.welcome(Learner.new("crab", "crab"), Age.MIDDLE)
    return app

def told(patience):
    print("waits", flush=True)
    return wait(patience)

start.build_app, frame.app.next_events = with_somebody, told
del sys.argv[1:]
program()
"""
RESIZED = """
import sys
import pygame
import frame.app, frame.screens.start as start
from frame.cli import program

wait, width = frame.app.next_events, int(sys.argv[1])
is_full, is_closed = "full" in sys.argv, "closed" in sys.argv
acts = [
    lambda: pygame.event.Event(pygame.KEYDOWN, key=pygame.K_F11, mod=0, unicode="", scancode=0),
    lambda: pygame.event.Event(pygame.WINDOWSIZECHANGED),
][not is_full:]

def told(patience):
    if len(acts) == 1 + is_full:
        print(pygame.display.get_window_size(), flush=True)
        pygame.display.set_mode((width, 300), pygame.RESIZABLE)
    if acts:
        return [acts.pop()()]
    if is_closed:
        return [pygame.event.Event(pygame.QUIT)]
    print("waits", flush=True)
    return wait(patience)

frame.app.next_events, start.USUAL_SIZE = told, (500, 400)
del sys.argv[1:]
program()
"""
FLASHING = """
import time
from decimal import Decimal
import pygame
from frame.app import open_window
from frame.practice.flashing import FlashSetting
from frame.resources import ASSETS
from frame.view.flash_run import FlashRun
from frame.view.lettering import Lettering
from frame.view.presenting import Presentation
from frame.view.stopping import closed_by_signals
from frame.view.theme import LIGHT

with closed_by_signals():
    pygame.font.init()
    window, way = open_window((320, 240)), Presentation("plain", None, 0.1)
    numbers, lettering = (Decimal(7),) * 15, Lettering(ASSETS / "fonts")
    run = FlashRun(FlashSetting(1, 15, 5.0), numbers, way, lettering, LIGHT)
    print("waits", flush=True)
    report = run.run(window, time.perf_counter)
    assert report.was_stopped and pygame.event.peek(pygame.QUIT)
    pygame.quit()
"""

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="no signals to send there")


@pytest.fixture(autouse=True)
def _heeds_interrupts() -> Iterator[None]:
    """What a shell starts behind itself does not heed them, nor does what that starts."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(params=["dummy", "x11"])
def surroundings(request: pytest.FixtureRequest, tmp_path: Path) -> dict[str, str]:
    """What a process needs to have a window of its own, an unseen one and a real one."""
    needed = {"SDL_VIDEODRIVER": request.param, "XDG_DATA_HOME": str(tmp_path),
              "PYTHONPATH": str(ROOT), "PYGAME_HIDE_SUPPORT_PROMPT": "1"}  # fmt: skip
    if request.param == "x11":
        if shutil.which("Xvfb") is None:
            pytest.skip("no Xvfb on this computer")
        needed["DISPLAY"] = request.getfixturevalue("display")
    return needed


def signalled(script: str, surroundings: dict[str, str], *signals: int) -> tuple[int, str]:
    """The exit status of a script that gets these signals while it waits, and what it said."""
    command = sys.executable, "-c", script
    with running(*command, stderr=subprocess.PIPE, **surroundings) as process:
        assert process.stdout is not None and process.stdout.readline() == "waits\n"
        time.sleep(SETTLED)
        for one in signals:
            process.send_signal(one)
        _, said = process.communicate(timeout=AT_ONCE)
    return process.returncode, said


SIGNALS = list(product(["dummy", "x11"], [signal.SIGINT, signal.SIGTERM, signal.SIGHUP]))
OFTEN = [("dummy", signal.SIGINT), ("x11", signal.SIGTERM)]
"""A window is closed alike by whichever signal, an unseen one as a real one."""


@pytest.mark.parametrize(
    ("surroundings", "one"), some_daily(SIGNALS, OFTEN, several=True), indirect=["surroundings"]
)
def test_a_signal_closes_the_window_and_what_must_be_kept_is(
    surroundings: dict[str, str], one: int
) -> None:
    assert signalled(PROGRAM, surroundings, one) == (128 + one, "")
    file = Path(surroundings["XDG_DATA_HOME"], "bead-frame", "learners.sqlite")
    with closing(sqlite3.connect(file)) as database:
        assert database.execute("SELECT ended IS NOT NULL FROM sitting").fetchall() == [(1,)]


WINDOWS = list(product(["dummy", "x11"], ["closed", "told to end", "full"]))
ENDS = [("dummy", "closed"), ("x11", "full")]
"""An unseen window comes to its end like a real one; being full is another matter."""


@pytest.mark.parametrize(
    ("surroundings", "way"), some_daily(WINDOWS, ENDS, several=True), indirect=["surroundings"]
)
def test_the_window_is_as_large_as_it_was_when_it_came_to_its_end(
    surroundings: dict[str, str], way: str
) -> None:
    """Whichever way it came; a full one as large as it was before."""
    opened = []
    for width in (400, 450):
        command = sys.executable, "-c", RESIZED, str(width), way
        with running(*command, **surroundings) as process:
            assert process.stdout is not None
            opened.append(process.stdout.readline())
            if way != "closed":
                assert process.stdout.readline() == "waits\n"
                time.sleep(SETTLED)
                process.send_signal(signal.SIGTERM)
            process.communicate(timeout=AT_ONCE)
    assert opened == ["(500, 400)\n", "(400, 300)\n"]


@pytest.mark.parametrize("surroundings", some_daily(["dummy", "x11"], ["dummy"]), indirect=True)
def test_more_signals_are_no_traceback(surroundings: dict[str, str]) -> None:
    command = sys.executable, "-c", PROGRAM
    with running(*command, stderr=subprocess.PIPE, **surroundings) as process:
        assert process.stdout is not None and process.stdout.readline() == "waits\n"
        time.sleep(SETTLED)
        end = time.monotonic() + AT_ONCE
        while process.poll() is None and time.monotonic() < end:
            process.send_signal(signal.SIGINT)
            time.sleep(0.001)
        _, said = process.communicate(timeout=AT_ONCE)
    assert (process.returncode, said) == (128 + signal.SIGINT, "")


def test_a_run_of_flashed_numbers_is_stopped(surroundings: dict[str, str]) -> None:
    """It is to take six seconds, more than the process has."""
    assert signalled(FLASHING, surroundings, signal.SIGINT) == (0, "")


def test_afterwards_signals_mean_what_they_meant() -> None:
    before = [signal.getsignal(one) for one in (signal.SIGINT, signal.SIGTERM)]
    with closed_by_signals() as came:
        assert signal.getsignal(signal.SIGINT) not in before
    assert [signal.getsignal(one) for one in (signal.SIGINT, signal.SIGTERM)] == before
    assert came == [] and signal.set_wakeup_fd(-1) == -1


def test_a_signal_that_is_to_be_ignored_still_is() -> None:
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        with closed_by_signals() as came:
            signal.raise_signal(signal.SIGHUP)
    finally:
        signal.signal(signal.SIGHUP, before)
    assert came == []
