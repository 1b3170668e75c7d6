"""What each rung of the ladder shows of the frame."""

from frame.course.runner import Stage
from frame.learner.settings import Settings
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.view.painter import FADES, Appearance


def look_of(
    work: Work | None, stage: Stage, settings: Settings, *, looking: bool, pale_done: int
) -> tuple[Appearance, bool]:
    """How much of the frame is seen, and whether strokes are read without looking at beads.

    `looking` is a free look; `pale_done` counts the pale exercises done, as beads fade step by
    step.
    """
    seen = Appearance(tint=settings.bead_tint)
    if work is None or looking or work.replaying or stage in (Stage.DONE, Stage.END):
        return seen, False
    rung = work.exercise.rung
    if rung is Rung.PALE:
        fade = FADES[min(1 + pale_done // 2, len(FADES) - 1)]
        return Appearance(tint=settings.bead_tint, opacity=fade), False
    if rung.is_unseen:
        return Appearance(covered=True, traces=rung is Rung.TRACES), True
    return seen, False
