"""How far somebody imagines the frame: few items for each way of asking, and a step found.

For three ways of asking there are steps, one harder than the other: sums worked on a frame that is
seen less and less, with more digits; numbers that are called, by the levels of one's own frame; and
numbers that are flashed, by the levels of flashing. Each step is likely the one up to which all
succeeds; an answer weighs that by how likely it is then (Bayes). The first is the easiest; then it
is the hardest of those that succeed by more than even chances, which tells most; after one that
did not succeed comes none that is harder, and after two one that is easier than both. What can't
count, as its numbers came late, is asked again; a second time that way of asking is over.

How quickly success fades above a learner's step is our own supposition; learners were simulated
with another (`tests/simulated/placement.py`), and no real one was asked.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random
from typing import NamedTuple

from frame.practice.columns import rods_needed
from frame.practice.drawing import ExerciseError, Request, draw
from frame.practice.exercises import Exercise
from frame.practice.families import Family, family_of_fact
from frame.practice.flashing import LEVELS
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked, Rung

MOST_ITEMS = 8
MOST_SPOILT = 1
"""So often an item that can't count is asked again."""
LONGEST = 6
"""Digits, at most, of numbers that are shown and worked on a covered frame."""

_ABOVE = (0.35, 0.1, 0.02)
"""How likely a step succeeds that is one, two, more above the learner's."""
_SLIP = 0.06
_FADES = 0.96
"""How likely a learner of one step is also one of the next, before any answer."""
_LEAST = 0.5
"""How likely an item succeeds at least."""
_SURE = 0.85
"""How likely a step is the learner's own when no more need be asked."""
_DRAWN = 3
"""So many are drawn, lest one comes again."""


class Step(NamedTuple):
    """A step of one way of asking; `pace` in seconds as in `Exercise`, 0 where it is none."""

    rung: Rung
    digits: int
    rows: int
    pace: float = 0.0


class Found(NamedTuple):
    """The step found, None where none succeeds; of `asked` items so many were `right`."""

    step: Step | None
    right: int
    asked: int


class Answer(NamedTuple):
    """An item of a step that was answered."""

    item: Exercise
    step: int
    right: bool


def steps_of(asked: Asked) -> tuple[Step, ...]:
    """The steps of one way of asking, the easiest first."""
    match asked:
        case Asked.SHOWN:
            return tuple(_shown())
        case Asked.CALLED:
            levels = levels_of(asked)
            return tuple(Step(Rung.NUMBER, one.digits, one.rows, one.pace) for one in levels)
    flashes = (level.setting for level in LEVELS)
    return tuple(Step(Rung.NUMBER, one.digits, one.count, one.interval) for one in flashes)


def _shown() -> Iterator[Step]:
    """As the course goes: with each digit more the frame is seen again, and then less and less."""
    for digits in range(1, LONGEST + 1):
        for rung in (Rung.PALE, Rung.TRACES, Rung.COVERED, Rung.NUMBER):
            yield Step(rung, digits, 2)
        yield Step(Rung.NUMBER, digits, 3)


