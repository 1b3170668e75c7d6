"""The part of a window that screens are laid out in: never smaller than they can do with, and no
taller than they can use. What is beyond it has the colour of its ground."""

import ctypes

import pygame

from frame.view.sdl import loaded_sdl

LEAST = (320, 240)
"""In a smaller window a part of the screen is seen, from its top left corner."""
_MOST_WINDOWS = 1000
"""SDL numbers the windows that it opens; only the last is there still."""
TALLEST = 1.6
"""The height of what is used of a tall window, in its widths: 10 to 16, as on a tablet held
upright."""


def ask_least_size() -> None:
    """Ask that the open window become no smaller than LEAST; a window manager may heed it."""
    sdl = loaded_sdl()
    find = getattr(sdl, "SDL_GetWindowFromID", None)
    ask = getattr(sdl, "SDL_SetWindowMinimumSize", None)
    if find is None or ask is None:
        return
    find.restype, ask.argtypes = ctypes.c_void_p, [ctypes.c_void_p, ctypes.c_int, ctypes.c_int]
    window = next(filter(None, map(find, range(1, _MOST_WINDOWS))), None)
    if window is not None:
        ask(window, *LEAST)


def canvas_in(size: tuple[int, int]) -> pygame.Rect:
    """The place in a window of this size that screens are laid out in.

    >>> canvas_in((1280, 720)), canvas_in((1080, 2400)), canvas_in((100, 90))
    (<rect(0, 0, 1280, 720)>, <rect(0, 336, 1080, 1728)>, <rect(0, 0, 320, 240)>)
    """
    width = max(size[0], LEAST[0])
    height = max(LEAST[1], min(size[1], round(TALLEST * width)))
    return pygame.Rect(0, max(0, (size[1] - height) // 2), width, height)


class Canvas:
    """What screens paint on, and its place in the window."""

    def __init__(self, window: pygame.Surface) -> None:
        self.window = window
        self.place = canvas_in(window.get_size())
        is_within = window.get_rect().contains(self.place)
        self.surface = (
            window.subsurface(self.place) if is_within else pygame.Surface(self.place.size)
        )

    @property
    def size(self) -> tuple[int, int]:
        """For how large a window screens are laid out."""
        return self.place.size

    def show(self, places: list[pygame.Rect]) -> None:
        """Show what was painted in these places of the canvas."""
        if self.surface.get_parent() is None:
            self.window.blit(self.surface, self.place)
            pygame.display.update()
            return
        shown = [place.move(self.place.topleft) for place in places]
        if self.surface.get_rect() in places:
            shown += self._fill_around()
        pygame.display.update(shown)

    def _fill_around(self) -> list[pygame.Rect]:
        """What lies above and below the canvas gets the colour of its corner."""
        window, ground = self.window.get_rect(), self.surface.get_at((0, 0))
        above = pygame.Rect(0, 0, window.w, self.place.top)
        below = pygame.Rect(0, self.place.bottom, window.w, window.bottom - self.place.bottom)
        return [self.window.fill(ground, place) for place in (above, below) if place.h]
