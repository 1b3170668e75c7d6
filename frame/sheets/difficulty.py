"""How hard a task is, from what happens in its plan. The weights are data, and a hypothesis."""

import tomllib
from collections import Counter
from decimal import Decimal
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from frame.practice.exercises import Exercise, Kind, plan_for
from frame.resources import ASSETS
from frame.technique.addition import plan_set
from frame.technique.beads import Frame
from frame.technique.calculation import Sum
from frame.technique.conventions import USUAL, Conventions
from frame.technique.operation import Act
from frame.technique.plan import Plan, Step, Technique
from frame.technique.reading import plain

WEIGHTS = ASSETS / "sheets" / "difficulty.toml"


class Profile(NamedTuple):
    """What happens in the plan of a task: how many steps of each technique (in the order of
    Technique), how many lines of each act (of Act), 9s or 0s that a carry ran over (`ripples`),
    carries that needed the partner of five on their rod (`landings`); strokes, rods touched, times
    the sign changes, zeros within numbers, and times the hand turns back to the left."""

    techniques: tuple[int, ...]
    acts: tuple[int, ...]
    ripples: int
    landings: int
    strokes: int
    rods: int
    signs: int
    zeros: int
    turns: int

    @property
    def rules(self) -> tuple[int, ...]:
        """How often each rule of the work is needed: equal on sheets that are equally hard."""
        return (*self.techniques, *self.acts, self.ripples, self.landings)

    def steps(self, technique: Technique) -> int:
        """How many steps were worked so."""
        return self.techniques[list(Technique).index(technique)]

    def lines(self, act: Act) -> int:
        """How many lines of work were of that act."""
        return self.acts[list(Act).index(act)]


class Weights(NamedTuple):
    """What each adds: techniques and acts in their orders, other counts by name."""

    techniques: tuple[float, ...]
    acts: tuple[float, ...]
    counts: dict[str, float]

    def of(self, profile: Profile) -> float:
        """How hard a task with this profile is."""
        by_rule = zip(self.techniques + self.acts, profile.techniques + profile.acts, strict=True)
        counts = ((weight, int(getattr(profile, name))) for name, weight in self.counts.items())
        return sum(weight * many for weight, many in (*by_rule, *counts))


def load_weights(path: Path) -> Weights:
    """The weights in a TOML file; an act without one adds nothing."""
    tables = tomllib.loads(path.read_text("utf-8"))
    weights = {
        table: {name: float(row["weight"]) for name, row in rows.items()}
        for table, rows in tables.items()
    }
    return Weights(
        tuple(weights["technique"][one] for one in Technique),
        tuple(weights["act"].get(one, 0.0) for one in Act),
        weights["count"],
    )


@lru_cache(maxsize=1)
def _weights() -> Weights:
    return load_weights(WEIGHTS)


def difficulty(exercise: Exercise, conventions: Conventions = USUAL) -> float:
    """How hard a task is, in strokes of one finger."""
    return _weights().of(profile(exercise, conventions))


def profile(exercise: Exercise, conventions: Conventions = USUAL) -> Profile:
    """What happens in the plan of a task. A number that is read counts as one that is set."""
    return _profile(exercise, conventions)


@lru_cache(maxsize=8192)
def _profile(exercise: Exercise, conventions: Conventions) -> Profile:
    plan = _plan(exercise, conventions)
    techniques = Counter(step.technique for step in plan.steps)
    acts = Counter(line.operation.act for line in plan.lines)
    rods = [move.rod for stroke in plan.strokes for move in stroke]
    return Profile(
        techniques=tuple(techniques[one] for one in Technique),
        acts=tuple(acts[one] for one in Act),
        ripples=sum(step.ripple for step in plan.steps),
        landings=sum(map(_lands_by_five, plan.steps)),
        strokes=len(plan.strokes),
        rods=len(set(rods)),
        signs=_signs(exercise),
        zeros=sum(map(_zeros_within, exercise.sum.numbers)),
        turns=_turns(rods),
    )


def _plan(exercise: Exercise, conventions: Conventions) -> Plan:
    plan = plan_for(exercise, conventions)
    if plan is None or exercise.kind is not Kind.SUM:
        frame = exercise.read_frame
        return plan_set(Frame.cleared(exercise.rods, frame.units), exercise.number, conventions)
    return plan


def _lands_by_five(step: Step) -> bool:
    """Whether the carry of a step moves both decks of the rod where it comes to rest."""
    over = [move.rod for move in step.moves if move.rod != step.rod]
    is_carried = step.technique in (Technique.TEN, Technique.TEN_FIVE)
    return is_carried and over.count(max(over, default=step.rod)) > 1


def _signs(exercise: Exercise) -> int:
    """How often a column turns from adding to taking away, or back; else the numbers below 0."""
    numbers = exercise.sum.numbers
    if isinstance(exercise.sum, Sum):
        return sum((one < 0) != (other < 0) for one, other in pairwise(numbers))
    return sum(number < 0 for number in numbers)


def _zeros_within(number: Decimal) -> int:
    return plain(abs(number)).replace(".", "").strip("0").count("0")


def _turns(rods: list[int]) -> int:
    """How often the hand, after going right or from where it was, goes to the left."""
    moved = [other - one for one, other in pairwise(rods) if one != other]
    return sum(to > 0 and (at == 0 or moved[at - 1] < 0) for at, to in enumerate(moved))
