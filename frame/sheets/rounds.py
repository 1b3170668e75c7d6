"""A published run as it is worked: what is chosen of it, the rounds it asks for, and what they came
to beside what is published."""

from dataclasses import dataclass
from typing import NamedTuple

from frame.practice.choices import SHORT_SET
from frame.practice.columns import rods_needed
from frame.practice.drawing import Request
from frame.practice.rungs import Asked, Rung
from frame.sheets.runs import PublishedRun, published_runs
from frame.sheets.sheet import Way

CALLED_PACE = 1.0
"""Seconds of silence between two called numbers, where none are published: our own choice, as
where columns of fifteen numbers are called on our own ladder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounds:
    """The rounds of a run: each has `count` numbers, the longest of `digits` digits. `pace` is, in
    seconds, the silence between called numbers, or how long a flashed one takes. With `minus` some
    are taken away; with `own` they are worked on a frame of one's own."""

    run: PublishedRun
    count: int
    digits: int
    pace: float
    minus: bool = False
    own: bool = False

    @classmethod
    def of(cls, run: PublishedRun) -> "Rounds":
        """The rounds of a run as they are published, the fewest numbers of those it may have."""
        count = run.counts[0]
        pace = run.seconds / count if run.seconds else CALLED_PACE
        return cls(run=run, count=count, digits=run.digits.most, pace=pace)

    @property
    def tries(self) -> int:
        """How many rounds: a set, where none are published."""
        return self.run.tries or SHORT_SET

    @property
    def has_frame(self) -> bool:
        """Whether they are worked on a frame: the screen's, or one's own."""
        return self.run.way is Way.BEADS

    @property
    def is_seen(self) -> bool:
        """Whether the screen's frame is worked."""
        return self.has_frame and not self.own

    @property
    def is_as_published(self) -> bool:
        """Whether the numbers come as they are published, as far as that is."""
        run = self.run
        is_as_quick = not run.seconds or self.pace * self.count <= run.seconds + 1e-9
        return is_as_quick and self.digits == run.digits.most

    @property
    def request(self) -> Request:
        """The rounds to be drawn."""
        return Request(
            count=self.tries, terms=self.count, digits=self.digits,
            shortest=self.run.digits.least, rods=rods_needed(self.digits, self.count),
            rung=Rung.ALONE if self.is_seen else Rung.NUMBER, asked=self.run.asked,
            pace=self.pace, own=self.has_frame and self.own, minus=self.minus,
        )  # fmt: skip


class Score(NamedTuple):
    """What rounds came to: so many were `right` of those that `counted`, for a number that came
    late, and what was left out, count neither way."""

    rounds: Rounds
    right: int
    counted: int

    @property
    def is_enough(self) -> bool | None:
        """Whether as many were right as is published, whatever those would be that did not count;
        None where that can't be told, or nothing is published."""
        run, left = self.rounds.run, self.rounds.tries - self.counted
        if not run.right or not self.rounds.is_as_published:
            return None
        if self.right >= run.right:
            return True
        return False if self.right + left < run.right else None


def runs_asked(asked: Asked) -> tuple[PublishedRun, ...]:
    """The published runs whose numbers come in one way."""
    return tuple(run for run in published_runs().values() if run.asked is asked)
