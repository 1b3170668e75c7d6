"""The shared folder, looked after beside the window: at the start, when somebody stands up, every
few minutes and at the end. A drive that is away or slow holds up nothing."""

from collections.abc import Callable
from concurrent.futures import Future
from contextlib import closing, suppress
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from frame.aside import Aside
from frame.learner.keeper import Keeper
from frame.learner.store import Store, StoreError

if TYPE_CHECKING:
    from frame.learner.sharing import Shared, Stamp

EVERY = 180.0
"""Seconds from one look into the folder to the next."""
ANSWER_SECONDS = 0.5
"""How long after one question whether it is over the next one is."""
AT_END = 5.0
"""Seconds that the end of a window waits for the folder."""
_PATIENCE = 5.0
"""Seconds that the file here is waited for beside the window's thread."""


class Sharer:
    """Has a thread of its own, as a drive may not answer for long."""

    def __init__(self, keeper: Keeper, now: Callable[[], datetime]) -> None:
        self.aside = Aside()
        self.last: Shared | None = None
        """What came of it last; None before the first time."""
        self.trouble: StoreError | None = None
        """Why the folder can't be used now."""
        self.untold: StoreError | None = None
        """The same, where it is the folder's, until somebody was told; it is told once."""
        self._keeper, self._now = keeper, now
        self._store: Store | None = None
        self._folder: Path | None = None
        self._under_way: Future[Shared] | None = None
        self._due_at = 0.0
        self._written: Stamp | None = None
        self._was_here = False

    @property
    def folder(self) -> Path | None:
        """The folder that is shared; None for none."""
        if self._store is not self._keeper.store:
            self._store = self._keeper.store
            self._folder = self._keeper.read(Store.shared_folder, None)
        return self._folder

    @property
    def is_busy(self) -> bool:
        """Whether the folder is being looked into."""
        return self._under_way is not None

    def use(self, folder: Path | None, now: float) -> None:
        """Share this folder from now on, None for none; the file of this computer goes from the one
        before."""
        from frame.learner.sharing import own_name, take_away

        before, name = self.folder, self._keeper.read(own_name, None)
        if before is not None and name is not None:
            self.aside.do(partial(take_away, before / name))  # After what is under way.
        self._keeper.write(lambda store: store.share_in(folder), "shared folder")
        self._store, self._folder = self._keeper.store, folder
        self.last = self.trouble = self.untold = self._written = None
        self.look(now)

    def look(self, now: float) -> None:
        """Have the folder looked into as soon as can be."""
        self._due_at = now

    def advance(self, now: float, is_here: bool) -> bool:
        """Let time pass; `is_here` tells whether somebody sits here. Whether anything came that was
        not here before."""
        if self._was_here and not is_here:
            self.look(now)
        self._was_here = is_here
        if self._under_way is not None:
            if not self._under_way.done():
                return False
            return self._end(self._under_way)
        if self.folder is not None and now >= self._due_at:
            self._due_at = now + EVERY
            self._begin()
        return False

    def wakes_in(self, now: float) -> float | None:
        """In how many seconds `advance` has something to do; None never."""
        if self.folder is None and not self.is_busy:
            return None
        return ANSWER_SECONDS if self.is_busy else max(0.0, self._due_at - now)

    def finish(self) -> None:
        """The window is closed: what is not in the folder goes there, where that takes no longer
        than somebody would wait."""
        with suppress(Exception):  # It was told, or goes the next time.
            if self._under_way is not None:
                self._end(self._under_way, AT_END)
            if self.folder is not None and self.trouble is None:
                self._end(self._begin(), AT_END)

    def _begin(self) -> "Future[Shared]":
        folder, written, now, own = self.folder, self._written, self._now(), self._keeper.store.path

        def work() -> "Shared":
            # Merging is needed only after somebody was greeted.
            from frame.learner.sharing import Shared, share

            if own is None or folder is None:
                return Shared()
            with closing(Store(own, _PATIENCE)) as store:
                return share(store, folder, written, now)

        self._under_way = self.aside.do(work)
        return self._under_way

    def _end(self, done: "Future[Shared]", wait: float = 0.0) -> bool:
        """Take what came of it; whether anything came that was not here."""
        self._under_way = None
        try:
            self.last = done.result(wait)
        except (StoreError, OSError) as error:
            trouble = error if isinstance(error, StoreError) else StoreError(None, str(error))
            if self.trouble is None and trouble.where != self._keeper.store.path:
                self.untold = trouble
            self.trouble = trouble
            return False
        self.trouble = self.untold = None
        self._written = self.last.written
        return self.last.is_new
