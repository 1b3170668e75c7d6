"""Sets of exercises, drawn so that each needs what it is for and nothing untaught."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from random import Random

from frame.practice.columns import draw_column
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import family_of_fact
from frame.practice.ladder import USUAL_RULES, LadderRules, is_probe
from frame.practice.numbers import any_calculation, can_need
from frame.practice.possible import column_can_need, number_can_need
from frame.practice.rungs import Asked, Rung
from frame.practice.sizes import Size
from frame.practice.taught import taught_column, taught_number
from frame.technique.expression import Calculation, Sum
from frame.technique.foretold import FORETOLD, foretold
from frame.technique.reading import NumberError, plain

_KINDS = {"read": Kind.READ, "set": Kind.SET, "clear": Kind.CLEAR}


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """A set of exercises asked for: each needs one of `facts` or, in turn with them, of `mix`, and
    nothing that is not in `known`. Without any facts they are columns of any numbers of so many
    digits, or of from `shortest` to so many, with `minus` some to be taken away. `first` is how
    many digits the first number may have, 0 for as many as the others. Of a product or a quotient
    the multiplier or divisor has `by` digits, the other factor `digits`; `places` are the decimals
    of numbers with a point. `probe` is the rung at which now and then an exercise is asked instead,
    as the rules say, so that what was lost is noticed.
    """

    facts: tuple[str, ...] = ()
    mix: tuple[str, ...] = ()
    known: frozenset[str] = frozenset()
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
    shortest: int = 0
    first: int = 0
    by: int = 1
    places: int = 1
    exact: bool = False
    probe: Rung | None = None
    rules: LadderRules = USUAL_RULES

    @property
    def kind(self) -> Kind:
        """What the exercises ask: the facts say."""
        verb = self.facts[0].partition("-")[0] if self.facts else ""
        return _KINDS.get(verb, Kind.SUM)

    @property
    def size(self) -> Size:
        """How large its numbers are."""
        return Size(self.digits, self.first, self.terms, self.by, self.places, self.exact)

    @property
    def is_seen(self) -> bool:
        """Whether it is seen what a rod shows while it is worked: else no digit is found tried."""
        is_shown = self.asked is Asked.SHOWN and not self.own
        return is_shown and not self.rung.is_unseen

    def exercise(self, calculation: Calculation) -> Exercise:
        """The exercise of a calculation, asked as this request says."""
        return Exercise(
            self.kind, calculation, self.rung, self.rods, asked=self.asked, pace=self.pace,
            by_place=self.by_place, own=self.own,
        )  # fmt: skip


class ExerciseError(ValueError):
    """No exercise was found that needs the fact and nothing untaught."""


LONGER_AFTER = 3
"""After so many exercises to finish, one stroke more is the learner's."""
_TRIES_OF_DIGITS = 20_000
"""So many digits of columns are made up before a fact counts as needed by none."""
_TRIES_OF_PROCEDURES = 2000
_LEAST_TRIES = 20
_PLANNED = 4
"""A digit that is planned takes as long as so many that are made up (measured)."""
_QUICKLY = 0.1
"""Of so many tries, one must do where facts are chosen: then a set of them is sure to be found."""
_UNFIT = frozenset({"does not fit"})
"""What nobody is taught."""
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


def draw_one(request: Request, wanted: str, random: Random, tries: int) -> Exercise | None:
    """One exercise that needs a fact and nothing untaught; None where so many tries find none."""
    if not _can_need(request, wanted):
        return None
    for _ in range(tries):
        exercise = _any_exercise(request, wanted, random)
        if exercise and _fit_facts(exercise, wanted, request.known):
            return exercise
    return None


def drawable(request: Request, random: Random) -> tuple[str, ...]:
    """Those of the request's facts that some exercise needs which it may ask for."""
    needed: set[str] = set()
    for fact in request.facts:
        if fact not in needed:
            needed |= _needed_with(request, fact, random)
    return tuple(fact for fact in request.facts if fact in needed)


