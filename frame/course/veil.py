"""How much of a lesson's frame is seen."""

from dataclasses import dataclass

from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.practice.fading import facts_by_rod, rods_to_fade
from frame.practice.rungs import Rung
from frame.practice.work import Work

MOST_PALE = 3
"""The palest that beads become before they are not seen at all."""
_EXERCISES_A_SHADE = 2


@dataclass(frozen=True, slots=True)
class Veil:
    """What lies over a frame: its beads so many shades `pale`, those of the rods with the indices
    `faded` palest; or it is `covered`, and with `traces` a bead shows while it is on its way."""

    pale: int = 0
    faded: frozenset[int] = frozenset()
    covered: bool = False
    traces: bool = False


NO_VEIL = Veil()


def veil_of(runner: Runner, pale_done: int, faded: frozenset[int]) -> Veil:
    """The veil of what the lesson waits for, when nobody looks beneath it; `pale_done` counts the
    pale exercises done, as beads fade step by step."""
    rung = _rung(runner)
    if rung is Rung.PALE:
        return Veil(min(1 + pale_done // _EXERCISES_A_SHADE, MOST_PALE), faded)
    if rung is not None and rung.is_unseen:
        return Veil(covered=True, traces=rung is Rung.TRACES)
    return NO_VEIL


def faded_rods(work: Work, sure: frozenset[str]) -> frozenset[int]:
    """The indices, from the left, of the rods of a pale exercise on which every fact is sure."""
    if work.exercise.rung is not Rung.PALE:
        return frozenset()
    units = work.start.units
    by_rod = facts_by_rod(work.exercise, work.plan)
    return frozenset(units - rod for rod in rods_to_fade(by_rod, sure))


def _rung(runner: Runner) -> Rung | None:
    """The rung whose veil the frame has now; None where everything is seen."""
    work = runner.work
    if work is None:
        return runner.cover
    if runner.stage is Stage.DONE and runner.is_set_told_at_end:
        return work.exercise.rung
    is_open = runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS, Stage.END)
    return None if is_open else work.exercise.rung
