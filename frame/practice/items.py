"""Items: the smallest things whose mastery is followed, as they come up within the steps of a plan.

Ninety additions and ninety subtractions are cells, each a digit on a rod and a digit worked there,
written `4+3` or `7-2`. The products of two digits are written `6x7`. All else that a learner must
know (to read, to set, a carry that runs on, the rules of a procedure) is a fact by its own id.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from frame.practice.taught import on_rod
from frame.technique.beads import Frame
from frame.technique.facts import ADD_AND_TAKE, ALL_FACTS
from frame.technique.operation import Act
from frame.technique.plan import Plan, Step, Technique


class Cell(NamedTuple):
    """A digit that a rod shows, and the signed digit that is worked on it."""

    digit: int
    change: int

    def __str__(self) -> str:
        return f"{self.digit}{self.change:+d}"

    @property
    def fact(self) -> str:
        """The fact that it is a case of.

        >>> Cell(4, 3).fact
        'add-five-3'
        """
        return on_rod(self.digit, self.change).fact


class Factors(NamedTuple):
    """The two digits of a product, the lesser first: whoever knows one knows the other."""

    lesser: int
    greater: int

    def __str__(self) -> str:
        return f"{self.lesser}x{self.greater}"


class Worked(NamedTuple):
    """What one step asks of a learner's memory; None for what it does not."""

    cell: Cell | None = None
    factors: Factors | None = None


CELLS = tuple(
    Cell(digit, sign * d) for sign in (1, -1) for digit in range(10) for d in range(1, 10)
)
PRODUCTS = tuple(Factors(one, other) for one in range(2, 10) for other in range(one, 10))
"""Those of the table; to multiply by 1 is nothing to remember."""
_ADD_AND_TAKE = frozenset(ADD_AND_TAKE)
PROCEDURES = tuple(fact for fact in ALL_FACTS if fact not in _ADD_AND_TAKE)
ITEMS = (*map(str, CELLS), *map(str, PRODUCTS), *PROCEDURES)
"""The names of all of them."""

_OF_PRODUCT = frozenset({Act.MULTIPLY, Act.SUBTRACT, Act.SUBTRACT_HALF})


def worked_in(plan: Plan) -> Iterator[Worked]:
    """What each step of a plan asks, in order. Of a product of two digits the factors are told with
    the first step that works it."""
    before, told = plan.start, None
    for step, after in plan.frames():
        factors = None if step.operation is told else _factors(step)
        yield Worked(_cell(step, before), factors)
        before, told = after, step.operation


def _cell(step: Step, before: Frame) -> Cell | None:
    """The cell of a step that adds or takes away a digit."""
    is_worked = step.operation.act.is_worked and step.technique is not Technique.BORROW
    return Cell(before.digit(step.rod), step.change) if is_worked and step.change else None


def _factors(step: Step) -> Factors | None:
    act, factors = step.operation.act, step.operation.factors
    is_product = act in _OF_PRODUCT and len(factors) == 2 and min(factors) > 1
    return Factors(*sorted(factors)) if is_product else None


def items_of_facts(facts: Iterable[str]) -> tuple[str, ...]:
    """The items that are cases of some facts, in the order of ITEMS; products belong to whoever
    multiplies.

    >>> items_of_facts(["sub-five-4", "clear"])
    ('5-4', '6-4', '7-4', '8-4', 'clear')
    """
    known = frozenset(facts)
    cells = (str(cell) for cell in CELLS if cell.fact in known)
    products = map(str, PRODUCTS) if "place-product" in known else ()
    return (*cells, *products, *(fact for fact in PROCEDURES if fact in known))


def items_of_plan(plan: Plan | None, facts: Iterable[str]) -> frozenset[str]:
    """The items that an exercise asks for, from the plan of what its learner moves, None where
    nothing moves, and from the facts that it needs."""
    worked = worked_in(plan) if plan else ()
    named = (str(one) for step in worked for one in step if one)
    return frozenset(named) | (frozenset(facts) - _ADD_AND_TAKE)
