"""What each rung of the ladder shows of the frame."""

from frame.course.runner import Runner, Stage
from frame.learner.settings import Settings
from frame.practice.fading import facts_by_rod, rods_to_fade
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.technique.conventions import USUAL
from frame.view.painter import FADES, Appearance


def look_of(
    runner: Runner, settings: Settings, *, looking: bool, pale_done: int,
    faded: frozenset[int] = frozenset(),
) -> tuple[Appearance, bool]:  # fmt: skip
    """How much of the frame is seen, and whether strokes are read without looking at beads.

    `looking` is a free look, or the glance that is given of a number to be read; `pale_done`
    counts the pale exercises done, as beads fade step by step; the rods with the indices `faded`
    are palest from the first.
    """
    seen = Appearance(tint=settings.bead_tint)
    rung = _rung(runner)
    if rung is None or looking:
        return seen, False
    if rung is Rung.PALE:
        fade = FADES[min(1 + pale_done // 2, len(FADES) - 1)]
        return Appearance(tint=settings.bead_tint, opacity=fade, faded=faded), False
    if rung.is_unseen:
        return Appearance(covered=True, traces=rung is Rung.TRACES), True
    return seen, False


def faded_rods(work: Work, sure: frozenset[str]) -> frozenset[int]:
    """The indices, from the left, of the rods on which every fact is sure: they fade first."""
    units = work.start.units
    by_rod = facts_by_rod(work.exercise, USUAL)
    return frozenset(units - rod for rod in rods_to_fade(by_rod, sure))


def _rung(runner: Runner) -> Rung | None:
    """The rung whose look the frame has now; None where everything is seen."""
    work = runner.work
    if work is None:
        return runner.cover
    is_told_later = runner.is_set_told_at_end
    if runner.stage is Stage.DONE and is_told_later:
        return work.exercise.rung
    open_now = runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS, Stage.END)
    return None if open_now else work.exercise.rung
