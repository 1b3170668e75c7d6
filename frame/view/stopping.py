"""Ctrl+C, and the system's word to end, close the window as its own corner does.

SDL waits for events in C, where no handler of Python's runs until an event comes. So signals are
noted in a pipe, and a thread that reads it posts the event that closes a window.
"""

import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import pygame

AGAIN = 0.1
"""Seconds after which the event is posted again: a window that is opened anew loses it."""

_NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")


@contextmanager
def closed_by_signals() -> Iterator[list[int]]:
    """Meanwhile the window closes where a signal asks the program to end; in the list are the
    numbers of those that came. To be entered in the main thread."""
    came = list[int]()
    reading, writing = os.pipe()
    if sys.platform != "win32":  # There a signal's byte may wait, and Python does not ask.
        os.set_blocking(writing, False)
    is_over = threading.Event()
    closer = threading.Thread(target=_close_when_told, args=(reading, is_over), daemon=True)
    closer.start()
    wakened = signal.set_wakeup_fd(writing, warn_on_full_buffer=False)
    handlers = {one: signal.signal(one, lambda number, _: came.append(number)) for one in _heeded()}
    try:
        yield came
    finally:
        for one, handler in handlers.items():
            signal.signal(one, handler)
        signal.set_wakeup_fd(wakened)
        is_over.set()
        os.close(writing)
        closer.join()
        os.close(reading)


def _heeded() -> list[signal.Signals]:
    """The signals there are on this system, but for those that are to be ignored, as by `nohup`."""
    known = [getattr(signal, name) for name in _NAMES if hasattr(signal, name)]
    return [one for one in known if signal.getsignal(one) is not signal.SIG_IGN]


def _close_when_told(reading: int, is_over: threading.Event) -> None:
    """Wait for a byte in the pipe, then post until it is over; an empty read is the pipe's end."""
    if not os.read(reading, 1):
        return
    while not is_over.is_set():
        with suppress(pygame.error):  # There may be no window at the moment.
            pygame.event.post(pygame.event.Event(pygame.QUIT))
        is_over.wait(AGAIN)
