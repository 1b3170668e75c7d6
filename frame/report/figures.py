"""What an adult is told of a learner, in figures: a value made of what was done.

Each claim has its count. A kind of sum is one that a learner can do where of the last LAST
exercises with it so many were right at once as ENOUGH says. Of a day at most A_DAY count, so that
it takes two: what goes well today may be gone tomorrow. Who can do seven in ten passes that four
times in a hundred. What was found known by placement stands as long as there are fewer, and the
tasks of it went well. The numbers are a judgement, no source.

A week is seven days, the last of which is the day of the report, so that it is as long as the one
before it: one that began on Monday would look like a fall until Sunday. Days are those of the place
where it is read.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import NamedTuple

from frame.practice.bead_habits import Where
from frame.practice.behind import RECENT
from frame.practice.families import Family
from frame.practice.log import Happening, Log
from frame.practice.own_ladder import OwnLevel
from frame.practice.tally import Tally
from frame.technique.habits import Habit

LAST, ENOUGH = 20, 18
"""Of so many exercises, the last ones, so many must be right at once."""
A_DAY = 10
"""Of a day so many exercises of a kind count, its last ones."""
FEW = 10
"""Fewer exercises of a kind tell little."""
EARLY = 20
"""With fewer exercises in all it is too early to tell anything."""
LONGEST_PAUSE = 60.0
"""Of a pause so many seconds count, as of somebody who thinks."""
_WEEK = 7
_FOUND = 0.75
"""The least share right at once of what was found known by placement."""
_MUCH = 0.2
"""The share that is not right of which it can't be said that nothing goes wrong again and again."""
_LATELY = timedelta(seconds=RECENT)
_AGAIN = 2
"""Fewer of a family that were not right are told of none."""


class Manner(StrEnum):
    """How an exercise was worked: with the tool leading the hand; on a frame that is seen, or one
    of the learner's own; on one whose beads are not seen; with numbers called or flashed."""

    LED = "led"
    SEEN = "seen"
    UNSEEN = "unseen"
    CALLED = "called"
    FLASHED = "flashed"


_ON_BEADS = (Manner.LED, Manner.SEEN)
"""So a kind of exercise is learned; the others are told of by themselves."""


class Exercised(NamedTuple):
    """An exercise that was done: on which day, of which family and how; whether it was right at
    once, without help or mending, and where beads are not seen without a look; whether it was one
    of those that find out where to begin, or stood on a sheet or a paper."""

    day: date
    family: Family
    manner: Manner
    is_right: bool
    is_placing: bool = False
    is_on_paper: bool = False


class Spent(NamedTuple):
    """So many seconds within exercises on a day."""

    day: date
    seconds: float


class Lessons(NamedTuple):
    """How many lessons were done and how many more were known from the start, of all; the id and
    the title of the next one, empty where all is done; the families that were known from the
    start."""

    done: int
    known: int
    all: int
    next: str = ""
    title: str = ""
    found: frozenset[Family] = frozenset()


class Kind(NamedTuple):
    """A family: how the last exercises of it went, on how many days they were done and on which
    the last one was, None where the tool has always led the hand; whether it was known from the
    start."""

    family: Family
    tally: Tally
    days: int = 0
    last: date | None = None
    is_found: bool = False

    @property
    def is_early(self) -> bool:
        """Whether there are too few exercises to tell."""
        return self.tally.of < FEW

    @property
    def is_sure(self) -> bool:
        """Whether enough of the last exercises were right at once."""
        return self.tally.of == LAST and self.tally.right >= ENOUGH

    @property
    def is_as_found(self) -> bool:
        """Whether what was done so far tells nothing else than that it was known."""
        right, of = self.tally
        return 0 < of < LAST and right >= _FOUND * of


class Aloud(NamedTuple):
    """How the last exercises with called or flashed numbers went; the level reached with them on a
    frame of the learner's own, and of how many, None where that was not tried."""

    tally: Tally
    level: OwnLevel | None = None
    levels: int = 0


class Fault(NamedTuple):
    """A fault, where it shows, how often it did of the times that it could, and since which day,
    None where it may be older than what was looked at; whether answers alone told of it, and no
    beads."""

    habit: Habit
    where: Where
    times: int
    of: int
    since: date | None
    in_answers: bool = False


class OnPaper(NamedTuple):
    """What was answered on sheets and papers: how many were right of how many, and the family of
    which most were not of late, None where too few were; whether nothing else was done."""

    tally: Tally
    hardest: Family | None = None
    of_hardest: Tally = Tally()
    is_all: bool = False


class Week(NamedTuple):
    """Seven days, the first and the last of them: minutes within exercises, and how those went."""

    first: date
    last: date
    minutes: int
    tally: Tally


