"""The 180 one-rod facts against the table written from the published rules."""

import re
from collections import Counter
from decimal import Decimal
from typing import NamedTuple

import pytest
from each import each_row
from truth_tables import rows

from frame.technique.addition import plan_on
from frame.technique.beads import BeadMove, Frame
from frame.technique.fingers import finger_of
from frame.technique.plan import Plan, Step, Technique

CLASSES = {
    "D": Technique.DIRECT,
    "F": Technique.FIVE,
    "T": Technique.TEN,
    "TF": Technique.TEN_FIVE,
}
LEFT = 1


class Fact(NamedTuple):
    operation: str
    digit: int
    number: int
    kind: str
    motions: str
    fingers: str
    order: str


FACTS = {
    (sign, int(digit), int(number)): Fact(sign, int(digit), int(number), *rest)
    for sign, digit, number, *rest in rows("one_rod.txt", 7)
}

Strokes = list[list[BeadMove]]


def changes(motions: str, rod: int) -> Strokes:
    """The strokes that the motions of one rod stand for."""
    strokes = []
    for word in motions.split():
        parts = re.findall(r"([TI])([↑↓])(\d)", word)
        strokes.append([BeadMove(rod, worth(arrow, int(n))) for _, arrow, n in parts])
    return strokes


def worth(arrow: str, beads: int) -> int:
    """Earth beads add going up, the heaven bead adds going down."""
    up = 1 if arrow == "↑" else -1
    return -up * 5 if beads == 5 else up * beads


def wanted(sign: str, digits: list[int], number: int, rod: int = 0) -> Strokes:
    """The strokes for `number` on `rod`; `digits` from that rod leftward. L is looked up again."""
    found: Strokes = []
    for part in FACTS[sign, digits[0], number].motions.split("¦"):
        if part.strip() in ("L+1", "L-1"):
            found += wanted(sign, digits[1:], 1, rod + 1)
        else:
            found += changes(part, rod)
    return found


def planned(fact: Fact, left: int, far: int = 3) -> Plan:
    signed = Decimal(fact.number if fact.operation == "+" else -fact.number)
    return plan_on(Frame(f"00{far}{left}{fact.digit}", 4), signed)


def step_of(fact: Fact, left: int = LEFT) -> Step:
    (step,) = planned(fact, left).steps
    return step


def own_strokes(step: Step) -> list[tuple[BeadMove, ...]]:
    return [stroke for stroke in step.strokes if stroke[0].rod == step.rod]


def order_of(step: Step) -> str:
    """The order of a step in the table's words, read from its strokes alone."""
    own = own_strokes(step)
    over = [index for index, stroke in enumerate(step.strokes) if stroke[0].rod != step.rod]
    if len(own) == 2:
        order = "heaven first" if own[0][0].is_heaven else "earth first"
    else:
        order = "together" if len(own[0]) == 2 else "alone"
    if not over:
        return order
    return order + (", after left rod" if over[0] == 0 else ", then left rod")


@each_row("fact", FACTS.values())
def test_a_fact_is_worked_as_the_table_says(fact: Fact) -> None:
    step = step_of(fact)
    assert step.technique is CLASSES[fact.kind]
    assert [sorted(s) for s in step.strokes] == [
        sorted(s) for s in wanted(fact.operation, [fact.digit, LEFT, 3], fact.number)
    ]
    fingers = [
        "+".join(sorted((finger_of(move) for move in stroke), reverse=True))
        for stroke in own_strokes(step)
    ]
    assert " ".join(fingers) == fact.fingers
    assert order_of(step) == fact.order


@each_row("left", range(10))
@each_row("far", [0, 1, 4, 5, 8, 9])
def test_a_carry_is_the_same_fact_on_the_next_rod(left: int, far: int) -> None:
    for fact in FACTS.values():
        if fact.operation == "-" and not left + far:
            continue  # would be borrowed beyond the number
        step = planned(fact, left, far).steps[0]
        digits = [fact.digit, left, far, 0, 0]
        assert [sorted(s) for s in step.strokes] == [
            sorted(s) for s in wanted(fact.operation, digits, fact.number)
        ], f"{far}{left}{fact.digit} {fact.operation} {fact.number}"


def test_the_table_is_whole() -> None:
    assert set(FACTS) == {(s, d, k) for s in "+-" for d in range(10) for k in range(1, 10)}


# Counts worked out by hand from the beads of a rod; no published table of them is known.
@pytest.mark.parametrize("sign", "+-")
def test_counts_of_the_classes(sign: str) -> None:
    kinds = Counter(step_of(f).technique.value for f in FACTS.values() if f.operation == sign)
    assert kinds == {"direct": 35, "five": 10, "ten": 35, "ten-five": 10}


PER_NUMBER = {
    1: (8, 1, 1, 0),
    2: (6, 2, 2, 0),
    3: (4, 3, 3, 0),
    4: (2, 4, 4, 0),
    5: (5, 0, 5, 0),
    6: (4, 0, 2, 4),
    7: (3, 0, 4, 3),
    8: (2, 0, 6, 2),
    9: (1, 0, 8, 1),
}
PER_DIGIT = {
    0: (9, 0, 0, 0),
    1: (7, 1, 1, 0),
    2: (5, 2, 2, 0),
    3: (3, 3, 3, 0),
    4: (1, 4, 4, 0),
    5: (4, 0, 1, 4),
    6: (3, 0, 3, 3),
    7: (2, 0, 5, 2),
    8: (1, 0, 7, 1),
    9: (0, 0, 9, 0),
}


def tally(facts: list[Fact]) -> tuple[int, ...]:
    kinds = Counter(step_of(fact).technique for fact in facts)
    return tuple(kinds[technique] for technique in CLASSES.values())


@pytest.mark.parametrize("sign", "+-")
def test_counts_by_number_worked(sign: str) -> None:
    for number, counts in PER_NUMBER.items():
        facts = [f for f in FACTS.values() if (f.operation, f.number) == (sign, number)]
        assert tally(facts) == counts, number


@pytest.mark.parametrize("sign", "+-")
def test_counts_by_digit_on_the_rod(sign: str) -> None:
    for digit, counts in PER_DIGIT.items():
        shows = digit if sign == "+" else 9 - digit
        facts = [f for f in FACTS.values() if (f.operation, f.digit) == (sign, shows)]
        assert tally(facts) == counts, digit


def test_taking_away_mirrors_adding() -> None:
    for sign, digit, number in FACTS:
        mirrored = FACTS["-" if sign == "+" else "+", 9 - digit, number]
        assert step_of(FACTS[sign, digit, number]).technique is step_of(mirrored).technique


@pytest.mark.parametrize("sign", "+-")
@pytest.mark.parametrize("technique", [Technique.DIRECT, Technique.TEN])
def test_direct_and_ten_split_alike_by_kind_of_bead(sign: str, technique: Technique) -> None:
    steps = [step_of(f) for f in FACTS.values() if f.operation == sign]
    kinds = Counter(
        frozenset(move.is_heaven for stroke in own_strokes(step) for move in stroke)
        for step in steps
        if step.technique is technique
    )
    earth, heaven, both = frozenset([False]), frozenset([True]), frozenset([True, False])
    assert kinds == {earth: 20, heaven: 5, both: 10}
