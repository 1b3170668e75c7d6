"""Simulated learners with a record of any length, written as the program writes it, by its store.

    python tests/simulated/growers.py FILE [0 40 4000 50000]

They are simulated, and are called so: no child did any of this. They practise what the lessons done
so far have taught, most often the newest, by sets that the ladder asks for; they are right more
often and sooner the more they have tried; now and then they stay away for weeks. For pictures and
tests of what has grown.
"""

import sys
from contextlib import closing
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count
from math import exp
from pathlib import Path
from random import Random
from typing import NamedTuple

from frame.course.attempts import Attempt, Origin, Position
from frame.course.course import index
from frame.learner.learners import Learner, new_id
from frame.learner.rows import Record, try_of_attempt
from frame.learner.settings import Settings
from frame.learner.sitting import Circumstances
from frame.learner.store import LessonState, Store
from frame.practice.choices import Beads, Choices
from frame.practice.columns import draw_column, rods_needed
from frame.practice.drawing import draw, drawable
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.practice.work import Work
from frame.resources import LESSONS
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import Sum

BEGAN = datetime(2025, 9, 1, 15, tzinfo=UTC)
AROUND = Circumstances(USUAL, (1280, 720), 1)
A_SET = 10
SETS = 2
"""A sitting has so many sets, or as many more as the record is long."""
IN_A_WEEK = 4
MOST_WEEKS = 200
VARIANTS = 6
"""So many sets are drawn of a kind, and come again."""
BEAD = 0.5
SPEEDS = (3.6, 2.2, 1.3, 0.8)
"""Seconds to decide, of a beginner to somebody quick."""
DONE = LessonState(1, Position(), done=True, mastered=True)
FIRST_LESSONS = 4
A_WHOLE_COURSE = 20_000
"""After so many attempts all lessons are done."""


@cache
def the_lessons():
    return index(LESSONS, None).lessons


@dataclass
class Grower:
    """A learner under way."""

    random: Random
    ladder: Ladder = field(default_factory=Ladder)
    tried: dict = field(default_factory=dict)
    drawn: dict = field(default_factory=dict)
    works: dict = field(default_factory=dict)

    def attempts_of_set(self, known):
        """A set of what is known: called or flashed now and then, else of a family; the ladder
        counts it."""
        some = list(self.some(known))
        for one in some:
            self.ladder.add(try_of_attempt(one))
        return some

    def some(self, known):
        if len(known) > 40 and self.random.random() < 0.25:
            return [self.attempt(one, one.asked) for one in self.columns()]
        families = sorted({family_of([fact]) for fact in known}, key=list(Family).index)
        family = self.random.choices(families, range(1, len(families) + 1))[0]
        return [self.attempt(one, family) for one in self.exercises(family, known)]

    def columns(self):
        asked = self.random.choice((Asked.CALLED, Asked.FLASHED))
        level = self.ladder.own_level(asked)
        for _ in range(A_SET):
            column = draw_column(level.digits, level.rows, self.random)
            yield Exercise(
                Kind.SUM, Sum(column), Rung.NUMBER, rods_needed(level.digits, level.rows),
                asked=asked, pace=level.pace, own=True,
            )  # fmt: skip

    def exercises(self, family, known):
        request = Choices(beads=Beads(family=family)).request(known, self.ladder)
        key = family, request.rods, request.rung, self.random.randrange(VARIANTS)
        if key not in self.drawn:
            random = Random(str(key))
            facts = drawable(request, random)
            self.drawn[key] = draw(replace(request, facts=facts), random) if facts else ()
        return self.drawn[key]

    def attempt(self, exercise, kind):
        count = self.tried[kind] = self.tried.get(kind, 0) + 1
        is_right = self.random.random() > 0.02 + 0.33 * exp(-count / 50)
        speed = SPEEDS[min(len(SPEEDS) - 1, int(count / 70 + self.random.random()))]
        key = str(exercise), exercise, is_right, speed
        if exercise.own:
            return worked(exercise, is_right, speed, self.random)
        if key not in self.works:
            self.works[key] = worked(exercise, is_right, speed, self.random)
        return self.works[key]


