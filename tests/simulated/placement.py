"""Prints where simulated learners are told to begin, beside where they would have to.

Run it by hand: python tests/simulated/placement.py

Learners are simulated: each has a set of facts, planted by chance, and not by the engine's own
suppositions. No real learner was placed. What they need first is found by looking through the
course for the first lesson that teaches a fact which they lack. Units are counted as they stand in
the course, those of the imagined frame too.

The engine's numbers were chosen with other learners than these, by another seed.
"""

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import chain
from math import exp, floor
from multiprocessing import get_context
from pathlib import Path
from random import Random
from statistics import median
from typing import NamedTuple

from frame.course.course import CourseIndex, index
from frame.course.placement import Placement, Result
from frame.practice.asking import MOST_SECONDS
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.families import Family, family_of
from frame.practice.imagining import Found, Imagining, steps_of
from frame.practice.rungs import Asked
from frame.technique.conventions import USUAL
from frame.technique.facts import ALL_FACTS

LEARNERS = 500
LATE_LEARNERS = 200
SLIP = 0.05
SEED = "placed"


class Learner(NamedTuple):
    """What a learner knows, how often it does not succeed all the same, and the seconds that a
    stroke takes."""

    kind: str
    known: frozenset[str]
    slip: float
    stroke: float

    def works(self, item: Exercise, random: Random) -> tuple[bool, float]:
        """Whether an item succeeds, and after how many seconds. What is not known succeeds by
        chance: one digit in ten is guessed when read, a built number more seldom, the more of it
        is unknown. Half of what is not known is skipped."""
        plan = plan_for(item, USUAL)
        strokes = len(plan.strokes) if plan else 2
        seconds = 4 + strokes * self.stroke * random.uniform(0.7, 1.4)
        unknown = len(item.facts - self.known)
        if not unknown:
            return random.random() >= self.slip, seconds
        if random.random() < 0.5:
            return False, 5.0
        lucky = 0.1 if item.kind is Kind.READ else 0.06
        return random.random() < lucky**unknown, seconds


class Placed(NamedTuple):
    """How it went: the units by which the lesson lies too far, below 0 too early."""

    learner: Learner
    needed: str
    result: Result
    units: int
    seconds: float
    right: float


@cache
def course() -> CourseIndex:
    """The course as it is."""
    return index(Path(__file__).parents[2] / "lessons", None)


@cache
def in_order() -> tuple[str, ...]:
    return tuple(fact for lesson in course().lessons for fact in lesson.new)


def needed_first(known: frozenset[str]) -> str:
    """The first lesson that teaches what is not known; the last one where there is none."""
    lessons = course().lessons
    return next((one.id for one in lessons if not known.issuperset(one.new)), lessons[-1].id)


def far(one: str, other: str) -> int:
    """How many units a lesson lies behind another, counting all of the course."""
    units = [unit.id for unit in course().units]
    return units.index(course().by_id[one].unit) - units.index(course().by_id[other].unit)


def _nothing(random: Random) -> set[str]:
    return set()


def _everything(random: Random) -> set[str]:
    return set(ALL_FACTS)


def _in_order(random: Random) -> set[str]:
    """All up to some lesson."""
    lessons = [lesson for lesson in course().lessons if lesson.new]
    return {fact for one in lessons[: random.randrange(len(lessons))] for fact in one.new}


def _with_holes(random: Random) -> set[str]:
    """All up to some lesson, but for one to four facts scattered in it."""
    known = sorted(_in_order(random))
    return set(known) - set(random.sample(known, min(len(known), random.randint(1, 4))))


def _forgetful(random: Random) -> set[str]:
    """All up to some lesson, but for a family forgotten in the midst of it."""
    known = _in_order(random)
    families = [f for f in Family if any(family_of([fact]) is f for fact in known)]
    lost = random.choice(families) if families else None
    return {fact for fact in known if family_of([fact]) is not lost}


