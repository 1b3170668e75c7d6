"""The log of an exercise: what was done, in order, and when.

Times are whole milliseconds from a zero of each way of asking. Where the exercise is shown it is
when the learner could begin: at once, or once the tool has made its own moves. Where numbers are
called it is when the first begins to be heard, since a hand follows as they come. Where they are
flashed it is when the last is gone. For work on the learner's own frame it is as the numbers come.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from frame.practice.items import Worked
from frame.practice.touches import WRONG_ANSWER
from frame.technique.beads import Frame, Stroke
from frame.technique.judge import Judgement, Verdict
from frame.technique.plan import Plan


class Happening(StrEnum):
    """What an entry tells of."""

    STROKE = "stroke"
    ANSWER = "answer"
    """A number was given."""
    DONE = "done"
    """The learner said that the work is done."""
    HELP = "help"
    LOOK = "look"
    UNDO = "undo"
    CALLED = "called"
    """The last number has been heard."""
    REPEAT = "repeat"
    """The number called last is called again."""
    AGAIN = "again"
    """All numbers come again, and the work begins anew."""
    HOLD = "hold"
    RESUME = "resume"
    """A call is held, and goes on."""
    AWAY = "away"
    BACK = "back"
    """Another window has the keys, and this one has them again."""


_OF_WORK = frozenset(
    {Happening.STROKE, Happening.ANSWER, Happening.DONE, Happening.HELP, Happening.LOOK}
)


class Entry(NamedTuple):
    """One thing that happened, so many `ms` after the zero.

    A stroke, of a pinch the earth beads first, has the `digit` that stood on its rod, whether it
    was `kept`, and the index of the `step` of the plan that was to be worked, None where the hand
    went another way. What was judged has a `judgement`, and a `slip` where one was named. Of help
    the digit is its level.
    """

    what: Happening
    ms: int
    stroke: Stroke = ()
    digit: int = 0
    judgement: Judgement | None = None
    kept: bool = False
    slip: str = ""
    step: int | None = None


class Log(NamedTuple):
    """What each step of the plan asked, and what was done."""

    worked: tuple[Worked, ...] = ()
    entries: tuple[Entry, ...] = ()


@dataclass
class Notes:
    """The entries of an exercise under way. `ms` is the time now, set by whoever has a clock."""

    ms: int = 0
    entries: list[Entry] = field(default_factory=list)

    @property
    def is_begun(self) -> bool:
        """Whether the learner has done anything of the work."""
        return any(entry.what in _OF_WORK for entry in self.entries)

    def note(self, what: Happening, digit: int = 0) -> None:
        """Something happened that is not judged."""
        self.entries.append(Entry(what, self.ms, digit=digit))

    def judged(self, what: Happening, is_right: bool, slip: str = "") -> None:
        """Something was judged that is no stroke."""
        judgement = Judgement.RIGHT if is_right else Judgement.WRONG
        self.entries.append(Entry(what, self.ms, judgement=judgement, slip=slip))

    def answer(self, is_right: bool) -> None:
        """A number was given."""
        self.judged(Happening.ANSWER, is_right, "" if is_right else WRONG_ANSWER)

    def stroke(self, verdict: Verdict, before: Frame, plan: Plan | None) -> None:
        """A stroke was judged, on the frame as it stood before."""
        earth_first = tuple(sorted(verdict.stroke, key=lambda move: move.is_heaven))
        rod, steps = earth_first[0].rod, plan.steps if plan else ()
        entry = Entry(
            Happening.STROKE, self.ms, earth_first, before.digit(rod) if before.has(rod) else 0,
            verdict.judgement, verdict.kept, verdict.slip or "",
            steps.index(verdict.step) if verdict.step in steps else None,
        )  # fmt: skip
        self.entries.append(entry)