def worked(exercise, is_right, speed, random):
    """An attempt: a stroke after the other, and where it is not right one that was not asked for,
    or another answer."""
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    work.to_play.clear()
    if not is_right and not work.is_silent:
        err(work, random)
    step = None
    while not (work.finished or work.asks):
        if work.is_silent and not work.next_stroke:
            work.notes.ms += 500
            work.say_done()
            continue
        now = work.judge.progress.step if work.judge else None
        decides = now is not step
        step = now
        hard = 1.6 if now is not None and now.technique != "direct" else 1.0
        seconds = BEAD + decides * speed * hard * random.uniform(0.6, 1.5)
        work.notes.ms += round(1000 * seconds)
        work.touch(work.next_stroke)
    while work.asks and not work.finished:
        work.notes.ms += 2000
        right = exercise.sum.remainder if work.asks_rest else exercise.sum.result
        work.answer(right if is_right or work.answers else right + 1)
    return Attempt(
        f"practise-{exercise.asked}", exercise, work.unaided, work.right, work.helps,
        tuple(work.slips), work.looks, work.outcome or "right", tuple(work.answers), work.log,
        work.finished,
    )  # fmt: skip


def err(work, random):
    """Touch beads until one was not the right one."""
    rods = range(len(work.frame.digits))
    moves = [BeadMove(rod, change) for rod in rods for change in (1, -1, 5, -5)]
    random.shuffle(moves)
    for move in moves:
        if work.unaided and not work.finished and work.frame.can(move):
            work.notes.ms += 1000
            work.touch((move,))


class Sitting(NamedTuple):
    """When it began, how many lessons were done by then, and the sets of attempts, each with the
    time when it was over."""

    at: datetime
    lessons: int
    sets: tuple[tuple[datetime, tuple[Attempt, ...]], ...]


@cache
def life(attempts, seed=1):
    """Sittings with so many attempts in all; the same each time."""
    grower = Grower(Random(seed))
    weeks = max(1, min(MOST_WEEKS, attempts // (A_SET * SETS * IN_A_WEEK)))
    sets = max(SETS, round(attempts / (A_SET * weeks * IN_A_WEEK)))
    done, now, sittings = 0, BEGAN, []
    while done < attempts:
        lessons, began, some = lessons_by(done), now, []
        known = frozenset(fact for one in the_lessons()[:lessons] for fact in one.new)
        for _ in range(sets):
            now += timedelta(minutes=4)
            some.append((now, tuple(grower.attempts_of_set(known)[: attempts - done])))
            done += len(some[-1][1])
        sittings.append(Sitting(began, lessons, tuple(some)))
        is_away = grower.random.random() < 0.03
        now += timedelta(days=30 if is_away else grower.random.choice((1, 2, 2)), hours=-0.2)
    return tuple(sittings)


def lessons_by(attempts):
    """How many lessons are done by who has made so many attempts."""
    share = min(1.0, attempts / A_WHOLE_COURSE) ** 0.5
    return max(FIRST_LESSONS, round(share * len(the_lessons())))


def live(store, learner, sittings):
    """Write down what was done at these sittings."""
    lessons = 0
    for sitting in sittings:
        id, numbers = new_id(), count(1)
        store.begin_sitting(id, learner, AROUND, sitting.at)
        for one in the_lessons()[lessons : sitting.lessons]:
            store.record(id, [], learner, one.id, DONE, sitting.at)
        lessons = sitting.lessons
        for at, attempts in sitting.sets:
            records = [Record(new_id(), next(numbers), one, Origin.SET) for one in attempts]
            store.record(id, records, learner, "", None, at)


def grow(store, attempts, seed=1):
    """A learner with so many attempts."""
    learner = Learner.new(f"Simulated {attempts}", "otter")
    store.add_learner(learner, Settings(), BEGAN)
    live(store, learner, life(attempts, seed))
    return learner


def main():
    path = Path(sys.argv[1])
    with closing(Store(path)) as store:
        for attempts in map(int, sys.argv[2:] or ("0", "40", "4000", "50000")):
            learner = grow(store, attempts)
            print(f"{learner.nickname}: {store.count_attempts(learner)} attempts")


if __name__ == "__main__":
    main()
