"""Facts: the smallest things a learner can know. Lessons name the new ones; plans need some.

A fact's id is the operation, the technique and the number worked (`add-five-3`), or a place
(`read-tens`), a digit (`set-digit-7`) or a procedure (`ripple-add`, `multiply-2`, `revise-down`).
"""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.foretold import of_numbers
from frame.technique.operation import Act
from frame.technique.plan import Plan, Step, Technique
from frame.technique.reading import decimals, plain

PLACES = ("tens", "hundreds", "thousands")

_WORKED = {
    Technique.DIRECT: range(1, 10),
    Technique.FIVE: range(1, 5),
    Technique.TEN: range(1, 10),
    Technique.TEN_FIVE: range(6, 10),
}

ADD_AND_TAKE = tuple(
    f"{operation}-{technique}-{number}"
    for operation in ("add", "sub")
    for technique, numbers in _WORKED.items()
    for number in numbers
)
READ_AND_SET = tuple(
    f"{verb}-{what}"
    for verb in ("read", "set")
    for what in (*(f"digit-{digit}" for digit in range(10)), *PLACES)
)
MULTIPLYING = ("place-product", "multiply-1", "multiply-2", "multiply-3", "skip-zero", "signs")
"""Two digits; a multiplier of one digit, two, three or more; a nought within or at the end; numbers
below zero."""
DIVIDING = (
    "divide-1", "divide-2", "place-quotient", "place-quotient-far", "revise-down", "revise-up",
    "remainder",
)  # fmt: skip
"""A divisor of one digit, of two or more; the two rules of place; trial digits; what is left."""
WITH_POINT = ("decimals", "unit-rod", "round")
BELOW_ZERO = ("below-zero", "give-back")
ROOTS = ("root", "halve", "root-digit", "root-revise")
PROCEDURES = (*MULTIPLYING, *DIVIDING, *WITH_POINT, *BELOW_ZERO, *ROOTS)
ALL_FACTS = (*READ_AND_SET, "clear", *ADD_AND_TAKE, "ripple-add", "ripple-sub", *PROCEDURES)

_OF_ACT = {
    Act.BORROW: "below-zero",
    Act.RETURN: "give-back",
    Act.MULTIPLY: "place-product",
    Act.REVISE_DOWN: "revise-down",
    Act.REVISE_UP: "revise-up",
    Act.HALVE: "halve",
    Act.ROOT: "root",
    Act.SUBTRACT_HALF: "root-digit",
    Act.ROUND: "round",
}
_PUT = frozenset({Act.CLEAR, Act.HALVE, Act.QUOTIENT, Act.ROOT, Act.REVISE_DOWN, Act.REVISE_UP})
"""What lets a rod show a digit, which is no sum."""


@lru_cache(maxsize=256)
def number_facts(verb: str, number: Decimal) -> frozenset[str]:
    """What a learner must know to read or set (`verb`) a number; its places up to thousands.

    >>> sorted(number_facts("read", Decimal(40)))
    ['read-digit-0', 'read-digit-4', 'read-tens']
    """
    whole, _, after = plain(abs(number)).partition(".")
    places = PLACES[: min(len(whole), len(PLACES) + 1) - 1]
    found = {f"{verb}-{what}" for what in (*(f"digit-{digit}" for digit in whole + after), *places)}
    return frozenset(found | ({"decimals"} if after else set()))


def step_facts(step: Step) -> frozenset[str]:
    """What a learner must know to work one step: the worked rod's fact and its carry's, and the
    procedure that the step belongs to."""
    procedure = _OF_ACT.get(step.operation.act)
    found = frozenset() if step.operation.act in _PUT else frozenset(_facts_of(step))
    return found | {procedure} if procedure else found


def _facts_of(step: Step) -> Iterator[str]:
    if step.technique is Technique.BORROW:
        return
    operation = "add" if step.change > 0 else "sub"
    yield f"{operation}-{step.technique}-{step.digit}"
    over = [move for move in step.moves if move.rod != step.rod]
    if step.ripple:
        yield f"ripple-{operation}"
    if over:
        lands_on = max(move.rod for move in over)
        pair = sum(move.rod == lands_on for move in over) == 2
        yield f"{operation}-{'five' if pair else 'direct'}-1"


def plan_facts(plan: Plan) -> frozenset[str]:
    """What a learner must know to work the whole plan."""
    facts: set[str] = set()
    for step in plan.steps:
        if step.operation.act is Act.SET:
            facts |= number_facts("set", step.operation.number)
        else:
            facts |= step_facts(step)
    return frozenset(facts)


def calculation_facts(calculation: Calculation, plan: Plan) -> frozenset[str]:
    """What a learner must know to work a calculation by its plan."""
    facts = plan_facts(plan)
    if isinstance(calculation, Sum):
        has_point = any(map(decimals, (*calculation.numbers, calculation.result)))
        return facts | {"decimals"} if has_point else facts
    facts |= of_numbers(calculation, calculation.result, calculation.remainder)
    match calculation:
        case Product():
            facts |= {"place-product"}
        case Quotient():
            facts |= set(_place_of_quotient(plan))
        case Root() if "revise-down" in facts:
            facts = facts - {"revise-down"} | {"root-revise"}
    return facts


def _place_of_quotient(plan: Plan) -> Iterator[str]:
    trials = (step for step in plan.steps if step.operation.act is Act.QUOTIENT)
    if (first := next(trials, None)) and first.span:
        yield "place-quotient-far" if first.rod == first.span[0] else "place-quotient"
