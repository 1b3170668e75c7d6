"""When a learner goes up or down the ladder of rungs: the rules, and nothing else.

A learner stands on a rung for each family of facts with each number of rods: that is a track. Where
on it is worked out anew from all that was tried, and kept nowhere, so that a tutor may change the
rules on any day. The rules and their numbers are a hypothesis: no learner has been studied with
them.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from random import Random
from typing import NamedTuple

from frame.practice.families import Family
from frame.practice.rungs import Asked, Rung

RUNGS = tuple(Rung)
"""The ladder, from the lowest rung."""

FLUENT_FROM = 3
"""With so many rods or more, answers must be quick too before another rod comes: children a year
in practice mostly failed beyond three or four digits (Frank and Barner 2012, from a summary in the
press)."""


@dataclass(frozen=True, slots=True)
class Among:
    """So many among the last so many."""

    count: int
    last: int


@dataclass(frozen=True, slots=True)
class LadderRules:
    """The numbers behind the ladder.

    One rung up: of the last `up_after` exercises at this rung the `share` is right unaided, and
    their median time is at most `slower` times that of the rung below. Times are compared where
    the learner does all the work on both rungs. One rung down: `misses`, or `looks`, each counting
    exercises; None for never. About one exercise in `probe_every` comes from the rung below. A rung
    above `alone` is told as reached only while at `alone` the share right is `alone_share`. A fact
    is sure after `sure_after` exercises right unaided.
    """

    up_after: int = 10
    share: float = 0.85
    slower: float = 1.5
    misses: Among | None = Among(2, 3)
    looks: Among | None = Among(3, 5)
    probe_every: int = 10
    alone_share: float = 0.9
    sure_after: int = 5


USUAL_RULES = LadderRules()


class Try(NamedTuple):
    """One exercise done: `right` means unaided, and `seconds` is how long all of it took."""

    family: Family
    rods: int
    rung: Rung
    right: bool
    looks: int
    seconds: float
    facts: frozenset[str]
    asked: Asked = Asked.SHOWN
    own: bool = False
    digits: int = 0
    terms: int = 0
    pace: float = 0.0

    @property
    def is_on_ladder(self) -> bool:
        """Whether it tells of a rung: not on the learner's own frame, where nobody knows what is
        seen, nor with numbers called or flashed, whose pace is not the learner's."""
        return self.asked is Asked.SHOWN and not self.own


class Standing(NamedTuple):
    """How a learner does at one rung: of `tries` exercises the `share` was right unaided."""

    rung: Rung
    tries: int
    share: float


def tracks(tries: Iterable[Try]) -> dict[tuple[Family, int], tuple[Try, ...]]:
    """What tells of the ladder, apart for each family and number of rods, in the order given."""
    found: dict[tuple[Family, int], list[Try]] = {}
    for one in tries:
        if one.is_on_ladder:
            found.setdefault((one.family, one.rods), []).append(one)
    return {track: tuple(some) for track, some in found.items()}


def rung_of(
    tries: Sequence[Try], rules: LadderRules = USUAL_RULES, start: Rung = Rung.ALONE
) -> Rung:
    """The rung where a learner stands after the tries of one track, oldest first.

    Only tries at the rung where the learner stood then move anybody, and after a move the count
    starts anew. Those at other rungs, chosen by hand or as probes, tell how quick the learner is
    there and no more.
    """
    rung = start
    here: list[Try] = []
    by_rung: dict[Rung, list[Try]] = {}
    for one in tries:
        by_rung.setdefault(one.rung, []).append(one)
        if one.rung is not rung:
            continue
        here.append(one)
        moved = _moved(here, by_rung, rules)
        if moved is not rung:
            rung, here = moved, []
    return rung


def _moved(here: Sequence[Try], by_rung: Mapping[Rung, Sequence[Try]], rules: LadderRules) -> Rung:
    """The rung after the tries since the last move, all at one rung."""
    rung, top = here[-1].rung, here[-1].family.top
    if _goes_down(here, rules):
        return below(rung)
    if rung is not top and _is_right(here, rules) and _is_quick(here, by_rung, rules):
        return RUNGS[RUNGS.index(rung) + 1]
    return rung


