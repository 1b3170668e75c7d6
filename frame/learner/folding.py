"""What is folded from a learner's record: kept beside it, gone on with, or made anew.

The record alone is the truth. What is kept here counts the attempts it came from; where they are
not those of the record any more, because a file was merged or a clock went back, all is folded
again from the first attempt.
"""

import json
from contextlib import closing
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from frame.learner.rows import Place, try_of_attempt
from frame.practice.standing import Ladder

if TYPE_CHECKING:
    from frame.course.attempts import Attempt
    from frame.learner.store import Learner, Store
    from frame.practice.ladder import LadderRules

WHAT = "standing"
"""Under this it is kept."""
_FIRST = Place("", "", 0)


@dataclass
class Fold:
    """Where a learner stands, folded from so many attempts, of which the one at `last` is the
    last."""

    ladder: Ladder
    attempts: int = 0
    last: Place = _FIRST
    _kept: int = field(default=0, compare=False)

    @classmethod
    def of(cls, store: "Store", learner: "Learner", rules: "LadderRules") -> "Fold":
        """The fold of a record by these rules. Raises StoreError."""
        attempts = store.count_attempts(learner)
        fold = _as_kept(store, learner, rules)
        if fold is not None:
            fold._take(store, learner)
            if fold.attempts == attempts:
                return fold
        fold = cls(Ladder(rules))
        fold._take(store, learner)
        return fold

    def _take(self, store: "Store", learner: "Learner") -> None:
        """Go on with what the record has after the last attempt."""
        for place, one in store.tries_after(learner, self.last):
            self.attempts, self.last = self.attempts + 1, place
            if one is not None:
                self.ladder.add(one)

    def add(self, attempt: "Attempt", place: Place) -> bool:
        """An attempt that was made just now; whether it comes after all others, as it must for the
        fold to be that of the record."""
        if place <= self.last:
            return False
        self.attempts, self.last = self.attempts + 1, place
        if attempt.ended:
            self.ladder.add(try_of_attempt(attempt))
        return True

    @property
    def is_kept(self) -> bool:
        """Whether all of it was kept already."""
        return self.attempts == self._kept

    def to_text(self) -> str:
        """What is kept of it."""
        plain = {"attempts": self.attempts, "last": self.last, "ladder": self.ladder.to_plain()}
        return json.dumps(plain, separators=(",", ":"))


def fold_beside(store: "Store", learner: "Learner", rules: "LadderRules") -> Fold:
    """The fold of a record, read on a connection of its own, so that it may be made beside the
    window. Raises StoreError."""
    with closing(store.second()) as second:
        return Fold.of(second, learner, rules)


def _as_kept(store: "Store", learner: "Learner", rules: "LadderRules") -> Fold | None:
    """What was kept, if it came about by these rules."""
    text = store.folded(learner, WHAT)
    try:
        plain: Any = json.loads(text or "null")
        ladder = Ladder.from_plain(plain["ladder"], rules) if plain else None
        if ladder is None:
            return None
        attempts = int(plain["attempts"])
        return Fold(ladder, attempts, Place(*plain["last"]), attempts)
    except (KeyError, TypeError, ValueError):
        return None
