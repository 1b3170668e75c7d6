"""Records of simulated learners to try reports with, written by the real store.

`python tests/simulated/reported.py simulated.sqlite` writes a learners' file with several, of 0 to
50 000 exercises, and prints how long the report of each takes. They learn one kind of sum after
another, each with some slips; who has a fault answers by it where only the answer is seen. No
child worked like this.
"""

import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from time import perf_counter

from frame.course.attempts import Attempt, Origin, Position
from frame.course.course import index
from frame.learner.learners import Learner, new_id
from frame.learner.rows import Record
from frame.learner.settings import Settings
from frame.learner.sitting import Circumstances
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of
from frame.practice.rungs import Asked, Rung
from frame.practice.work import Work
from frame.report.figures import Lessons
from frame.report.reading import read_report
from frame.resources import LESSONS
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit

NOW = datetime(2026, 5, 4, 16, 0, tzinfo=UTC)
A_SITTING = 40
AROUND = Circumstances(USUAL, (1280, 720), 1)
KINDS = tuple(family for family in Family if family not in (Family.READ, Family.SET))
SHAPES = {
    Family.COLUMNS: "{a} + {c}", Family.MULTIPLY: "{a} x {c}", Family.DIVIDE: "{product} / {c}",
    Family.DECIMALS: "{c}.{d} + {a}", Family.BELOW_ZERO: "{c} - {a}",
    Family.ROOT: "sqrt {square}",
}  # fmt: skip
"""How sums of a kind look, where they are no columns."""


@dataclass
class Pupil:
    """A simulated learner: how many exercises were done by now, the last kind that was come to, and
    a fault, used at four places in five."""

    name: str
    exercises: int
    until: Family = Family.ADD_TEN
    fault: Habit | None = None
    aloud: bool = False


PUPILS = (
    Pupil("Whale", 0),
    Pupil("Crab", 7, Family.ADD_DIRECT),
    Pupil("Seal", 40, Family.SUB_DIRECT),
    Pupil("Otter", 700, Family.SUB_TEN, Habit.CARRY_FORGOTTEN),
    Pupil("Heron", 4000, Family.ROOT, Habit.PRODUCT_ONE_ROD_OFF, aloud=True),
    Pupil("Turtle", 4000, Family.COLUMNS, aloud=True),
    Pupil("Gull", 50_000, Family.ROOT, Habit.WRONG_PARTNER, aloud=True),
)


def fill(path: Path, pupils: tuple[Pupil, ...] = PUPILS, now: datetime = NOW) -> None:
    """A file with these learners."""
    with closing(Store(path)) as store:
        store._database.execute("PRAGMA synchronous = OFF")
        for seed, pupil in enumerate(pupils):
            learner = Learner.new(pupil.name, pupil.name.lower())
            store.add_learner(learner, Settings(), now - timedelta(days=2000 - seed))
            _fill_one(store, learner, pupil, Random(seed), now)


def _fill_one(store: Store, learner: Learner, pupil: Pupil, random: Random, now: datetime) -> None:
    done = list(_attempts(pupil, random))
    groups = [done[at : at + A_SITTING] for at in range(0, len(done), A_SITTING)]
    for number, group in enumerate(groups):
        at = now - timedelta(days=len(groups) - number)
        sitting = new_id()
        store.begin_sitting(sitting, learner, AROUND, at)
        for place, (attempt, asked) in enumerate(group):
            at += timedelta(seconds=5) + timedelta(seconds=attempt.seconds)
            record = Record(new_id(), place + 1, attempt, asked)
            store.record(sitting, [record], learner, attempt.lesson, None, at)
        store.end_sitting(sitting, at)
    if done:
        _learnt(store, learner, pupil, now)


def _learnt(store: Store, learner: Learner, pupil: Pupil, now: datetime) -> None:
    """The lessons before the last kind are done."""
    families = list(Family)
    for entry in index(LESSONS, None).lessons:
        known = [families.index(family_of([fact])) for fact in entry.new]
        if max(known, default=0) < families.index(pupil.until):
            state = LessonState(1, Position(), done=True)
            store.record("", [], learner, entry.id, state, now - timedelta(days=1))
        else:
            break


