"""Exercises from which today's set may be taken, each with how likely it is to be right."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from random import Random
from typing import NamedTuple

from frame.practice.choices import Beads, Choices
from frame.practice.drawing import Request, draw_one, facts_of
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of, family_of_fact
from frame.practice.items import CELLS, PRODUCTS, Factors, items_of_facts
from frame.practice.ladder import below, is_probe
from frame.practice.mastery import State
from frame.practice.prediction import Task, chance_of, success, task_of
from frame.practice.rungs import Rung
from frame.practice.standing import Ladder
from frame.practice.wanted import Situation, TodayRules, Want
from frame.technique.calculation import Product

_FACTORS = {str(factors): factors for factors in PRODUCTS}
_FACT_OF = {str(cell): cell.fact for cell in CELLS} | dict.fromkeys(_FACTORS, "place-product")
_TRIES = 12
"""So many exercises are made up for one that needs a fact."""
_DRAWS = 6
"""So many are drawn for one that asks for an item."""
_SHAPES = ((2, 0), (3, 0), (2, 1), (4, 0), (3, 1), (2, 2))
"""How many numbers columns have, and how many rods more than the set's, in turn."""
_SUREST = 3
"""Of so many of a family's surest items exercises are drawn that are sure."""
_WIDER = 3
"""So many rods more than the set's may be needed."""
_MOST_BY = 3
"""Digits, at most, of a multiplier."""


class Candidate(NamedTuple):
    """An exercise that may be taken, and how likely it is to be right."""

    task: Task
    success: float
    text: str

    @property
    def exercise(self) -> Exercise:
        """The exercise."""
        return self.task.exercise


def exercise_for(item: str, request: Request, random: Random, draw: int = 0) -> Exercise | None:
    """An exercise of a family's set that needs the fact of an item, though not always the item;
    from draw to draw of another shape, and larger where only such need it. None where none was
    found quickly."""
    fact = fact_of(item)
    if item in _FACTORS:
        return _product(_FACTORS[item], request, random)
    for size in _sizes(request, *_SHAPES[draw % len(_SHAPES)]):
        if found := draw_one(replace(size, facts=(fact,), mix=()), fact, random, _TRIES):
            return found
    return None


def _product(factors: Factors, request: Request, random: Random) -> Exercise | None:
    """A number of two digits by one, in which two digits are multiplied."""
    by, digit = random.sample(factors, 2)
    other = random.randint(1, 9)
    number = random.choice((10 * digit + other, 10 * other + digit))
    exercise = request.exercise(Product(Decimal(number), Decimal(by)))
    return exercise if facts_of(exercise) <= request.known else None


def fact_of(item: str) -> str:
    """The fact by which exercises for an item are drawn."""
    return _FACT_OF.get(item, item)


def _sizes(request: Request, terms: int, more: int) -> Iterator[Request]:
    """The set's size with so many numbers and so many rods more, and larger ones."""
    family = family_of(request.facts)
    request = replace(request, terms=min(terms, family.most_rows))
    if family.grows:
        yield from (_wider(request, rods) for rods in range(more, _WIDER + 1))
    else:
        yield request
    if family.is_of_columns:
        yield replace(request, terms=3)
    for by in range(request.by + 1, _MOST_BY + 1):
        yield replace(request, by=by)


def _wider(request: Request, more: int) -> Request:
    """The set with so many more rods and digits: nothing is added to an empty rod where there is
    but one, and to read thousands takes four."""
    first = request.first + more if request.first else 0
    return replace(request, rods=request.rods + more, digits=request.digits + more, first=first)


