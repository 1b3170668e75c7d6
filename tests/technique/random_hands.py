"""Hands that the tests of the judge play with: random plans, and any move that can be made."""

import random
from decimal import Decimal
from itertools import product

from reference_hand import Beads

from frame.technique.addition import plan_sum
from frame.technique.beads import BeadMove, Frame
from frame.technique.conventions import Carry, Conventions, Remove
from frame.technique.judge import Judge
from frame.technique.plan import Freedom, Plan
from frame.technique.progress import Progress

CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
CONVENTIONS = [Conventions(carry, remove) for carry, remove in product(Carry, Remove)]


def random_plan(rng: random.Random, terms: int = 6, digits: int = 5) -> Plan:
    numbers = [rng.randrange(10 ** rng.randint(1, digits)) for _ in range(rng.randint(2, terms))]
    column = [Decimal(numbers[0]), *(rng.choice([1, -1]) * Decimal(n) for n in numbers[1:])]
    return plan_sum(column, rng.choice(CONVENTIONS), at_least=3)


def beads_allow(frame: Frame, move: BeadMove) -> bool:
    return frame.has(move.rod) and Beads(frame.digit(move.rod)).allows(move.change)


def may_be_made(progress: Progress) -> list[BeadMove]:
    """The moves left of any digit of a number whose digits go in any order, else of the digit under
    way, after what mends wrong beads. Where a rod is to be worked twice, by its digit and by a
    carry, its earlier move in each deck."""
    assert progress.way is not None, f"all is done on {progress.frame}"
    if progress.way.freedom is Freedom.ANY_ORDER:
        left = progress.left_in_line
    else:
        left = progress.next_stroke if progress.is_astray else progress.left_in_step
    first_of_deck: dict[tuple[int, bool], BeadMove] = {}
    for move in left:
        first_of_deck.setdefault((move.rod, move.is_heaven), move)
    return list(first_of_deck.values())


def any_possible(rng: random.Random, judge: Judge) -> BeadMove:
    """Some move left that may be made now and that the beads allow; a part of one where none is
    possible as a whole."""
    left = may_be_made(judge.progress)
    rng.shuffle(left)
    for move in left:
        if beads_allow(judge.frame, move):
            return move
    for move in left:
        if not move.is_heaven:
            one = BeadMove(move.rod, 1 if move.change > 0 else -1)
            if beads_allow(judge.frame, one):
                return one
    raise AssertionError(f"no way on: {judge.progress.left_in_line} on {judge.frame}")
