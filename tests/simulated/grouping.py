"""How well a class is split for one task of five minutes each: simulated classes with planted
groups.

`python tests/simulated/grouping.py [CLASSES]` prints the report. The children are simulated, and
what is planted is what the planner looks for: this proves the arithmetic, and not that children
need the same things in groups, nor that they learn more in them.
"""

import sys
import time
from collections import Counter
from random import Random
from statistics import mean, median, pstdev
from typing import NamedTuple

from rand_index import adjusted_rand

from frame.practice.grouping import MINUTES, OF_FAULT, SECONDS, Child, split_of
from frame.practice.items import ITEMS
from frame.technique.habits import Habit

ROOM = int(60 * MINUTES / SECONDS)
SHARED = 12
"""So many items are due for a planted group."""
MOST = 6
SHUFFLES = 20
SAME = 0.001
"""Shares that differ by less are the same: the planner counts in thousandths."""


class Noise(NamedTuple):
    """What is due for a class is among so many items (`pool`), so that its groups need some of the
    same. Each item of a group is due for so many of its children (`due`); so many have its fault
    (`faulty`), and so many another (`stray`). Up to so many items are due for a child alone."""

    pool: int = 60
    due: float = 0.8
    faulty: float = 0.7
    stray: float = 0.1
    own: int = 3


PLAIN = Noise()
ROWS = (
    ("As many groups as planted", PLAIN, None),
    (f"At most {MOST} groups, however many are planted", PLAIN, MOST),
    ("No faults", Noise(faulty=0, stray=0), None),
    ("Up to 12 items of a child's own", Noise(own=12), None),
    ("Half of the group's items, of 30, 6 of a child's own, no faults", Noise(30, 0.5, 0, 0, 6),
     None),
    ("Faults without regard to the groups", Noise(faulty=0, stray=1), None),
)  # fmt: skip


class Class(NamedTuple):
    """Children, and the planted group of each."""

    children: list
    planted: list


def class_of(seed, noise=PLAIN):
    """A class with planted groups."""
    random = Random(f"class {seed}")
    count, groups = random.randint(12, 30), random.randint(3, MOST)
    pool = random.sample(ITEMS, noise.pool)
    shared = [random.sample(pool, SHARED) for _ in range(groups)]
    faults = random.sample(tuple(Habit), groups)
    planted = [at % groups for at in range(count)]
    random.shuffle(planted)
    children = []
    for at, part in enumerate(planted):
        items = [item for item in shared[part] if random.random() < noise.due]
        items += random.sample(pool, random.randint(0, noise.own))
        due = {item: random.uniform(0.5, 1.5) for item in items}
        children.append(Child(f"{at:02}", due, _faults(faults[part], noise, random)))
    return Class(children, planted)


def _faults(fault, noise, random):
    """The faults of a child whose group has this one."""
    faults = [fault] * (random.random() < noise.faulty)
    faults += [random.choice(tuple(Habit))] * (random.random() < noise.stray)
    return {one: random.uniform(0.5, 1) for one in faults}


def share(children, places):
    """The share that is covered of all that is due, with the best task for each place; counted here
    anew, not by the planner."""
    due = sum(sum(child.due.values()) for child in children)
    return sum(_covered(children, places, place) for place in set(places)) / due


def _covered(children, places, place):
    need = Counter()
    for child, at in zip(children, places, strict=True):
        need.update(child.due if at == place else {})
    return sum(weight for _, weight in need.most_common(ROOM))


def places_of(split, children):
    """The place of each child's group; -1 for who needs nothing and is in none."""
    at = {one.id: place for place, group in enumerate(split.groups) for one in group.members}
    return [at.get(child.id, -1) for child in children]


class Found(NamedTuple):
    """Of a class: how far the split agrees with the planted one, what is covered by it, by one
    sheet for all, by splits at random into groups as large (their mean), and by the planted split;
    and how many seconds of a processor it took."""

    agreement: float
    ours: float
    same: float
    by_chance: float
    planted: float
    seconds: float


