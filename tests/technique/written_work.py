"""A plan as written work, and a replay of its moves by bead rules of its own."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import groupby

from reference_rows import Line, row

from frame.technique.conventions import Conventions, Operands
from frame.technique.expression import Calculation, parse_calculation
from frame.technique.operation import Act, Operation
from frame.technique.plan import Plan, Step
from frame.technique.planning import plan_of

DONE = {
    Act.MULTIPLY: "multiply",
    Act.CLEAR: "clear",
    Act.QUOTIENT: "quotient",
    Act.ROOT: "root",
    Act.SUBTRACT: "take",
    Act.REVISE_DOWN: "down",
    Act.ADD_BACK: "back",
    Act.HALVE: "halve",
    Act.SUBTRACT_HALF: "half",
    Act.ROUND: "round",
}
WITH_FACTORS = {Act.MULTIPLY, Act.SUBTRACT, Act.SUBTRACT_HALF, Act.REVISE_DOWN}
WITH_DIGIT = {Act.CLEAR, Act.QUOTIENT, Act.ROOT}


def planned(text: str, places: int | None = None, layout: Operands = Operands.BOTH) -> Plan:
    """The plan of a calculation as written, on thirteen rods or more."""
    return plan_of(calculation(text, places), Conventions(layout=layout), at_least=13)


def calculation(text: str, places: int | None = None) -> Calculation:
    """The calculation as written, rounded to that many places when they are given."""
    parsed = parse_calculation(text)
    return parsed if places is None else replace(parsed, places=places)


def written(plan: Plan) -> Iterator[tuple[Operation, Step, str]]:
    """Each line of the work with its last step and the whole frame after it."""
    for operation, pairs in groupby(plan.frames(), key=lambda pair: pair[0].operation):
        step, frame = list(pairs)[-1]
        yield operation, step, frame.digits


def is_set(operation: Operation) -> bool:
    return operation.act is Act.SET


def rows_of(plan: Plan) -> list[tuple[str, str]]:
    """The lines as text, all settings together as `set`, each with the frame after it."""
    lines = [
        ("set" if is_set(operation) else str(operation), row) for operation, _, row in written(plan)
    ]
    settings = sum(name == "set" for name, _ in lines)
    start = plan.start.digits if not settings else lines[settings - 1][1]
    assert all(name != "set" for name, _ in lines[settings:]), "set in the midst of the work"
    return [("set", start), *lines[settings:]]


def compared(plan: Plan) -> list[tuple[str, tuple[int, ...], str]]:
    """The lines in the words of the reference."""
    lines = [("set", (), rows_of(plan)[0][1])]
    lines += [(*described(op), row) for op, _, row in written(plan) if not is_set(op)]
    return lines


def described(operation: Operation) -> tuple[str, tuple[int, ...]]:
    if operation.act in WITH_FACTORS:
        return DONE[operation.act], operation.factors
    if operation.act in WITH_DIGIT:
        return DONE[operation.act], (int(operation.digits),)
    return DONE[operation.act], ()


def expected(lines: list[Line], at_left: str, plan: Plan) -> list[tuple[str, tuple[int, ...], str]]:
    """The lines of the reference as rows of the plan's frame."""
    rods, lowest = len(plan.start.digits), plan.start.lowest
    return [(done, digits, row(at_left, right, rods, lowest)) for done, digits, right in lines]


class Rods:
    """A frame on which nothing moves but beads that are there to be moved.

    Four earth beads and one heaven bead a rod, kept as two counts; moves are read from their text.
    """

    def __init__(self, plan: Plan) -> None:
        self.top = plan.start.highest
        self.earth = [int(digit) % 5 for digit in plan.start.digits]
        self.heaven = [int(digit) // 5 for digit in plan.start.digits]

    def move(self, text: str) -> int:
        """Make the move `rod:change`; the rod moved."""
        rod, change = map(int, text.split(":"))
        at = self.top - rod
        assert 0 <= at < len(self.earth), f"{text}: no such rod"
        if abs(change) == 5:
            assert self.heaven[at] == (change < 0), f"{text}: the heaven bead is not there"
            self.heaven[at] = int(change > 0)
        else:
            assert 0 <= self.earth[at] + change <= 4, f"{text}: no such earth beads"
            self.earth[at] += change
        return rod

    def digit(self, rod: int) -> int:
        at = self.top - rod
        return self.earth[at] + 5 * self.heaven[at]

    @property
    def digits(self) -> str:
        return "".join(str(e + 5 * h) for e, h in zip(self.earth, self.heaven, strict=True))


def replayed(plan: Plan) -> Iterator[tuple[Step, int, Rods]]:
    """After every bead move: its step, its rod, and the rods as they then stand."""
    rods = Rods(plan)
    for step in plan.steps:
        for stroke in step.strokes:
            assert len(stroke) <= 2
            for move in stroke:
                yield step, rods.move(str(move)), rods
    assert rods.digits == plan.end.digits


def number(text: str) -> Decimal | None:
    return None if text == "-" else Decimal(text)
