"""What has grown, with the days on which it did: folded with the ladder and the mastery, from the
same tries and by the same rules.

A week is counted from the first Monday of 1970, in UTC: wherever somebody lives, a week has seven
days, and the record has one order on every computer.
"""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Any, NamedTuple

from frame.practice.families import Family
from frame.practice.ladder import Try
from frame.practice.mastery import Mastery
from frame.practice.rungs import Asked, Rung
from frame.practice.schedule import DAY
from frame.practice.standing import Ladder
from frame.practice.tally import Tally
from frame.practice.why import Reason, Why, why_of

_VERSION = 2
_WEEK = 7 * DAY
_FIRST_MONDAY = 4 * DAY


def week_of(at: float) -> int:
    """The week of a time in seconds since the epoch."""
    return int((at - _FIRST_MONDAY) // _WEEK)


def monday_of(week: int) -> date:
    """The day on which a week begins.

    >>> monday_of(week_of(1777887000.0))  # The 4th of May 2026 is a Monday.
    datetime.date(2026, 5, 4)
    """
    return date.fromordinal(date(1970, 1, 5).toordinal() + 7 * week)


class Step(NamedTuple):
    """Where the ladder came to stand, with so many rods on the rung that `why` names, and when."""

    at: float
    family: Family
    rods: int
    why: Why

    @property
    def day(self) -> date:
        """Its day, in UTC."""
        return datetime.fromtimestamp(self.at, UTC).date()

    @property
    def place(self) -> tuple[int, Rung]:
        """The rods and the rung."""
        return self.rods, self.why.rung


class Numbers(NamedTuple):
    """How numbers were called or flashed: `rows` numbers of at most `digits` digits, so many
    seconds apart."""

    asked: Asked
    digits: int
    rows: int
    pace: float


@dataclass
class Growth:
    """When each item first came to be known; where the ladder came to stand, the oldest first; and
    how many tries each week had, of a family on the ladder and of called and flashed numbers. Equal
    to any other that came from the same record by the same rules."""

    first_known: dict[str, float] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    of_family: dict[tuple[Family, int], Tally] = field(default_factory=dict)
    of_numbers: dict[tuple[Numbers, int], Tally] = field(default_factory=dict)
    _stands: dict[Family, tuple[int, Rung]] = field(default_factory=dict)

    def learn(self, item: str, mastery: Mastery, at: float) -> None:
        """Something was told of an item, and the mastery has counted it."""
        if mastery.standing(item).state.is_known:
            self.first_known.setdefault(item, at)

    def climb(self, one: Try, ladder: Ladder, at: float) -> None:
        """Something was tried, and the ladder has counted it."""
        week = week_of(at)
        if one.is_on_ladder:
            key = one.family, week
            self.of_family[key] = self.of_family.get(key, Tally()).plus(one.right)
            self._step(one.family, ladder, at)
        elif one.asked is not Asked.SHOWN and one.terms:
            numbers = Numbers(one.asked, one.digits, one.terms, one.pace), week
            self.of_numbers[numbers] = self.of_numbers.get(numbers, Tally()).plus(one.right)

    def _step(self, family: Family, ladder: Ladder, at: float) -> None:
        """Note where the ladder stands with a family, if that is elsewhere than before."""
        rods, before = ladder.rods(family), self._stands.get(family)
        climb = ladder.climb(family, rods)
        if before == (rods, climb.rung):
            return
        why = why_of(climb)
        if before is None:
            why = Why(Reason.BEGIN, climb.rung)
        elif rods > before[0]:
            why = Why(Reason.ROD, climb.rung)
        self._stands[family] = rods, climb.rung
        self.steps.append(Step(at, family, rods, why))

    def to_plain(self) -> dict[str, Any]:
        """The values that JSON has."""
        return {
            "version": _VERSION,
            "first_known": self.first_known,
            "steps": self.steps,
            "of_family": [[*key, *tally] for key, tally in self.of_family.items()],
            "of_numbers": [[*key[0], key[1], *tally] for key, tally in self.of_numbers.items()],
        }

    @classmethod
    def from_plain(cls, plain: Any) -> "Growth":
        """The inverse. Raises ValueError, TypeError or KeyError for what this version did not
        write."""
        if plain["version"] != _VERSION:
            raise ValueError(plain["version"])
        growth = cls(dict(plain["first_known"]), [_step(*one) for one in plain["steps"]])
        growth._stands = {one.family: one.place for one in growth.steps}
        for family, week, *tally in plain["of_family"]:
            growth.of_family[Family(family), week] = Tally(*tally)
        for asked, digits, rows, pace, week, *tally in plain["of_numbers"]:
            numbers = Numbers(Asked(asked), digits, rows, pace)
            growth.of_numbers[numbers, week] = Tally(*tally)
        return growth


def _step(at: float, family: str, rods: int, why: list[Any]) -> Step:
    reason, rung, some, last, following, now, then = why
    after = Rung(following) if following else None
    return Step(
        at, Family(family), rods, Why(Reason(reason), Rung(rung), some, last, after, now, then)
    )