@dataclass(frozen=True)
class Candidates:
    """Draws exercises for a situation by its rules."""

    situation: Situation
    rules: TodayRules
    random: Random

    def sure(self) -> list[Candidate]:
        """Exercises that are sure, those without help first; of each family some."""
        found: list[Candidate] = []
        for family in self.random.sample(list(self.situation.sets), len(self.situation.sets)):
            drawn = [self._drawn(item) for item in self._surest(family)]
            some = [one for one in drawn if one is not None]
            sure = [one for one in some if one.success >= self.rules.sure]
            found += sure or [self._at(one, Rung.FOLLOW) for one in some[:1]]
        found.sort(key=lambda one: (one.success < self.rules.sure, one.exercise.rung.is_led))
        return found

    def _surest(self, family: Family) -> list[str]:
        situation = self.situation
        facts = [fact for fact in situation.known if family_of_fact(fact) is family]
        items = list(items_of_facts(facts))
        self.random.shuffle(items)
        items.sort(
            key=lambda item: chance_of(
                item, situation.mastery, situation.now, situation.prediction
            ),
            reverse=True,
        )
        return items[:_SUREST]

    def wanted(self, want: Want) -> list[Candidate]:
        """Exercises drawn until one asks for an item that is not too hard; where all are, one of
        them made easier. Those for other items that came by the way are good as well."""
        found: list[Candidate] = []
        hard: Candidate | None = None
        for draw in range(_DRAWS):
            one = self._drawn(want.item, draw, is_new=want.is_new)
            if one is None:
                continue
            is_asked, is_likely = want.item in one.task.items, one.success >= self.rules.floor
            if is_likely:
                found.append(one)
            elif is_asked and (hard is None or one.success > hard.success):
                hard = one
            if is_asked and is_likely:
                return found
        return [*found, self._easier(hard)] if hard else found

    def soon(self, fact: str) -> Candidate | None:
        """A fact of a lesson to come, shown and then done."""
        family, known = family_of_fact(fact), self.situation.known | {fact}
        if family is Family.READ:
            return None  # What is to be read cannot be shown by a hand.
        request = Choices(beads=Beads(family)).request(known, Ladder())
        exercise = exercise_for(fact, request, self.random)
        return None if exercise is None else self._candidate(exercise.at(Rung.WATCH))

    def aloud(self, request: Request) -> Candidate | None:
        """Called or flashed numbers that need nothing untaught."""
        known = self.situation.known
        facts = [fact for fact in sorted(known) if _is_of_plain_sums(family_of_fact(fact))]
        for fact in self.random.sample(facts, min(_DRAWS, len(facts))):
            asked = replace(request, facts=(fact,), known=known, count=1)
            if exercise := draw_one(asked, fact, self.random, _TRIES):
                return self._candidate(exercise)
        return None

    def _drawn(self, item: str, draw: int = 0, *, is_new: bool = False) -> Candidate | None:
        """One exercise for an item at the rung that suits it; None where none was found."""
        request = self.situation.sets.get(family_of_fact(fact_of(item)))
        if request is None:
            return None
        exercise = exercise_for(item, request, self.random, draw)
        if exercise is None:
            return None
        rung = self._rung(item, request, is_new)
        is_wider = exercise.rods > request.rods and not rung.is_led
        return self._candidate(exercise.at(Rung.ALONE if is_wider else rung))

    def _rung(self, item: str, request: Request, is_new: bool) -> Rung:
        """The ladder's, now and then the one below. Nothing fades before an item is accurate, and
        what the last lesson taught may still have to be led."""
        mastery = self.situation.mastery
        standing = mastery.standing(item)
        if is_new and not standing.is_ready(mastery.rules) and request.kind is not Kind.READ:
            return Rung.FOLLOW
        if standing.state.rank < State.ACCURATE.rank and not request.rung.is_led:
            return Rung.ALONE
        if request.probe and is_probe(self.random, request.rules):
            return request.probe
        return request.rung

    def _candidate(self, exercise: Exercise) -> Candidate:
        situation, task = self.situation, task_of(exercise)
        chance = success(task, situation.mastery, situation.now, situation.prediction)
        return Candidate(task, chance, str(exercise))

    def _easier(self, one: Candidate) -> Candidate:
        return self._at(one, below(one.exercise.rung))

    def _at(self, one: Candidate, rung: Rung) -> Candidate:
        """The same at another rung; what is to be read has no other."""
        if one.exercise.kind is Kind.READ:
            return one
        return self._candidate(one.exercise.at(rung))


def _is_of_plain_sums(family: Family) -> bool:
    return family.grows and family.is_of_sums