def _by_operation(random: Random) -> set[str]:
    """Numbers; adding up to some fact; of taking away nothing or less; now and then products."""
    numbers = {f for f in ALL_FACTS if f.partition("-")[0] in ("read", "set", "clear")}
    adds = [f for f in in_order() if f.startswith(("add-", "ripple-add"))]
    takes = [f for f in in_order() if f.startswith(("sub-", "ripple-sub"))]
    adding = random.randint(1, len(adds))
    known = numbers | set(adds[:adding])
    if random.random() < 0.5:
        known |= set(takes[: int(len(takes) * adding / len(adds) * random.random())])
    if random.random() < 0.5:
        known |= {"place-product", "multiply-1", *random.sample(["multiply-2", "skip-zero"], 1)}
    return known


def _scattered(random: Random) -> set[str]:
    """All up to some lesson, and beyond it every third fact."""
    known = _in_order(random)
    return known | {fact for fact in ALL_FACTS if random.random() < 0.33}


Learners = Callable[[int, float], Iterator[Learner]]
KINDS: dict[str, Callable[[Random], set[str]]] = {
    "in order": _in_order,
    "holes": _with_holes,
    "a family lost": _forgetful,
    "by operation": _by_operation,
    "facts beyond": _scattered,
    "nothing": _nothing,
    "everything": _everything,
}
SHARES = {"in order": 25, "holes": 20, "a family lost": 15, "by operation": 15, "facts beyond": 15,
          "nothing": 5, "everything": 5}  # fmt: skip
"""Of a hundred learners so many are of each kind."""


def learners(count: int, slip: float = SLIP, seed: str = SEED) -> Iterator[Learner]:
    """So many learners, the kinds in turn by their shares."""
    random = Random(seed)
    kinds = [kind for kind, share in SHARES.items() for _ in range(share)]
    random.shuffle(kinds)
    for at in range(count):
        kind = kinds[at % len(kinds)]
        stroke = min(2.5, max(0.4, random.lognormvariate(-0.1, 0.35)))
        yield Learner(kind, frozenset(KINDS[kind](random)), slip, stroke)


LATE = ({"point", "below", "roots"}, {"below", "roots"}, {"point", "below"})
"""Units that those lack who know all else."""


def late_learners(count: int, slip: float = SLIP, seed: str = SEED) -> Iterator[Learner]:
    """So many who work all sums, products and quotients of whole numbers, and lack what is late in
    the course."""
    random = Random(f"late {seed}")
    for at in range(count):
        stroke = min(2.5, max(0.4, random.lognormvariate(-0.1, 0.35)))
        lacking = LATE[at % len(LATE)]
        known = (one.new for one in course().lessons if one.unit not in lacking)
        yield Learner("late", frozenset(chain.from_iterable(known)), slip, stroke)


def place(learner: Learner, seed: str, young: bool = False) -> Placed:
    """Places a learner."""
    random = Random(f"answers {seed}")
    placement = Placement.begin(course().lessons, Random(f"items {seed}"), young=young)
    while item := placement.next_item():
        right, seconds = learner.works(item, random)
        if placement.seconds + seconds > MOST_SECONDS:
            break  # Time is up: the item stays unanswered.
        placement = placement.answered(right, seconds)
    result, needed = placement.result(), needed_first(learner.known)
    right = sum(answer.right for answer in placement.answers) / max(1, len(placement.answers))
    return Placed(learner, needed, result, far(result.lesson, needed), placement.seconds, right)


def placed(
    count: int, slip: float = SLIP, young: bool = False, some: Learners = learners
) -> list[Placed]:
    """So many learners placed."""
    with get_context("spawn").Pool() as pool:
        each = ((one, f"{slip} {at}", young) for at, one in enumerate(some(count, slip)))
        return pool.starmap(place, each, chunksize=5)


def share_near(some: Sequence[Placed]) -> float:
    """The share of learners whose lesson lies within a unit of the one they need."""
    return sum(abs(one.units) <= 1 for one in some) / len(some)


def share_too_early(some: Sequence[Placed]) -> float:
    """The share of learners whose lesson lies more than a unit too early."""
    return sum(one.units < -1 for one in some) / len(some)


def share_too_far(some: Sequence[Placed]) -> float:
    """The share of learners whose lesson lies more than a unit too far."""
    return sum(one.units > 1 for one in some) / len(some)


