"""What this computer really does. A figure that was not measured is None, never a guess."""

import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from random import Random
from statistics import median

from frame.technique.addition import plan_sum
from frame.technique.judge import Judge
from frame.technique.plan import Plan

Clock = Callable[[], float]
"""Seconds that never run backwards."""

LENGTHS = (14, 28)
"""Digits of the numbers that are planned: twice as long should cost twice as much, no more."""

TERMS = 20
STARTS = 3
_BESIDE = Path(__file__).resolve().parents[2]


@dataclass(frozen=True, slots=True)
class Speed:
    """How many worked digits a second are planned and replayed, with numbers of so many digits."""

    digits: int
    planned_per_s: int
    replayed_per_s: int


@dataclass(frozen=True, slots=True)
class Figures:
    """Every figure that could be measured here without a window."""

    speeds: tuple[Speed, ...]
    verdict_us: float
    start_ms: float
    memory_mb: float | None


def measure(clock: Clock, seconds: float) -> Figures:
    """The figures of this computer; each speed is measured for about `seconds`."""
    return Figures(
        tuple(technique_speed(digits, clock, seconds) for digits in LENGTHS),
        verdict_us(clock, seconds),
        start_ms(clock),
        memory_mb(),
    )


def technique_speed(digits: int, clock: Clock, seconds: float) -> Speed:
    """The speed of planning sums of numbers that long, and of replaying the plans' beads."""
    terms = _terms(digits)
    plan = plan_sum(terms)
    worked = len(plan.steps)
    planning = _seconds_each(lambda: plan_sum(terms), clock, seconds)
    replaying = _seconds_each(lambda: _replay(plan), clock, seconds)
    return Speed(digits, round(worked / planning), round(worked / replaying))


def verdict_us(clock: Clock, seconds: float) -> float:
    """Microseconds for one verdict, over the right moves of a long sum."""
    plan = plan_sum(_terms(LENGTHS[0]))
    whole = _seconds_each(lambda: _judge_all(plan), clock, seconds)
    return round(1e6 * whole / len(plan.strokes), 1)


def start_ms(clock: Clock) -> float:
    """Milliseconds from starting the command line to its answer."""
    return process_ms([sys.executable, "-m", "frame.cli", "--version"], clock, STARTS)


def process_ms(command: Sequence[str], clock: Clock, starts: int) -> float:
    """Milliseconds that a whole process takes; the median of so many, the first one warms up."""

    def start() -> None:
        subprocess.run(command, check=True, capture_output=True, cwd=_BESIDE)

    start()
    return round(1000 * median(_seconds(start, clock) for _ in range(starts)), 1)


def memory_mb() -> float | None:
    """The most memory this process has held, in MB; None where the system does not tell."""
    try:
        import resource
    except ImportError:
        return None
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return round(most / (1024 * 1024 if sys.platform == "darwin" else 1024), 1)


def _terms(digits: int) -> Sequence[Decimal]:
    random = Random(digits)
    return [Decimal(random.randrange(10 ** (digits - 1), 10**digits)) for _ in range(TERMS)]


def _replay(plan: Plan) -> None:
    plan.start.apply_all(tuple(move for step in plan.steps for move in step.moves))


def _judge_all(plan: Plan) -> None:
    judge = Judge.of(plan)
    for stroke in plan.strokes:
        judge = judge.after(judge.judge(stroke))


def _seconds(work: Callable[[], object], clock: Clock) -> float:
    began = clock()
    work()
    return clock() - began


def _seconds_each(work: Callable[[], object], clock: Clock, seconds: float) -> float:
    """The median time of one run, over runs that fill `seconds`; the first one warms up."""
    work()
    times = [_seconds(work, clock)]
    while sum(times) < seconds:
        times.append(_seconds(work, clock))
    return max(median(times), 1e-9)
