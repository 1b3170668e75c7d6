"""Today's set tried by simulated learners: facts kept for each hour of practice, beside other ways.

    python tests/simulated/today.py [--learners 200] [--minutes 5] [--case usual] [--jobs 2]

Learners are simulated: their memories are equations, and no child was asked. Two kinds of memory
are tried, both unlike those of the schedulers. Every way has the same learners, lessons, days and
minutes; what is kept is what a learner recalls with a chance of 0.9 a week after eight weeks,
without practice since, of all cells, digits and places that were taught.
"""

import argparse
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from statistics import mean, quantiles, stdev
from typing import NamedTuple

from fsrs_memory import FsrsMemory
from learners import WEEKS, Learner, live
from policies import POLICIES, today

from frame.practice.wanted import MIDDLE

WAYS = {
    **POLICIES,
    "today by fsrs": today,
    "today, any success": today,
    "no practice": None,
}
ANY_SUCCESS = replace(MIDDLE, low=0.0, high=1.0, floor=0.0)
OURS = "today"

CASES = {
    "usual": {},
    "two minutes": {"minutes": 2.0},
    "seldom here": {"comes": 0.25},
    "no forgetting": {"memory_kind": "no forgetting"},
}


class Outcome(NamedTuple):
    """How eight weeks went for one learner."""

    kept: int
    hours: float
    right: float
    predicted: float
    came: float

    @property
    def per_hour(self):
        return self.kept / self.hours if self.hours else 0.0


def tried(way, seed, memory_kind="activation", weeks=WEEKS, **more):
    """One learner who practises in one way; the same in every run."""
    scheduler = FsrsMemory() if way == "today by fsrs" else None
    rules = ANY_SUCCESS if way == "today, any success" else MIDDLE
    learner = Learner(seed, memory_kind, scheduler, rules=rules, **more)
    live(learner, WAYS[way], weeks)
    told = learner.predicted or [(0.0, False)]
    return Outcome(
        learner.kept(),
        learner.practised / 3600,
        learner.right / max(1, learner.asked),
        mean(chance for chance, _ in told),
        mean(right for _, right in told),
    )


def _tried(job):
    way, seed, more = job
    return tried(way, seed, **more)


def all_tried(ways, seeds, jobs=2, **more):
    """For each way the outcomes of the same learners, in the order of their seeds."""
    work = [(way, seed, more) for way in ways for seed in seeds]
    with ProcessPoolExecutor(jobs) as pool:
        found = iter(list(pool.map(_tried, work, chunksize=4) if jobs > 1 else map(_tried, work)))
    return {way: [next(found) for _ in seeds] for way in ways}


def gains(found, other, ours=OURS):
    """How many more are kept for each hour by ours than by another way, learner by learner."""
    return [a.per_hour - b.per_hour for a, b in zip(found[ours], found[other], strict=True)]


def surely_better(some):
    """Whether a mean is above 0 by two standard errors or more."""
    return mean(some) > 2 * stdev(some) / len(some) ** 0.5


def table(found):
    """The figures as lines of text."""
    yield f"{'way':20}{'kept':>6}{'quartiles':>16}{'per hour':>10}{'hours':>7}{'right':>7}" + (
        f"{'ours less for':>15}{'gain ± 2 se':>15}"
    )
    for way, outcomes in found.items():
        kept = [one.kept for one in outcomes]
        low, middle, high = quantiles(kept, n=4)
        line = f"{way:20}{mean(kept):6.1f}{low:6.0f}{middle:5.0f}{high:5.0f}"
        line += f"{mean(one.per_hour for one in outcomes):10.1f}"
        line += f"{mean(one.hours for one in outcomes):7.2f}"
        line += f"{mean(one.right for one in outcomes):7.2f}"
        if way not in (OURS, "no practice"):
            more = gains(found, way)
            worse = sum(one < 0 for one in more) / len(more)
            error = 2 * stdev(more) / len(more) ** 0.5
            line += f"{worse:15.0%}{mean(more):8.1f} ± {error:.1f}"
        yield line
    ours = found[OURS]
    predicted, came = mean(one.predicted for one in ours), mean(one.came for one in ours)
    yield f"success that ours predicted {predicted:.2f}, that came {came:.2f}"


def main():
    parser = argparse.ArgumentParser(description="Today's set, tried by simulated learners.")
    parser.add_argument("--learners", type=int, default=200)
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    parser.add_argument("--minutes", type=float, default=5.0)
    parser.add_argument("--case", choices=CASES, default="usual")
    parser.add_argument("--ways", nargs="+", choices=WAYS, default=list(WAYS))
    parser.add_argument("--jobs", type=int, default=2)
    given = parser.parse_args()
    seeds = range(given.first, given.first + given.learners)
    case = CASES[given.case]
    kinds = [case["memory_kind"]] if "memory_kind" in case else ["activation", "half-life"]
    for kind in kinds:
        more = {"minutes": given.minutes, **case, "memory_kind": kind}
        print(
            f"{len(seeds)} SIMULATED learners, seeds {seeds[0]} to {seeds[-1]}, memory: {kind}, "
            f"case: {given.case}, {WEEKS} weeks, {more['minutes']:g} minutes a day"
        )
        print(*table(all_tried(given.ways, seeds, given.jobs, **more)), sep="\n", flush=True)


if __name__ == "__main__":
    main()