def found_of(seed, noise=PLAIN, most=None):
    """What comes of a class: with as many groups as are planted, or at most so many."""
    children, planted = class_of(seed, noise)
    begun = time.process_time()
    split = split_of(children, most or len(set(planted)))
    seconds = time.process_time() - begun
    places, random = places_of(split, children), Random(f"shuffled {seed}")
    by_chance = [share(children, random.sample(places, len(places))) for _ in range(SHUFFLES)]
    return Found(
        adjusted_rand(planted, places),
        share(children, places),
        share(children, [0] * len(children)),
        mean(by_chance),
        share(children, planted),
        seconds,
    )


def largest(seed=0):
    """A class of thirty into six groups, in which everybody needs much, each something else."""
    random = Random(f"largest {seed}")
    return [
        Child(f"{at:02}", {item: random.uniform(0.5, 1.5) for item in random.sample(ITEMS, 40)})
        for at in range(30)
    ]


def of_best(seed):
    """How much of the need that the best of all splits meets the planner's does, in a class of
    seven with three groups and three items a task, faults told in."""
    children = class_of(seed, Noise(pool=20, own=6)).children[:7]
    best = max(met(children, places, 3) for places in every_split(7, 3))
    return split_of(children, 3, seconds=60 * MINUTES / 3).met / best


def every_split(count, most):
    """All splits of so many into at most so many groups, each once."""
    splits = [[]]
    for _ in range(count):
        splits = [[*one, at] for one in splits for at in range(min(max(one, default=-1) + 2, most))]
    return splits


def met(children, places, room):
    """How much of their need a split meets, faults told in."""
    total = 0.0
    for place in set(places):
        need, faults = Counter(), Counter()
        for child, at in zip(children, places, strict=True):
            need.update(child.due if at == place else {})
            faults.update(child.likely if at == place else {})
        total += sum(weight for _, weight in need.most_common(room))
        total += OF_FAULT * max(faults.values(), default=0)
    return total


def line(title, values):
    """Mean, spread, least and most of some shares."""
    return (
        f"  {title:34}{mean(values):7.3f}{pstdev(values):8.3f}{min(values):8.3f}{max(values):8.3f}"
    )


def printed(title, found):
    """A part of the report."""
    least = min(range(len(found)), key=lambda at: found[at].ours - found[at].by_chance)
    at, seconds = found[least], [one.seconds for one in found]
    return "\n".join(
        [
            title,
            line("adjusted Rand index", [one.agreement for one in found]),
            line("covered by the planner's split", [one.ours for one in found]),
            line("by one sheet for all", [one.same for one in found]),
            line("by groups at random, as large", [one.by_chance for one in found]),
            line("by the planted groups", [one.planted for one in found]),
            f"  of {len(found)} classes less than by one sheet {worse(found, 'same')}, "
            f"at random {worse(found, 'by_chance')}, planted {worse(found, 'planted')}",
            f"  least ahead, class {least}: {at.ours:.3f}; one sheet {at.same:.3f}, at random "
            f"{at.by_chance:.3f}, planted {at.planted:.3f}, index {at.agreement:.3f}",
            f"  seconds: median {median(seconds):.3f}, most {max(seconds):.3f}",
        ]
    )


def worse(found, name):
    """In how many classes the planner's split covers less than another."""
    return sum(one.ours < getattr(one, name) - SAME for one in found)


def main(classes):
    """Print the report."""
    print(f"{classes} simulated classes of 12 to 30 children in 3 to {MOST} planted groups.")
    print(f"A task is of {MINUTES:.0f} minutes, {SECONDS:.0f} seconds an exercise: {ROOM} items.")
    print("Seconds are those of one processor.")
    print(f"{'Share of the due need':36}{'mean':>7}{'spread':>8}{'least':>8}{'most':>8}")
    for title, noise, most in ROWS:
        print(printed(title, [found_of(seed, noise, most) for seed in range(classes)]), flush=True)
    shares = [of_best(seed) for seed in range(classes)]
    print("Seven children, three groups, three items a task; share of what the best split meets:")
    print(line("need met, faults told in", shares))
    print(f"  the best split was found {sum(one > 1 - SAME for one in shares)} of {classes} times")
    begun = time.process_time()
    covered = split_of(largest(), MOST).share
    seconds = time.process_time() - begun
    print(f"Thirty who share nothing, six groups: {covered:.3f} covered, {seconds:.2f} seconds.")
    print("The children are simulated, and the planner looks for what was planted in them.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