def below(rung: Rung) -> Rung:
    """The rung below; the lowest has none and stays."""
    return RUNGS[max(0, RUNGS.index(rung) - 1)]


def _goes_down(here: Sequence[Try], rules: LadderRules) -> bool:
    missed = _are_among(rules.misses, here, lambda one: not one.right)
    return missed or _are_among(rules.looks, here, lambda one: one.looks > 0)


def _are_among(among: Among | None, here: Sequence[Try], is_one: Callable[[Try], bool]) -> bool:
    return among is not None and sum(map(is_one, here[-among.last :])) >= among.count


def _is_right(here: Sequence[Try], rules: LadderRules) -> bool:
    return len(here) >= rules.up_after and _share(here[-rules.up_after :]) >= rules.share


def _is_quick(
    here: Sequence[Try], by_rung: Mapping[Rung, Sequence[Try]], rules: LadderRules
) -> bool:
    """Whether the last tries at a rung are about as quick as those at the rung below; they are
    where there is nothing to compare with."""
    lower = below(here[-1].rung)
    there = () if lower.is_led else by_rung.get(lower, ())
    now, then = _seconds(here, rules), _seconds(there, rules)
    return now is None or then is None or now <= rules.slower * then


def _seconds(tries: Sequence[Try], rules: LadderRules) -> float | None:
    """The median time of those right among the last tries, None where none is."""
    times = sorted(one.seconds for one in tries[-rules.up_after :] if one.right)
    if not times:
        return None
    return (times[(len(times) - 1) // 2] + times[len(times) // 2]) / 2


def _share(tries: Sequence[Try]) -> float:
    return sum(one.right for one in tries) / len(tries)


def rods_of(
    tries_by_rods: Mapping[int, Sequence[Try]], rules: LadderRules = USUAL_RULES, least: int = 1
) -> int:
    """With how many rods to practise a family from the rung `pale` on: `least` at first, and one
    more when the last rung is mastered with those before it; from FLUENT_FROM on, quickly too."""
    rods = least
    while _is_mastered(tries_by_rods.get(rods, ()), rules):
        rods += 1
    return rods


def _is_mastered(track: Sequence[Try], rules: LadderRules) -> bool:
    if not track or rung_of(track, rules) is not track[0].family.top:
        return False
    by_rung = _by_rung(track)
    here = by_rung[track[0].family.top]
    is_quick = track[0].rods < FLUENT_FROM or _is_quick(here, by_rung, rules)
    return _is_right(here, rules) and is_quick


def _by_rung(tries: Sequence[Try]) -> dict[Rung, list[Try]]:
    return {rung: [one for one in tries if one.rung is rung] for rung in RUNGS}


def is_probe(random: Random, rules: LadderRules = USUAL_RULES) -> bool:
    """Whether the next exercise is a probe, to find out what has been lost."""
    return random.randrange(rules.probe_every) == 0


def probe_of(rung: Rung) -> Rung | None:
    """The rung of the probes for a learner who stands on a rung: the one below; None where there
    the tool leads the hand and nothing would be found out."""
    return None if below(rung).is_led else below(rung)


def standing(tries: Sequence[Try], rules: LadderRules = USUAL_RULES) -> tuple[Standing, ...]:
    """How a learner does at each rung tried, lowest first, with the same facts at every one: the
    last `up_after` tries there that need no fact left untried at another of these rungs."""
    by_rung = _by_rung(tries)
    tried = [frozenset().union(*(one.facts for one in some)) for some in by_rung.values() if some]
    same = tried[0].intersection(*tried) if tried else frozenset()
    alike = {
        rung: [one for one in some if one.facts <= same][-rules.up_after :]
        for rung, some in by_rung.items()
    }
    return tuple(Standing(rung, len(some), _share(some)) for rung, some in alike.items() if some)


def reached(
    tries: Sequence[Try], rules: LadderRules = USUAL_RULES, start: Rung = Rung.ALONE
) -> Rung:
    """The rung that may be told as reached on a track: none above `alone` while the same facts do
    not hold there."""
    rung = rung_of(tries, rules, start)
    shares = {row.rung: row.share for row in standing(tries, rules)}
    holds = shares.get(Rung.ALONE, 0.0) >= rules.alone_share
    return rung if holds else min(rung, Rung.ALONE, key=RUNGS.index)
