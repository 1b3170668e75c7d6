"""Every lawful hand is let through to the end, and no bead of what comes next is taken too early.

The hands and the lawful beads are reckoned from numbers alone (`lawful_hands`, `lawful_beads`).
"""

import random
from collections.abc import Iterator, Sequence
from decimal import Decimal

import pytest
from lawful_hands import (
    Sight,
    column_worked,
)

from frame.technique.beads import Frame, Stroke, stroke_text
from frame.technique.calculation import Calculation, Sum
from frame.technique.conventions import Carry, Conventions, Remove, Strictness
from frame.technique.judge import Judge
from frame.technique.planning import plan_of


def share_or_all(share: int, proof: int) -> pytest.MarkDecorator:
    counts = [pytest.param(share), pytest.param(proof, marks=pytest.mark.proof)]
    return pytest.mark.parametrize("count", counts)


class Task:
    """A calculation before the judge, with a log of what was done."""

    def __init__(
        self,
        calculation: Calculation,
        conventions: Conventions,
        strictness: Strictness = Strictness.BEADS,
    ) -> None:
        self.calculation, self.conventions = calculation, conventions
        self.judge = Judge.of(plan_of(calculation, conventions), strictness)
        self.strokes: list[Stroke] = []

    @property
    def frame(self) -> Frame:
        return self.judge.frame

    def __str__(self) -> str:
        strokes = " ".join(map(stroke_text, self.strokes))
        return f"{self.calculation} by {self.conventions}: {strokes} on {self.frame}"

    def make(self, stroke: Stroke) -> None:
        """A stroke that must not be refused."""
        verdict = self.judge.judge(stroke)
        assert verdict.is_right and verdict.kept, f"{stroke_text(stroke)} refused: {self}"
        assert verdict.slip is None, f"{stroke_text(stroke)} is {verdict.slip}: {self}"
        self.strokes.append(stroke)
        self.judge = self.judge.after(verdict)

    def play(self, strokes: Iterator[Stroke]) -> None:
        """A hand that must come to the end."""
        for stroke in strokes:
            self.make(stroke)
        assert self.judge.finished, f"not finished: {self}"
        assert self.judge.omission() is None, f"{self.judge.omission()}: {self}"


def decimals(*numbers: int) -> tuple[Decimal, ...]:
    return tuple(map(Decimal, numbers))


def number(rng: random.Random, most: int) -> int:
    """A number of up to so many digits; noughts, fives and nines are common."""
    figures = rng.choice(["0123456789", "0123456789", "0059", "1234", "0001", "99998"])
    text = rng.choice("123456789") + "".join(rng.choices(figures, k=rng.randint(1, most) - 1))
    return int(text)


def school(rng: random.Random, **places: object) -> Conventions:
    return Conventions(rng.choice(list(Carry)), rng.choice(list(Remove)), **places)  # type: ignore[arg-type]


# Sums


def terms_above_zero(rng: random.Random, most: int = 4) -> list[int]:
    """Two or three numbers, added and taken away, that never go below zero."""
    terms = [number(rng, most)]
    for _ in range(rng.randint(1, 2)):
        term = number(rng, most)
        terms.append(term if sum(terms) < term or rng.random() < 0.5 else -term)
    return terms


def terms_below_zero(rng: random.Random) -> list[int]:
    """Numbers that go below zero, or may, and back again."""
    terms = [number(rng, 3) * rng.choice((1, 1, -1))]
    while len(terms) < 5 and (sum(terms) >= 0 or rng.random() < 0.8):
        terms.append(number(rng, 3) * (-1 if sum(terms) >= 0 else rng.choice((1, 1, -1))))
    return terms


def check_sum(rng: random.Random, terms: Sequence[int]) -> None:
    task = Task(Sum(decimals(*terms)), school(rng))
    task.play(column_worked(rng, Sight(rng, task.frame), terms))
    assert int(task.frame.digits) % 10 ** len(str(abs(sum(terms)))) or not sum(terms), str(task)
    if sum(terms) >= 0:
        assert int(task.frame.digits) == sum(terms), str(task)
    else:
        owed = int(task.frame.digits) - sum(terms)
        assert str(owed).strip("0") == "1", f"{owed} owed: {task}"


@share_or_all(400, 20_000)
def test_a_number_may_be_worked_in_any_order(count: int) -> None:
    rng = random.Random(61)
    for _ in range(count):
        check_sum(rng, terms_above_zero(rng))


@share_or_all(400, 10_000)
def test_below_zero_digits_go_from_the_highest_and_their_rods_in_any_order(count: int) -> None:
    rng, returned, ends_below = random.Random(62), 0, 0
    for _ in range(count):
        terms = terms_below_zero(rng)
        check_sum(rng, terms)
        ends_below += sum(terms) < 0
        returned += sum(terms) >= 0
    assert min(returned, ends_below) > count / 10
