"""How well a learner knows each item: folded anew from all evidence, so that the rules can change.

The states and their numbers are a teacher's judgement of what the literature on written facts
suggests; no learner has been studied with them on beads.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, field, replace
from enum import StrEnum
from statistics import median
from typing import Any, NamedTuple

from frame.practice.evidence import Evidence
from frame.practice.schedule import DAY, HALF_DAY, FiveBoxes, Recall, Scheduler, Trace

_VERSION = 1


class State(StrEnum):
    """How well an item is known, the least first."""

    NEW = "new"
    GUIDED = "guided"
    ACCURATE = "accurate"
    FLUENT = "fluent"
    KEPT = "kept"

    @property
    def rank(self) -> int:
        """Its place among the states, from 0."""
        return _RANKS[self]

    @property
    def is_known(self) -> bool:
        """Whether an item in it is known: right without help, time and again."""
        return self.rank >= State.ACCURATE.rank


_RANKS = {state: rank for rank, state in enumerate(State)}


@dataclass(frozen=True, slots=True)
class MasteryRules:
    """The numbers behind the states.

    An item may be asked without help after `lit` rights while the tool led the hand. It is accurate
    after `in_a_row` unaided rights in a row over at least so many `sittings`, until `misses` of the
    last `among` tries. It is fluent where the median decision of the last `of_last` rights takes at
    most `limit` seconds, until `slower` times as long; without a limit, where the last `of_last`
    tries were all right. Whatever was fluent is kept when it is right `kept_after` seconds or more
    after anybody last used it, until it is missed.

    Only one try in `once_in` seconds counts for the schedule: the first of a day. A right one is
    slow beyond `slower` times the limit and quick below `quick` times. The last four are those of
    Bayesian knowledge tracing (Corbett and Anderson 1995), preset for answers that are built.
    """

    lit: int = 2
    in_a_row: int = 3
    sittings: int = 2
    misses: int = 2
    among: int = 5
    limit: float | None = 5.0
    of_last: int = 5
    slower: float = 1.5
    kept_after: float = 7 * DAY
    once_in: float = HALF_DAY
    quick: float = 0.5
    known_before: float = 0.10
    guess: float = 0.05
    slip: float = 0.10
    learning: float = 0.15


YOUNG = MasteryRules(limit=None)
"""From four to six: nobody asks how quick they are."""
MIDDLE = MasteryRules()
"""From seven to nine. Sources have 5 seconds up to seven and 3 from eight on; the band has both, so
it takes the limit that calls nobody slow who is not."""
OLDER = MasteryRules(limit=3.0)


class Mark(NamedTuple):
    """One try without help, and the sitting in which it was made."""

    right: bool
    sitting: str


@dataclass(frozen=True, slots=True)
class Standing:
    """What is known of one item.

    `tries` counts those without help and `right` how many of them were right; `lit` counts rights
    while the tool led. `marks` are the last tries, `decisions` the seconds of the last rights whose
    decision is known. `learnt` is how likely it was ever learnt. `at` is when it was last used,
    `trace` what its scheduler keeps.
    """

    state: State = State.NEW
    tries: int = 0
    right: int = 0
    lit: int = 0
    marks: tuple[Mark, ...] = ()
    decisions: tuple[float, ...] = ()
    learnt: float = 0.0
    at: float = 0.0
    trace: Trace | None = None

    def is_ready(self, rules: MasteryRules) -> bool:
        """Whether it may be asked without help."""
        return self.tries > 0 or self.lit >= rules.lit

    def to_plain(self) -> dict[str, Any]:
        """The values that JSON has."""
        plain = {name: getattr(self, name) for name in self.__slots__}
        plain["marks"] = [list(mark) for mark in self.marks]
        plain["decisions"] = list(self.decisions)
        plain["trace"] = self.trace and self.trace.to_plain()
        return plain

    @classmethod
    def from_plain(cls, plain: Mapping[str, Any]) -> "Standing":
        """The inverse. Raises ValueError, TypeError or KeyError for other values."""
        if set(plain) != set(cls.__slots__):
            raise ValueError("not a standing")
        trace = plain["trace"]
        return cls(
            **{**plain, "state": State(plain["state"])}
            | {"marks": tuple(Mark(*mark) for mark in plain["marks"])}
            | {"decisions": tuple(plain["decisions"])}
            | {"trace": None if trace is None else Trace.from_plain(trace)}
        )


@dataclass(slots=True)
class Mastery:
    """How well each item is known. Equal to any other that came from the same evidence by the same
    rules, whether at once or bit by bit."""

    rules: MasteryRules = MIDDLE
    standings: dict[str, Standing] = field(default_factory=dict)
    scheduler: Scheduler = field(default_factory=FiveBoxes)

    @classmethod
    def of(cls, evidence: Iterable[Evidence], rules: MasteryRules = MIDDLE) -> "Mastery":
        """What all evidence, oldest first, tells."""
        mastery = cls(rules)
        for one in evidence:
            mastery.add(one)
        return mastery

    def copy(self) -> "Mastery":
        """As it is now, to be compared with later."""
        return replace(self, standings=dict(self.standings))

    def add(self, evidence: Evidence) -> None:
        """One piece of evidence more, not older than those before."""
        before = self.standing(evidence.item)
        self.standings[evidence.item] = _after(before, evidence, self.rules, self.scheduler)

    def standing(self, item: str) -> Standing:
        """What is known of an item."""
        return self.standings.get(item) or Standing(learnt=self.rules.known_before)

    def is_due(self, item: str, now: float) -> bool:
        """Whether an item should come again."""
        trace = self.standing(item).trace
        return trace is not None and trace.is_due(now)

    def chance(self, item: str, now: float) -> float | None:
        """How likely an item is to be right now; None where it was never tried without help."""
        standing = self.standing(item)
        if standing.trace is None:
            return None
        return standing.learnt * self.scheduler.chance(standing.trace, max(0.0, now - standing.at))

    def to_plain(self) -> dict[str, Any]:
        """The values that JSON has, with the rules by which they came about."""
        standings = {item: one.to_plain() for item, one in self.standings.items()}
        return {"version": _VERSION, "rules": asdict(self.rules), "standings": standings}

    @classmethod
    def from_plain(cls, plain: object, rules: MasteryRules) -> "Mastery | None":
        """The inverse; None for what came about by other rules, or can't be read: then all evidence
        must be folded anew."""
        try:
            made_by = (plain["version"], plain["rules"])  # type: ignore[index]
            if made_by != (_VERSION, asdict(rules)):
                return None
            kept = plain["standings"].items()  # type: ignore[index]
            return cls(rules, {item: Standing.from_plain(one) for item, one in kept})
        except (AttributeError, KeyError, TypeError, ValueError):
            return None


def _after(
    before: Standing, evidence: Evidence, rules: MasteryRules, scheduler: Scheduler
) -> Standing:
    if evidence.guided:
        return replace(
            before,
            state=State.GUIDED if before.state is State.NEW else before.state,
            lit=before.lit + evidence.right,
            learnt=_learning(before.learnt, rules),
            at=evidence.at,
        )
    now = _tried(before, evidence, rules)
    return replace(
        now,
        state=_state(before, now, evidence, rules),
        trace=_trace(before, evidence, rules, scheduler),
    )


def _tried(before: Standing, evidence: Evidence, rules: MasteryRules) -> Standing:
    """The counts after a try without help."""
    marks = (*before.marks, Mark(evidence.right, evidence.sitting))
    decisions = before.decisions
    if evidence.right and evidence.decision is not None:
        decisions = (*decisions, evidence.decision)[-rules.of_last :]
    return replace(
        before,
        tries=before.tries + 1,
        right=before.right + evidence.right,
        marks=marks[-max(rules.among, rules.in_a_row, rules.of_last) :],
        decisions=decisions,
        learnt=_learning(_believed(before.learnt, evidence.right, rules), rules),
        at=evidence.at,
    )


def _believed(learnt: float, right: bool, rules: MasteryRules) -> float:
    """How likely it was learnt, by Bayes' rule, after a try."""
    by_knowing = learnt * ((1 - rules.slip) if right else rules.slip)
    by_chance = (1 - learnt) * (rules.guess if right else 1 - rules.guess)
    return by_knowing / (by_knowing + by_chance)


