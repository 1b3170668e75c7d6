"""Prints how fast plans are made and replayed, and how long a verdict takes.

Run it by hand: python tests/benchmarks/technique_speed.py
The ratios tell more than the figures, which depend on the computer.
"""

import random
import time
from collections.abc import Callable
from decimal import Decimal
from functools import partial
from itertools import product

from frame.technique.addition import plan_sum
from frame.technique.beads import BeadMove, Frame
from frame.technique.calculation import Product, Quotient
from frame.technique.judge import Judge, Judgement
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.progress import Progress

LENGTHS = (7, 14, 28)
TERMS = 10
ROUNDS = 7
ROWS = (2, 10, 100, 400)
WANTED_DIGITS = 100_000
WANTED_MICROSECONDS = 20
WANTED_MILLISECONDS = 5
SIZES = ((7, 4), (14, 4), (7, 8), (14, 8))


def columns(digits: int, count: int = 60) -> list[list[Decimal]]:
    """Columns of ten numbers with that many digits each."""
    rng = random.Random(digits)
    low, high = 10 ** (digits - 1), 10**digits
    return [[Decimal(rng.randrange(low, high)) for _ in range(TERMS)] for _ in range(count)]


def best_seconds(work: Callable[[], object]) -> float:
    """The shortest of some runs."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def replay(plan: Plan) -> Frame:
    """The frame after every move, each of them checked."""
    frame = plan.start
    for stroke in plan.strokes:
        for move in stroke:
            frame = frame.apply(move)
    return frame


def planning_rates(digits: int) -> tuple[float, float]:
    """Digits a second: planned, and planned and replayed."""
    work = columns(digits)
    worked = len(work) * TERMS * digits
    planned = best_seconds(lambda: [plan_sum(terms) for terms in work])
    both = best_seconds(lambda: [replay(plan_sum(terms)) for terms in work])
    return worked / planned, worked / both


def operands(digits: int, by: int, count: int = 20) -> list[tuple[Decimal, Decimal]]:
    """Pairs of numbers with so many digits each."""
    rng = random.Random(digits + by)
    first, second = (range(10 ** (size - 1), 10**size) for size in (digits, by))
    return [(Decimal(rng.choice(first)), Decimal(rng.choice(second))) for _ in range(count)]


def planning_milliseconds(digits: int, by: int) -> tuple[float, float]:
    """Milliseconds to plan one product of so many digits, and one quotient of that product."""
    pairs = operands(digits, by)
    products = [Product(one, other) for one, other in pairs]
    quotients = [Quotient(Decimal(int(one) // 10**by + 1) * other, other) for one, other in pairs]
    return tuple(
        best_seconds(lambda work=work: [plan_of(one) for one in work]) / len(work) * 1e3
        for work in (products, quotients)
    )


def judge_in_order(plan: Plan) -> Judge:
    judge = Judge.of(plan)
    for stroke in plan.strokes:
        for move in stroke:
            judge = judge.after(judge.judge((move,)))
    return judge


def verdict_microseconds(digits: int) -> dict[Judgement, float]:
    """Microseconds for one verdict of each kind; the right one with the step to the next judge."""
    plans = [plan_sum(terms) for terms in columns(digits, 10)]
    moves = sum(len(stroke) for plan in plans for stroke in plan.strokes)
    seconds = {Judgement.RIGHT: best_seconds(lambda: [judge_in_order(p) for p in plans]) / moves}
    for kind in (Judgement.OTHER_ORDER, Judgement.WRONG):
        asked = [(judge, move) for plan in plans for judge, move in examples(plan, kind)]
        seconds[kind] = best_seconds(partial(judge_all, asked)) / len(asked)
    return {kind: spent * 1e6 for kind, spent in seconds.items()}


def judge_all(asked: list[tuple[Judge, BeadMove]]) -> None:
    for judge, move in asked:
        judge.judge((move,))


def examples(plan: Plan, kind: Judgement) -> list[tuple[Judge, BeadMove]]:
    """Judges along the plan, each with a move that gets that verdict."""
    rng = random.Random(1)
    judge, found = Judge.of(plan), []
    for move in [move for stroke in plan.strokes for move in stroke]:
        for _ in range(20):
            change = rng.choice((-5, -4, -3, -2, -1, 1, 2, 3, 4, 5))
            tried = BeadMove(rng.randrange(len(plan.start.digits)), change)
            if judge.judge((tried,)).judgement is kind:
                found.append((judge, tried))
                break
        judge = judge.after(judge.judge((move,)))
    return found


def main() -> None:
    """Print the table."""
    first: dict[str, float] = {}
    for digits in LENGTHS:
        planned, both = planning_rates(digits)
        first.setdefault("planned", planned)
        first.setdefault("both", both)
        print(f"{digits} digits")
        print(f"  planned      {planned:9,.0f} digits/s ({planned / first['planned']:.2f})")
        print(
            f"  and replayed {both:9,.0f} digits/s ({both / first['both']:.2f},"
            f" {both / WANTED_DIGITS:.1f} of what is wanted)"
        )
        for kind, spent in verdict_microseconds(digits).items():
            base = first.setdefault(kind, spent)
            print(
                f"  {kind:12} {spent:9.1f} us a verdict ({spent / base:.2f},"
                f" {spent / WANTED_MICROSECONDS:.2f} of what is allowed)"
            )
    print_lengths()
    print_products()


def print_lengths() -> None:
    """Print the time of one verdict in the last number of columns of more and more numbers: it is
    to stay the same."""
    print("verdicts at the end of a column of numbers of 4 digits")
    first: dict[str, float] = {}
    for count in ROWS:
        for kind, spent in at_the_end(count).items():
            base = first.setdefault(kind, spent)
            print(f"  {count:3} numbers, {kind:12} {spent:6.1f} us a verdict ({spent / base:.2f})")


def at_the_end(count: int) -> dict[str, float]:
    """Microseconds for verdicts of each kind on the last number of a column."""
    rng = random.Random(count)
    plan = plan_sum([Decimal(rng.randrange(1000, 10000)) for _ in range(count)])
    judge = Judge(Progress.begin(plan, len(plan.strokes) - len(plan.lines[-1].strokes)))
    last = [(judge, judge.progress.next_stroke[0])]
    asked: dict[Judgement, list[tuple[Judge, BeadMove]]] = {Judgement.RIGHT: last}
    changes = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
    for rod, change in product(range(len(plan.start.digits)), changes):
        move = BeadMove(rod, change)
        asked.setdefault(judge.judge((move,)).judgement, []).append((judge, move))
    return {
        kind: best_seconds(partial(judge_all, some)) / len(some) * 1e6
        for kind, some in asked.items()
    }


def print_products() -> None:
    """Print the time to plan products and quotients, and that for each two digits multiplied."""
    for digits, by in SIZES:
        for name, spent in zip(
            ("product", "quotient"), planning_milliseconds(digits, by), strict=True
        ):
            print(
                f"{digits} by {by} digits, {name:8} {spent:6.2f} ms"
                f" ({spent / WANTED_MILLISECONDS:.2f} of what is allowed,"
                f" {spent / (digits * by) * 1e3:.1f} us for each two digits)"
            )


if __name__ == "__main__":
    main()
