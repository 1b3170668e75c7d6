"""How quick a hand is that knows where the next bead is: seconds a bead, from tapping lit ones.

It is the time between two beads less no thought at all, so that what an exercise takes beyond it is
deciding. The median of the last taps is taken: the first ones are still learning what to do, and
half of the others may be interrupted before it tells of anything but the hand.

The numbers are a judgement, no source; half a minute now and then is common practice, no source.
"""

from collections.abc import Iterable, Sequence
from statistics import median
from typing import NamedTuple

from frame.practice.observed import USUAL_PACE
from frame.practice.schedule import DAY

WHOLE = 30.0
"""So many seconds of tapping are enough."""
PAUSE = 3.0
"""A tap that took longer is a pause, and counts as so long."""
FEWEST = 12
"""From fewer taps nothing is told."""
LAST = 20
"""So many of the last taps are taken."""

GOOD_FOR = 60 * DAY
"""So long a pace is as good as new."""
APART = 7 * DAY
"""So long nobody is asked again."""
AFTER = 100
"""Nobody is asked before so many attempts are kept: there is nothing yet for it to tell."""


class Tapping(NamedTuple):
    """When tapping was offered or done, in seconds since the epoch (UTC), and the pace that it
    gave, in seconds a bead: None where it was not begun, or left."""

    at: float
    pace: float | None


def is_enough(taps: Iterable[float]) -> bool:
    """Whether that was half a minute of tapping, by the seconds that each tap took."""
    return sum(min(one, PAUSE) for one in taps) >= WHOLE


def pace_of(taps: Sequence[float]) -> float | None:
    """The pace of a hand whose taps took so many seconds each, oldest first; None where they are
    too few to tell."""
    return min(median(taps[-LAST:]), PAUSE) if len(taps) >= FEWEST else None


def pace_at(tappings: Iterable[Tapping], at: float) -> float:
    """The pace that held at a time, by tappings in their order; the usual one before the first."""
    held = [one.pace for one in tappings if one.at <= at and one.pace is not None]
    return held[-1] if held else USUAL_PACE


def is_due(tappings: Iterable[Tapping], attempts: int, now: float) -> bool:
    """Whether tapping may be offered now to a learner with so many attempts kept."""
    until = [one.at + (APART if one.pace is None else GOOD_FOR) for one in tappings]
    return attempts >= AFTER and all(now >= one for one in until)
