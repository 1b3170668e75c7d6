"""The window's icon and the name by which desktops know it."""

import os

import pygame
from pilot import the_pictures

from frame.app import APP_ID
from frame.cli import english
from frame.screens.start import build_app


def test_the_window_has_its_icon_and_name_before_it_is_seen(monkeypatch, tmp_path):
    """Not every system lets them change afterwards."""
    done = []
    set_icon, set_mode = pygame.display.set_icon, pygame.display.set_mode

    def seen_icon(icon):
        done.append(("icon", icon.get_size()))
        set_icon(icon)

    def seen_mode(*how, **named):
        names = os.environ["SDL_VIDEO_X11_WMCLASS"], os.environ["SDL_VIDEO_WAYLAND_WMCLASS"]
        done.append(names)
        return set_mode(*how, **named)

    monkeypatch.setattr(pygame.display, "set_icon", seen_icon)
    monkeypatch.setattr(pygame.display, "set_mode", seen_mode)
    for name in ("SDL_VIDEO_X11_WMCLASS", "SDL_VIDEO_WAYLAND_WMCLASS"):
        monkeypatch.setenv(name, "cli.py")
    build_app(tmp_path, english()).room.store.close()
    assert done == [("icon", (64, 64)), (APP_ID, APP_ID)]


def test_the_icon_is_seen_on_light_and_dark_and_small():
    """It brings its own ground; and on that the bead is at the beam even at 16 pixels."""
    icon = the_pictures().get("icon", 16)
    middle = [icon.get_at((8, y)) for y in range(16)]
    assert icon.get_at((0, 0)).a < 128
    assert all(colour.a == 255 for colour in middle[1:-1])
    bead = [y for y, (red, _, blue, _) in enumerate(middle) if blue - red > 40]
    beam = [y for y, colour in enumerate(middle) if sum(colour[:3]) < 260 and 2 < y < 8]
    assert beam and bead and min(bead) - max(beam) <= 2
