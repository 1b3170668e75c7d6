"""What chooses the exercises of a sitting: today's set, and what it is compared with.

All draw their exercises from the same sets. A policy fills the minutes of one sitting.
"""

from dataclasses import replace
from statistics import median

from frame.practice.candidates import exercise_for, fact_of
from frame.practice.families import family_of
from frame.practice.items import items_of_facts
from frame.practice.today import Done
from frame.practice.todays import today_of
from frame.practice.wanted import Situation


def today(learner, day, away, random):
    """Ours."""
    usual = median(learner.durations[-50:]) if learner.durations else None
    new = frozenset(learner.known - known_before(learner))
    situation = Situation(
        mastery=learner.mastery, known=learner.known, sets=learner.sets, now=learner.now,
        seed=day, rules=replace(learner.rules, minutes=learner.minutes), new=tuple(sorted(new)),
        seconds=usual, away=away,
    )  # fmt: skip
    made, done = today_of(situation), []
    while (one := made.next(done)) is not None:
        right, seconds = learner.do(one.exercise, str(day), random)
        done.append(Done(right, seconds))
        if not one.exercise.rung.is_led:
            learner.predicted.append((one.success, right))


def known_before(learner):
    from learners import known_after

    return known_after(max(0, learner.lessons - 1))


def at_random(learner, day, away, random):
    """Any cell that was taught."""
    items = taught(learner)
    _fill(learner, day, random, lambda: random.choice(items))


def in_order(learner, day, away, random):
    """One cell after another in the order of the course, going on where the last sitting ended."""
    items = taught(learner)

    def following():
        at = learner.__dict__.setdefault("place", 0)
        learner.place = at + 1
        return items[at % len(items)]

    _fill(learner, day, random, following)


def due_first(learner, day, away, random):
    """What is due, most overdue first; when nothing is, any cell."""
    items = taught(learner)

    def most_overdue():
        due = [item for item in items if learner.mastery.is_due(item, learner.now)]
        if not due:
            return random.choice(items)
        return min(due, key=lambda item: learner.mastery.standing(item).trace.due)

    _fill(learner, day, random, most_overdue)


def taught(learner):
    return items_of_facts(learner.known)


def _fill(learner, day, random, choose):
    began = learner.practised
    while learner.practised - began < 60 * learner.minutes:
        learner.do(_exercise(choose(), learner, random), str(day), random)


def _exercise(item, learner, random):
    """An exercise that asks for the item; after many draws one that needs its fact."""
    request = learner.sets[family_of([fact_of(item)])]
    found = None
    for draw in range(40):
        found = exercise_for(item, request, random, draw) or found
        if found and item in _items(found):
            break
    return found


def _items(exercise):
    from frame.practice.prediction import task_of

    return task_of(exercise).items


POLICIES = {
    "today": today,
    "at random": at_random,
    "in order": in_order,
    "due first": due_first,
}
