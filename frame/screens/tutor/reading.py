"""What takes long is read from the record beside the window's thread. The children of a class are,
one after another; and once, as long as nothing more is kept of them."""

from collections.abc import Callable, Iterable
from concurrent.futures import Future
from contextlib import closing
from functools import partial
from typing import TypeVar

from frame.aside import settle
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError
from frame.report.class_reading import Mark, Seen, mark_of, seen_beside
from frame.room import Room
from frame.tutor_desk import Read

ANSWER_SECONDS = 0.05
"""How long after one question whether something is done the next one is."""


Found = TypeVar("Found")


def read_beside(room: Room, read: Callable[[Store], Found]) -> "Future[Found]":
    """What is read on a connection of its own, beside the window."""
    if room.store.path is None:  # What is in memory is this thread's alone.
        return read_now(room, read)
    return room.aside.do(partial(_read_second, room.store, read))


def read_now(room: Room, read: Callable[[Store], Found]) -> "Future[Found]":
    """What is read at once, as nobody waits long for it."""
    future: Future[Found] = Future()
    settle(future, partial(read, room.store))
    return future


def _read_second(store: Store, read: Callable[[Store], Found]) -> Found:
    with closing(store.second()) as second:
        return read(second)


class ClassReading:
    """What is known by now of each child that was asked for."""

    def __init__(self, room: Room) -> None:
        self._room, self._read = room, room.tutor.read
        self._asked: tuple[Learner, ...] = ()

    def ask(self, learners: Iterable[Learner]) -> None:
        """Have those read that were not, or of whom something was kept since."""
        self._asked = tuple(learners)
        for one in self._asked:
            mark, read = self._mark(one), self._read.get(one)
            if read is None or mark is None or read.mark != mark or _is_in_vain(read.seen):
                self._read[one] = Read(mark, self._begun(one))

    def _mark(self, learner: Learner) -> Mark | None:
        now, none = self._room.now(), tuple[Mark, ...]()
        marks = self._room.keeper.read(lambda store: (mark_of(store, learner, now),), none)
        return next(iter(marks), None)

    def _begun(self, learner: Learner) -> "Future[Seen]":
        room = self._room
        return room.aside.do(partial(seen_beside, room.store, learner, room.now()))

    @property
    def _of_asked(self) -> "list[Future[Seen]]":
        return [self._read[one].seen for one in self._asked]

    @property
    def done(self) -> int:
        """How many are read."""
        return sum(one.done() for one in self._of_asked)

    @property
    def is_done(self) -> bool:
        """Whether all are."""
        return self.done == len(self._asked)

    def seen(self, learners: Iterable[Learner]) -> tuple[Seen, ...]:
        """Some of those that are read, without whoever could not be."""
        asked = (self._read[one].seen for one in learners if one in self._asked)
        return tuple(one.result() for one in asked if _is_read(one))

    @property
    def unread(self) -> int:
        """How many could not be read."""
        return sum(map(_is_in_vain, self._of_asked))

    def call_off(self) -> None:
        """What is not read yet need not be."""
        for one in self._asked:
            if self._read[one].seen.cancel():
                del self._read[one]


def _is_in_vain(one: "Future[Seen]") -> bool:
    return one.done() and not _is_read(one)


def _is_read(one: "Future[Seen]") -> bool:
    if not one.done() or one.cancelled():
        return False
    try:
        one.result()
    except StoreError:
        return False
    return True
