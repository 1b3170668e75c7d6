"""Which rods of an exercise may fade: those on which a learner knows surely what to do."""

from collections.abc import Mapping

from frame.practice.exercises import Exercise, Kind
from frame.technique.facts import PLACES, step_facts
from frame.technique.operation import Act
from frame.technique.plan import Plan, Step


def facts_by_rod(exercise: Exercise, plan: Plan | None) -> dict[int, frozenset[str]]:
    """For each rod on which beads of an exercise's plan move, what a learner must know.

    A carry belongs to both of its rods: whoever does not know the fact does not know that it
    comes.
    """
    found: dict[int, frozenset[str]] = {}
    for step in plan.steps if plan else ():
        facts = _set_facts(exercise, step) or step_facts(step)
        for rod in {move.rod for move in step.moves}:
            found[rod] = found.get(rod, frozenset()) | facts
    return found


def _set_facts(exercise: Exercise, step: Step) -> frozenset[str]:
    """What it takes to set, or to clear, one digit; empty where a step does neither."""
    if exercise.kind is Kind.CLEAR:
        return frozenset({"clear"})
    if step.operation.act is not Act.SET:
        return frozenset()
    places = PLACES[step.rod - 1 : step.rod] if step.rod > 0 else ()
    return frozenset({f"set-digit-{step.digit}", *(f"set-{place}" for place in places)})


def rods_to_fade(
    exercise_facts_by_rod: Mapping[int, frozenset[str]], sure: frozenset[str]
) -> frozenset[int]:
    """The rods on which every fact is sure."""
    return frozenset(rod for rod, facts in exercise_facts_by_rod.items() if facts and facts <= sure)
