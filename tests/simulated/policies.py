"""What chooses the exercises of a sitting: today's set, and what it is compared with.

All draw their exercises from the same sets. A policy fills the minutes of one sitting.
"""

from dataclasses import replace
from functools import cache
from random import Random
from statistics import median

from learners import known_after, sets_after

from frame.practice.candidates import exercise_for, fact_of
from frame.practice.families import family_of
from frame.practice.items import items_of_facts
from frame.practice.prediction import task_of
from frame.practice.today import Done
from frame.practice.todays import today_of
from frame.practice.wanted import Situation

_DRAWS, _TASKS = 200, 8


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
        right, seconds = learner.do(task_of(one.exercise), str(day), random)
        done.append(Done(right, seconds))
        if not one.exercise.rung.is_led:
            learner.predicted.append((one.success, right))


def known_before(learner):
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
        learner.do(random.choice(_tasks(choose(), learner.lessons)), str(day), random)


@cache
def _tasks(item, lessons):
    """Some exercises that ask for an item."""
    random, found = Random(f"{item} {lessons}"), []
    request = sets_after(lessons)[family_of([fact_of(item)])]
    for draw in range(_DRAWS):
        exercise = exercise_for(item, request, random, draw)
        task = exercise and task_of(exercise)
        if task and item in task.items:
            found.append(task)
        if len(found) == _TASKS:
            break
    return found


POLICIES = {
    "today": today,
    "at random": at_random,
    "in order": in_order,
    "due first": due_first,
}
