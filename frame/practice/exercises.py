"""Exercises: one thing asked of the learner, and how exercises are drawn from taught facts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache
from random import Random

from frame.practice.columns import draw_column
from frame.practice.ladder import USUAL_RULES, LadderRules, is_probe
from frame.practice.rungs import Asked, Rung
from frame.technique.addition import plan_on, plan_set, plan_sum
from frame.technique.beads import Frame
from frame.technique.conventions import Conventions
from frame.technique.expression import Sum
from frame.technique.facts import number_facts, plan_facts
from frame.technique.plan import Plan
from frame.technique.reading import frame_of, plain


class Kind(StrEnum):
    """What an exercise asks."""

    READ = "read"
    SET = "set"
    CLEAR = "clear"
    SUM = "sum"


@dataclass(frozen=True, slots=True)
class Exercise:
    """One thing asked of the learner, at one rung of the ladder.

    For READ, SET and CLEAR the sum is one number. `last` is how many strokes the learner makes
    at the rung `finish`; the tool makes those before. `pace` is, in seconds, the gap between
    called numbers, or how long a flashed number takes. With `by_place` numbers are called place
    by place. With `own` the learner works on a frame of their own, and only the answer is taken.
    """

    kind: Kind
    sum: Sum
    rung: Rung = Rung.ALONE
    rods: int = 1
    last: int = 1
    asked: Asked = Asked.SHOWN
    pace: float = 0.0
    by_place: bool = False
    own: bool = False

    def __str__(self) -> str:
        return str(self.sum)

    def at(self, rung: Rung) -> "Exercise":
        """The same exercise at another rung."""
        return replace(self, rung=rung)

    @property
    def by_answer(self) -> bool:
        """Whether the answer alone is asked for: beads may be moved, or not."""
        elsewhere = self.own or self.asked is not Asked.SHOWN
        return self.kind is Kind.SUM and (elsewhere or self.rung is Rung.NUMBER)

    @property
    def is_silent(self) -> bool:
        """Whether every bead stays, right or wrong, and nothing is said of it until the end."""
        unseen = self.rung in (Rung.COVERED, Rung.NUMBER)
        return self.by_answer or (unseen and self.kind is not Kind.READ)

    @property
    def is_answered(self) -> bool:
        """Whether the learner gives a number at the end."""
        covered_sum = self.kind is Kind.SUM and self.rung is Rung.COVERED
        return self.kind is Kind.READ or self.by_answer or covered_sum

    @property
    def shows_start(self) -> bool:
        """Whether the frame shows the first number before the learner begins."""
        return self.kind in (Kind.READ, Kind.CLEAR) or (self.kind is Kind.SUM and self.rung.is_led)

    @property
    def start(self) -> Frame:
        """The frame before the learner begins. Raises NumberError when it does not fit."""
        first = self.sum.terms[0] if self.shows_start else Decimal(0)
        return frame_of(first, self.rods)

    @property
    def facts(self) -> frozenset[str]:
        """What a learner must know to do it. Raises NumberError when it does not fit the rods."""
        if self.kind is Kind.CLEAR:
            return frozenset({"clear"})
        if self.kind in (Kind.READ, Kind.SET):
            return number_facts(self.kind, self.sum.terms[0])
        return plan_facts(plan_sum(self.sum.terms, rods=self.rods))


def plans_of(exercise: Exercise, conventions: Conventions) -> tuple[Plan, ...]:
    """The plans of an exercise, one for each number to be worked; none where nothing moves.

    Raises NumberError when the work does not fit the rods.
    """
    if exercise.kind is Kind.READ:
        return ()
    if exercise.kind is Kind.CLEAR:
        return (plan_set(exercise.start, Decimal(0), conventions),)
    frame, plans = exercise.start, []
    for index, term in enumerate(exercise.sum.terms):
        if index == 0 and exercise.shows_start:
            continue
        plan = plan_on(frame, term, conventions) if index else plan_set(frame, term, conventions)
        plans.append(plan)
        frame = plan.end
    return tuple(plans)


@dataclass(frozen=True, slots=True)
class Request:
    """A set of exercises asked for: each needs one of `facts` or, in turn with them, of `mix`,
    and nothing that is not in `known`. Without any facts they are columns of any numbers of so
    many digits, with `minus` some to be taken away. `first` is how many digits the first number may
    have, 0 for as many as the others. `probe` is the rung at which now and then an
    exercise is asked instead, as the rules say, so that what was lost is noticed.
    """

    facts: tuple[str, ...]
    mix: tuple[str, ...]
    known: frozenset[str]
    count: int
    terms: int = 2
    digits: int = 1
    rods: int = 1
    rung: Rung = Rung.ALONE
    asked: Asked = Asked.SHOWN
    pace: float = 0.0
    by_place: bool = False
    own: bool = False
    minus: bool = False
    first: int = 0
    probe: Rung | None = None
    rules: LadderRules = USUAL_RULES

    @property
    def kind(self) -> Kind:
        """What the exercises ask: the facts say."""
        verb = self.facts[0].partition("-")[0] if self.facts else ""
        return {"read": Kind.READ, "set": Kind.SET, "clear": Kind.CLEAR}.get(verb, Kind.SUM)

    def exercise(self, column: Sum) -> Exercise:
        """The exercise of a column, asked as this request says."""
        return Exercise(
            self.kind, column, self.rung, self.rods, asked=self.asked, pace=self.pace,
            by_place=self.by_place, own=self.own,
        )  # fmt: skip


class ExerciseError(ValueError):
    """No exercise was found that needs the fact and nothing untaught."""


LONGER_AFTER = 3
"""After so many exercises to finish, one stroke more is the learner's."""
_TRIES = 20_000
_TRIES_FOR_ALL = 3000
_MOST_AGAIN = 12
"""After so many that came just before, one of them comes again: there are hardly any others."""


