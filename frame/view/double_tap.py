"""What led to another screen, or brought another button under the finger, done once more just
after: a hand taps twice, and means once."""

from math import dist

import pygame

from frame.view.inputs import Drag, Hover, Input, Key, Press, Release

SECONDS = 0.5
SHARE = 0.08
"""How far from the first tap the second may be, in heights of the window."""
PRESSING = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE)
"""Keys that press a button. Esc twice is two steps back."""


class DoubleTap:
    """Knows of the last touch or key that led on; after `until`, or once something
    else was done, nothing is held against it."""

    def __init__(self) -> None:
        self._led: Input | None = None
        self.until = 0.0

    def led_on(self, event: Input, now: float) -> None:
        """This led to something else."""
        self._led, self.until = event, now + SECONDS

    def is_second(self, event: Input, now: float, height: int) -> bool:
        """Whether an input begins the same once more, in a window of this height."""
        if isinstance(event, Release | Drag | Hover):
            return False
        is_same = now < self.until and self._is_as_before(event, height)
        self._led = self._led if is_same else None
        return is_same

    def _is_as_before(self, event: Input, height: int) -> bool:
        match self._led, event:
            case Release(_, before), Press(_, at):
                return dist(before, at) < SHARE * height
            case Key(before), Key(code):
                return before == code and code in PRESSING
        return False
