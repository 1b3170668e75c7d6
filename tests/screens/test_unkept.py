"""A window that is closed while not all is on disk: it waits, and says so."""

import sqlite3
from contextlib import closing

import pygame
import pytest
from kept import AROUND
from pilot import Pilot

from frame.app import Push, Replace
from frame.learner.store import Store
from frame.screens.choosing.home import Home
from frame.screens.choosing.unkept import Unkept
from frame.screens.choosing.who import Who


@pytest.fixture
def closed(tmp_path):
    """A window whose learner did something while another process holds the file, then closed: who
    holds it."""
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Seal")
    path = pilot.room.store.path
    with closing(sqlite3.connect(path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        pilot.room.set(free_rods=7)
        pilot.app.close()
        pilot.room.leave()
        pilot.app.take(Push(Unkept(pilot.room)))
        yield pilot, holder
    pilot.close()


def test_it_says_why_it_stays_and_closes_by_itself(closed):
    pilot, holder = closed
    lines = pilot.lines()
    for key in ("store.unkept", "store.held", "store.waiting"):
        assert pilot.words.text(key) in lines
    pilot.wait(10, 20)
    assert isinstance(pilot.screen, Unkept)
    holder.execute("COMMIT")
    for later in (5, 10):
        pilot.app.pass_time(pilot.clock + later)
    assert not pilot.app.screens
    with closing(Store(pilot.room.store.path)) as store:
        (seal,) = store.learners()
        assert store.settings(seal).free_rods == 7


def test_esc_does_not_lose_it_but_closing_once_more_does(closed):
    pilot, _ = closed
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Unkept)
    pilot.post(pygame.QUIT)
    assert not pilot.app.screens and pilot.room.is_unsaved


def test_its_buttons_close_it_and_go_on(closed):
    pilot, _ = closed
    waiting = pilot.screen
    pilot.press_word("store.stay")
    assert isinstance(pilot.screen, Who) and waiting.goes_on
    pilot.app.take(Replace(Unkept(pilot.room)))
    pilot.press_word("store.close")
    assert not pilot.app.screens


def test_who_was_removed_in_another_window_is_told(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Seal")
    seal = pilot.room.learner
    with closing(Store(pilot.room.store.path)) as other:
        other.remove_learner(seal, pilot.now())
    told = pilot.words.text("store.removed", name="Seal")
    assert told not in pilot.lines()
    pilot.room.keeper.write(lambda store: store.begin_sitting("s", seal, AROUND, pilot.now()))
    assert isinstance(pilot.screen, Home) and told in pilot.lines()
    pilot.key(pygame.K_ESCAPE)
    pilot.welcome("Heron")
    assert pilot.words.text("store.removed", name="Heron") not in pilot.lines()
    pilot.close()
