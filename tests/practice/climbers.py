"""Simulated learners, and the sets that practice would give them one after another."""

from collections import Counter
from collections.abc import Callable
from functools import cache
from random import Random
from typing import NamedTuple

from frame.practice.choices import Beads, Choices
from frame.practice.families import Family, family_of
from frame.practice.ladder import USUAL_RULES, LadderRules, Try, is_probe
from frame.practice.rungs import Rung
from frame.practice.standing import Ladder
from frame.technique.facts import ALL_FACTS

KNOWN = frozenset(ALL_FACTS)


class Learner(NamedTuple):
    """A learner who is right with a probability, at any rung, and takes so many seconds for the
    beads, for the key *Done* and for typing the answer; who looks with a probability where a frame
    is not seen."""

    name: str
    right: float
    beads: Callable[[Rung], float] = lambda rung: 4.0
    done: float = 1.0
    typing: float = 1.5
    looks: float = 0.0

    def seconds(self, family, rung, random):
        """How long all of an exercise takes, a fifth more or less."""
        is_set = family is Family.SET
        done = self.done if rung is Rung.COVERED or (is_set and rung is Rung.NUMBER) else 0
        is_typed = family is Family.READ or (rung in (Rung.COVERED, Rung.NUMBER) and not is_set)
        whole = self.beads(rung) + done + (self.typing if is_typed else 0)
        return whole * random.uniform(0.8, 1.2)


ALWAYS_RIGHT = (
    Learner("quick", 1.0),
    Learner("slow", 1.0, lambda rung: 40.0),
    Learner("slow typist", 1.0, lambda rung: 3.0, done=6.0, typing=15.0),
)
NINE_IN_TEN = Learner("90 %", 0.9)
EIGHT_IN_TEN = Learner("80 %", 0.8)
AT_RANDOM = Learner("at random", 0.5, looks=0.3)
LEARNERS = (*ALWAYS_RIGHT, NINE_IN_TEN, EIGHT_IN_TEN, AT_RANDOM)


class Course(NamedTuple):
    """What a learner did, and where they stood before each set: the rung and the rods."""

    tries: list[Try]
    stood: list[tuple[Rung, int]]
    rules: LadderRules

    @property
    def falls(self):
        """How often they were sent down, by rods and the rung from which they were."""
        found = Counter()
        for (_, rods), climb in Ladder.of(self.tries, self.rules).climbs.items():
            found.update({(rods, rung): count for rung, count in climb.falls.items()})
        return found


@cache
def practise(learner, family, seed, exercises=1000, rules: LadderRules = USUAL_RULES) -> Course:
    """Sets of a family as the ladder gives them, one after another."""
    random, choices = Random(f"{learner.name} {family} {seed}"), Choices(beads=Beads(family=family))
    facts = sorted(fact for fact in KNOWN if family_of([fact]) is family)
    tries, stood, ladder = [], [], Ladder(rules)
    while len(tries) < exercises:
        request = choices.request(KNOWN, ladder)
        stood.append((request.rung, request.rods))
        for _ in range(request.count):
            is_below = request.probe is not None and is_probe(random, rules)
            rung = request.probe if is_below else request.rung
            is_right = random.random() < learner.right
            looks = int(rung.is_unseen and random.random() < learner.looks)
            seconds = learner.seconds(family, rung, random)
            some = frozenset({random.choice(facts)})
            tries.append(Try(family, request.rods, rung, is_right, looks, seconds, some))
            ladder.add(tries[-1])
    return Course(tries, stood, rules)
