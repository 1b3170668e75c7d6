"""What is known of whoever is here, folded from the record beside the window."""

from concurrent.futures import Future
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from frame.aside import Aside, settle
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError

if TYPE_CHECKING:
    from frame.learner.folding import Fold
    from frame.learner.rows import Told
    from frame.learner.settings import Settings
    from frame.practice.behind import Done
    from frame.practice.growth import Growth
    from frame.practice.mastery import Mastery
    from frame.practice.standing import Ladder

# What is imported within functions is needed by nobody before somebody was greeted.


class Known:
    """Where a learner stands, what they know and how it came about; as at the very first where
    nobody is here, or the record can't be read."""

    def __init__(self, aside: Aside) -> None:
        self.aside = aside
        self._folding: Future[Fold] | None = None
        self._lately: Future[list[Done]] | None = None

    def begin(self, store: Store, learner: Learner, settings: "Settings") -> None:
        """Fold what this learner did, by these settings."""
        from frame.learner.folding import Fold, FoldRules, fold_beside
        from frame.learner.lately import done_lately, lately_beside

        rules = FoldRules(settings.ladder_rules, settings.mastery_rules)
        conventions = settings.conventions
        if store.path is None:  # What is in memory is this thread's alone.
            self._folding, self._lately = Future(), Future()
            settle(self._folding, partial(Fold.of, store, learner, rules))
            settle(self._lately, partial(done_lately, store, learner, conventions))
        else:
            self._folding = self.aside.do(partial(fold_beside, store, learner, rules))
            self._lately = self.aside.do(partial(lately_beside, store, learner, conventions))

    def forget(self) -> None:
        """Nobody is here."""
        self._folding = self._lately = None

    def add(self, told: "Told") -> bool:
        """An attempt more; whether it counts with those before. Else all must be folded anew."""
        fold = self._fold
        return fold is None or fold.add(told)

    def note(self, done: "Done") -> None:
        """An exercise more that tells what may be behind; of the oldest nobody asks any more."""
        from frame.practice.behind import MOST

        self.lately.append(done)
        del self.lately[:-MOST]

    @property
    def lately(self) -> "list[Done]":
        """What the learner did lately, oldest first."""
        try:
            return self._lately.result() if self._lately is not None else []
        except StoreError:
            return []

    def ladder(self, settings: "Settings") -> "Ladder":
        """Where the learner stands, waited for where that is not known yet."""
        from frame.practice.standing import Ladder

        return self._fold.ladder if self._fold else Ladder(settings.ladder_rules)

    def mastery(self, settings: "Settings") -> "Mastery":
        """How well the learner knows each item."""
        from frame.practice.mastery import Mastery

        return self._fold.mastery if self._fold else Mastery(settings.mastery_rules)

    @property
    def is_counted(self) -> bool:
        """Whether all of it is known by now, and need not be waited for."""
        return all(one is None or one.done() for one in (self._folding, self._lately))

    @property
    def growth(self) -> "Growth":
        """What has grown, waited for as the rest."""
        from frame.practice.growth import Growth

        return self._fold.growth if self._fold else Growth()

    @property
    def last_at(self) -> datetime | None:
        """When the learner last attempted anything; None for never."""
        fold = self._fold
        return datetime.fromisoformat(fold.last.at) if fold and fold.last.at else None

    @property
    def to_keep(self) -> str | None:
        """What is to be kept for another day; None where that is not known yet, or was kept."""
        if self._folding is None or not self._folding.done():
            return None
        return self._fold.to_text() if self._fold and not self._fold.is_kept else None

    @property
    def _fold(self) -> "Fold | None":
        try:
            return self._folding.result() if self._folding is not None else None
        except StoreError:
            return None
