"""Waiting for events without asking for them again and again.

pygame's own wait looks for an event every millisecond, which costs about 2 % of a core for a
still picture. SDL's wait sleeps until the system has one; it is in the library pygame has loaded.
"""

import ctypes
import os
from collections.abc import Callable

import pygame

from frame.view.sdl import loaded_sdl

Waiter = Callable[[int], object]
"""Waits at most so many milliseconds, -1 for ever."""


def _find_waiter() -> Waiter:
    """SDL's own wait where it can be reached, else pygame's."""
    wait = getattr(loaded_sdl(), "SDL_WaitEventTimeout", None)
    if wait is None:
        return _ask_again_and_again
    wait.argtypes, wait.restype = [ctypes.c_void_p, ctypes.c_int], ctypes.c_int
    return lambda milliseconds: wait(None, milliseconds)


def _ask_again_and_again(milliseconds: int) -> None:
    event = _event_of(lambda: pygame.event.wait(max(0, milliseconds)))
    if event.type != pygame.NOEVENT:
        pygame.event.post(event)


_wait = _find_waiter()


def next_events(patience: float | None) -> list[pygame.event.Event]:
    """Everything that has happened, after waiting for it at most `patience` seconds, or for
    ever."""
    waiting = _waiting()
    if not waiting and patience != 0:
        _wait(-1 if patience is None else max(1, round(patience * 1000)))
        waiting = _waiting()
    return waiting


def _waiting() -> list[pygame.event.Event]:
    """The events that wait, taken one by one: where pygame cannot make one, `get` loses all."""
    events = []
    while (event := _event_of(pygame.event.poll)).type != pygame.NOEVENT:
        events.append(event)
    return events


def _event_of(take: Callable[[], pygame.event.Event]) -> pygame.event.Event:
    """What pygame takes. It fails at a file let go whose name is no UTF-8; the name it gives as the
    cause then becomes one as Python writes such names."""
    try:
        return take()
    except SystemError as error:
        if not isinstance(error.__cause__, UnicodeDecodeError):
            raise
        return pygame.event.Event(pygame.DROPFILE, file=os.fsdecode(error.__cause__.object))
