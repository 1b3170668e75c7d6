"""What is folded from a learner's record: kept beside it, gone on with, or made anew.

The record alone is the truth. What is kept here counts the attempts it came from, and has the
tappings by which they were told; where they are not those of the record any more, because a file
was merged or a clock went back, all is folded again from the first attempt. A tapping tells of what
comes after it alone.
"""

import json
from contextlib import closing
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any, NamedTuple

from frame.learner.rows import Place, Told
from frame.practice.growth import Growth
from frame.practice.ladder import USUAL_RULES, LadderRules
from frame.practice.mastery import MIDDLE, Mastery, MasteryRules
from frame.practice.observed import evidence_of
from frame.practice.pace import Tapping, pace_at
from frame.practice.standing import Ladder

if TYPE_CHECKING:
    from frame.learner.learners import Learner
    from frame.learner.store import Store

WHAT = "standing"
"""Under this it is kept."""
_FIRST = Place("", "", 0)


class FoldRules(NamedTuple):
    """The rules of the ladder and of mastery."""

    ladder: LadderRules = USUAL_RULES
    mastery: MasteryRules = MIDDLE


@dataclass
class Fold:
    """Where a learner stands, how well each item is known and what has grown, folded from so many
    attempts, of which the one at `last` is the last, by the paces that tappings gave."""

    rules: FoldRules
    ladder: Ladder
    mastery: Mastery
    attempts: int = 0
    last: Place = _FIRST
    tappings: tuple[Tapping, ...] = ()
    growth: Growth = field(default_factory=Growth)
    _kept: int = field(default=0, compare=False)

    @classmethod
    def empty(cls, rules: FoldRules) -> "Fold":
        """That of somebody who has done nothing."""
        return cls(rules, Ladder(rules.ladder), Mastery(rules.mastery))

    @classmethod
    def of(cls, store: "Store", learner: "Learner", rules: FoldRules) -> "Fold":
        """The fold of a record by these rules. Raises StoreError."""
        attempts = store.count_attempts(learner)
        tappings = tuple(one for one in store.tappings(learner) if one.pace is not None)
        fold = _as_kept(store, learner, rules, tappings)
        if fold is not None:
            fold._go_on(store, learner)
            if fold.attempts == attempts:
                return fold
        fold = cls.empty(rules)
        fold.tappings = tappings
        fold._go_on(store, learner)
        return fold

    def _go_on(self, store: "Store", learner: "Learner") -> None:
        """Go on with what the record has after the last attempt."""
        for told in store.told_after(learner, self.last):
            self.add(told)

    def add(self, told: Told) -> bool:
        """An attempt more; whether it comes after all others, as it must for the fold to be that
        of the record."""
        if told.place <= self.last:
            return False
        self.attempts, self.last = self.attempts + 1, told.place
        if told.of_ladder is not None:
            self.ladder.add(told.of_ladder)
            self.growth.climb(told.of_ladder, self.ladder, _seconds(told.place))
        if told.of_items is not None:
            pace = pace_at(self.tappings, told.of_items.at)
            for evidence in evidence_of(told.of_items, pace):
                self.mastery.add(evidence)
                self.growth.learn(evidence.item, self.mastery, evidence.at)
        return True

    @property
    def is_kept(self) -> bool:
        """Whether all of it was kept already."""
        return self.attempts == self._kept

    def to_text(self) -> str:
        """What is kept of it."""
        plain = {
            "attempts": self.attempts,
            "last": self.last,
            "tappings": self.tappings,
            "ladder": self.ladder.to_plain(),
            "mastery": self.mastery.to_plain(),
            "growth": self.growth.to_plain(),
        }
        return json.dumps(plain, separators=(",", ":"))


def fold_beside(store: "Store", learner: "Learner", rules: FoldRules) -> Fold:
    """The fold of a record, read on a connection of its own, so that it may be made beside the
    window. Raises StoreError."""
    with closing(store.second()) as second:
        return Fold.of(second, learner, rules)


def _as_kept(
    store: "Store", learner: "Learner", rules: FoldRules, tappings: tuple[Tapping, ...]
) -> Fold | None:
    """What was kept, if it came about by these rules and these tappings."""
    text = store.folded(learner, WHAT)
    try:
        plain: Any = json.loads(text or "null")
        ladder = Ladder.from_plain(plain["ladder"], rules.ladder)
        mastery = Mastery.from_plain(plain["mastery"], rules.mastery)
        growth = Growth.from_plain(plain["growth"])
        attempts, last = int(plain["attempts"]), Place(*plain["last"])
        told_by = tuple(Tapping(*one) for one in plain["tappings"])
        if ladder is None or mastery is None or _until(last, told_by) != _until(last, tappings):
            return None
        return Fold(rules, ladder, mastery, attempts, last, tappings, growth, attempts)
    except (KeyError, TypeError, ValueError):
        return None


def _until(last: Place, tappings: tuple[Tapping, ...]) -> tuple[Tapping, ...]:
    """The tappings before the last attempt: later ones tell of none so far."""
    at = _seconds(last) if last.at else 0.0
    return tuple(one for one in tappings if one.at <= at)


def _seconds(place: Place) -> float:
    """The time of an attempt, in seconds since the epoch."""
    return datetime.fromisoformat(place.at).timestamp()
