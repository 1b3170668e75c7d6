"""How likely a learner is to do an exercise right, from what each of its items is likely to be.

All numbers here are guesses; simulated learners show how far the predictions can be trusted.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import prod
from typing import NamedTuple

from frame.practice.drawing import facts_of
from frame.practice.exercises import Exercise, plan_for
from frame.practice.families import Family, family_of
from frame.practice.items import items_of_plan
from frame.practice.mastery import Mastery
from frame.practice.rungs import Asked, Rung
from frame.technique.conventions import USUAL

_RUNGS = {
    Rung.PALE: 0.99,
    Rung.TRACES: 0.97,
    Rung.COVERED: 0.95,
    Rung.NUMBER: 0.93,
}
_ASKED = {Asked.CALLED: 0.95, Asked.FLASHED: 0.9}


@dataclass(frozen=True, slots=True)
class PredictionRules:
    """The numbers behind a prediction: how likely a stroke is to slip; how likely an item is to be
    right that was taught and never tried without help; how likely an exercise is to be right in
    which the tool leads; by what a rung, or a way of asking, makes it less likely."""

    slip: float = 0.004
    untried: float = 0.8
    led: float = 0.98
    rungs: Mapping[Rung, float] = field(default_factory=lambda: _RUNGS)
    asked: Mapping[Asked, float] = field(default_factory=lambda: _ASKED)


USUAL_PREDICTION = PredictionRules()
AFTER_PLACEMENT = PredictionRules(untried=0.97)
"""Of who was placed, what was never tried was found known by other items: of the families told so
98 of 100 were, of simulated learners."""


class Task(NamedTuple):
    """An exercise with what it asks: its items, its family, and how many strokes its hand makes."""

    exercise: Exercise
    items: frozenset[str]
    family: Family
    strokes: int


def task_of(exercise: Exercise) -> Task:
    """What an exercise asks."""
    plan, facts = plan_for(exercise, USUAL), facts_of(exercise)
    strokes = len(plan.strokes) if plan else 0
    return Task(exercise, items_of_plan(plan, facts), family_of(facts), strokes)


def success(task: Task, mastery: Mastery, now: float, rules: PredictionRules) -> float:
    """How likely it is to be right, unaided or, where the tool leads, at all."""
    exercise = task.exercise
    if exercise.rung.is_led:
        return rules.led
    mode = rules.rungs.get(exercise.rung, 1.0) * rules.asked.get(exercise.asked, 1.0)
    chances = (chance_of(item, mastery, now, rules) for item in sorted(task.items))
    return mode * (1 - rules.slip) ** task.strokes * prod(chances)


def chance_of(item: str, mastery: Mastery, now: float, rules: PredictionRules) -> float:
    """How likely one item is to be right."""
    chance = mastery.chance(item, now)
    return rules.untried if chance is None else chance
