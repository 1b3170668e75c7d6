"""The real window as the stage of a run: one place of it changes, and the person can stop it."""

from collections.abc import Callable

import pygame

from frame.view.inputs import Closed, Key, Press, Resized, input_of
from frame.view.theme import Colour
from frame.view.waiting import next_events

Clock = Callable[[], float]
"""Seconds that never run backwards."""

FADE = 0.5
"""Seconds of a fade."""

FADE_STEPS = 12
_STOPPING_KEYS = (pygame.K_ESCAPE, pygame.K_F5, pygame.K_PAGEDOWN, pygame.K_PAGEUP)
"""Those of a presenter's remote; the one that makes the screen black stops a run too."""


class WindowStage:
    """A place of the window, and the events that arrive meanwhile."""

    def __init__(self, window: pygame.Surface, rect: pygame.Rect, clock: Clock) -> None:
        self.window = window
        self.rect = rect
        self.seconds = clock
        self._size = window.get_size()
        self._kept: list[pygame.event.Event] = []
        self._stops_at_press = self._keeps_keys = self._is_closing = False

    def open(self, ground: Colour, picture: pygame.Surface) -> bool:
        """Fade to the ground with a picture in its place; whether the run is to stop. Until then
        a press stops nothing: it may be the second one of whoever started the run."""
        is_stopped = self._fade(ground, picture)
        self._stops_at_press = True
        return is_stopped

    def close(self, rest: float, ground: Colour) -> None:
        """Rest so many seconds and fade to the ground. The keys that come meanwhile, an answer
        it may be, and what concerns the window, go to whoever takes events next."""
        self._keeps_keys = True
        self._wait_all(rest)
        self._fade(ground)
        for event in self._kept:
            pygame.event.post(event)

    def wait(self, seconds: float) -> bool:
        """Wait for events at most so long; whether the run is to stop."""
        stops = [self._take(event) for event in next_events(max(0.0, seconds))]
        return any(stops)

    def draw(self, picture: pygame.Surface) -> None:
        """Draw a picture in its place, unseen as yet."""
        self.window.blit(picture, self.rect)

    def show(self) -> None:
        """Show what was drawn."""
        pygame.display.update(self.rect)

    def _fade(self, ground: Colour, picture: pygame.Surface | None = None) -> bool:
        """The whole window goes over to a ground, with a picture in its place, in slow steps;
        whether the run is to stop."""
        before, after = self.window.copy(), self.window.copy()
        after.fill(ground)
        if picture:
            after.blit(picture, self.rect)
        is_stopped = False
        for step in range(1, FADE_STEPS + 1):
            after.set_alpha(round(255 * step / FADE_STEPS))
            self.window.blit(before, (0, 0))
            self.window.blit(after, (0, 0))
            pygame.display.flip()
            is_stopped = self._wait_all(FADE / FADE_STEPS) or is_stopped
        return is_stopped

    def _wait_all(self, seconds: float) -> bool:
        """Wait so long, unless the window is to close; whether the run was to stop."""
        end, is_stopped = self.seconds() + seconds, False
        while not self._is_closing and (left := end - self.seconds()) > 0:
            is_stopped = self.wait(left) or is_stopped
        return is_stopped

    def _take(self, event: pygame.event.Event) -> bool:
        """Whether an event stops the run."""
        taken = input_of(event, self._size)
        self._is_closing |= isinstance(taken, Closed)
        if isinstance(taken, Closed) or (isinstance(taken, Resized) and self._has_changed()):
            self._kept.append(event)
            return True
        if isinstance(taken, Key):
            if self._keeps_keys or taken.is_black:  # Where a board is below, it goes black.
                self._kept.append(event)
            return taken.is_black or taken.code in _STOPPING_KEYS
        return isinstance(taken, Press) and self._stops_at_press

    def _has_changed(self) -> bool:
        surface = pygame.display.get_surface()
        return surface is not None and surface.get_size() != self._size
