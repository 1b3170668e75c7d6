"""When things happen in an exercise: its log has times from a zero of its own on."""

from dataclasses import dataclass

from frame.practice.log import Happening
from frame.practice.work import Work


@dataclass
class Stopwatch:
    """`since` is the zero of an exercise's times, in seconds on the caller's clock."""

    since: float = 0.0

    def start(self, work: Work | None, now: float) -> None:
        """The zero is now, and nothing came before it; unless something was done by then."""
        if work is None or not work.notes.is_begun:
            self.since = now
        if work is not None and not work.notes.is_begun:
            work.notes.entries.clear()

    def stamp(self, work: Work | None, now: float) -> None:
        """What is done of the work from here on is noted as done now."""
        if work is not None:
            work.notes.ms = max(0, round(1000 * (now - self.since)))

    def note(self, work: Work | None, what: Happening, now: float) -> None:
        """Something happened beside what the learner does with beads and answers."""
        if work is not None and not work.finished:
            self.stamp(work, now)
            work.notes.note(what)
