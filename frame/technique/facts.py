"""Facts: the smallest things a learner can know. Lessons name the new ones; plans need some.

A fact's id is the operation, the technique and the number worked (`add-five-3`), or a place
(`read-tens`), a digit (`set-digit-7`) or a procedure (`ripple-add`, `clear`).
"""

from collections.abc import Iterator
from decimal import Decimal

from frame.technique.operation import Act
from frame.technique.plan import Plan, Step, Technique
from frame.technique.reading import plain

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
ALL_FACTS = (*READ_AND_SET, "clear", *ADD_AND_TAKE, "ripple-add", "ripple-sub")


def number_facts(verb: str, number: Decimal) -> frozenset[str]:
    """What a learner must know to read or set (`verb`) a whole number of up to four digits.

    >>> sorted(number_facts("read", Decimal(40)))
    ['read-digit-0', 'read-digit-4', 'read-tens']
    """
    digits = plain(number)
    places = PLACES[: min(len(digits), len(PLACES) + 1) - 1]
    return frozenset(f"{verb}-digit-{digit}" for digit in digits if digit.isdigit()) | {
        f"{verb}-{place}" for place in places
    }


def step_facts(step: Step) -> frozenset[str]:
    """What a learner must know to work one step of a sum: the worked rod's fact and its carry's."""
    return frozenset(_facts_of(step))


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
