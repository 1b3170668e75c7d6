"""What the log of an exercise tells of each item that it asked for.

Strokes tell which step went wrong, so that a slip at one digit says nothing of the others. Where
the hand went its own way, or moved nothing, only the whole exercise tells; a wrong answer is then
no digit's in particular.

How long a decision took is the time from the last bead of the step before, or from the zero of the
log, to the first bead of the step, less what this hand takes for a bead. It is told only where the
numbers stood there, and nothing came between: no help, no look, no other window.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from frame.practice.evidence import Evidence
from frame.practice.items import Worked
from frame.practice.log import Entry, Happening, Log
from frame.technique.facts import ADD_AND_TAKE
from frame.technique.judge import Judgement

USUAL_PACE = 0.6
"""Seconds that a hand takes for a bead of which it knows that it comes next, where its own pace is
not known: a judgement, no source."""


class Observed(NamedTuple):
    """An exercise: when it was done (seconds since the epoch, UTC) and in which sitting, its log,
    what it needed to be known, whether it was right unaided, whether the tool led the hand, whether
    its numbers stood there to be seen, and whether it came to its end."""

    at: float
    sitting: str
    log: Log
    facts: frozenset[str]
    is_right: bool
    is_led: bool
    is_shown: bool
    is_ended: bool


def evidence_of(one: Observed, pace: float = USUAL_PACE) -> tuple[Evidence, ...]:
    """What an exercise tells, of each item once, by a hand with so many seconds for a bead."""
    by_strokes = _is_told_by_strokes(one.log)
    told = _by_steps(one, pace) if by_strokes else _by_whole(one)
    found: dict[str, Evidence] = {}
    for evidence in (*told, *_procedures(one)):
        before = found.get(evidence.item)
        is_right = evidence.right and (before is None or before.right)
        found[evidence.item] = (before or evidence)._replace(right=is_right)
    return tuple(found.values())


@dataclass
class _Step:
    """The strokes at a step of the plan, and when what came before was over, in milliseconds; None
    where the time between tells nothing."""

    since: int | None
    has_help: bool
    strokes: list[Entry] = field(default_factory=list)

    @property
    def is_right(self) -> bool:
        """Whether it went right at once."""
        return not self.has_help and all(one.judgement is Judgement.RIGHT for one in self.strokes)

    @property
    def is_astray(self) -> bool:
        """Whether a wrong bead was left where it lay: what follows stands on it."""
        return any(one.kept and one.judgement is Judgement.WRONG for one in self.strokes)

    def decision(self, pace: float) -> float | None:
        """Seconds from when it could be decided to its first bead, less those of the hand."""
        first = self.strokes[0]
        if self.since is None or first.judgement is not Judgement.RIGHT:
            return None
        return max(0.0, (first.ms - self.since) / 1000 - pace)


def _is_told_by_strokes(log: Log) -> bool:
    """Whether there are strokes, and all of them at steps of the plan in their order."""
    strokes = [one for one in log.entries if one.what is Happening.STROKE]
    is_by_plan = all(
        one.step is not None and one.judgement is not Judgement.OTHER_ORDER for one in strokes
    )
    return bool(strokes) and is_by_plan


def _steps(entries: Iterable[Entry]) -> dict[int, _Step]:
    """The steps that were begun, by their index; of numbers that came again those of the last
    time."""
    steps: dict[int, _Step] = {}
    since, has_help = 0, False
    is_between = False
    for entry in entries:
        if entry.what is Happening.AGAIN:
            steps.clear()
        if entry.what is not Happening.STROKE or entry.step is None:
            is_between, has_help = True, has_help or entry.what is Happening.HELP
            continue
        if entry.step not in steps:
            steps[entry.step] = _Step(None if is_between else since, has_help)
        step = steps[entry.step]
        step.has_help = step.has_help or has_help
        step.strokes.append(entry)
        since, is_between, has_help = entry.ms, False, False
    return steps


def _by_steps(one: Observed, pace: float) -> Iterator[Evidence]:
    steps = _steps(one.log.entries)
    last = max(steps, default=0)
    for index, step in sorted(steps.items()):
        is_whole = one.is_ended or index < last
        if is_whole and index < len(one.log.worked):
            decision = step.decision(pace) if one.is_shown and not one.is_led else None
            for item in _items(one.log.worked[index]):
                yield Evidence(item, one.at, one.sitting, step.is_right, one.is_led, decision)
        if step.is_astray:
            return


def _by_whole(one: Observed) -> Iterator[Evidence]:
    if one.is_right:
        for worked in one.log.worked:
            for item in _items(worked):
                yield Evidence(item, one.at, one.sitting, True, one.is_led)


def _procedures(one: Observed) -> Iterator[Evidence]:
    """All else that was to be known: right where all was. Where digits were worked, what was not
    right may be theirs."""
    if not one.is_ended or not (one.is_right or not any(map(_items, one.log.worked))):
        return
    for fact in sorted(one.facts - _ADD_AND_TAKE):
        yield Evidence(fact, one.at, one.sitting, one.is_right, one.is_led)


_ADD_AND_TAKE = frozenset(ADD_AND_TAKE)


def _items(worked: Worked) -> tuple[str, ...]:
    return tuple(str(one) for one in worked if one)