def _learning(learnt: float, rules: MasteryRules) -> float:
    return learnt + (1 - learnt) * rules.learning


def _state(before: Standing, now: Standing, evidence: Evidence, rules: MasteryRules) -> State:
    if not evidence.right:
        return _after_miss(before.state, now, rules)
    if before.state.rank < State.ACCURATE.rank:
        if not _is_accurate(now, rules):
            return State.GUIDED
        return State.FLUENT if _is_fluent(now, rules) else State.ACCURATE
    if before.state is State.ACCURATE:
        return State.FLUENT if _is_fluent(now, rules) else State.ACCURATE
    if before.state is State.KEPT:
        return State.KEPT
    if _is_too_slow(now, rules):
        return State.ACCURATE
    return State.KEPT if evidence.at - before.at >= rules.kept_after else State.FLUENT


def _after_miss(state: State, now: Standing, rules: MasteryRules) -> State:
    missed = sum(not mark.right for mark in now.marks[-rules.among :])
    if state.rank < State.ACCURATE.rank or missed >= rules.misses:
        return State.GUIDED
    if state is State.KEPT:
        return State.ACCURATE if _is_too_slow(now, rules) else State.FLUENT
    return state


def _is_accurate(now: Standing, rules: MasteryRules) -> bool:
    sittings: list[str] = []
    for mark in reversed(now.marks):
        if not mark.right:
            break
        sittings.append(mark.sitting)
    return len(sittings) >= rules.in_a_row and len(set(sittings)) >= rules.sittings


def _is_fluent(now: Standing, rules: MasteryRules) -> bool:
    if rules.limit is None:
        last = now.marks[-rules.of_last :]
        return len(last) == rules.of_last and all(mark.right for mark in last)
    return len(now.decisions) == rules.of_last and median(now.decisions) <= rules.limit


def _is_too_slow(now: Standing, rules: MasteryRules) -> bool:
    if rules.limit is None or not now.decisions:
        return False
    return median(now.decisions) > rules.slower * rules.limit


def _trace(
    before: Standing, evidence: Evidence, rules: MasteryRules, scheduler: Scheduler
) -> Trace | None:
    """The schedule, which counts the first try of a day."""
    trace = before.trace
    if trace is not None and evidence.at - trace.at < rules.once_in:
        return trace
    return scheduler.counted(trace, _recall(evidence, rules), evidence.at)


def _recall(evidence: Evidence, rules: MasteryRules) -> Recall:
    if not evidence.right:
        return Recall.MISSED
    if rules.limit is None or evidence.decision is None:
        return Recall.RIGHT
    if evidence.decision > rules.slower * rules.limit:
        return Recall.SLOW
    return Recall.QUICK if evidence.decision < rules.quick * rules.limit else Recall.RIGHT
