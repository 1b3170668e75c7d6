"""Where a learner stands on all tracks of the ladder, on every level of their own frame, and which
facts are sure: folded from all that was tried.

The fold may be kept and gone on with, as `to_plain` has it; by other rules it is made anew.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from statistics import median
from typing import Any

from frame.practice.climb import Cause, Climb, Move
from frame.practice.families import Family
from frame.practice.ladder import USUAL_RULES, LadderRules, Try
from frame.practice.own_ladder import OwnClimb, OwnLevel
from frame.practice.rungs import Asked, Rung

_VERSION = 1

Track = tuple[Family, int]
"""A family, and a number of rods."""
OwnTrack = tuple[Asked, Family | None]


@dataclass
class Ladder:
    """All of it, by some rules. `in_a_row` counts for each fact the last exercises right unaided,
    without a look, and without the tool leading the hand; time has no say there: that of an
    exercise is spent on all its facts and tells nothing of one. `ways` counts how often numbers
    came in each way."""

    rules: LadderRules = USUAL_RULES
    climbs: dict[Track, Climb] = field(default_factory=dict)
    own: dict[OwnTrack, OwnClimb] = field(default_factory=dict)
    in_a_row: dict[str, int] = field(default_factory=dict)
    ways: dict[Asked, int] = field(default_factory=dict)

    @classmethod
    def of(cls, tries: Iterable[Try], rules: LadderRules = USUAL_RULES) -> "Ladder":
        """The fold of all that was tried, oldest first."""
        ladder = cls(rules)
        for one in tries:
            ladder.add(one)
        return ladder

    def add(self, one: Try) -> None:
        """One try more, not older than those before."""
        if one.is_on_ladder:
            track = one.family, one.rods
            self.climbs.setdefault(track, Climb(self.rules)).add(one)
        if one.own:
            track_of_own = one.asked, one.family if one.asked is Asked.SHOWN else None
            self.own.setdefault(track_of_own, OwnClimb(*track_of_own, self.rules)).add(one)
        self.ways[one.asked] = self.ways.get(one.asked, 0) + 1
        if not one.rung.is_led:
            is_sure = one.right and not one.looks
            for fact in one.facts:
                self.in_a_row[fact] = self.in_a_row.get(fact, 0) + 1 if is_sure else 0

    def climb(self, family: Family, rods: int) -> Climb:
        """The climb of a family with so many rods."""
        return self.climbs.get((family, rods)) or Climb(self.rules)

    def rods(self, family: Family) -> int:
        """With how many rods to practise a family: its fewest at first, and one more, up to its
        most, when the last rung is mastered with those before it."""
        rods = family.least_rods
        while rods < family.most_rods and self.climb(family, rods).is_mastered:
            rods += 1
        return rods

    def own_level(self, asked: Asked, family: Family | None = None) -> OwnLevel:
        """The level on one's own frame; of numbers shown that of a family."""
        track = asked, family if asked is Asked.SHOWN else None
        return (self.own.get(track) or OwnClimb(*track, self.rules)).level

    @property
    def seconds(self) -> float | None:
        """The median time of the last exercises that were right alone on a frame that is seen, of
        all tracks; None where there are none."""
        alone = [one for climb in self.climbs.values() for one in climb.by_rung.get(Rung.ALONE, ())]
        times = [one.seconds for one in alone if one.right]
        return median(times) if times else None

    @property
    def sure(self) -> frozenset[str]:
        """The facts that were right often enough in a row."""
        enough = self.rules.sure_after
        return frozenset(fact for fact, count in self.in_a_row.items() if count >= enough)

    def to_plain(self) -> dict[str, Any]:
        """The values that JSON has, with the rules by which they came about."""
        return {
            "version": _VERSION,
            "rules": asdict(self.rules),
            "climbs": [[*track, *_climb_to_plain(one)] for track, one in self.climbs.items()],
            "own": [[*track, *_own_to_plain(one)] for track, one in self.own.items()],
            "in_a_row": self.in_a_row,
            "ways": self.ways,
        }

    @classmethod
    def from_plain(cls, plain: Any, rules: LadderRules) -> "Ladder | None":
        """The inverse; None for what came about by other rules, or can't be read."""
        try:
            if (plain["version"], plain["rules"]) != (_VERSION, asdict(rules)):
                return None
            ladder = cls(rules, in_a_row=dict(plain["in_a_row"]))
            ladder.ways = {Asked(way): count for way, count in plain["ways"].items()}
            for family, rods, *climb in plain["climbs"]:
                track = Family(family), rods
                ladder.climbs[track] = _climb_from_plain(climb, track, rules)
            for asked, name, *own in plain["own"]:
                track_of_own = Asked(asked), Family(name) if name else None
                ladder.own[track_of_own] = _own_from_plain(own, track_of_own, rules)
            return ladder
        except (AttributeError, KeyError, TypeError, ValueError):
            return None


def _climb_to_plain(climb: Climb) -> list[Any]:
    tried = {rung: [_try_to_plain(one) for one in some] for rung, some in climb.by_rung.items()}
    move = list(climb.move) if climb.move else None
    return [climb.rung, climb.since, dict(climb.falls), move, tried]


def _climb_from_plain(plain: list[Any], track: Track, rules: LadderRules) -> Climb:
    rung, since, falls, move, tried = plain
    return Climb(
        rules, Rung(rung), since,
        {Rung(one): [_try_from_plain(track, Rung(one), each) for each in some]
         for one, some in tried.items()},
        Counter({Rung(one): count for one, count in falls.items()}),
        Move(Cause(move[0]), Rung(move[1]), *move[2:]) if move else None,
    )  # fmt: skip


def _try_to_plain(one: Try) -> list[Any]:
    facts = " ".join(sorted(one.facts))
    return [one.right, one.looks, one.seconds, facts, one.digits, one.terms, one.pace]


def _try_from_plain(track: Track, rung: Rung, plain: list[Any]) -> Try:
    right, looks, seconds, facts, digits, terms, pace = plain
    return Try(
        *track, rung, right, looks, seconds, frozenset(facts.split()), digits=digits, terms=terms,
        pace=pace,
    )  # fmt: skip


def _own_to_plain(own: OwnClimb) -> list[Any]:
    return [own.at, list(own.falls.items()), list(own.right.items())]


def _own_from_plain(plain: list[Any], track: OwnTrack, rules: LadderRules) -> OwnClimb:
    at, falls, right = plain
    return OwnClimb(*track, rules, at, Counter(dict(falls)), dict(right))