def _needed_with(request: Request, fact: str, random: Random) -> frozenset[str]:
    """What some exercise needs that needs this fact; nothing where none was found quickly."""
    for _ in range(round(_QUICKLY * _tries(request, fact))):
        exercise = _any_exercise(request, fact, random)
        if exercise and (facts := _fit_facts(exercise, fact, request.known)):
            return facts
    return frozenset()


def _tries(request: Request, fact: str) -> int:
    """How many exercises are tried for one that needs a fact."""
    if not _can_need(request, fact):
        return 0
    if not family_of_fact(fact).grows:
        return _TRIES_OF_PROCEDURES
    return max(_LEAST_TRIES, _TRIES_OF_DIGITS // (request.digits * request.terms))


def effort(request: Request, fact: str) -> int:
    """How many digits are made up in vain where no exercise needs a fact: a measure of the time
    that takes, in which one that is planned counts for several. 0 where it is told without trying.
    """
    weight = 1 if family_of_fact(fact).grows else _PLANNED
    return weight * _tries(request, fact) * request.digits * max(request.terms, request.by)


def _can_need(request: Request, fact: str) -> bool:
    """Whether an exercise may need a fact at all, told without making one up."""
    size, rods, known = request.size, request.rods, request.known
    if request.kind is not Kind.SUM:
        return number_can_need(request.kind, fact, size, rods, known)
    if family_of_fact(fact).grows:
        return column_can_need(fact, size, rods, known)
    return fact in known and can_need(fact, size) and (fact != "revise-up" or request.is_seen)


def _any_column(request: Request, random: Random) -> Exercise:
    column = draw_column(
        request.digits, request.terms, random, minus=request.minus, shortest=request.shortest
    )  # fmt: skip
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
    for _ in range(_tries(request, wanted)):
        exercise = _any_exercise(request, wanted, random)
        if exercise is None or not _fit_facts(exercise, wanted, request.known):
            continue
        if exercise.sum not in [one.sum for one in recent]:
            return exercise
        again.append(exercise)
        if len(again) == _MOST_AGAIN:
            break
    if not again:
        raise ExerciseError(wanted)
    return again[-1]


def _any_exercise(request: Request, wanted: str, random: Random) -> Exercise | None:
    """Any exercise of the kind that may need a fact; None where a try came to nothing."""
    calculation = _any_calculation(request, wanted, random)
    if calculation is None:
        return None
    exercise = request.exercise(calculation)
    if wanted != "revise-up":
        return exercise
    # The technique tries the largest digit, so that one too small is found tried.
    first = int(plain(calculation.result)[0])
    return replace(exercise, trial=random.randint(max(1, first - 2), max(1, first - 1)))


def _any_calculation(request: Request, wanted: str, random: Random) -> Calculation | None:
    if request.kind is not Kind.SUM:
        number = taught_number(request.kind, wanted, request.size, request.known, random)
        return None if number is None else Sum((number,))
    if family_of_fact(wanted).grows:
        column = taught_column(wanted, request.size, request.rods, request.known, random)
        return None if column is None else Sum(column)
    return any_calculation(wanted, request.size, random)


def _fit_facts(exercise: Exercise, wanted: str, known: frozenset[str]) -> frozenset[str]:
    """The facts of an exercise that needs the wanted one and nothing untaught; none of any other.

    Few may be fit, so what its numbers tell is asked before it is planned."""
    if exercise.kind is Kind.SUM and not exercise.trial:
        told = foretold(exercise.sum)
        if not told <= known or (wanted in FORETOLD and wanted not in told):
            return frozenset()
    facts = facts_of(exercise)
    return facts if wanted in facts and facts <= known else frozenset()


def facts_of(exercise: Exercise) -> frozenset[str]:
    """What an exercise that fits its rods needs."""
    column = exercise.sum
    if isinstance(column, Sum) and max(accumulate(column.terms)) >= 10**exercise.rods:
        return _UNFIT  # Told without a plan, since most columns that are drawn do not fit.
    try:
        return exercise.facts
    except NumberError:
        return _UNFIT