def _row(name: str, some: Sequence[Placed]) -> str:
    items = sorted(one.result.items for one in some)
    seconds = sorted(one.seconds for one in some)
    claims = [(one, claim) for one in some for claim in one.result.families]
    true = sum(_is_true(one.learner, claim.family) for one, claim in claims)
    exact = sum(one.result.lesson == one.needed for one in some) / len(some)
    return (
        f"{name:16}{len(some):5}{share_near(some):8.1%}{share_too_far(some):8.1%}{exact:8.1%}"
        f"{median(items):7.0f} ({items[0]}-{items[-1]}){median(seconds):7.0f} ({seconds[-1]:.0f})"
        f"{median(one.right for one in some):7.0%}   {true}/{len(claims)}"
    )


def _is_true(learner: Learner, family: Family) -> bool:
    facts = {fact for fact in ALL_FACTS if family_of([fact]) is family}
    return facts <= learner.known


HEAD = (
    "                learn-  within more too the    items          seconds      right  families\n"
    "kind               ers  a unit     far lesson  median (range) median (most)       true/told"
)


def table(count: int, slip: float, young: bool = False) -> Iterator[str]:
    """The table, line by line."""
    some = placed(count, slip, young)
    yield f"\nSimulated learners who slip {slip:.0%} of the time{', asked as the young' * young}"
    yield HEAD
    yield _row("all", some)
    for kind in KINDS:
        yield _row(kind, [one for one in some if one.learner.kind == kind])
    yield _row("late", placed(LATE_LEARNERS, slip, young, late_learners))


class Imaginer(NamedTuple):
    """Whose step of a way of asking is planted: there half succeeds of what no slip spoils, more
    below and less above, the quicker the smaller `spread`."""

    step: float
    spread: float
    slip: float

    def works(self, step: int, random: Random) -> bool:
        """Whether an item of a step succeeds."""
        fades = 1 / (1 + exp((step - self.step) / self.spread))
        return random.random() < (1 - self.slip) * fades


class Imagined(NamedTuple):
    """How it went: by how many steps what was found lies above the last step that succeeds more
    likely than not, below 0 under it."""

    steps: int
    found: Found
    seldom: bool


def imagine(asked: Asked, slip: float, seed: str) -> Imagined:
    """Finds the step of a learner planted by chance."""
    random = Random(f"{asked} {slip} {seed}")
    count = len(steps_of(asked))
    learner = Imaginer(random.uniform(-1, count), random.uniform(0.2, 0.8), slip)
    imagining = Imagining.begin(asked, frozenset(ALL_FACTS), random)
    while imagining.next_item():
        imagining = imagining.answered(learner.works(imagining.step, random))
    found = imagining.result()
    at = imagining.steps.index(found.step) if found.step else -1
    return Imagined(at - floor(learner.step), found, 2 * found.right < found.asked)


def imagined(asked: Asked, count: int, slip: float = SLIP) -> list[Imagined]:
    """So many learners, whose steps are found."""
    return [imagine(asked, slip, str(at)) for at in range(count)]


def steps_table(count: int, slip: float) -> Iterator[str]:
    """The table of the second part, line by line."""
    yield f"\nSimulated learners who imagine, and slip {slip:.0%} of the time"
    yield "asked    steps  within 1  within 2  more than 2 above  items  under half right"
    for asked in Asked:
        some = imagined(asked, count, slip)
        near, by_two, above, seldom = (
            sum(map(test, some)) / count
            for test in (
                lambda one: abs(one.steps) <= 1,
                lambda one: abs(one.steps) <= 2,
                lambda one: one.steps > 2,
                lambda one: one.seldom,
            )
        )
        items = median(one.found.asked for one in some)
        yield (
            f"{asked:8}{len(steps_of(asked)):6}{near:10.1%}{by_two:10.1%}{above:19.1%}"
            f"{items:7.0f}{seldom:18.1%}"
        )


def main(count: int) -> None:
    print(*__doc__.split("\n\n")[2:], sep="\n\n")
    for slip in (SLIP, 0.1, 0.2):
        print(*table(count, slip), sep="\n", flush=True)
    print(*table(count, SLIP, young=True), sep="\n", flush=True)
    for slip in (SLIP, 0.1, 0.2):
        print(*steps_table(count, slip), sep="\n", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else LEARNERS)
