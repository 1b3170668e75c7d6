"""A window of any size shows as much as it can, and takes touches where it is seen."""

import pygame
import pytest
from pilot import Pilot

from frame.screens.choosing.newcomer import ChooseFlag


@pytest.mark.parametrize("size", [(1, 1), (100, 90), (300, 1000), (40, 2000)])
def test_a_window_too_small_shows_a_part_and_takes_touches(tmp_path, size):
    pilot = Pilot(tmp_path, size)
    pilot.seat("Otter")
    pilot.repaint()
    assert pilot.app.window.get_size() == size
    pilot.close()


def test_a_touch_in_a_tall_window_means_what_is_seen_there(tmp_path):
    pilot = Pilot(tmp_path, (600, 1600))
    face = next(one for one in pilot.screen.buttons if one.text == "Seal")
    top = pilot.app.canvas.place.top
    assert top > 0
    at = face.place.centerx, face.place.centery + top
    for kind in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP):
        pilot.post(kind, pos=at, button=pygame.BUTTON_LEFT, touch=False)
    assert isinstance(pilot.screen, ChooseFlag) and pilot.screen.animal == "seal"
    ground = pilot.room.theme.ground
    assert pilot.app.window.get_at((0, 0))[:3] == pilot.app.window.get_at((0, 1599))[:3] == ground
    pilot.close()