@dataclass(frozen=True, slots=True)
class Report:
    """All figures of a day. `known` and `learning` are in the order in which the course teaches
    them. `looked_at` tells in how many exercises a fault was looked for, and `not_right` how many
    of those were not right."""

    day: date
    tally: Tally
    week: Week
    week_before: Week
    lessons: Lessons
    known: tuple[Kind, ...] = ()
    learning: tuple[Kind, ...] = ()
    unseen: Tally | None = None
    called: Aloud | None = None
    flashed: Aloud | None = None
    fault: Fault | None = None
    looked_at: int = 0
    not_right: int = 0
    on_paper: OnPaper | None = None

    @property
    def is_early(self) -> bool:
        """Whether it is too early to tell."""
        return self.tally.of < EARLY

    @property
    def is_unexplained(self) -> bool:
        """Whether much was not right, and no fault is named for it."""
        much = self.not_right >= _MUCH * self.looked_at > 0
        return much and self.fault is None

    @property
    def in_work(self) -> Kind | None:
        """What is being learned now: of that which is not known yet what was practised last, of
        several the hardest."""
        hardest_first = reversed(self.learning)
        return max(hardest_first, key=lambda one: one.last or date.min, default=None)


class Found(NamedTuple):
    """What else a report tells, found elsewhere."""

    lessons: Lessons
    fault: Fault | None = None
    looked_at: int = 0
    not_right: int = 0
    levels: Mapping[Manner, tuple[OwnLevel, int]] = {}


def report_of(
    exercises: Sequence[Exercised], spent: Iterable[Spent], found: Found, day: date
) -> Report:
    """The report of a day, of all exercises, oldest first."""
    alone = [one for one in exercises if one.manner is not Manner.LED]
    times = list(spent)
    kinds = list(_kinds(exercises, found.lessons.found))
    known = tuple(kind for kind, is_known in kinds if is_known)
    learning = tuple(kind for kind, is_known in kinds if not is_known)
    week = timedelta(days=_WEEK)
    unseen = _last(one for one in alone if one.manner is Manner.UNSEEN)
    return Report(
        day, _tally(alone), _week(alone, times, day), _week(alone, times, day - week),
        found.lessons, known, learning, unseen if unseen.of else None,
        _aloud(alone, Manner.CALLED, found), _aloud(alone, Manner.FLASHED, found),
        found.fault, found.looked_at, found.not_right, _on_paper(exercises, found.lessons, day),
    )  # fmt: skip


def seconds_at_work(log: Log) -> float:
    """How long somebody was at an exercise: of long pauses only the beginning counts, and nothing
    while another window had the keys."""
    total, before, is_away = 0, 0, False
    for entry in log.entries:
        if not is_away:
            total += min(entry.ms - before, round(1000 * LONGEST_PAUSE))
        before = entry.ms
        is_away = entry.what is Happening.AWAY or (is_away and entry.what is not Happening.BACK)
    return total / 1000


def _kinds(exercises: Sequence[Exercised], found: frozenset[Family]) -> Iterable[tuple[Kind, bool]]:
    """Every family that was practised or found known, and whether it is known."""
    for family in Family:
        of_family = [one for one in exercises if one.family is family]
        seen = _counted(one for one in of_family if one.manner is Manner.SEEN)
        days = {one.day for one in seen}
        kind = Kind(family, _tally(seen), len(days), seen[-1].day if seen else None)
        if kind.is_sure:
            yield kind, True
        elif family in found and kind.is_as_found:
            yield kind._replace(is_found=True), True
        elif any(one.manner in _ON_BEADS and not one.is_placing for one in of_family):
            yield kind, False


def _aloud(exercises: Sequence[Exercised], manner: Manner, found: Found) -> Aloud | None:
    tally = _last(one for one in exercises if one.manner is manner)
    level, levels = found.levels.get(manner, (None, 0))
    return Aloud(tally, level, levels) if tally.of else None


def _on_paper(exercises: Sequence[Exercised], lessons: Lessons, day: date) -> OnPaper | None:
    """What was answered on sheets and papers; None where nothing was."""
    some = [one for one in exercises if one.is_on_paper]
    if not some:
        return None
    is_all = len(some) == len(exercises) and not lessons.done and not lessons.known
    lately = [one for one in some if day - one.day <= _LATELY]
    missed = Counter(one.family for one in lately if not one.is_right)
    hardest = max(Family, key=lambda family: missed[family])
    if missed[hardest] < _AGAIN:
        return OnPaper(_tally(some), is_all=is_all)
    of_hardest = _tally(one for one in lately if one.family is hardest)
    return OnPaper(_tally(some), hardest, of_hardest, is_all)


def _week(exercises: Iterable[Exercised], spent: Iterable[Spent], last: date) -> Week:
    first = last - timedelta(days=_WEEK - 1)
    seconds = sum(one.seconds for one in spent if first <= one.day <= last)
    minutes = max(1, round(seconds / 60)) if seconds else 0
    return Week(first, last, minutes, _tally(one for one in exercises if first <= one.day <= last))


def _last(exercises: Iterable[Exercised]) -> Tally:
    return _tally(_counted(exercises))


def _counted(exercises: Iterable[Exercised]) -> list[Exercised]:
    """The last exercises that count, oldest first."""
    counted: list[Exercised] = []
    of_day = Counter[date]()
    for one in reversed(list(exercises)):
        if len(counted) == LAST:
            break
        if of_day[one.day] < A_DAY:
            of_day[one.day] += 1
            counted.append(one)
    return counted[::-1]


def _tally(exercises: Iterable[Exercised]) -> Tally:
    right = [one.is_right for one in exercises]
    return Tally(sum(right), len(right))
