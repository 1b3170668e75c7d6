"""What may be behind the answers of somebody whose beads were not seen.

Each suspect is a set of habits: none, one, or a pair. Beside them stands what is not known: some
fault outside the catalogue. Bayes' rule weighs them by plausibility and by each answer; an answer
counts less with each item and day since, so that no fault sticks to anybody. A suspect may be the
likeliest of all and still answer otherwise: where its own answers would hardly ever be so unlike
it, its share goes to what is not known. A habit is named at nine chances in ten or more.

The numbers here are our own, tuned on simulated answers alone (`tests/simulated/finding.py`).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from functools import cache, lru_cache
from itertools import combinations
from math import exp, log, sqrt
from typing import NamedTuple

from frame.practice.answers import Habits, chances, possible_answers
from frame.technique.calculation import Calculation
from frame.technique.conventions import USUAL, Conventions
from frame.technique.faulty import Site
from frame.technique.habits import Habit
from frame.technique.reading import EXACT, plain

NAMED = 0.9
_IN_QUESTION, _HARDLY = 0.3, 1e-4
SLIP = 0.05
"""So often an answer is wrong by a slip that is no habit."""
AT_ONCE = 1 / 144
"""What was answered within so many days, ten minutes, may stand on the frame still."""
HALF_LIFE_ITEMS = 20
HALF_LIFE_DAYS = 14.0
"""After so many answers, or days, one counts half (`VanLehn` 1982: faults come and go within days
to months; the numbers are our own)."""

_NONE, _UNKNOWN, _ONE, _PAIR = 0.35, 0.25, 0.32, 0.08
_RATES = (0.2, 0.5, 0.85)
"""Some unknown fault makes so many answers wrong."""
_WEIGHTS = {
    Habit.CARRY_FORGOTTEN: 3.0, Habit.BORROW_FORGOTTEN: 3.0,
    Habit.CARRIED_WITHOUT_PARTNER: 2.0, Habit.BORROWED_WITHOUT_PARTNER: 2.0,
    Habit.WRONG_PARTNER: 2.0, Habit.PARTNER_OF_FIVE_LEFT: 2.0, Habit.ROD_MISREAD: 0.5,
    Habit.WRONG_ROD: 0.5, Habit.DIGITS_SWAPPED: 0.5, Habit.BORROWED_THOUGH_FIVE: 0.5,
    Habit.NOT_CLEARED: 0.5,
}  # fmt: skip
"""How plausible habits are, beside 1 for the others: our own judgement, no source."""
_PLACES = (0.6, 0.25, 0.15)
"""How often a wrong answer is wrong in one place, in two, in more."""
_STRANGE = 3.0
"""Answers that are by so many standard deviations less likely of a suspect than its own answers are
on the average are not taken for its own."""


class Given(NamedTuple):
    """An answer that was given, so many answers and days ago, and the one given just before it,
    where there is one."""

    calculation: Calculation
    answer: Decimal
    items_ago: int = 0
    days_ago: float = 0.0
    before: Decimal | None = None

    @property
    def weight(self) -> float:
        """How much it counts."""
        return float(0.5 ** (self.items_ago / HALF_LIFE_ITEMS + self.days_ago / HALF_LIFE_DAYS))


@dataclass(frozen=True, slots=True)
class Weighed:
    """How likely each suspect is, given some answers; `unknown` is the chance of a fault that is
    none of them. All add up to 1."""

    suspects: Mapping[Habits, float]
    unknown: float

    @property
    def faultless(self) -> float:
        """How likely it is that nothing is behind it but slips."""
        return self.suspects[frozenset()]

    @property
    def is_open(self) -> bool:
        """Whether some habits are likely, and none is likely enough to be told."""
        return not self.named and 1 - self.faultless - self.unknown >= _IN_QUESTION

    def chance(self, habit: Habit) -> float:
        """How likely a habit is, alone or with another."""
        return sum(chance for one, chance in self.suspects.items() if habit in one)

    @property
    def named(self) -> tuple[Habit, ...]:
        """The habits that are likely enough to be told; none, one, or two."""
        return tuple(habit for habit in Habit if self.chance(habit) >= NAMED)


@cache
def all_suspects() -> tuple[Habits, ...]:
    """None, each habit, each pair."""
    sizes = range(3)
    return tuple(frozenset(some) for size in sizes for some in combinations(Habit, size))


@cache
def _priors() -> Mapping[Habits, float]:
    weights = {one: _weight(one) for one in all_suspects()}
    totals = [sum(w for one, w in weights.items() if len(one) == size) for size in range(3)]
    shares = (_NONE, _ONE, _PAIR)
    return {one: shares[len(one)] * w / totals[len(one)] for one, w in weights.items()}


def _weight(habits: Habits) -> float:
    weight = 1.0
    for habit in habits:
        weight *= _WEIGHTS.get(habit, 1.0)
    return weight


def weigh(givens: Iterable[Given], conventions: Conventions = USUAL) -> Weighed:
    """How likely each suspect is, given these answers."""
    told = [
        (telling(given.calculation, given.answer, conventions, given.before), given.weight)
        for given in givens
    ]
    scores = {
        one: log(prior) + sum(weight * some.of[one & some.shown].score for some, weight in told)
        for one, prior in _priors().items()
    }
    unknown = [
        log(_UNKNOWN / len(_RATES)) + sum(weight * some.unknown(rate) for some, weight in told)
        for rate in _RATES
    ]
    return _without_strange(_normed(scores, unknown), told)


def _normed(scores: Mapping[Habits, float], unknown: Sequence[float]) -> Weighed:
    top = max(*scores.values(), *unknown)
    shares = {one: exp(score - top) for one, score in scores.items()}
    others = sum(exp(score - top) for score in unknown)
    total = sum(shares.values()) + others
    return Weighed({one: share / total for one, share in shares.items()}, others / total)


def _without_strange(weighed: Weighed, told: Sequence[tuple["Telling", float]]) -> Weighed:
    """The same, with the shares of suspects that would not answer so left to what is not known."""
    strange = {
        one: share
        for one, share in weighed.suspects.items()
        if one and share >= _HARDLY and _is_strange(one, told)
    }
    kept = {**weighed.suspects, **dict.fromkeys(strange, 0.0)}
    return Weighed(kept, weighed.unknown + sum(strange.values()))


def _is_strange(habits: Habits, told: Iterable[tuple["Telling", float]]) -> bool:
    """Whether answers of these habits would hardly ever be so unlike them."""
    fits = [(some.of[habits & some.shown], weight) for some, weight in told]
    unlike = sum(weight * fit.unlike for fit, weight in fits)
    return unlike > _STRANGE * sqrt(sum(weight**2 * fit.variance for fit, weight in fits))


class Fit(NamedTuple):
    """How well an answer fits a suspect: the logarithm of how likely it is; by how much less that
    is than of the suspect's own answers on the average, and their variance. There a slip counts
    alike, whichever it is."""

    score: float
    unlike: float
    variance: float


class Telling(NamedTuple):
    """How an answer fits each suspect (`of`), as far as its habits are among those `shown` in the
    work; whether it is right, and its share among wrong ones."""

    of: Mapping[Habits, Fit]
    shown: Habits
    is_right: bool
    share: float

    def unknown(self, rate: float) -> float:
        """The same where some other fault makes so many answers wrong."""
        return log(1 - rate if self.is_right else rate * self.share)


@lru_cache(maxsize=128)
def telling(
    calculation: Calculation,
    answer: Decimal,
    conventions: Conventions,
    before: Decimal | None = None,
) -> Telling:
    """How likely an answer is of each suspect, after the answer before."""
    shares, shown = _Shares(calculation), shown_by(calculation, conventions, before)
    fits = {
        one: _fit(chances(calculation, conventions, one, before), answer, shares)
        for one in all_suspects()
        if one <= shown
    }
    return Telling(fits, shown, answer == calculation.result, shares.of(answer))


def _fit(found: Mapping[Decimal, float], answer: Decimal, shares: "_Shares") -> Fit:
    """How well an answer fits one who gives others so often."""
    slipped = log(SLIP * shares.usual)
    score = log((1 - SLIP) * found.get(answer, 0.0) + SLIP * shares.of(answer))
    own = [
        ((1 - SLIP) * chance, log((1 - SLIP) * chance + SLIP * shares.usual))
        for chance in found.values()
    ]
    own.append((1 - sum(chance for chance, _ in own), slipped))
    mean = sum(chance * one for chance, one in own)
    variance = sum(chance * (one - mean) ** 2 for chance, one in own)
    return Fit(score, mean - max(score, slipped), variance)


@lru_cache(maxsize=1024)
def shown_by(
    calculation: Calculation, conventions: Conventions, before: Decimal | None = None
) -> Habits:
    """The habits that lead to any answer but the right one, after the answer before."""
    return frozenset(
        habit
        for habit in Habit
        if any(
            number != calculation.result
            for number in chances(calculation, conventions, frozenset({habit}), before)
        )
    )


def explanation(
    given: Given, weighed: Weighed, conventions: Conventions = USUAL
) -> list[tuple[Site, float]]:
    """For each habit where in the work of an answer it most likely showed, and how likely it did;
    the likeliest first."""
    calculation, answer = given.calculation, given.answer
    slip, found = SLIP * _Shares(calculation).of(answer), dict[Site, float]()
    shown = shown_by(calculation, conventions, given.before)
    for habits, chance in weighed.suspects.items():
        if chance < _HARDLY:
            continue
        runs = possible_answers(calculation, conventions, habits & shown, given.before)
        led = [one for one in runs if one.number == answer]
        total = (1 - SLIP) * sum(one.chance for one in led) + slip
        for one in led:
            for site in {site.habit: site for site in reversed(one.used)}.values():
                share = chance * (1 - SLIP) * one.chance / total
                found[site] = found.get(site, 0.0) + share
    return sorted(_by_habit(found), key=lambda one: one[1], reverse=True)


def _by_habit(found: Mapping[Site, float]) -> Iterator[tuple[Site, float]]:
    for habit in dict.fromkeys(site.habit for site in found):
        sites = {site: chance for site, chance in found.items() if site.habit is habit}
        yield max(sites, key=lambda site: sites[site]), sum(sites.values())


class _Shares:
    """The shares of answers among all wrong ones, by the number of places that differ in the
    shortest way: most are wrong in one."""

    def __init__(self, calculation: Calculation) -> None:
        self._right = calculation.result
        self._places = len(plain(abs(self._right)).replace(".", "")) + 1

    @property
    def usual(self) -> float:
        """The share of one that is wrong in one place."""
        return _PLACES[0] / (18 * self._places)

    def of(self, answer: Decimal) -> float:
        """The share of an answer."""
        with localcontext(EXACT):
            off = plain(abs(answer - self._right)).replace(".", "").strip("0")
        wrong, places = min(_least_places(off), 3), self._places
        if wrong <= 1:
            return self.usual
        ways = 162 * places * (places - 1) // 2 if wrong == 2 else 10**places
        return _PLACES[wrong - 1] / ways


def _least_places(off: str) -> int:
    """In how few places two numbers differ so far, where a place may be off by 9 either way: 99
    is two places, and so is 19, which is 20 less 1."""
    fewest = {0: 0}  # By the carry from the place before.
    for figure in reversed(off):
        after: dict[int, int] = {}
        for carry, count in fewest.items():
            number = int(figure) + carry
            for digit in {number % 10, number % 10 - 10}:
                to, more = (number - digit) // 10, count + (digit != 0)
                after[to] = min(after.get(to, more), more)
        fewest = after
    return min(count + carry for carry, count in fewest.items())
