"""What a board needs of a window: what a key types, a mouse that only moves, a file let go, and
colours on a wall that a projector lights."""

import ctypes
import os

import pygame
import pytest
from contrast import PROJECTOR, contrast, projected_contrast, role

from frame.view.inputs import MOUSE, Drag, Dropped, Hover, Key, input_of
from frame.view.sdl import loaded_sdl
from frame.view.theme import THEMES
from frame.view.waiting import next_events

SIZE = (800, 480)
WHITE, BLACK = (255, 255, 255), (0, 0, 0)
TEXT_ON_A_WALL = 4.5
TEXT_PAIRS = [("ink", "ground"), ("button_ink", "button")]


def taken(kind, **facts):
    return input_of(pygame.event.Event(kind, facts), SIZE)


def test_a_key_tells_what_it_types():
    plus = taken(pygame.KEYDOWN, key=pygame.K_EQUALS, mod=pygame.KMOD_SHIFT, unicode="+")
    assert plus == Key(pygame.K_EQUALS, shift=True, text="+")
    paste = taken(pygame.KEYDOWN, key=pygame.K_v, mod=pygame.KMOD_LCTRL, unicode="\x16")
    assert paste == Key(pygame.K_v, control=True, text="\x16")
    assert Key(pygame.K_F5).text == ""


def test_a_mouse_that_moves_is_told_from_one_that_drags():
    def moved(**more):
        return taken(pygame.MOUSEMOTION, pos=(3, 4), rel=(0, 0), **more)

    assert moved(buttons=(0, 0, 0), touch=False) == Hover((3, 4))
    assert moved(buttons=(0, 0, 1), touch=False) == Hover((3, 4))
    assert moved(buttons=(1, 0, 0), touch=False) == Drag(MOUSE, (3, 4))
    assert moved(buttons=(0, 0, 0), touch=True) is None


def test_a_file_that_is_let_go_is_its_path():
    assert taken(pygame.DROPFILE, file="/nets/crates.yaml") == Dropped("/nets/crates.yaml")
    assert taken(pygame.DROPTEXT, text="46 + 39") is None


class DropEvent(ctypes.Structure):
    """SDL_DropEvent, as large as an SDL_Event."""

    _fields_ = (
        ("type", ctypes.c_uint32),
        ("timestamp", ctypes.c_uint32),
        ("file", ctypes.c_void_p),
        ("window", ctypes.c_uint32),
        ("rest", ctypes.c_uint8 * 64),
    )


@pytest.mark.parametrize("name", [b"crates.yaml", "Körbe.yaml".encode(), b"K\xf6rbe.yaml", b"\xff"])
def test_the_bytes_of_a_name_are_kept_and_no_event_is_lost(name):
    if (sdl := loaded_sdl()) is None:
        pytest.skip("SDL is not reached")
    pygame.display.init()
    next_events(0)
    before, behind = pygame.event.Event(pygame.USEREVENT), pygame.event.Event(pygame.QUIT)
    pygame.event.post(before)
    sdl.SDL_strdup.restype = ctypes.c_void_p
    drop = DropEvent(pygame.DROPFILE, 0, sdl.SDL_strdup(name), 1)
    assert sdl.SDL_PushEvent(ctypes.byref(drop)) == 1
    pygame.event.post(behind)
    first, dropped, last = next_events(0)
    assert (first, last) == (before, behind)
    assert input_of(dropped, SIZE) == Dropped(os.fsdecode(name))
    pygame.display.quit()


@pytest.mark.parametrize(
    ("one", "other", "projector", "ratio"),
    # By hand: the veil v is 1 / (projector - 1), the ratio (Y + v) / (y + v).
    [
        (WHITE, BLACK, 7.0, 7.0),
        (WHITE, BLACK, 2.0, 2.0),
        (WHITE, BLACK, 21.0, 21.0),
        (WHITE, (0x76, 0x76, 0x76), 7.0, 3.3541),
        (WHITE, WHITE, 7.0, 1.0),
    ],
)
def test_projected_contrast(one, other, projector, ratio):
    assert projected_contrast(one, other, projector) == pytest.approx(ratio, abs=2e-3)
    assert projected_contrast(other, one, projector) == projected_contrast(one, other, projector)


def test_a_wall_takes_contrast_away():
    assert PROJECTOR == 7.0
    for theme in THEMES.values():
        for one, other in TEXT_PAIRS:
            pair = role(theme, one), role(theme, other)
            assert 1 < projected_contrast(*pair) < contrast(*pair)


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("pair", TEXT_PAIRS, ids=" on ".join)
def test_the_texts_of_the_board_can_be_read_on_a_wall(name, pair):
    one, other = (role(THEMES[name], part) for part in pair)
    assert projected_contrast(one, other) >= TEXT_ON_A_WALL
