"""The ladder of sets worked on a frame of one's own: how long the numbers are, how many, how quick.

Nobody sees that frame, so the answer alone tells. A learner stands on a level of its own for
numbers that are shown, called or flashed, since each asks something else; with numbers that are
shown the pace is the learner's. The levels are our own and a hypothesis, not those of any
association: no learner has been studied with them.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import NamedTuple

from frame.practice.climb import MEMORY
from frame.practice.columns import MOST_DIGITS
from frame.practice.families import Family
from frame.practice.flashing import DIGITS as FLASHED_DIGITS
from frame.practice.ladder import USUAL_RULES, LadderRules, Try
from frame.practice.rungs import Asked


class OwnLevel(NamedTuple):
    """A level, counted from 1: `rows` numbers of `digits` digits. `pace` is, in seconds, the
    silence between called numbers, or how long a flashed number takes; 0 where they are shown."""

    number: int
    digits: int
    rows: int
    pace: float


class _Step(NamedTuple):
    """So many rows; the silence between called numbers and the time of a flashed one, in
    seconds."""

    rows: int
    called: float
    flashed: float


_SHORT = {
    1: (
        _Step(3, 3.0, 3.0),  # The first of all: three small numbers, with time for each.
        _Step(5, 3.0, 3.0),  # More of the same before anything is quicker.
        _Step(5, 2.0, 2.0),  # Now quicker.
        _Step(10, 2.0, 2.0),  # As many as columns often have (common practice, no source).
        _Step(10, 1.5, 1.5),
        _Step(15, 1.5, 1.5),  # The most rows: the hand must not lose a place.
        _Step(15, 1.0, 1.0),  # A bead or two a second: as quick as a hand need be to go on.
    ),
    2: (
        _Step(3, 3.0, 4.0),  # A digit joins: few rows and time, as at the beginning.
        _Step(5, 2.0, 3.0),
        _Step(10, 2.0, 3.0),
        _Step(10, 1.5, 2.0),
        _Step(15, 1.5, 2.0),
        _Step(15, 1.0, 1.5),
    ),
    3: (
        _Step(5, 2.0, 4.0),  # The hand knows how a digit joins: fewer steps from here on.
        _Step(10, 2.0, 4.0),
        _Step(10, 1.5, 3.0),
        _Step(15, 1.5, 3.0),
        _Step(15, 1.0, 2.0),
    ),
}
_LONG = (
    _Step(5, 2.0, 5.0),  # One digit more is no longer news; saying it takes longer by itself.
    _Step(10, 1.5, 5.0),  # 5 s is the longest that a flashed number takes.
    _Step(15, 1.0, 4.0),
)
"""For each length from four digits to fourteen."""


@cache
def levels_of(asked: Asked, family: Family | None = None) -> tuple[OwnLevel, ...]:
    """The levels of one way of asking; of a family those that its numbers can have."""
    sizes = dict.fromkeys(_sizes(asked))
    found = [size for size in sizes if family is None or _can_have(family, *size[:2])]
    return tuple(OwnLevel(number, *size) for number, size in enumerate(found, 1))


def _sizes(asked: Asked) -> Iterator[tuple[int, int, float]]:
    """The digits, rows and pace of each level; several are alike where the pace is left out."""
    longest = FLASHED_DIGITS[1] if asked is Asked.FLASHED else MOST_DIGITS
    for digits in range(1, longest + 1):
        for step in _SHORT.get(digits, _LONG):
            paces = {Asked.CALLED: step.called, Asked.FLASHED: step.flashed}
            yield digits, step.rows, paces.get(asked, 0.0)


def _can_have(family: Family, digits: int, rows: int) -> bool:
    return digits >= family.least_digits and rows <= family.most_rows


@dataclass(slots=True)
class OwnClimb:
    """A learner on the levels of one way of asking, of numbers shown on those of a family. `at`
    counts the level from 0, `falls` for each how often the learner was sent down from it, `right`
    are the last tries at each level since the last move.

    The rules are the ladder's. A level chosen by hand counts where it is not below: whoever passes
    a higher one need not come by those between. Other sizes move nobody.
    """

    asked: Asked
    family: Family | None = None
    rules: LadderRules = USUAL_RULES
    at: int = 0
    falls: Counter[int] = field(default_factory=Counter)
    right: dict[int, list[bool]] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        tries: Iterable[Try],
        asked: Asked,
        family: Family | None = None,
        rules: LadderRules = USUAL_RULES,
    ) -> "OwnClimb":
        """The climb of all that was tried, oldest first."""
        climb = cls(asked, family, rules)
        for one in tries:
            climb.add(one)
        return climb

    @property
    def level(self) -> OwnLevel:
        """The level where the learner stands."""
        return levels_of(self.asked, self.family)[self.at]

    def add(self, one: Try) -> None:
        """One try more, of any kind."""
        at = _places(self.asked, self.family).get((one.digits, one.terms, one.pace), -1)
        if not self._tells(one) or at < self.at:
            return
        right = self.right.setdefault(at, [])
        right.append(one.right)
        del right[:-MEMORY]
        if at and at == self.at and self.rules.is_too_little(right, self.falls[at]):
            self.falls[at] += 1
            self.at, self.right = at - 1, {}
        elif self.rules.is_enough(right, self.falls[at + 1]):
            last = len(levels_of(self.asked, self.family)) - 1
            self.at, self.right = min(at + 1, last), {}

    def _tells(self, one: Try) -> bool:
        is_of_family = self.family is None or one.family is self.family
        return one.own and one.asked is self.asked and is_of_family


@cache
def _places(asked: Asked, family: Family | None) -> Mapping[tuple[int, int, float], int]:
    """The level, counted from 0, of each size."""
    return {level[1:]: at for at, level in enumerate(levels_of(asked, family))}