def draw(request: Request, random: Random) -> tuple[Exercise, ...]:
    """The exercises, no two alike in a row, every fact in its turn. Raises ExerciseError."""
    drawn: list[Exercise] = []
    for wanted in _targets(request, random):
        drawn.append(_draw_one(request, wanted, drawn[-3:], random))
    if not request.facts:
        drawn += [_any_column(request, random) for _ in range(request.count)]
    if request.rung is Rung.FINISH:
        drawn = [replace(one, last=1 + index // LONGER_AFTER) for index, one in enumerate(drawn)]
    return tuple(_probed(exercise, request, random) for exercise in drawn)


def drawable(request: Request, random: Random) -> tuple[str, ...]:
    """Those of the request's facts that some exercise needs which it may ask for."""
    needed: set[str] = set()
    for _ in range(_TRIES_FOR_ALL):
        exercise = request.exercise(_any_sum(request, random))
        facts = _facts(exercise.kind, exercise.sum, exercise.rods)
        if exercise.sum.result < 10**exercise.rods and facts <= request.known:
            needed |= facts
    return tuple(fact for fact in request.facts if fact in needed)


def _any_column(request: Request, random: Random) -> Exercise:
    column = draw_column(request.digits, request.terms, random, minus=request.minus)
    return request.exercise(Sum(column))


def _probed(exercise: Exercise, request: Request, random: Random) -> Exercise:
    """The exercise, now and then at the rung of the probe."""
    if request.probe is None or not is_probe(random, request.rules):
        return exercise
    return exercise.at(request.probe)


def _targets(request: Request, random: Random) -> Iterator[str]:
    """The fact that each exercise is for: the new facts in turn, every other one from the mix."""
    facts, mix = list(request.facts), list(request.mix)
    random.shuffle(facts)
    random.shuffle(mix)
    for index in range(request.count if facts else 0):
        if mix and index % 2:
            yield mix[index // 2 % len(mix)]
        else:
            yield facts[(index // 2 if mix else index) % len(facts)]


def _draw_one(
    request: Request, wanted: str, recent: Sequence[Exercise], random: Random
) -> Exercise:
    again: list[Exercise] = []
    for _ in range(_TRIES):
        exercise = request.exercise(_any_sum(request, random))
        if not _fits(exercise, wanted, request.known):
            continue
        if exercise.sum not in [one.sum for one in recent]:
            return exercise
        again.append(exercise)
        if len(again) == _MOST_AGAIN:
            break
    if not again:
        raise ExerciseError(wanted)
    return again[-1]


def _any_sum(request: Request, random: Random) -> Sum:
    most = 10**request.digits - 1
    least = 0 if request.kind is Kind.READ and request.digits == 1 else 1
    first = random.randint(least, 10 ** (request.first or request.digits) - 1)
    if request.kind is not Kind.SUM:
        return Sum((Decimal(first),))
    total, terms = first, [first]
    for _ in range(request.terms - 1):
        term = random.randint(1, most) * random.choice((1, -1))
        term = -term if total + term < 0 else term
        total += term
        terms.append(term)
    return Sum(tuple(map(Decimal, terms)))


def _fits(exercise: Exercise, wanted: str, known: frozenset[str]) -> bool:
    if exercise.sum.result >= 10**exercise.rods:
        return False
    needed = _facts(exercise.kind, exercise.sum, exercise.rods)
    return wanted in needed and needed <= known


@lru_cache(maxsize=20_000)
def _facts(kind: Kind, column: Sum, rods: int) -> frozenset[str]:
    """The facts, or one that nobody is taught when a partial sum does not fit the rods."""
    total = Decimal(0)
    for term in column.terms:
        total += term
        if not 0 <= total < 10**rods:
            return frozenset({f"{plain(total)} does not fit"})
    return Exercise(kind, column, Rung.ALONE, rods).facts
