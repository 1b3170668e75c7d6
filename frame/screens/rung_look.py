"""What each rung of the ladder shows of the frame."""

from frame.course.runner import Runner, Stage
from frame.learner.settings import Settings
from frame.practice.rungs import Rung
from frame.view.painter import FADES, Appearance


def look_of(
    runner: Runner, settings: Settings, *, looking: bool, pale_done: int
) -> tuple[Appearance, bool]:
    """How much of the frame is seen, and whether strokes are read without looking at beads.

    `looking` is a free look; `pale_done` counts the pale exercises done, as beads fade step by
    step.
    """
    seen = Appearance(tint=settings.bead_tint)
    rung = _rung(runner)
    if rung is None or looking:
        return seen, False
    if rung is Rung.PALE:
        fade = FADES[min(1 + pale_done // 2, len(FADES) - 1)]
        return Appearance(tint=settings.bead_tint, opacity=fade), False
    if rung.is_unseen:
        return Appearance(covered=True, traces=rung is Rung.TRACES), True
    return seen, False


def _rung(runner: Runner) -> Rung | None:
    """The rung whose look the frame has now; None where everything is seen."""
    work = runner.work
    if work is None:
        return runner.cover
    open_now = work.revealed or work.replaying or runner.stage in (Stage.DONE, Stage.END)
    return None if open_now else work.exercise.rung
