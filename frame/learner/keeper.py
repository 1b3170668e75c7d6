"""The store as a window uses it: what can't be written now waits and is tried again, and what can't
be read is told.

So a child goes on while a disk is full or another program holds the file, and nothing of it is
lost as long as the window is open.
"""

from collections.abc import Callable
from itertools import count
from typing import TypeVar

from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble

Write = Callable[[Store], object]
Answer = TypeVar("Answer")


class Keeper:
    """Writes to a store in the order in which they were asked for, each until it is on disk."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.trouble: StoreError | None = None
        """What went wrong last; None since something went right."""
        self.was_removed = False
        """Whether something belonged to somebody who was removed in another window."""
        self._waiting: dict[object, Write] = {}
        self._numbers = count()

    @property
    def is_unsaved(self) -> bool:
        """Whether something waits to be written."""
        return bool(self._waiting)

    def write(self, write: Write, name: str = "") -> None:
        """Write to the store, now or as soon as it can be. A write that was made once more must
        change nothing; one with a name takes the place of what waits under it."""
        self._waiting[name or next(self._numbers)] = write
        self.send()

    def send(self) -> None:
        """Try what waits, up to the first that can't be written."""
        for name, write in list(self._waiting.items()):
            try:
                write(self.store)
            except StoreError as error:
                if error.trouble is not Trouble.GONE:
                    self.trouble = error
                    return
                self.was_removed = True  # So it has no place any more.
            del self._waiting[name]
            self.trouble = None

    def read(self, read: Callable[[Store], Answer], otherwise: Answer) -> Answer:
        """What the store answers, or else this."""
        try:
            return read(self.store)
        except StoreError as error:
            self.trouble = error
            return otherwise

    def use(self, store: Store) -> None:
        """From now on it is this store; what waits goes there."""
        self.store.close()
        self.store = store
        self.send()
