"""What takes long, done beside the window's thread, so that the window goes on."""

from collections.abc import Callable
from concurrent.futures import Future
from queue import SimpleQueue
from threading import Thread
from typing import TypeVar

Done = TypeVar("Done")


class Aside:
    """Does one thing after the other on a thread of its own, begun with the first. The program
    ends without waiting for it, which an executor of the standard library would not allow."""

    def __init__(self) -> None:
        self._waiting: SimpleQueue[Callable[[], None]] = SimpleQueue()
        self._thread: Thread | None = None

    def do(self, work: Callable[[], Done]) -> "Future[Done]":
        """Have this done when all before it is; it must touch nothing of the window."""
        future: Future[Done] = Future()
        self._waiting.put(lambda: settle(future, work))
        if self._thread is None:
            self._thread = Thread(target=self._go_on, daemon=True)
            self._thread.start()
        return future

    def _go_on(self) -> None:
        while True:
            self._waiting.get()()


def settle(future: "Future[Done]", work: Callable[[], Done]) -> None:
    """Do what was not called off, for the future to tell; an error is raised where it is asked."""
    if not future.set_running_or_notify_cancel():
        return
    try:
        future.set_result(work())
    except BaseException as error:
        future.set_exception(error)
