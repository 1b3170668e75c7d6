"""Today's set: what is practised in one sitting, how it goes on, and how it ends.

It is made once, by `todays.py`, and asks nobody how late it is: how each exercise went is handed
in. It ends by itself, with an exercise that is sure.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.ladder import below
from frame.practice.mastery import Mastery, State
from frame.practice.rungs import Asked, Rung


class Because(StrEnum):
    """Why an exercise is in."""

    DUE = "due"
    WEAK = "weak"
    CONFUSABLE = "confusable"
    NEW = "new"
    HARD = "hard"
    SOON = "soon"
    SURE = "sure"
    CALLED = "called"
    FLASHED = "flashed"
    TELLING = "telling"
    """It tells which of some habits is behind earlier answers."""


class Chosen(NamedTuple):
    """An exercise of the set: why it is in, and for which item, "" for none; all its items; how
    likely it is to be right."""

    exercise: Exercise
    because: Because
    item: str
    items: frozenset[str]
    family: Family
    success: float

    @property
    def easier(self) -> "Chosen":
        """The same a rung lower; where there is none, as it is."""
        is_there = self.exercise.kind is not Kind.READ and self.exercise.asked is Asked.SHOWN
        rung = below(self.exercise.rung)
        if not is_there or rung is Rung.WATCH:
            return self
        return self._replace(exercise=self.exercise.at(rung))


class Done(NamedTuple):
    """How an exercise went: `right` means unaided, or as the tool led; how long all of it took, but
    for pauses."""

    right: bool
    seconds: float


class Left(NamedTuple):
    """A set that was left before its end, on a day: what was done, what was known before, and how
    many minutes were set for it, of which fewer may have been asked."""

    day: date
    today: "Today"
    done: tuple[Done, ...]
    before: Mastery
    minutes: float

    @property
    def used(self) -> float:
        """The minutes of what was done."""
        return sum(one.seconds for one in self.done) / 60


MISSES = 2
"""After so many in a row something surer comes."""


@dataclass(frozen=True, slots=True)
class Today:
    """The exercises in order, the first and the last sure; `spare` are others that are surer, for
    whoever has just missed some. After `minutes` only the last one is still to come."""

    exercises: tuple[Chosen, ...]
    spare: tuple[Chosen, ...]
    minutes: float
    seed: int

    def next(self, done: Sequence[Done]) -> Chosen | None:
        """What comes after what was done; None when that is enough for today."""
        if not self.exercises or self._is_over(done):
            return None
        if len(done) == len(self.exercises) - 1 or self._is_late(done):
            return self.exercises[-1]
        planned = self.exercises[len(done)]
        return self._surer(planned, done) if _has_just_missed(done) else planned

    def without(self, at: int) -> "Today":
        """The same without the exercise at this place, which is left out."""
        return replace(self, exercises=(*self.exercises[:at], *self.exercises[at + 1 :]))

    def _is_over(self, done: Sequence[Done]) -> bool:
        """Whether the last exercise was done already."""
        return len(done) == len(self.exercises) or (bool(done) and self._is_late(done[:-1]))

    def _is_late(self, done: Sequence[Done]) -> bool:
        return sum(one.seconds for one in done) >= 60 * self.minutes

    def _surer(self, planned: Chosen, done: Sequence[Done]) -> Chosen:
        """A spare exercise, one for each pair of misses; the planned one a rung lower where they
        are used up, or where its frame is not seen."""
        used = sum(_has_just_missed(done[:count]) for count in range(len(done)))
        if used < len(self.spare) and not planned.exercise.rung.is_unseen:
            return self.spare[used]
        return planned.easier

    def went(self, done: Sequence[Done], before: Mastery, after: Mastery) -> "Went":
        """What went well, of so many exercises done."""
        asked = [self.next(done[:count]) for count in range(len(done))]
        families = [one.family for one, how in zip(asked, done, strict=True) if one and how.right]
        return Went(len(done), Counter(families), *_risen(before, after))


class Went(NamedTuple):
    """What went well: how many exercises were done, how many were right of each family, and which
    items became fluent or are seen to be kept."""

    done: int
    right: Mapping[Family, int]
    fluent: tuple[str, ...]
    kept: tuple[str, ...]


def _risen(before: Mastery, after: Mastery) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The items that became fluent, and those that became kept."""
    risen = {
        item: one.state
        for item, one in sorted(after.standings.items())
        if one.state.rank > before.standing(item).state.rank
    }
    fluent = tuple(item for item, state in risen.items() if state is State.FLUENT)
    return fluent, tuple(item for item, state in risen.items() if state is State.KEPT)


def _has_just_missed(done: Sequence[Done]) -> bool:
    last = done[-MISSES:]
    return len(last) == MISSES and not any(one.right for one in last)