def _attempts(pupil: Pupil, random: Random) -> Iterator[tuple[Attempt, Origin]]:
    kinds = KINDS[: KINDS.index(pupil.until) + 1] if pupil.until in KINDS else KINDS
    pools = {family: [_sum(family, random) for _ in range(30)] for family in kinds}
    for number in range(pupil.exercises):
        newest = number * len(kinds) // pupil.exercises
        at = newest if random.random() < 0.5 else random.randrange(newest + 1)
        is_new = at == len(kinds) - 1
        sum_, rung, asked = random.choice(pools[kinds[at]]), Rung.ALONE, Asked.SHOWN
        if pupil.fault is not None and random.random() < 0.4:
            rung = Rung.NUMBER
        elif at < newest - 1 and random.random() < 0.2:
            rung = Rung.TRACES
        exercise = Exercise(Kind.SUM, parse_calculation(sum_), rung, 13, asked=asked)
        if pupil.aloud and random.random() < 0.05:
            column = parse_calculation("4 + 3 + 1")
            called = random.choice((Asked.CALLED, Asked.FLASHED))
            exercise = Exercise(Kind.SUM, column, Rung.NUMBER, 13, asked=called, pace=3.0, own=True)
        yield worked(exercise, pupil.fault, 0.7 if is_new else 0.95, random), Origin.SET


def _sum(family: Family, random: Random) -> str:
    """A sum of a family, found by trying."""
    for _ in range(5000):
        a, c, d = random.randint(1, 99), random.randint(2, 9), random.randint(1, 9)
        if family.value.endswith(("direct", "five")) and "ten" not in family.value:
            a = random.randint(1, 9)
        shape = SHAPES.get(family, "{a} + {c}" if "add" in family.value else "{a} - {c}")
        text = shape.format(a=a, c=c, d=d, product=a * c, square=a * a)
        calculation = parse_calculation(text)
        is_below = family is not Family.BELOW_ZERO and calculation.result < 0
        if not is_below and family_of(Exercise(Kind.SUM, calculation, rods=13).facts) is family:
            return text
    raise AssertionError(family)


def worked(exercise: Exercise, fault: Habit | None, share: float, random: Random) -> Attempt:
    """An exercise as somebody works it who is right at once so often, and else mends a bead; where
    the answer alone is seen, by their fault."""
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    is_right = random.random() < share
    if exercise.by_answer:
        number = exercise.sum.result
        if fault is not None:
            choices = [random.random() < 0.8 for _ in range(40)]
            found = answer_by(exercise.sum, USUAL, Choosing({fault}, choices))
            number = found.number if found else number
        work.notes.ms += random.randint(2000, 9000)
        work.answer(number if is_right else number + 1)
        work.answer(exercise.sum.result)
    else:
        if not is_right:
            work.touch((BeadMove(0, 5 if work.frame.digit(0) < 5 else -5),))
        while not work.finished and work.next_stroke:
            work.notes.ms += random.randint(400, 2400)
            work.touch(work.next_stroke)
        _finished(work)
    return Attempt(
        "practise-shown", exercise, work.unaided, work.right, work.helps, tuple(work.slips),
        answers=tuple(work.answers), log=work.log, ended=work.finished,
    )  # fmt: skip


def _finished(work: Work) -> None:
    if work.asks:
        work.answer(work.exercise.sum.result)
    if work.asks_rest and work.exercise.sum.remainder is not None:
        work.answer(work.exercise.sum.remainder)
    if not work.finished:
        work.say_done()


def main() -> None:
    """Write the file, and read the reports."""
    path, now = Path(sys.argv[1]), datetime.now(UTC)
    fill(path, now=now)
    with closing(Store(path)) as store:
        for learner in store.learners():
            began = perf_counter()
            report = read_report(store, learner, Settings(), Lessons(0, 0, 0), now)
            seconds = perf_counter() - began
            print(f"{learner.nickname}: {report.tally.of} exercises read in {seconds:.2f} s")


if __name__ == "__main__":
    main()
