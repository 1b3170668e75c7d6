"""Versions A, B and C of sheets, compared: is one as hard as another?

    python tests/simulated/alike.py [SEEDS] [--jobs 2]

The seeds (1000 unless others are asked for) are shared out among the sizes below. B and C are each
compared with A: by which part of A's the mean and the spread (standard deviation) of the computed
difficulty differ, whether each rule of the work is needed exactly as often, and how many tasks
stand on both. What is compared is what a plan tells; no learner was asked.
"""

import argparse
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from statistics import mean

from frame.sheets.likeness import NEAR, likeness
from frame.sheets.making import make
from frame.sheets.recipe import Kind, Recipe, Version


def facts(start, numbers):
    return tuple(f"{start}-{number}" for number in numbers)


def columns(rows, digits, **more):
    return Recipe(kind=Kind.COLUMNS, rows=rows, digits=digits, **more)


CASES = {
    "read, 2 digits": Recipe(kind=Kind.READ, digits=2),
    "read, 4 digits": Recipe(kind=Kind.READ, digits=4),
    "set, 3 digits": Recipe(kind=Kind.SET, digits=3),
    "columns, 2 of 1": columns(2, 1),
    "columns, 3 of 1, minus": columns(3, 1, minus=True),
    "columns, 2 of 2": columns(2, 2),
    "columns, 3 of 2": columns(3, 2),
    "columns, 5 of 2, minus": columns(5, 2, minus=True),
    "columns, 5 of 3, 40": columns(5, 3, count=40),
    "columns, 10 of 3, minus": columns(10, 3, minus=True),
    "columns, 10 of 5": columns(10, 5),
    "columns, 15 of 14, minus": columns(15, 14, minus=True),
    "add by five, 3 of 2": columns(3, 2, facts=facts("add-five", range(1, 5))),
    "add by ten, 2 of 2": columns(2, 2, facts=facts("add-ten", range(1, 10))),
    "take by ten, 3 of 2": columns(3, 2, minus=True, facts=facts("sub-ten", range(1, 10))),
    "carry that runs on": columns(3, 3, facts=("ripple-add", "ripple-sub")),
    "below zero, 3 of 2": columns(3, 2, facts=("below-zero", "give-back")),
    "with a point, 3 of 3": columns(3, 3, facts=("decimals",)),
    "products, 2 by 1": Recipe(kind=Kind.PRODUCTS, digits=2),
    "products, 3 by 2": Recipe(kind=Kind.PRODUCTS, digits=3, by=2),
    "quotients, 2 by 1": Recipe(kind=Kind.QUOTIENTS, digits=2),
    "quotients, 3 by 2": Recipe(kind=Kind.QUOTIENTS, digits=3, by=2),
    "roots, 2 digits": Recipe(kind=Kind.ROOTS, digits=2),
    "roots, 3 digits": Recipe(kind=Kind.ROOTS, digits=3),
    "strip, 3 of 2": Recipe(kind=Kind.STRIP, rows=3, digits=2),
    "ladder, 3 of 2": Recipe(kind=Kind.LADDER, rows=3, digits=2),
    "partners": Recipe(kind=Kind.PARTNERS, count=26),
}
SAME_TASKS = ("partners",)
"""There are no others: versions have them in another order."""


def compared(job):
    """B and C of a case and a seed, each compared with A."""
    case, seed = job
    first, *others = (make(replace(CASES[case], seed=seed, version=one)).tasks for one in Version)
    return [likeness(first, other) for other in others]


def all_compared(seeds, jobs=2, cases=tuple(CASES)):
    """For each case what was found, the seeds shared out among them."""
    work = [(cases[at % len(cases)], 1 + at // len(cases)) for at in range(seeds)]
    with ProcessPoolExecutor(jobs) as pool:
        each = list(pool.map(compared, work, chunksize=4) if jobs > 1 else map(compared, work))
    found = {case: [] for case in cases}
    for (case, _), pair in zip(work, each, strict=True):
        found[case] += pair
    return {case: pairs for case, pairs in found.items() if pairs}


def table(found):
    """The figures as lines of text."""
    yield (
        f"{'':26}{'seeds':>6}{'mean apart':>16}{'spread apart':>16}{'rules equal':>13}"
        f"{'all equal':>11}{'shared':>8}"
    )
    yield f"{'':32}{'mean':>8}{'worst':>8}{'mean':>8}{'worst':>8}{'of 100':>13}{'of 100':>11}"
    for case, pairs in found.items():
        line = f"{case:26}{len(pairs) // 2:6}"
        for apart in ([one.mean for one in pairs], [one.spread for one in pairs]):
            line += f"{mean(apart):8.2%}{max(apart):8.2%}"
        line += f"{100 * mean(not one.rules for one in pairs):13.1f}"
        line += f"{100 * mean(one.is_equal for one in pairs):11.1f}"
        yield line + f"{mean(one.shared for one in pairs):8.1f}"
    every = [one for pairs in found.values() for one in pairs]
    equal = mean(one.is_equal for one in every)
    yield f"{len(every)} pairs, of 100 are equal within {NEAR:.0%}: {100 * equal:.1f}"


def main():
    parser = argparse.ArgumentParser(description="Versions of sheets, compared.")
    parser.add_argument("seeds", nargs="?", type=int, default=1000)
    parser.add_argument("--jobs", type=int, default=2)
    given = parser.parse_args()
    print(*table(all_compared(given.seeds, given.jobs)), sep="\n")


if __name__ == "__main__":
    main()
