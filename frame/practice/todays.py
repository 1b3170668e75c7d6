"""How today's set is made of what is wanted.

More exercises are drawn than are asked for. One after another the one is taken that practises most
of what is wanted for the beads it moves, among those that may come next. The same situation makes
the same set.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random
from statistics import mean

from frame.practice.candidates import Candidate, Candidates
from frame.practice.exercises import Kind
from frame.practice.families import Family
from frame.practice.rungs import Asked
from frame.practice.separating import gain
from frame.practice.today import Because, Chosen, Today
from frame.practice.wanted import Situation, TodayRules, Want, wants_of
from frame.technique.expression import Calculation

_POOL = 2
"""So many times as many exercises are drawn as are taken."""
_LOOKED_AT = 8
"""Of so many it is worked out how much they tell, which takes a while."""
_LEAST_BITS = 0.2
_SPARE = 4
"""So many sure ones are put by for whoever misses some."""


def today_of(situation: Situation) -> Today:
    """Today's set; an empty one where nothing was taught."""
    rules = situation.rules.after(situation.away)
    random = Random(f"today {situation.seed}")
    draw, wants = Candidates(situation, rules, random), wants_of(situation)
    count = max(rules.least, round(60 * rules.minutes / (situation.seconds or rules.seconds)))
    sure = draw.sure()
    if not sure:
        return Today((), (), rules.minutes, situation.seed)
    opening, closing = sure[0], sure[min(1, len(sure) - 1)]
    making = _Making(rules, wants, random, count, _chosen(closing, Because.SURE))
    making.take(_chosen(opening, Because.SURE))
    pool = _pool(draw, wants, random, _POOL * count)
    later = [*_telling(situation, pool, random), *_later(draw, situation, count)]
    making.fill(pool, later)
    taken = {str(one.exercise) for one in making.chosen}
    others = [one for one in sure[2:] if one.text not in taken][:_SPARE]
    spare = tuple(_chosen(one, Because.SURE) for one in others)
    return Today(tuple(making.chosen), spare, rules.minutes, situation.seed)


def _pool(draw: Candidates, wants: dict[str, Want], random: Random, most: int) -> list[Candidate]:
    """Exercises for what is wanted most, until there are enough."""
    ranked = random.sample(list(wants.values()), len(wants))
    ranked.sort(key=lambda want: want.weight, reverse=True)
    pool: list[Candidate] = []
    asked: set[str] = set()
    for want in ranked:
        if len(pool) >= most:
            break
        if want.item not in asked:
            pool += (found := draw.wanted(want))
            asked.update(*(one.task.items for one in found))
    return pool


def _telling(situation: Situation, pool: list[Candidate], random: Random) -> list[Chosen]:
    """Of some exercises the one that tells most of what is in question, where any does."""
    weighed = situation.weighed
    sums = [one for one in pool if one.exercise.kind is Kind.SUM and not one.exercise.rung.is_led]
    if weighed is None or not weighed.is_open or not sums:
        return []
    some = random.sample(sums, min(_LOOKED_AT, len(sums)))
    bits = [gain(weighed, one.exercise.sum, situation.conventions) for one in some]
    if max(bits) < _LEAST_BITS:
        return []
    best = some[bits.index(max(bits))]
    pool.remove(best)
    return [_chosen(best, Because.TELLING)]


def _later(draw: Candidates, situation: Situation, count: int) -> list[Chosen]:
    """What comes in the second half: facts of lessons to come, called and flashed numbers."""
    found, rules = [], draw.rules
    for fact in situation.soon[: rules.soon]:
        if soon := draw.soon(fact):
            found.append(_chosen(soon, Because.SOON, fact))
    for request in situation.aloud if count >= rules.aloud_from else ():
        because = Because.CALLED if request.asked is Asked.CALLED else Because.FLASHED
        if aloud := draw.aloud(request):
            found.append(_chosen(aloud, because))
    return found


def _chosen(one: Candidate, because: Because, item: str = "") -> Chosen:
    task = one.task
    return Chosen(task.exercise, because, item, task.items, task.family, one.success)


@dataclass
class _Making:
    """A set in the making: `count` exercises of which the last is `closing`; `covered` are the
    items of those `chosen`."""

    rules: TodayRules
    wants: dict[str, Want]
    random: Random
    count: int
    closing: Chosen
    chosen: list[Chosen] = field(default_factory=list)
    covered: set[str] = field(default_factory=set)

    def take(self, chosen: Chosen) -> None:
        """Let it come next."""
        self.chosen.append(chosen)
        self.covered |= chosen.items

    def fill(self, pool: list[Candidate], later: list[Chosen]) -> None:
        """Take all others, and the last one."""
        while len(self.chosen) < self.count - 1:
            if later and self._is_late(later) and self._may_come(later[0].family):
                self.take(later.pop(0))
                continue
            best = self._best(pool)
            if best is None:
                break
            pool.remove(best)
            self.take(_chosen(best, *self._reason(best)))
        while len(self.chosen) > 1 and not self._may_close:
            self.chosen.pop()
        self.take(self.closing)

    @property
    def _may_close(self) -> bool:
        """Whether the last exercise may follow: where the pool ran out it may be of a family that
        came twice just now."""
        return any(one.family != self.closing.family for one in self.chosen[-2:])

    def _is_late(self, later: Sequence[Chosen]) -> bool:
        """Whether it is time for what comes later, every other time."""
        return self.count - 1 - len(self.chosen) <= 2 * len(later)

    def _may_come(self, family: Family) -> bool:
        """Whether a family may come next: never three in a row, the last exercise told in."""
        row = [one.family for one in self.chosen[-2:]]
        if len(self.chosen) == self.count - 2 and row[-1:] == [family] == [self.closing.family]:
            return False
        return row != [family, family]

    def _best(self, pool: Sequence[Candidate]) -> Candidate | None:
        """One of the best that may come next; None where none may."""
        last = str(self.chosen[-1].exercise)
        may = [one for one in pool if self._may_come(one.task.family) and one.text != last]
        may = [one for one in may if one.exercise.sum not in self._beside] or may
        if mean(one.success for one in self.chosen) < self.rules.low:
            may = [one for one in may if one.success >= self.rules.low] or may
        best = sorted(may, key=self._value, reverse=True)[: self.rules.among]
        return self.random.choice(best) if best else None

    @property
    def _beside(self) -> list[Calculation]:
        """The numbers of what comes just before the next one, and of the last where that follows:
        where there are others they are not asked twice running."""
        is_last_but_one = len(self.chosen) == self.count - 2
        beside = [self.chosen[-1], *[self.closing] * is_last_but_one]
        return [one.exercise.sum for one in beside]

    def _value(self, one: Candidate) -> float:
        """How much of what is wanted it practises for the beads it moves and the digits it takes
        to decide."""
        items = sorted(one.task.items)
        effort = one.task.strokes + self.rules.deciding * (1 + len(items))
        is_likely = self.rules.low <= one.success <= self.rules.high
        fits = 1.0 if is_likely else self.rules.unlikely
        if one.exercise.rung.is_led:
            fits = self.rules.led
        return fits * sum(map(self._weight, items)) / effort

    def _weight(self, item: str) -> float:
        if item not in self.wants:
            return 0.0
        return self.wants[item].weight * (self.rules.again if item in self.covered else 1.0)

    def _reason(self, one: Candidate) -> tuple[Because, str]:
        """Why it is in: for the item that is wanted most."""
        item = max(sorted(one.task.items), key=self._weight)
        want = self.wants.get(item)
        return (want.because, item) if want else (Because.SURE, "")
