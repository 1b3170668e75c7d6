"""SDL's own library, the one that pygame has loaded: what pygame itself does not pass on."""

import ctypes
import sys

import pygame


def loaded_sdl() -> ctypes.CDLL | None:
    """The library, or None where it can't be reached."""
    try:
        return ctypes.CDLL("SDL2.dll" if sys.platform == "win32" else pygame.base.__file__)
    except OSError:
        return None
