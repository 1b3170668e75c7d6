"""What today's set depends on, and what is wanted of it: which items, why, and how much.

The numbers are a judgement; simulated learners were tried with them, no real one.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from frame.practice.choices import Beads, Called, Choices, Flashed, Sight, families_known
from frame.practice.confusions import confusable
from frame.practice.drawing import Request
from frame.practice.families import Family
from frame.practice.items import items_of_facts
from frame.practice.mastery import Mastery
from frame.practice.prediction import USUAL_PREDICTION, PredictionRules, chance_of
from frame.practice.rungs import Asked
from frame.practice.standing import Ladder
from frame.practice.suspects import Weighed
from frame.practice.today import Because
from frame.technique.conventions import USUAL, Conventions


@dataclass(frozen=True, slots=True)
class Away:
    """Whoever was away for so many days or more has a set of a `share` of the length, likely to be
    right from `low` to `high`."""

    days: float
    share: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class TodayRules:
    """The numbers behind today's set.

    It takes about so many `minutes`, at `seconds` an exercise unless the learner's own are known,
    and has `least` exercises at the fewest. Success is likely from `low` to `high`, on the whole
    and one by one where something wanted can be had so; nothing is asked below `floor` unless the
    tool leads. What opens and closes it is `sure`. `weak` items are between these chances. So many
    facts come `soon`; one called and one flashed column come in sets of `aloud_from` or more.

    The weights say what is wanted most. An item is wanted by its chance to the power of `likely`,
    below `lost` no less, and `again` times as much once it came in the set. An exercise outside of
    the band is wanted `unlikely` times as much, and one that is led, where nothing is recalled,
    `led` times. To decide a digit counts as `deciding` strokes. One of the `among` best is taken by
    chance. The last rule of `away` that holds is taken; a day of practice left out makes two days.
    """

    minutes: float = 10.0
    seconds: float = 20.0
    least: int = 4
    low: float = 0.80
    high: float = 0.90
    floor: float = 0.4
    sure: float = 0.95
    weak: tuple[float, float] = (0.3, 0.95)
    soon: int = 2
    aloud_from: int = 8
    due_weight: float = 3.0
    weak_weight: float = 2.0
    new_weight: float = 2.0
    hard_weight: float = 2.0
    confusable_weight: float = 1.0
    other_weight: float = 0.3
    led: float = 0.3
    lost: float = 0.2
    likely: float = 2.0
    again: float = 0.2
    unlikely: float = 0.8
    deciding: float = 3.0
    among: int = 5
    away: tuple[Away, ...] = (
        Away(2, 0.9, 0.84, 0.92),
        Away(8, 0.7, 0.88, 0.95),
        Away(31, 0.5, 0.90, 0.97),
    )

    def after(self, away: float) -> "TodayRules":
        """The rules for whoever was last here so many days ago."""
        found = [one for one in self.away if away >= one.days]
        if not found:
            return self
        rule = found[-1]
        return replace(
            self,
            minutes=self.minutes * rule.share,
            low=max(self.low, rule.low),
            high=max(self.high, rule.high),
            soon=0,
        )


YOUNG = TodayRules(minutes=5, seconds=30, low=0.88, high=0.95, floor=0.6, soon=1)
MIDDLE = TodayRules()
OLDER = TodayRules(minutes=15, seconds=15)


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What today's set depends on.

    `known` are the facts taught, `sets` what `sets_of` says, `aloud` what
    `aloud_of` says. `new` are the facts of the last lesson, `hard` the items that
    a lesson left hard, `soon` the facts of the next lessons, in order. `seconds` is the median that
    an exercise takes this learner, None where nobody knows; `away` how many days ago they were last
    here. `weighed` is what may be behind their answers, who work by these `conventions`.
    """

    mastery: Mastery
    known: frozenset[str]
    sets: Mapping[Family, Request]
    now: float
    seed: int
    rules: TodayRules = MIDDLE
    prediction: PredictionRules = USUAL_PREDICTION
    aloud: tuple[Request, ...] = ()
    new: tuple[str, ...] = ()
    hard: tuple[str, ...] = ()
    soon: tuple[str, ...] = ()
    seconds: float | None = None
    away: float = 1.0
    weighed: Weighed | None = None
    conventions: Conventions = USUAL


def sets_of(
    known: frozenset[str], ladder: Ladder, conventions: Conventions = USUAL
) -> dict[Family, Request]:
    """The set that practice would give of each family that is known, by its ladder."""
    return {
        family: Choices(beads=Beads(family)).request(known, ladder, conventions)
        for family in families_known(known)
    }


def aloud_of(
    known: frozenset[str], ladder: Ladder, conventions: Conventions = USUAL
) -> tuple[Request, ...]:
    """A set of called and one of flashed numbers, each where such were asked for before. Whoever
    worked them on a frame of their own does so again, at the step of its ladder; on the frame of
    the screen no ladder leads on from the first step."""
    on_own = Choices(called=Called(sight=Sight.OWN), flashed=Flashed(own=True))
    return tuple(
        replace(on_own if (asked, None) in ladder.own else Choices(), asked=asked).request(
            known, ladder, conventions
        )
        for asked in (Asked.CALLED, Asked.FLASHED)
        if ladder.ways.get(asked)
    )


@dataclass(frozen=True, slots=True)
class Want:
    """An item that is wanted, why, and how much."""

    item: str
    because: Because
    weight: float

    @property
    def is_new(self) -> bool:
        """Whether it is of the last lesson."""
        return self.because is Because.NEW


def wants_of(situation: Situation) -> dict[str, Want]:
    """What is wanted of each item that was taught; of several reasons the weightiest.

    It counts by how likely the item is to be recalled: where more is due than there is time for,
    what is nearly lost would else push out what can be saved.
    """
    rules, found = situation.rules, dict[str, Want]()
    new, hard = set(items_of_facts(situation.new)), set(situation.hard)
    weak = _weak(situation)
    alike = {other for item in weak for other in confusable().get(item, ())}
    for item in items_of_facts(situation.known):
        reasons = (
            (rules.due_weight, Because.DUE, situation.mastery.is_due(item, situation.now)),
            (rules.weak_weight, Because.WEAK, item in weak),
            (rules.new_weight, Because.NEW, item in new),
            (rules.hard_weight, Because.HARD, item in hard),
            (rules.confusable_weight, Because.CONFUSABLE, item in alike),
        )
        holding = [(weight, because) for weight, because, holds in reasons if holds]
        because = max(holding)[1] if holding else Because.SURE
        total = sum(weight for weight, _ in holding) or rules.other_weight
        chance = chance_of(item, situation.mastery, situation.now, situation.prediction)
        found[item] = Want(item, because, total * max(chance, rules.lost) ** rules.likely)
    return found


def _weak(situation: Situation) -> set[str]:
    """The items that were tried without help and are neither sure nor quite unknown."""
    least, most = situation.rules.weak
    standings = situation.mastery.standings.items()
    return {item for item, one in standings if one.tries and least < one.learnt < most}
