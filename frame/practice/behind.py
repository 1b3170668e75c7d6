"""What is behind what a learner did lately: the faults that are likely enough to be told, how often
each showed, and since when.

Answers tell of it by `suspects.py`, slips of beads by `bead_habits.py`. What lies long back counts
for less and less, and in the end for nothing.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from frame.practice.bead_habits import EVERYWHERE, BeadHabit, Chance, Where, bead_habits, chances_of
from frame.practice.schedule import DAY
from frame.practice.suspects import AT_ONCE, Given, Weighed, explanation, shown_by, weigh
from frame.technique.calculation import Calculation
from frame.technique.conventions import USUAL, Conventions
from frame.technique.habits import Habit
from frame.technique.planning import fits_a_frame

RECENT = 60 * DAY
"""What is older says nothing, in seconds."""
MOST, MOST_ANSWERS = 200, 60
"""So many exercises are looked at, the last ones, and so many answers: older ones count for less
than an eighth, and take long."""
_LIKELY = 0.5
_AGAIN = 2
"""What showed fewer times is no habit that anybody should be told of."""


class Done(NamedTuple):
    """An exercise that was done: when (seconds since the epoch), what it asked, the number first
    given for it where no bead was seen, else None, and the slips of beads with their rods."""

    at: float
    calculation: Calculation
    answer: Decimal | None = None
    slips: tuple[tuple[str, int], ...] = ()

    @property
    def is_right(self) -> bool:
        """Whether the answer was right, or where beads were seen no bead slipped."""
        return not self.slips if self.answer is None else self.answer == self.calculation.result


class Told(NamedTuple):
    """A fault that is told: where it shows, in how many of the exercises in which it could, and
    when it first did of late; None where older answers were not looked at, which may show it. The
    last answer in which it showed, None where beads alone tell of it."""

    habit: Habit
    where: Where
    times: int
    of: int
    since: float | None
    last: Done | None = None


class Behind(NamedTuple):
    """What is told, that which showed most often first; and what is still in question."""

    told: tuple[Told, ...]
    weighed: Weighed


def behind(done: Sequence[Done], now: float, conventions: Conventions = USUAL) -> Behind:
    """What is behind some exercises, oldest first."""
    return _behind(done, now, conventions) if done else _nothing()


@cache
def _nothing() -> Behind:
    return Behind((), weigh(()))


def _behind(done: Sequence[Done], now: float, conventions: Conventions) -> Behind:
    lately = [
        one for one in done if now - one.at <= RECENT and fits_a_frame(one.calculation, conventions)
    ][-MOST:]
    answered = [one for one in lately if one.answer is not None][-MOST_ANSWERS:]
    givens = givens_of(answered, now)
    weighed = weigh(givens, conventions)
    by_answers = [
        _by_answers(habit, answered, givens, weighed, conventions) for habit in weighed.named
    ]
    by_beads = _by_beads([one for one in lately if one.answer is None], conventions)
    again = [one for one in _joined([*by_answers, *by_beads]) if one.times >= _AGAIN]
    if len(lately) == MOST or len(answered) == MOST_ANSWERS:
        again = [one._replace(since=None) for one in again]
    return Behind(tuple(sorted(again, key=lambda one: one.times, reverse=True)), weighed)


def givens_of(done: Iterable[Done], now: float) -> list[Given]:
    """The answers of which no bead was seen, each with how long ago it was given."""
    answered = [one for one in done if one.answer is not None]
    last = len(answered) - 1
    return [
        Given(
            one.calculation, one.answer, last - at, max(0.0, now - one.at) / DAY,
            earlier.answer if earlier and one.at - earlier.at <= AT_ONCE * DAY else None,
        )
        for at, (earlier, one) in enumerate(zip([None, *answered], answered, strict=False))
        if one.answer is not None
    ]  # fmt: skip


def _by_answers(
    habit: Habit,
    answered: Sequence[Done],
    givens: Sequence[Given],
    weighed: Weighed,
    conventions: Conventions,
) -> Told:
    could = [
        (one, _likely(habit, given, weighed, conventions))
        for one, given in zip(answered, givens, strict=True)
        if habit in shown_by(given.calculation, conventions, given.before)
    ]
    shown = [one for one, is_shown in could if is_shown]
    since = shown[0].at if shown else answered[-1].at
    return Told(habit, EVERYWHERE, len(shown), len(could), since, shown[-1] if shown else None)


def _likely(habit: Habit, given: Given, weighed: Weighed, conventions: Conventions) -> bool:
    if given.answer == given.calculation.result:
        return False
    found = explanation(given, weighed, conventions)
    return any(site.habit is habit and chance >= _LIKELY for site, chance in found)


def _by_beads(done: Sequence[Done], conventions: Conventions) -> list[Told]:
    places: list[tuple[float, Chance]] = []
    for one in done:
        for chance in chances_of(one.calculation, conventions, one.slips):
            places.append((one.at, chance))
    found = bead_habits(chance for _, chance in places)
    return [_of_beads(one, places) for one in found]


def _of_beads(one: BeadHabit, places: Sequence[tuple[float, Chance]]) -> Told:
    since = min(
        at
        for at, chance in places
        if chance.is_slip and chance.site.habit is one.habit and one.where.has(chance)
    )
    return Told(one.habit, one.where, one.slips, one.chances, since)


def _joined(told: Sequence[Told]) -> Iterable[Told]:
    """Each habit once: what answers and beads tell of the same is counted together."""
    for habit in dict.fromkeys(one.habit for one in told):
        some = [one for one in told if one.habit is habit]
        where = some[0].where if len(some) == 1 else EVERYWHERE
        times, of = sum(one.times for one in some), sum(one.of for one in some)
        days = [one.since for one in some if one.since is not None]
        since = min(days) if len(days) == len(some) else None
        last = next((one.last for one in some if one.last), None)
        yield Told(habit, where, times, of, since, last)
