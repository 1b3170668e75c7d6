"""The window with somebody in it, and a room to lay screens out in."""

import gc
import sys
from pathlib import Path

import pygame
import pytest
from calls import called, until_called
from pilot import Pilot
from robot import Heard, begin

from frame.language.speech import RATE
from frame.learner.settings import Settings

for folder in ("view", "simulated"):
    sys.path.append(str(Path(__file__).resolve().parents[1] / folder))
"""What meters flashing is that of tests/view, and who has practised for long is simulated."""


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    pilot.seat("Otter")
    yield pilot
    pilot.close()


@pytest.fixture
def flashes(pilot, monkeypatch):
    """Flashed numbers take no time: the clock is put on instead of waiting for it."""
    gc.freeze()  # each run collects first, and need not look through all that tests have loaded
    monkeypatch.setattr("frame.view.flash_stage.next_events", pilot.sleep)
    pilot.tick = 0.00001


@pytest.fixture(scope="module")
def mixer():
    """What clips are decoded by; to end it takes a while."""
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    yield
    pygame.mixer.quit()


@pytest.fixture
def heard(pilot, mixer):
    """A loudspeaker that notes what is played and said."""
    heard = Heard()
    pilot.room.hear(heard)
    return heard


@pytest.fixture
def calling(pilot):
    """A call without sound, just begun."""
    screen = begin(pilot, called())
    until_called(pilot)
    return screen


@pytest.fixture(scope="module")
def shared_pilot(tmp_path_factory):
    pilot = Pilot(tmp_path_factory.mktemp("layout"), (800, 480))
    pilot.seat("Hedgehog")
    yield pilot
    pilot.close()


@pytest.fixture
def room(shared_pilot):
    keeper, learner = shared_pilot.room.keeper, shared_pilot.room.learner
    yield shared_pilot.room
    shared_pilot.room.keeper, shared_pilot.room.learner = keeper, learner
    shared_pilot.room.settings = Settings()
    shared_pilot.room.lessons.clear()