@dataclass(frozen=True)
class Imagining:
    """Where one way of asking stands: a value that `answered` makes the next one of."""

    asked: Asked
    known: frozenset[str]
    seed: int
    steps: tuple[Step, ...]
    answers: tuple[Answer, ...] = ()
    spoilt: tuple[Exercise, ...] = ()

    @classmethod
    def begin(
        cls,
        asked: Asked,
        known: frozenset[str],
        random: Random,
        may: Callable[[Step], bool] = lambda step: True,
    ) -> "Imagining":
        """The beginning, with the steps that somebody `may` be asked. Sums that are shown need
        nothing that is not among the facts `known`, some of which must be of adding; called and
        flashed ones are of any numbers."""
        return cls(asked, known, random.getrandbits(64), tuple(filter(may, steps_of(asked))))

    def next_item(self) -> Exercise | None:
        """The item to be asked now, at a rung above `alone`; None when it is over."""
        return self._next.item if self._next else None

    def answered(self, right: bool) -> "Imagining":
        """The next state; a skipped item is an answer that is not right. Raises ValueError when it
        is over."""
        if self._next is None:
            raise ValueError("no item is left to be answered")
        return replace(self, answers=(*self.answers, self._next._replace(right=right)))

    def spoilt_run(self) -> "Imagining":
        """The next state where the item can't count: another one of the same step, once. Raises
        ValueError when it is over."""
        if self._next is None:
            raise ValueError("no item is left to be spoilt")
        return replace(self, spoilt=(*self.spoilt, self._next.item))

    @property
    def step(self) -> int | None:
        """The place of the step that is asked now; None when it is over."""
        return self._next.step if self._next else None

    def result(self) -> Found:
        """What can be said now, at any moment: the step up to which most likely all succeeds, and
        none above what did."""
        found = self._found
        right = sum(answer.right for answer in self.answers)
        return Found(self.steps[found] if found >= 0 else None, right, len(self.answers))

    @cached_property
    def _shares(self) -> tuple[float, ...]:
        """How likely each step is the learner's own; the first share is of none."""
        shares = [_FADES**at for at in range(len(self.steps) + 1)]
        for answer in self.answers:
            chances = [_chance(answer.step, own - 1) for own in range(len(shares))]
            fits = [chance if answer.right else 1 - chance for chance in chances]
            shares = [share * fit for share, fit in zip(shares, fits, strict=True)]
        return tuple(share / sum(shares) for share in shares)

    @cached_property
    def _found(self) -> int:
        """The step at which most likely all succeeds, -1 for none; none above what was right."""
        likely = max(range(len(self._shares)), key=self._shares.__getitem__) - 1
        return min(likely, max((one.step for one in self.answers if one.right), default=-1))

    @cached_property
    def _next(self) -> Answer | None:
        is_sure = max(self._shares) >= _SURE
        step = self._step
        is_over = is_sure or len(self.answers) == MOST_ITEMS or len(self.spoilt) > MOST_SPOILT
        if is_over or step is None:
            return None
        return Answer(self._drawn(step), step, False)

    @property
    def _step(self) -> int | None:
        """The step to be asked; None where after two misses there is no easier one."""
        if not self.answers:
            return 0
        last = self.answers[-2:]
        most = len(self.steps) if last[-1].right else last[-1].step + 1
        if len(last) == 2 and not any(answer.right for answer in last):
            most = min(answer.step for answer in last)
        kind = [step for step in range(most) if self._succeeds(step) >= _LEAST]
        return kind[-1] if kind else (0 if most else None)

    def _succeeds(self, step: int) -> float:
        own = enumerate(self._shares, -1)
        return sum(share * _chance(step, at) for at, share in own)

    def _drawn(self, step: int) -> Exercise:
        random = Random(f"{self.seed} {len(self.answers) + len(self.spoilt)}")
        items = (*(answer.item for answer in self.answers), *self.spoilt)
        asked = {item.sum for item in items}
        drawn = self._some(self.steps[step], random)
        return next((item for item in drawn if item.sum not in asked), drawn[0])

    def _some(self, step: Step, random: Random) -> tuple[Exercise, ...]:
        """A few items of a step."""
        if self.asked is not Asked.SHOWN:
            return draw(_request(step, self.asked), random)
        known = frozenset(fact for fact in self.known if family_of_fact(fact) in _SHOWN)
        facts = sorted(fact for fact in known if family_of_fact(fact) in _WORKED)
        for fact in random.sample(facts, len(facts)):
            try:
                return draw(replace(_request(step, self.asked), facts=(fact,), known=known), random)
            except ExerciseError:
                continue
        raise ExerciseError("nothing known can be worked in so small numbers")


def worked_families(known: Iterable[str]) -> list[Family]:
    """The families known of which sums are worked without looking, in their order."""
    found = {family_of_fact(fact) for fact in known}
    return [family for family in _WORKED if family in found]


_WORKED = tuple(family for family in Family if family.grows and family.is_of_sums)
_SHOWN = (Family.SET, *_WORKED)


def _request(step: Step, asked: Asked) -> Request:
    rods = rods_needed(step.digits, step.rows)
    return Request(
        count=_DRAWN, terms=step.rows, digits=step.digits, rods=rods, rung=step.rung, asked=asked,
        pace=step.pace,
    )  # fmt: skip


def _chance(step: int, own: int) -> float:
    """How likely a step succeeds for a learner of a step, -1 for none."""
    above = step - own
    return 1 - _SLIP if above <= 0 else _ABOVE[min(above, len(_ABOVE)) - 1]
