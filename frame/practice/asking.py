"""Which item to ask next of who knows some of a syllabus, and where to begin to teach it.

It knows nothing of lessons: of groups of facts that are taught together, and of parts that those
are in. All answers so far weigh supposed learners (`supposed.py`), who say how likely each group is
the first to be taught. Some items are drawn: small ones for the facts that are most likely lacking,
and large ones that ask much at once, of numbers that grow longer with what succeeds. What an item
needs is asked of its plan. Of those that will likely enough succeed the one is asked that tells
most for what it costs: its share of the items that are left or of the time, whichever is scarcer.

The numbers were chosen with simulated learners (`tests/simulated/placement.py`).
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random
from typing import NamedTuple

from frame.practice.exercises import Exercise
from frame.practice.families import Family, family_of_fact
from frame.practice.probes import narrow_probe, seconds_of, wide_probes
from frame.practice.supposed import Supposed, Syllabus
from frame.technique.conventions import USUAL, Conventions
from frame.technique.facts import ALL_FACTS

MOST_ITEMS = 20
MOST_SECONDS = 240.0


@dataclass(frozen=True, slots=True)
class Manner:
    """How it is asked. An item is at least `least` likely to succeed, the first one at least
    `first`, one that must be a sure one at least `sure`; where the last two succeeded one may be
    harder (`when_well`). At most `items` are asked, fewer when the group to begin with lies only
    with a probability of `doubt` more than a part off. Long numbers have up to `digits` digits, one
    more each time that `grows_after` items succeeded.
    """

    least: float
    when_well: float
    first: float
    sure: float
    items: int
    doubt: float
    digits: int
    grows_after: int


USUAL_MANNER = Manner(
    least=0.5, when_well=0.1, first=0.85, sure=0.8, items=MOST_ITEMS, doubt=0.004, digits=7,
    grows_after=1,
)  # fmt: skip
"""Twice right, a harder item may come: so a slip with what is known is asked about again, and who
knows much is soon where it is interesting."""
YOUNG_MANNER = Manner(
    least=0.7, when_well=0.5, first=0.9, sure=0.9, items=MOST_ITEMS, doubt=0.01, digits=3,
    grows_after=2,
)  # fmt: skip
"""The young meet less that is new to them, with numbers that grow more slowly."""

_TOO_FAR = 11.0
"""To begin more than a part too far weighs as much as so many times too early."""
_A_GROUP = 0.1
"""The same of each group off, either way."""
_A_BIT_OF_PART, _A_BIT_OF_GROUP = 0.2, 0.1
"""What a bit about the part or the group is worth, beside two who are supposed and no longer begin
more than a part from one another."""

_MAY_WELL = 0.03
"""How likely a part is the first that is lacking which nobody is led past unseen."""

_AROUND = (0.1, 0.3, 0.5, 0.7)
"""Where items are looked for: the groups up to which the one to begin with lies as likely."""
_LIKELY = 6
"""And in so many that are most likely the one."""
_LARGE = 2
"""Of large items so many are weighed for each kind and reach."""
_KINDS = tuple(
    sorted(fact for fact in ALL_FACTS if family_of_fact(fact) in families)
    for families in (
        {Family.READ},
        {Family.SET},
        {family for family in Family if family.grows and family.is_of_sums},
        {family for family in Family if not family.grows},
    )
)
"""The facts of large items, which are numbers to be read or set, columns, or procedures."""


class Answer(NamedTuple):
    """An item that was answered; `right` means at once and without help."""

    item: Exercise
    right: bool
    seconds: float


@dataclass(frozen=True)
class Asking:
    """Where it stands: a value that `answered` makes the next one of. The same seed and the same
    answers bring the same items."""

    syllabus: Syllabus
    supposed: Supposed
    seed: int
    conventions: Conventions = USUAL
    manner: Manner = USUAL_MANNER
    answers: tuple[Answer, ...] = ()

    @cached_property
    def item(self) -> Exercise | None:
        """The item to be asked now, at the rung `alone`; None when it is over."""
        if self._is_over:
            return None
        random = Random(f"{self.seed} {len(self.answers)}")
        return self._chosen([item for item in self._drawn(random) if self._is_new(item)])

    def answered(self, right: bool, seconds: float) -> "Asking":
        """The next state, once the item was answered. Raises ValueError when it is over."""
        if self.item is None:
            raise ValueError("no item is left to be answered")
        supposed = self.supposed.after(self.needed(self.item), right)
        answers = (*self.answers, Answer(self.item, right, seconds))
        return replace(self, supposed=supposed, answers=answers)

    @cached_property
    def group(self) -> int:
        """The group to begin with, by its place; the number of groups where nothing is lacking. It
        lies off by least, where too far weighs more; it may be lacking at all; and however little
        was asked, it is no further than the one after the hardest that succeeded, nor than the
        first of a part that may well be lacking and of which nothing was seen to succeed."""
        right = [answer.item for answer in self.answers if answer.right]
        hardest = max(map(self._hardest, right), default=-1)
        reach = min([hardest + 1, *self._unseen(right)])
        within = [group for group in self._maybe if group <= reach] or self._maybe[:1]
        return min(within, key=self._expected_miss)

    @cached_property
    def _maybe(self) -> list[int]:
        """The groups that may be the one."""
        return [group for group, share in enumerate(self._by_group) if share]

    def _unseen(self, right: Sequence[Exercise]) -> Iterator[int]:
        """The first group of each part that may well be lacking, and that nothing needed of what
        succeeded."""
        parts, lacking = self.syllabus.parts, self._by_part(self._by_group)
        seen = {part for item in right for part in self._parts_of(item)}
        for part in sorted(set(parts) - seen):
            if lacking[part] >= _MAY_WELL:
                yield parts.index(part)

    def _parts_of(self, item: Exercise) -> set[int]:
        bits = (self.syllabus.bits.get(fact, 0).bit_length() - 1 for fact in item.facts)
        return {self.syllabus.parts[self.syllabus.group_at[bit]] for bit in bits if bit >= 0}

    @property
    def seconds(self) -> float:
        """How long all answers took."""
        return sum(answer.seconds for answer in self.answers)

    def needed(self, item: Exercise) -> int:
        """The mask of what an item needs."""
        return self.syllabus.mask(item.facts)

    @cached_property
    def _by_fact(self) -> list[float]:
        """How likely each fact is the first that is lacking; behind them that none is."""
        return self.supposed.by_first

    @cached_property
    def _by_group(self) -> list[float]:
        return self._grouped(self._by_fact)

    def _grouped(self, by_fact: Sequence[float]) -> list[float]:
        found = [0.0] * (len(self.syllabus.groups) + 1)
        for group, share in zip(self.syllabus.group_at, by_fact, strict=True):
            found[group] += share
        return found

    def _expected_miss(self, suggested: int) -> float:
        parts = self._parts
        return sum(
            share * _weight(suggested - true, parts[suggested] - parts[true])
            for true, share in enumerate(self._by_group)
        )

    @cached_property
    def _parts(self) -> tuple[int, ...]:
        """The part of each group; behind them that of the last."""
        return (*self.syllabus.parts, self.syllabus.parts[-1])

    @cached_property
    def _is_sure(self) -> bool:
        here = self._parts[self.group]
        off = [
            share
            for share, part in zip(self._by_group, self._parts, strict=True)
            if abs(here - part) > 1
        ]
        return sum(off) <= self.manner.doubt

    @property
    def _is_over(self) -> bool:
        is_spent = len(self.answers) >= self.manner.items or self.seconds >= MOST_SECONDS
        return is_spent or (self._is_sure and not self._has_missed(1))

    def _has_missed(self, count: int) -> bool:
        """Whether the last so many answers were not right."""
        last = self.answers[-count:]
        return len(last) == count and not any(answer.right for answer in last)

    def _is_new(self, item: Exercise) -> bool:
        return all((item.kind, item.sum) != (a.item.kind, a.item.sum) for a in self.answers)

    def _chosen(self, items: Sequence[Exercise]) -> Exercise | None:
        """The item that tells most for what it costs, of those that are kind enough, the hardest
        where several tell nothing; where one must be sure, or none is kind enough, the surest."""
        easier = [item for item in items if self._is_easier(item) and self._is_in_time(item)]
        told = {item: self._told(item) for item in easier}
        kind = [item for item in easier if told[item].chance >= self._least]
        if kind:
            return max(kind, key=lambda item: (round(told[item].worth, 6), self._hardest(item)))
        return max(easier, key=lambda item: told[item].chance, default=None)

    @property
    def _must_be_sure(self) -> bool:
        return self._is_sure or len(self.answers) == self.manner.items - 1

    @property
    def _least(self) -> float:
        """How likely an item must succeed at least."""
        if not self.answers:
            return self.manner.first
        if self._has_missed(2) or self._must_be_sure:
            return self.manner.sure
        is_well = len(self.answers) > 1 and all(answer.right for answer in self.answers[-2:])
        return self.manner.when_well if is_well else self.manner.least

    def _is_easier(self, item: Exercise) -> bool:
        """Whether an item may come: after two misses it must be easier than both."""
        if not self._has_missed(2):
            return True
        missed = [self._hardest(answer.item) for answer in self.answers[-2:]]
        return self._hardest(item) < min(missed)

    def _is_in_time(self, item: Exercise) -> bool:
        """Whether the learner will likely be done with an item before time is up."""
        return self._seconds_of(item) <= MOST_SECONDS - self.seconds

    def _cost(self, item: Exercise) -> float:
        """The share of what is left that an item takes: of the items or of the time, whichever is
        scarcer."""
        of_time = self._seconds_of(item) / (MOST_SECONDS - self.seconds)
        return max(of_time, 1 / (self.manner.items - len(self.answers)))

    def _seconds_of(self, item: Exercise) -> float:
        return self._pace * seconds_of(item)

    @cached_property
    def _pace(self) -> float:
        """How many times as long as guessed the learner takes, from what was right."""
        right = [answer for answer in self.answers if answer.right]
        guessed = sum(seconds_of(answer.item) for answer in right)
        return sum(answer.seconds for answer in right) / guessed if guessed else 1.0

    def _hardest(self, item: Exercise) -> int:
        """The group of the last fact in the course's order that an item needs."""
        return self.syllabus.group_at[self.needed(item).bit_length() - 1]

    def _drawn(self, random: Random) -> Iterator[Exercise]:
        """Small items for the facts most likely lacking, for the first of all and the last that is
        known for sure; and of large ones for each reach those that ask most of what may be
        lacking."""
        around = {self._quantile(at) for at in _AROUND}
        likely, last_known = self._likely, max(0, self._maybe[0] - 1)
        for group in sorted({0, last_known, *around, *likely}):
            fact = self._most_lacking(self.syllabus.groups[group])
            if item := narrow_probe(fact, self.syllabus.known_by[group], random, self.conventions):
                yield item
        for reach in sorted({max(0, likely[0] - 1), *around}):
            yield from self._large(reach, random)

    def _large(self, reach: int, random: Random) -> Iterator[Exercise]:
        known = self.syllabus.known_by[reach]
        for kind in _KINDS:
            facts = [fact for fact in kind if fact in known]
            if facts:
                fact = self._most_lacking(facts)
                items = wide_probes(fact, known, random, self.conventions, self._digits)
                yield from sorted(items, key=self._lacking, reverse=True)[:_LARGE]

    @property
    def _digits(self) -> int:
        """How long the numbers of large items may be: they grow with what succeeds."""
        right = sum(answer.right for answer in self.answers)
        return min(self.manner.digits, 1 + right // self.manner.grows_after)

    def _lacking(self, item: Exercise) -> float:
        """How likely something that an item needs is the first thing lacking."""
        return math.fsum(map(self._share_of, item.facts))  # In whatever order the facts come.

    def _share_of(self, fact: str) -> float:
        return self._by_fact[self.syllabus.bits[fact].bit_length() - 1]

    @property
    def _likely(self) -> list[int]:
        """The groups that are most likely the one to begin with."""
        shares = self._by_group[:-1]
        return sorted(range(len(shares)), key=lambda group: -shares[group])[:_LIKELY]

    def _most_lacking(self, facts: Sequence[str]) -> str:
        return max(facts, key=self._share_of)

    def _quantile(self, share: float) -> int:
        """The group up to which the one to begin with lies as likely as that."""
        whole = 0.0
        for group, part in enumerate(self._by_group[:-1]):
            whole += part
            if whole >= share:
                return group
        return len(self.syllabus.groups) - 1

    def _told(self, item: Exercise) -> "_Told":
        """What is told of the lesson is weighed with what it costs: seconds, and a share of all
        that may be asked. Bits alone would be spent on one part or its neighbour, either of which
        will do to begin with."""
        right = self._grouped(self.supposed.succeeding(self.needed(item)))
        wrong = [share - some for share, some in zip(self._by_group, right, strict=True)]
        groups = self._by_group, right, wrong
        parts = tuple(map(self._by_part, groups))
        bits = _A_BIT_OF_PART * _less(_entropy, *parts) + _A_BIT_OF_GROUP * _less(_entropy, *groups)
        return _Told(sum(right), (_less(_apart, *parts) + bits) / self._cost(item))

    def _by_part(self, by_group: Sequence[float]) -> list[float]:
        """The same shares of parts; behind them that nothing is lacking."""
        found = [0.0] * (self._parts[-1] + 2)
        for part, share in zip(self.syllabus.parts, by_group, strict=False):
            found[part] += share
        found[-1] = by_group[-1]
        return found


def _weight(groups: int, parts: int) -> float:
    """How much it matters to begin so many groups and parts too far, below 0 too early. More
    than a part is off and no more is worse: who is in doubt is not sent far back for it."""
    off = abs(parts) > 1
    return abs(groups) * _A_GROUP + off * (_TOO_FAR if parts > 0 else 1.0)


class _Told(NamedTuple):
    """How likely an item succeeds, and how much it is worth to ask it."""

    chance: float
    worth: float


def _less(
    doubt: Callable[[Sequence[float]], float],
    before: Sequence[float], right: Sequence[float], wrong: Sequence[float],
) -> float:  # fmt: skip
    """How much less doubt an answer leaves, from the shares of all and of those right and wrong."""
    return doubt(before) - doubt(right) - doubt(wrong)


def _apart(by_part: Sequence[float]) -> float:
    """How likely two of these begin more than a part apart, of their whole where that is less than
    1."""
    whole = sum(by_part)
    far = (whole - sum(by_part[max(0, at - 1) : at + 2]) for at in range(len(by_part)))
    return sum(share * some / whole for share, some in zip(by_part, far, strict=True) if share > 0)


def _entropy(shares: Sequence[float]) -> float:
    """The entropy of shares in bits, of their whole where that is less than 1."""
    whole = sum(shares)
    return -sum(share * math.log2(share / whole) for share in shares if share > 0)
