"""A learner who plays hour after hour, with a tutor's class in between; what is kept meanwhile."""

import ctypes
import gc
import mmap
import tracemalloc
from collections import Counter
from functools import _lru_cache_wrapper
from itertools import cycle
from pathlib import Path
from random import Random

import pygame
from board_class import open_board, type_keys
from pupil import MISTAKES
from robot import do_right

from frame.app import Push
from frame.course.runner import Stage
from frame.learner.settings import Look
from frame.resources import ASSETS, VOICE
from frame.screens.choosing.home import Home
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import BeadMove
from frame.view.clips import MOST_SPRITES, ClipStore
from frame.view.lettering import Lettering
from frame.view.voice import Voice

STATM = Path("/proc/self/statm")
HOUR = 3600.0
MISTAKEN = 0.1
"""How often a mistake is made where it can be, before what is right."""
SIZES = ((800, 480), (1280, 720), (600, 960))
SUMS = ("46+39", "37*24", "3876/68", "12-30", "98765+43210", "8.5+2.75")
RUNS = "board: Runs\nitems:\n  - flash: 3 + 5 + 9\n    pace: 0.5\n  - call: 3 + 4\n    pace: 1\n"


class Player:
    """Plays in a window with sound; of each lesson, set and sum at most so many acts. `acts` counts
    them all, `played` has the seconds in which something was done."""

    def __init__(self, pilot, most):
        self.pilot, self.most = pilot, most
        self.random, self.acts, self.played = Random(1), 0, 0.0
        pilot.room.lettering = Lettering(ASSETS / "fonts")
        pilot.room.hear(Voice(ASSETS / "sounds", VOICE))
        pilot.room.clip_store = ClipStore(VOICE)  # Not the larger one that tests share.
        for store in (pilot.room.sounds.store, pilot.room.clip_store):
            _fill(store)
        pilot.room.set(all_open=True)
        self._lessons, self._sums = cycle(pilot.room.course.lessons), cycle(SUMS)
        self._looks = cycle(Look)

    def play(self):
        """An hour of the pilot's clock: everything in each size of window, then nothing."""
        begun = self.pilot.clock
        for size in SIZES:
            self._size = size
            for thing in (
                self._settings, self._lesson, self._beads, self._free, self._board, self._called,
                self._lesson, self._flashed, self._agenda, self._who,
            ):  # fmt: skip
                thing()
                self._go_home()
        played = self.pilot.clock - begun
        assert played < HOUR
        self.played += played
        self.pilot.wait(HOUR - played, 200)

    def _go_home(self):
        for _ in range(8):
            if isinstance(self.pilot.screen, Home):
                return
            self._key(pygame.K_ESCAPE, 0.2)
        raise AssertionError(f"Esc leads to {self.pilot.screen}")

    def _key(self, code, seconds):
        self.pilot.key(code)
        self.pilot.wait(seconds, 4)
        self.acts += 1

    def _lesson(self):
        self.pilot.open(next(self._lessons).id)
        self._work()

    def _beads(self):
        self._practise("practise.beads")

    def _called(self):
        self._practise("practise.called")

    def _flashed(self):
        self._practise("practise.flashed")

    def _practise(self, tab):
        for word in ("home.practise", "practise.more", tab, "practise.start"):
            self.pilot.press_word(word)
        self._work()

    def _work(self):
        """What is asked, with mistakes."""
        for _ in range(self.most):
            screen = self.pilot.screen
            is_lesson = isinstance(screen, LessonScreen)
            if isinstance(screen, Home) or (is_lesson and screen.runner.stage is Stage.END):
                return
            for mistake in MISTAKES:
                act = mistake(self.pilot) if self.random.random() < MISTAKEN else None
                if act is not None:
                    act()
                    self.pilot.wait(1.5, 6)
                    self.acts += 1
            do_right(self.pilot)
            self.acts += 1

    def _free(self):
        self.pilot.press_word("home.free")
        self.pilot.press(self.random.choice("−+"))
        for _ in range(self.most):
            rod, _ = self.random.choice(self.pilot.screen.field.rod_places())
            self.pilot.move(BeadMove(rod, self.random.choice((1, 2, -1, 5))))
            self.pilot.wait(0.5, 4)
            self.acts += 1

    def _board(self):
        board = open_board(self.pilot)
        for _ in range(2):
            type_keys(self.pilot, f"{next(self._sums)}\r")
            for _ in range(self.most // 2):
                self._key(pygame.K_PAGEDOWN, 1)
        self.pilot.app.take(board.back())

    def _agenda(self):
        board = open_board(self.pilot, RUNS)
        for _ in range(self.most // 2):
            self._key(pygame.K_PAGEDOWN, 2)
        self.pilot.app.take(board.back())

    def _settings(self):
        """Another look, in another size of window."""
        self.pilot.app.take(Push(SettingsScreen(self.pilot.room)))
        for _ in range(6):
            self._key(pygame.K_TAB, 0.5)
        self.pilot.room.set(look=next(self._looks))
        self.pilot.resize(self._size)

    def _who(self):
        """Somebody goes, and comes again."""
        self._key(pygame.K_ESCAPE, 1)
        self.pilot.press(self.pilot.room.learners()[0].nickname)


def _fill(store):
    """As many sprites are decoded as are kept, the longest: else they come over hours."""
    for path in sorted(VOICE.glob("*.ogg"), key=lambda one: one.stat().st_size)[-MOST_SPRITES:]:
        store.load(path.name)


def memory():
    """Bytes that this process has, once what is unused is gone and, where the C library can do so,
    given back; where the system does not tell, those that Python has traced."""
    gc.collect()
    if not STATM.exists():
        return tracemalloc.get_traced_memory()[0]
    getattr(ctypes.CDLL(None), "malloc_trim", lambda _: 0)(0)
    return mmap.PAGESIZE * int(STATM.read_text().split()[1])


def kept(room):
    """How many entries the caches hold, by name."""
    caches = Counter()
    for one in gc.get_objects():
        if isinstance(one, _lru_cache_wrapper) and one.__module__.startswith("frame."):
            caches[f"{one.__module__}.{one.__qualname__}"] += one.cache_info().currsize
    for name in ("_sprites", "_grounds"):
        caches[f"painter {name}"] = len(getattr(room.painter, name)._surfaces)
    for name, store in (("voice", room.sounds.store), ("calls", room.clip_store)):
        caches[f"decoded clips of the {name}"] = len(store._sprites)
    return caches
