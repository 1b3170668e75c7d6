"""Hour after hour of play: what the window keeps in memory comes to an end in the first."""

import gc
import sys
import tracemalloc

import pygame
import pytest
from pilot import Pilot
from player import HOUR, STATM, Player, kept, memory

MOST = 8e6
"""Bytes by which it may rise after the first hour: what is known of sums and answers lately is kept
for the next ones, and it takes some hours until there is as much of it as ever."""
PLAYED = [(2, 1), pytest.param(20, 64, marks=pytest.mark.proof)]
"""Hours, and how many acts at most there are of each lesson, set and sum. Of an hour as much is
played as so many acts take; in the rest of it nothing is done."""


@pytest.fixture
def pilot(tmp_path, monkeypatch):
    if not STATM.exists():
        tracemalloc.start()
    pilot = Pilot(tmp_path, (800, 480))
    monkeypatch.setattr("frame.view.flash_stage.next_events", pilot.sleep)
    monkeypatch.setattr("frame.view.voice.open_live", lambda: None)
    pilot.tick = 0.00001
    pilot.seat("Otter")
    yield pilot
    pilot.close()
    pygame.mixer.quit()
    tracemalloc.stop()


@pytest.mark.parametrize(("hours", "acts"), PLAYED)
def test_after_an_hour_of_play_memory_rises_no_more(pilot, hours, acts):
    player, taken = Player(pilot, acts), []
    for hour in range(1, hours + 1):
        player.play()
        taken.append(memory())
        # To the error stream: pytest-xdist shows no other one with -s.
        print(f"hour {hour}: {taken[-1] / 1e6:.1f} MB", file=sys.stderr)
    share = player.played / (hours * HOUR)
    print(f"{player.acts} acts; {share:.0%} of the time is played", file=sys.stderr)
    gc.unfreeze()  # Else no cache of a module would be found among the objects.
    for name, count in sorted(kept(pilot.room).items()):
        print(f"  {name}: {count}", file=sys.stderr)
    assert max(taken[1:]) - taken[0] < MOST
