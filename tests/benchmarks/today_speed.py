"""Prints how long today's set takes to make with everything known, and evidence to be folded.

Run it by hand: python tests/benchmarks/today_speed.py
"""

import time
from random import Random
from statistics import median

from frame.practice.evidence import Evidence
from frame.practice.items import ITEMS
from frame.practice.mastery import Mastery
from frame.practice.schedule import DAY
from frame.practice.standing import Ladder
from frame.practice.todays import today_of
from frame.practice.wanted import MIDDLE, OLDER, YOUNG, Situation, sets_of
from frame.technique.facts import ALL_FACTS

ROUNDS = 9
DAYS, A_DAY = 60, 100
BANDS = {"4-6": YOUNG, "7-9": MIDDLE, "10+": OLDER}


def a_record() -> list[Evidence]:
    """Two months of practice, a hundred items a day."""
    random = Random(1)
    return [
        Evidence(item, day * DAY, str(day), random.random() < 0.95, False, 2.0)
        for day in range(DAYS)
        for item in random.sample(ITEMS, A_DAY)
    ]


def milliseconds(situation: Situation) -> float:
    """How long one set takes on the processor."""
    before = time.process_time()
    today_of(situation)
    return 1000 * (time.process_time() - before)


def main() -> None:
    """Print the figures."""
    record = a_record()
    before = time.process_time()
    mastery = Mastery.of(record)
    seconds = time.process_time() - before
    print(f"{len(record)} pieces of evidence folded in {1000 * seconds:.0f} ms")
    known = frozenset(ALL_FACTS)
    sets = sets_of(known, Ladder())
    for band, rules in BANDS.items():
        situations = [
            Situation(
                mastery=mastery, known=known, sets=sets, now=DAYS * DAY, seed=seed, rules=rules
            )
            for seed in range(ROUNDS)
        ]
        count = len(today_of(situations[0]).exercises)
        took = [milliseconds(one) for one in situations]
        print(f"{band:>4}: {count} exercises, {median(took):.0f} ms, at most {max(took):.0f} ms")


if __name__ == "__main__":
    main()
